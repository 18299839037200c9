package reading

import (
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
)

// notes are the cook's own words in square brackets; they override everything.
type notes struct {
	grams     float64 // 0: not given
	eaten     float64 // share 0-1, -1: not given
	food      string
	technique recipes.Technique
	state     food.State
	asBought  bool
	amountRaw string // the weight as she wrote it
	other     []string
}

// cutNotes takes the bracket notes out of a line.
func cutNotes(s string) (string, notes) {
	n := notes{eaten: -1}
	for {
		open := strings.IndexByte(s, '[')
		if open < 0 {
			return strings.TrimSpace(s), n
		}
		shut := strings.IndexByte(s[open:], ']')
		if shut < 0 {
			return strings.TrimSpace(s), n
		}
		n.read(s[open+1 : open+shut])
		s = strings.TrimRight(s[:open], " ") + " " + strings.TrimLeft(s[open+shut+1:], " ")
	}
}

// read takes one bracket's text; parts that stand alone may be divided by ";".
func (n *notes) read(text string) {
	for _, part := range strings.Split(text, ";") {
		if part = strings.TrimSpace(part); part != "" && !n.take(part) {
			n.other = append(n.other, part)
		}
	}
}

// take reads one note; false when it says nothing this program knows.
func (n *notes) take(part string) bool {
	low := strings.ToLower(part)
	if name, ok := strings.CutPrefix(low, "food:"); ok {
		n.food = strings.TrimSpace(part[len(part)-len(name):])
		return n.food != ""
	}
	if g, ok := noteGrams(part); ok {
		n.grams, n.amountRaw = g, part
		return true
	}
	if share, ok := noteShare(low); ok {
		n.eaten = share
		return true
	}
	switch low {
	case "as bought", "unprepared", "whole", "unpeeled", "bone-in", "in shell":
		n.asBought = true
		return true
	case "dry", "dried":
		n.state = food.Dry
		return true
	case "cooked":
		n.state = food.Cooked
		return true
	case "drained":
		n.state = food.Drained
		return true
	case "frozen":
		n.state = food.Frozen
		return true
	}
	return n.takeTechnique(low)
}

// noteGrams reads "45 g", "1.5 oz", "about 45 g".
func noteGrams(part string) (float64, bool) {
	part, _ = cutAny(part, "about", "approx.", "approx", "weighed", "=")
	num, rest, ok := measure.ReadNumber(strings.TrimLeft(part, " "))
	if !ok {
		return 0, false
	}
	u := measure.Lookup(strings.TrimSpace(rest))
	if u == nil || u.Kind != measure.Mass {
		return 0, false
	}
	return num.Value() * float64(u.Grams), true
}

// noteShare reads "eaten 8%", "8 % eaten", "part eaten 0.08", "not eaten".
func noteShare(low string) (float64, bool) {
	if low == "not eaten" || low == "discarded" {
		return 0, true
	}
	if !strings.Contains(low, "eaten") {
		return 0, false
	}
	t := strings.NewReplacer("part", "", "eaten", "", ":", "", " ", "").Replace(low)
	figures, percent := strings.CutSuffix(t, "%")
	v, err := strconv.ParseFloat(strings.Replace(figures, ",", ".", 1), 64)
	if err != nil || v < 0 {
		return 0, false
	}
	if percent || v > 1 {
		v /= 100
	}
	return v, v <= 1
}

// methodWords begin a note about how the line is cooked.
var methodWords = []string{
	"raw", "boiled", "baked", "roasted", "simmered", "fried", "deep-fried", "pan-fried", "stir-fried", "sauteed", "sautéed",
	"steamed", "grilled", "broiled", "braised", "stewed", "poached", "microwaved", "reheated", "toasted", "smoked", "flamed",
	"barbecued", "blanched", "stirred in", "soaked", "pressure-cooked", "not heated", "added off the heat", "brined", "marinated",
}

// takeTechnique reads "raw", "boiled, drained", "simmered 30 min".
func (n *notes) takeTechnique(low string) bool {
	known := false
	for _, w := range methodWords {
		if _, ok := cut(low, w); ok {
			known = true
		}
	}
	if !known {
		return false
	}
	n.technique = readTechnique(low)
	if n.technique.Method == "raw" {
		n.state = food.Raw
	}
	return true
}

// readTechnique splits the minutes off a method.
func readTechnique(low string) recipes.Technique {
	var method []string
	var minutes float64
	fields := strings.Fields(low)
	for i := 0; i < len(fields); i++ {
		num, rest, ok := measure.ReadNumber(fields[i])
		unit := rest
		if ok && unit == "" && i+1 < len(fields) {
			unit = fields[i+1]
		}
		if per := minutesPer(unit); ok && per > 0 && startsDigit(fields[i]) {
			minutes += num.Value() * per
			if rest == "" {
				i++
			}
			continue
		}
		if fields[i] != "for" {
			method = append(method, fields[i])
		}
	}
	return recipes.Technique{Method: strings.Trim(strings.Join(method, " "), ", "), Minutes: minutes}
}

// minutesPer returns how many minutes one of the time words is, 0 for none.
func minutesPer(word string) float64 {
	switch strings.Trim(word, ".,") {
	case "min", "mins", "minute", "minutes":
		return 1
	case "h", "hr", "hrs", "hour", "hours":
		return 60
	}
	return 0
}

func startsDigit(s string) bool { return s != "" && (s[0] >= '0' && s[0] <= '9' || s[0] >= 0x80) }
