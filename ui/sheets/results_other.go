package sheets

import (
	"math"
	"slices"
	"strings"

	"parewell/analysis/outcome"
	"parewell/analysis/sensory"
	"parewell/charts"
	"parewell/recipes/words"
)

// traysText says what a test of trays came to.
func (r *Results) traysText() ResultsText {
	var all []string
	for _, p := range r.sitting.Counted.Explain() {
		if !strings.HasPrefix(p.Key, dPrimeKey) { // it stands with the numbers
			all = append(all, p.String())
		}
	}
	t := ResultsText{Head: all[0], More: all[1:], Notes: r.asideNotes()}
	if r.preference() && len(r.sitting.Names) > 1 {
		t.More = append([]string{words.Say("results.first", r.sitting.Names[0], r.sitting.Names[1])}, t.More...)
		if r.sitting.None > 0 {
			t.More = append(t.More, words.Say("results.no-preference", r.sitting.None))
		}
	}
	return r.known(t)
}

// known adds what the last question showed, for tests without a pool.
func (r *Results) known(t ResultsText) ResultsText {
	if k := r.sitting.Knew; k != nil && k.Told() {
		t.Notes = append(t.Notes, words.Say("outcome.knew", k.Right, k.Asked, r.Tasting.Date))
	}
	if r.Tasting.Early != "" {
		t.Notes = append(t.Notes, words.Say("outcome.early", r.Tasting.Date, r.Tasting.Early))
	}
	return t
}

func (r *Results) preference() bool { return r.Tasting.Test == string(sensory.Preference) }

// CountData is what the chart of right answers shows; false for a preference,
// which has none.
func (r *Results) CountData(title string) (charts.RightData, bool) {
	c := r.sitting.Counted
	if c == nil || r.preference() {
		return charts.RightData{}, false
	}
	row := charts.RightRow{Name: strings.Join(r.sitting.Names, ", "), Right: c.Correct, N: c.N, Chance: c.PGuess, AtMost: -1}
	row.Chance = c.Test.Guess()
	if x, ok := sensory.MinCorrect(c.Test, c.N, sensory.UsualAlpha); ok {
		row.Needed = x
	}
	if c.Similar != nil {
		if x, ok := sensory.MaxCorrect(c.Test, c.N, r.Tasting.Limit, sensory.UsualAlpha); ok {
			row.AtMost = x
		}
	}
	return charts.RightData{Title: title, Rows: []charts.RightRow{row}}, true
}

// dPrimeKey is how the sentences on the size of a difference begin.
const dPrimeKey = "sensory.d-prime"

// traysSheet are the numbers of a test of trays; none of a preference, whose
// sentences hold them all.
func (r *Results) traysSheet() []NamedSheet {
	c := r.sitting.Counted
	if c == nil || r.preference() {
		return nil
	}
	s := Sheet{Corner: words.Say("results.trays.what"), Columns: []Column{{Key: "value", Title: words.Say("results.trays.value"), Number: true, Index: -1}}}
	row := func(key, value string) {
		s.Rows = append(s.Rows, Row{Key: key, Label: text(words.Say("results.trays." + key)), Cells: []Cell{{Text: value, Number: true, Bar: noBar()}}})
	}
	row("right", words.Say("charts.right.of", c.Correct, c.N))
	row("guess", words.Trim(float64(c.N)*c.PGuess, 1))
	row("p", pText(c.PDifference))
	row("share", words.Say("results.range", words.Share(c.PDLow), words.Share(c.PDHigh)))
	var how string
	for _, p := range c.Explain() {
		if strings.HasPrefix(p.Key, dPrimeKey) {
			how = p.String()
		}
	}
	return []NamedSheet{{words.Say("results.trays"), how, s}}
}

