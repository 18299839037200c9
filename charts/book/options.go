package book

import (
	"parewell/analysis/claims"
	"parewell/charts/manuscript"
	"parewell/recipes/measure"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Units says in which measures a page is printed.
type Units string

// The measures a page may be printed in.
const (
	Metric Units = "metric"
	US     Units = "us"
	Both   Units = "both" // side by side
)

// Options say how pages are printed. The zero Options are metric measures under
// the EU's rules, sodium and kilocalories first; Usual gives what is usual.
type Options struct {
	Units         Units            // "" is Metric
	Rule          claims.Authority // claims.US, else the EU's: rounding, carbohydrate and energy
	SaltNotSodium bool             // salt in g, which is sodium times 2.5
	KJFirst       bool             // energy in kJ before kcal
	RoundWritten  bool             // round what the cook wrote too, not only what was worked out
	Paper         manuscript.Paper // of PDF and DOCX; the zero Paper is A4
	NoChart       bool             // leave the picture out
	Shares        bool             // the picture is where the calories are, not the change
	NoCautions    bool             // leave cautions out; that is told as open
	NoOpen        bool             // leave notes to the editor and what is open out
}

// Usual returns what is usual under a rule: salt and kilojoules first for the
// EU, sodium and calories on US Letter paper for the United States.
func Usual(u Units, rule claims.Authority) Options {
	o := Options{Units: u, Rule: rule, Paper: manuscript.A4}
	if rule == claims.US {
		o.Paper = manuscript.Letter
		return o
	}
	o.SaltNotSodium, o.KJFirst = true, true
	return o
}

// ParseUnits reads "metric", "us" or "both"; empty means metric.
func ParseUnits(s string) (Units, error) {
	switch u := Units(s); u {
	case "":
		return Metric, nil
	case Metric, US, Both:
		return u, nil
	}
	return "", problem.New(s, words.Say("book.units"), words.Say("book.units.hint"))
}

// ParseRule reads "us" or "eu"; empty means the EU's rules.
func ParseRule(s string) (claims.Authority, error) {
	switch s {
	case "", "eu":
		return claims.EU, nil
	case "us":
		return claims.US, nil
	}
	return "", problem.New(s, words.Say("book.rule"), words.Say("book.rule.hint"))
}

// settled fills in what was left open.
func (o Options) settled() Options {
	if o.Units == "" {
		o.Units = Metric
	}
	if o.Rule != claims.US {
		o.Rule = claims.EU
	}
	if o.Paper.Width == 0 {
		o.Paper = manuscript.A4
	}
	return o
}

// systems are the systems of measures the page has amounts in.
func (o Options) systems() []measure.System {
	switch o.Units {
	case US:
		return []measure.System{measure.US}
	case Both:
		return []measure.System{measure.Metric, measure.US}
	}
	return []measure.System{measure.Metric}
}
