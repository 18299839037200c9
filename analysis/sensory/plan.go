package sensory

import "strconv"

// PlanReport is a design as stable JSON. It holds what codes mean and is for
// whoever sets the trays, never for tasters. The same seed gives the same bytes
// on every machine.
type PlanReport struct {
	Codes   map[string][]int `json:"codes"` // of each sample S1...Sn
	Orders  []OrderReport    `json:"orders"`
	Test    Test             `json:"test"`
	Seed    uint64           `json:"seed"`
	Balance *Balance         `json:"balance"`
	Liking  *LikingCan       `json:"liking,omitempty"` // liking only
	Tell    *TellCan         `json:"tell,omitempty"`   // tests with right answers, and preference
}

// OrderReport is one taster's tray, in the order it is tasted.
type OrderReport struct {
	Panelist  int      `json:"panelist"`
	Reference string   `json:"reference,omitempty"` // duo-trio: the open sample, without a code
	Samples   []string `json:"samples"`
	Codes     []int    `json:"codes"`
}

// LikingCan says what a panel can show on nine points, at 5 % risk and four
// times in five; hundredths, rounded up, null where it cannot.
type LikingCan struct {
	Scatter    float64  `json:"scatter"`
	NoticeDrop *float64 `json:"notice_drop"` // the smallest true drop of a version that shows
	ShowLimit  *float64 `json:"show_limit"`  // the smallest limit shown if nothing is lost
	ShowEqual  *float64 `json:"show_equal"`  // the same both ways: neither less nor more
}

// TellCan says the same of counts, by the share of people who truly tell (in a
// preference: by how far the true majority is from half and half).
type TellCan struct {
	MinCorrect  *int     `json:"min_correct"` // right answers that show a difference
	NoticeShare *float64 `json:"notice_pd"`
	NoticeD     *float64 `json:"notice_d_prime"`
	ShowShare   *float64 `json:"show_pd"` // null for a preference
}

// SampleName is S1...Sn for sample 0...n-1.
func SampleName(i int) string { return "S" + strconv.Itoa(i+1) }

func sampleNames(samples []int) []string {
	out := make([]string, len(samples))
	for i, s := range samples {
		out[i] = SampleName(s)
	}
	return out
}

// Report puts the design into JSON's shape; scatter is the residual SD of
// liking scores that the panel's reach is reckoned with (UsualScatter).
func (d *Design) Report(scatter float64) *PlanReport {
	r := &PlanReport{Codes: map[string][]int{}, Test: d.Ask.Test, Seed: d.Ask.Seed, Balance: d.Balance()}
	for i, codes := range d.Codes {
		r.Codes[SampleName(i)] = append([]int{}, codes...)
	}
	for _, t := range d.Trays {
		o := OrderReport{Panelist: t.Panelist, Samples: sampleNames(t.Samples), Codes: t.Codes}
		if t.Reference >= 0 {
			o.Reference = SampleName(t.Reference)
		}
		r.Orders = append(r.Orders, o)
	}
	switch {
	case d.Ask.Test == Liking:
		r.Liking = d.LikingPlan(scatter).Can()
	case d.Ask.Test.Counts():
		r.Tell = Reach(d.Ask.Test, len(d.Trays))
	}
	return r
}

// Can rounds what a liking plan can show.
func (p LikingPlan) Can() *LikingCan {
	return &LikingCan{
		Scatter:    p.Scatter,
		NoticeDrop: upTo(p.Notice(UsualAlpha, UsualPower), true),
		ShowLimit:  upTo(p.Limit(UsualAlpha, UsualPower), true),
		ShowEqual:  upTo(p.Equal(UsualAlpha, UsualPower), true),
	}
}

// Reach is what n tasters can show by counts.
func Reach(t Test, n int) *TellCan {
	c := &TellCan{}
	if x, ok := MinCorrect(t, n, UsualAlpha); ok {
		c.MinCorrect = &x
	}
	if pc, ok := Noticed(t, n, UsualAlpha, UsualPower); ok {
		c.NoticeShare = upTo(t.Share(pc), true)
		c.NoticeD = upTo(t.DPrime(pc))
	}
	if !t.TwoSided() {
		c.ShowShare = upTo(Showable(t, n, UsualAlpha, UsualPower))
	}
	return c
}
