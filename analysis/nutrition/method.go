package nutrition

import (
	"strings"

	"parewell/recipes"
)

// Method is how something is cooked: which retention holds and what its weight
// does when nobody weighed it. Yield is cooked weight for 1 g going in, with
// the range it is usually found in; it is kitchen practice, not a published
// figure, and yields of single foods (Pairs) come before it.
type Method struct {
	Key       string
	Yield     float64
	Low, High float64
	PerMinute float64 // share of the weight lost a minute, where time rules
	Heats     bool    // alcohol goes by the table
	Drained   bool    // the liquid is poured away
	words     []string
}

// Methods are the ways to cook, in the order a list shows them. Yields and
// ranges: common practice, no source.
var Methods = []Method{
	{Key: "raw", Yield: 1, Low: 1, High: 1, words: []string{"raw", "not cooked", "no heat", "uncooked"}},
	{Key: "boiled, drained", Yield: 0.95, Low: 0.80, High: 1.15, Heats: true, Drained: true, words: []string{"boiled, drained", "boiled and drained", "blanched", "parboiled"}},
	{Key: "boiled with its liquid", Yield: 0.92, Low: 0.80, High: 1, Heats: true, words: []string{"boiled with its liquid", "boiled in its liquid", "boiled", "cooked in its liquid"}},
	{Key: "steamed", Yield: 0.95, Low: 0.88, High: 1, Heats: true, words: []string{"steamed"}},
	{Key: "simmered", Yield: 0.97, Low: 0.60, High: 1, PerMinute: 0.004, Heats: true, words: []string{"simmered", "stewed", "reduced"}},
	{Key: "poached", Yield: 0.90, Low: 0.78, High: 0.98, Heats: true, words: []string{"poached"}},
	{Key: "baked", Yield: 0.90, Low: 0.80, High: 0.97, Heats: true, words: []string{"baked"}},
	{Key: "roasted", Yield: 0.78, Low: 0.62, High: 0.92, Heats: true, words: []string{"roasted", "roast"}},
	{Key: "grilled", Yield: 0.74, Low: 0.62, High: 0.88, Heats: true, words: []string{"grilled", "broiled", "barbecued", "griddled"}},
	{Key: "pan-fried", Yield: 0.80, Low: 0.62, High: 0.95, Heats: true, words: []string{"pan-fried", "pan fried", "fried", "sauteed", "sautéed", "stir-fried", "browned"}},
	{Key: "deep-fried", Yield: 0.80, Low: 0.62, High: 0.97, Heats: true, words: []string{"deep-fried", "deep fried"}},
	{Key: "braised", Yield: 0.85, Low: 0.65, High: 0.96, Heats: true, words: []string{"braised", "pot-roasted", "slow-cooked", "slow cooked"}},
	{Key: "microwaved", Yield: 0.88, Low: 0.72, High: 0.97, Heats: true, words: []string{"microwaved"}},
	{Key: "toasted", Yield: 0.90, Low: 0.82, High: 0.96, Heats: true, words: []string{"toasted"}},
	{Key: "flamed", Yield: 0.97, Low: 0.90, High: 1, Heats: true, words: []string{"flamed", "flambéed", "flambeed"}},
	{Key: "marinated", Yield: 1, Low: 0.95, High: 1.08, words: []string{"marinated"}},
	{Key: "brined", Yield: 1.04, Low: 1, High: 1.12, words: []string{"brined"}},
}

// MethodOf finds the method a technique names, nil when it is none of them or
// not stated.
func MethodOf(t recipes.Technique) *Method {
	name := strings.ToLower(strings.TrimSpace(t.Method))
	if name == "" {
		return nil
	}
	for i := range Methods {
		for _, w := range Methods[i].words {
			if name == w {
				return &Methods[i]
			}
		}
	}
	for i := range Methods { // "simmered gently", "baked uncovered"
		for _, w := range Methods[i].words {
			if strings.HasPrefix(name, w+" ") || strings.HasPrefix(name, w+",") {
				return &Methods[i]
			}
		}
	}
	return nil
}

// YieldFor returns the method's yield after so many minutes (cooked weight for
// 1 g going in) with the range it is usually found in.
func (m *Method) YieldFor(minutes float64) (y, low, high float64) {
	y = m.Yield - m.PerMinute*minutes
	if y < m.Low {
		y = m.Low
	}
	return y, m.Low, m.High
}
