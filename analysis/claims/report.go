package claims

import "math"

// Report is one verdict as stable JSON. A number not known is null; low and
// high are the ends of its range where it is not exact.
type Report struct {
	Rule      string       `json:"rule"`
	Term      string       `json:"term"`
	Authority Authority    `json:"authority"`
	Verdict   Verdict      `json:"verdict"`
	Because   []Because    `json:"because"`
	Measure   Measure      `json:"measure,omitempty"`
	Nutrient  string       `json:"nutrient"`
	Low       *float64     `json:"low"`
	High      *float64     `json:"high"`
	Op        Op           `json:"op,omitempty"`
	Threshold *float64     `json:"threshold"`
	Basis     Basis        `json:"basis,omitempty"`
	BasisG    *float64     `json:"basis_g"`
	Section   string       `json:"section"`
	Status    Status       `json:"status"`
	Source    string       `json:"source"`
	Why       string       `json:"why"`
	Missing   []string     `json:"missing,omitempty"`
	Needs     []NeedReport `json:"needs,omitempty"`
}

// NeedReport is one statement to print beside a term.
type NeedReport struct {
	Code NeedCode `json:"code"`
	Text string   `json:"text"`
}

// NewReports puts results into JSON's shape; original is the name of the dish
// compared with.
func NewReports(results []Result, original string) []Report {
	out := make([]Report, len(results))
	for i := range results {
		out[i] = newReport(&results[i], original)
	}
	return out
}

func newReport(r *Result, original string) Report {
	rep := Report{
		Rule: r.Rule.ID, Term: string(r.Term), Authority: r.Authority, Verdict: r.Verdict, Because: r.Because,
		Nutrient: r.Nutrient.Key(), Section: r.Section, Status: r.Status, Source: r.Rule.Source, Why: r.Why().String(),
	}
	if r.Measure != "" && r.Measure != Asked {
		rep.Measure, rep.Op, rep.Basis = r.Measure, r.Op, r.Basis
		rep.Low, rep.High, rep.BasisG = finite(r.Number.Low), finite(r.Number.High), finite(r.Grams)
		rep.Threshold = finite(r.Threshold)
	}
	for _, m := range r.Missing {
		rep.Missing = append(rep.Missing, m.Phrase().String())
	}
	for _, n := range r.Needs {
		rep.Needs = append(rep.Needs, NeedReport{Code: n.Code, Text: n.Phrase(original).String()})
	}
	return rep
}

// finite gives nil for what JSON cannot hold.
func finite(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}
