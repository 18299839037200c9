package ideas

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Catalogue is the whole set of ideas. It is immutable and safe for several
// goroutines at once.
type Catalogue struct {
	entries  []*Entry
	byID     map[string]*Entry
	families map[string]*family
	contexts []context
}

// Entries returns all entries in the order of the catalogue. The slice is a copy.
func (c *Catalogue) Entries() []*Entry { return append([]*Entry(nil), c.entries...) }

// Entry returns the entry of an ID, nil if there is none.
func (c *Catalogue) Entry(id string) *Entry { return c.byID[id] }

// columns of the catalogue's CSV, in order.
var columns = []string{
	"id", "kind", "from", "from_name", "family", "to", "to_name", "ratio", "by", "share", "name", "only_in", "not_in",
	"helpers", "step", "step_at", "claims", "function", "works_in", "fails_when", "allergens_added", "allergens_removed",
	"ladder", "strength", "basis",
}

// ReadCatalogue reads the catalogue (assets.Swaps) and the families of foods
// with the words of the kitchen (assets.Kitchen) against the starter table,
// which must hold every food they name. A fault is a *problem.Error that names
// the list and row.
func ReadCatalogue(swaps, kitchen []byte, t *food.Table) (*Catalogue, error) {
	c := &Catalogue{byID: map[string]*Entry{}}
	if err := c.readKitchen(kitchen); err != nil {
		return nil, err
	}
	err := eachRow("swaps.csv", swaps, columns, func(rec []string) error {
		e, err := c.entry(rec, t)
		if err != nil {
			return err
		}
		if c.byID[e.ID] != nil {
			return fmt.Errorf("%s stands twice", e.ID)
		}
		c.entries = append(c.entries, e)
		c.byID[e.ID] = e
		return nil
	})
	return c, err
}

// eachRow hands every row below the header to take; a fault names the row.
func eachRow(list string, b []byte, head []string, take func([]string) error) error {
	rd := csv.NewReader(bytes.NewReader(b))
	for row := 1; ; row++ {
		rec, err := rd.Read()
		if errors.Is(err, io.EOF) && row > 1 {
			return nil
		}
		if err == nil && row == 1 {
			if got, want := strings.Join(rec, ","), strings.Join(head, ","); got != want {
				err = fmt.Errorf("the columns are %s, not %s", got, want)
			}
		} else if err == nil {
			err = take(rec)
		}
		if err != nil {
			where := list + ", " + words.Say("ideas.row", row)
			return problem.Wrap(err, where, err.Error(), words.Say("ideas.damaged"))
		}
	}
}

// row reads cells by column and keeps the first fault.
type row struct {
	rec []string
	err error
}

func (r *row) fail(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf(format, args...)
	}
}

func (r *row) text(column string) string {
	for i, c := range columns {
		if c == column {
			return strings.TrimSpace(r.rec[i])
		}
	}
	panic("ideas: no column " + column)
}

func (r *row) list(column string) []string { return split(r.text(column)) }

func split(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, "|")
}

// number reads a figure from 0 to most; an empty cell gives otherwise.
func (r *row) number(column string, most, otherwise float64) float64 {
	s := r.text(column)
	if s == "" {
		return otherwise
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v >= 0 && v <= most) {
		r.fail("%s %q is no number from 0 to %g", column, s, most)
	}
	return v
}

// food finds a starter food; an empty code gives nil.
func (r *row) food(t *food.Table, code string) *food.Food {
	if code == "" {
		return nil
	}
	f := t.Get(food.Ref{Source: food.StarterSource, Release: food.StarterRelease, Code: code})
	if f == nil {
		r.fail("the food %s is not in the starter table", code)
	}
	return f
}