// rankedText says in which order samples came, and how far that is to be trusted.
func (r *Results) rankedText() ResultsText {
	k := r.sitting.Ranked
	p := k.Test.P
	if k.Test.Exact != nil {
		p = *k.Test.Exact
	}
	var order []string
	for _, i := range byRank(k) {
		order = append(order, words.Say("results.rank.one", k.Names[i], words.Trim(k.RankSums[i]/float64(k.N), 1)))
	}
	t := ResultsText{Notes: r.asideNotes()}
	key := "results.rank.open"
	if p < sensory.UsualAlpha {
		key = "results.rank.order"
		t.More = rankPairs(k)
	}
	t.Head = words.Say(key, strings.Join(order, ", "))
	t.More = append(t.More, words.Say("results.rank.by", k.N, pText(p)))
	if k.Left > 0 {
		t.More = append(t.More, words.Say("results.rank.left", k.Left))
	}
	return r.known(t)
}

// byRank are the places of samples from the best liked on.
func byRank(k *outcome.Ranking) []int {
	out := make([]int, len(k.Names))
	for i := range out {
		out[i] = i
	}
	slices.SortStableFunc(out, func(a, b int) int {
		switch {
		case k.RankSums[a] < k.RankSums[b]:
			return -1
		case k.RankSums[a] > k.RankSums[b]:
			return 1
		}
		return 0
	})
	return out
}

// rankPairs says which samples are further apart than chance takes them, all
// pairs judged at once.
func rankPairs(k *outcome.Ranking) []string {
	if math.IsNaN(k.Test.HSD) {
		return nil
	}
	var out []string
	order := byRank(k)
	for i, a := range order {
		for _, b := range order[i+1:] {
			if d := k.RankSums[b] - k.RankSums[a]; d >= k.Test.HSD {
				out = append(out, words.Say("results.rank.pair", Capital(k.Names[a]), k.Names[b], words.Trim(d, 1), words.Trim(k.Test.HSD, 1)))
			}
		}
	}
	if len(out) == 0 {
		return []string{words.Say("results.rank.no-pair")}
	}
	return out
}

func (r *Results) rankSheet() NamedSheet {
	k := r.sitting.Ranked
	s := Sheet{Corner: words.Say("results.sample"), Columns: []Column{column("rank-sum"), column("mean-rank")}}
	for _, i := range byRank(k) {
		s.Rows = append(s.Rows, Row{Key: k.Names[i], Label: text(Capital(k.Names[i])), Cells: []Cell{
			scoreCell(k.RankSums[i], 0), scoreCell(k.RankSums[i]/float64(k.N), 2),
		}})
	}
	return NamedSheet{words.Say("results.ranks"), words.Say("results.ranks.how"), s}
}

// homeText says what came back of a dish taken home.
func (r *Results) homeText() ResultsText {
	again, not, n, written, missed := 0, 0, 0, 0, 0
	var notes []string
	for _, d := range r.sitting.Home {
		again, not, n = again+d.Again, not+d.NotAgain, n+d.Answered
		written, missed = written+d.AsWritten, missed+d.Missed
		for _, x := range d.Notes {
			notes = append(notes, words.Say("results.home.note", dayText(d.Date), x))
		}
	}
	if n == 0 {
		return ResultsText{Head: words.Say("results.home.none")}
	}
	t := ResultsText{Head: words.Say("results.home.head", again+not, again), Notes: []string{words.Say("results.home.care")}}
	t.More = append(t.More, words.Say("results.home.written", n, written), words.Say("results.home.missed", n, missed))
	t.More = append(t.More, notes...)
	return t
}

// HomeData is what came back from home, day by day.
func (r *Results) HomeData(title string) (charts.HomeData, bool) {
	d := charts.HomeData{Title: title}
	for _, x := range r.sitting.Home {
		d.Dates = append(d.Dates, charts.HomeDate{Label: dayText(x.Date), Again: x.Again, NotAgain: x.NotAgain, Left: x.Left})
	}
	return d, len(d.Dates) > 0
}