// entry reads one row of the catalogue.
func (c *Catalogue) entry(rec []string, t *food.Table) (*Entry, error) {
	r := &row{rec: rec}
	e := &Entry{
		ID: r.text("id"), Kind: Kind(r.text("kind")),
		From: r.food(t, r.text("from")), FromName: r.text("from_name"), Family: r.text("family"),
		To: r.food(t, r.text("to")), ToName: r.text("to_name"), Name: r.text("name"),
		Ratio: r.number("ratio", 5, 0), ByVolume: r.text("by") == "volume", Share: r.number("share", 1, 1),
		OnlyIn: r.list("only_in"), NotIn: r.list("not_in"),
		Helpers: r.helpers(t), Step: r.text("step"), AtEnd: r.text("step_at") == "end", Claims: r.claims(),
		Function: r.text("function"), WorksIn: r.text("works_in"), FailsWhen: r.text("fails_when"), Basis: r.text("basis"),
		Ladder: r.text("ladder"), Strength: r.number("strength", 100, 0),
	}
	e.Adds, e.MayAdd = r.allergens("allergens_added")
	removes, mayRemove := r.allergens("allergens_removed")
	e.Removes = removes | mayRemove
	if r.err == nil {
		r.err = c.sound(e)
	}
	return e, r.err
}

// sound checks what cells mean together.
func (c *Catalogue) sound(e *Entry) error {
	switch {
	case e.ID == "" || e.From == nil || e.FromName == "":
		return errors.New("the id, the food or its name is missing")
	case e.Kind != Replace && e.Kind != Less && e.Kind != LeaveOut && e.Kind != Cook:
		return fmt.Errorf("there is no kind %q", e.Kind)
	case (e.Kind == Replace) != (e.To != nil):
		return errors.New("a food to use instead belongs to the kind replace, and to no other")
	case e.Kind == Replace && (e.Ratio == 0 || e.ToName == ""):
		return errors.New("the ratio or the name of the food to use instead is missing")
	case (e.Kind == Less || e.Kind == Cook) && !(e.Ratio > 0 && e.Ratio < 1):
		return errors.New("using less needs a ratio between 0 and 1")
	case e.Share == 0 || len(e.Claims) == 0:
		return errors.New("the share is 0 or nothing is claimed")
	case c.families[e.Family] == nil:
		return fmt.Errorf("there is no family %q", e.Family)
	}
	for _, key := range append(append([]string(nil), e.OnlyIn...), e.NotIn...) {
		if !c.hasContext(key) {
			return fmt.Errorf("there is no context %q", key)
		}
	}
	return nil
}

// helpers reads "code=grams per gram=name" parted by bars.
func (r *row) helpers(t *food.Table) []Helper {
	var out []Helper
	for _, s := range r.list("helpers") {
		p := strings.Split(s, "=")
		if len(p) != 3 {
			r.fail("helper %q is not code=grams=name", s)
			return nil
		}
		g, err := strconv.ParseFloat(p[1], 64)
		if err != nil || !(g > 0 && g <= 5) {
			r.fail("helper %q has no sensible grams", s)
		}
		out = append(out, Helper{Food: r.food(t, p[0]), PerGram: g, Name: p[2]})
	}
	return out
}

// claimed are the nutrients an idea may claim, by the catalogue's words.
var claimed = map[string]food.Nutrient{
	"energy": food.EnergyKcal, "fat": food.Fat, "saturated fat": food.SaturatedFat, "sugars": food.Sugars, "sodium": food.Sodium,
}

func (r *row) claims() []food.Nutrient {
	var out []food.Nutrient
	for _, s := range r.list("claims") {
		n, ok := claimed[s]
		if !ok {
			r.fail("%q cannot be claimed", s)
		}
		out = append(out, n)
	}
	return out
}

// allergens reads keys parted by bars; one with a question mark depends on
// the product.
func (r *row) allergens(column string) (sure, may food.Allergen) {
	for _, s := range r.list(column) {
		key, depends := strings.CutSuffix(s, "?")
		bit, ok := food.AllergenByKey(key)
		if !ok {
			r.fail("there is no allergen %q", s)
		}
		if depends {
			may |= bit
		} else {
			sure |= bit
		}
	}
	return sure, may
}
