package manuscript

import (
	"bytes"
	"slices"

	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// KitchenFolder is where files go that tell dishes apart, beside those for the
// tasters; with the stroke after it.
const KitchenFolder = "kitchen/"

// Part is one of the papers of a tasting.
type Part string

// The papers of a tasting, in the order they are needed. Those of the kitchen
// tell versions apart; the others never do.
const (
	PartInvitation Part = "invitation"
	PartAmounts    Part = "amounts"
	PartTests      Part = "test-sheets"
	PartRun        Part = "run-sheet"
	PartLabels     Part = "labels"
	PartBallots    Part = "ballots"
)

// Parts lists all papers in the order they are printed.
func Parts() []Part {
	return []Part{PartInvitation, PartAmounts, PartTests, PartRun, PartLabels, PartBallots}
}

// Kitchen tells whether a paper names versions: it is not for tasters or whoever
// serves.
func (p Part) Kitchen() bool { return p == PartAmounts || p == PartTests || p == PartRun }

// Reader is who a file of papers is for.
type Reader string

// Readers. What is printed for one never stands in the file of the other, so that
// a run sheet cannot be handed out with the ballots.
const (
	ForKitchen Reader = "kitchen"
	ForTasters Reader = "tasters"
)

// Reader is who a paper is for. Labels have codes only, but are cut and stuck in
// the kitchen.
func (p Part) Reader() Reader {
	if p == PartInvitation || p == PartBallots {
		return ForTasters
	}
	return ForKitchen
}

// FileName is the name of a reader's file, from the name of all of them.
func (r Reader) FileName(base string) string { return words.Say("papers.file."+string(r), base) }

// Name is what the paper is called on its pages.
func (p Part) Name() string { return words.Say("papers.part." + string(p)) }

// TastingPapers is all that is printed for a tasting, as plain values (see
// PapersOf).
type TastingPapers struct {
	Parts    []Part // printed, in this order; none: all
	Title    string // neutral: the day
	Dish     string // the recipe's title: for the kitchen's papers only
	Invite   Invite
	Pots     []PotAmount
	Shopping []Bought
	Tests    []TestSheet
	Run      Run
	Trays    []Tray
	Ballots  []*tasting.Ballot
}

// Invite is what an invitation says: nothing of the recipe but what is in it for
// somebody's safety.
type Invite struct {
	Day       string
	Time      string // "" when not set
	Between   string // eaten between samples, "" for water
	Allergens []string
	Open      bool     // some food has not been checked: the list is not whole
	Care      []string // alcohol, raw egg ...: asks about pregnancy, age and illness
}

// PotAmount is one pot to cook, in words ready to print; Unknown stands where
// something is not known.
type PotAmount struct {
	Pot                       string
	Cups                      int
	Need, Once, Times, Makes  string
	From                      string   // what one cooking's weight rests on; "" for a dish without a recipe
	CSV                       []string // the numbers unrounded, as Need, Once, Times, Makes
	AtLeast, Unknown, NoSheet bool
}

// Bought is one line of the shopping list, ready to print.
type Bought struct {
	Food, Buy, About string   // About is the household measure, "" when there is none
	OnHand           string   // taken from the larder, "" for none
	Check            []string // ingredients whose amount nobody knows
	For              string   // pots
	Done             bool     // all of it is on hand
	CSV              []string // need, on hand, buy in grams
}

// Run is the kitchen's run sheet.
type Run struct {
	Cooks, Codes, Serves string
	Facts                []string // portion, temperature, longest hold, cleanser
	Warnings             []string // what does not fit together
	Sources              []string // what was taken from the method's steps
	Waves                []Wave
	Sheet                []SeatKey
}

// Wave is one round of trays. Times are of the clock, or minutes before serving
// where no time is set; "" where nobody can know.
type Wave struct {
	Number   int
	Seats    []int
	Serve    string
	Fires    []Fire
	Portions []Portion
}

// Fire is one pot in one wave.
type Fire struct {
	Pot, Vessel                string
	On, In, Out, Portion, Late string // Late: not served after it
	Heat, Minutes              string
	Grams                      string // cooked, for the cups of the wave
	CSVGrams                   string
}

// Portion is one sample in one wave. Code is "" where each tray has its own.
type Portion struct {
	Code, Sample string
	Cups         int
	Each, All    string
	CSV          []string // each, all in grams
}

// SeatKey says what is on a tray: the one place where codes meet samples.
type SeatKey struct {
	Seat, Wave int
	Taster     string
	Open       CupKey // served open, without a code; no Sample for none
	Cups       []CupKey
}

// CupKey is one cup and what is in it.
type CupKey struct {
	Code   int
	Sample string
	Short  string // "A", "orig. 2"
}

// Tray is what whoever serves reads: codes only.
type Tray struct {
	Seat, Wave int
	Taster     string
	Open       bool
	Codes      []int
}

// printed are the parts to print, each once.
func (p *TastingPapers) printed() []Part {
	if len(p.Parts) == 0 {
		return Parts()
	}
	var out []Part
	for _, x := range p.Parts {
		if !slices.Contains(out, x) {
			out = append(out, x)
		}
	}
	return out
}

// PapersDocument lays the papers out on a size of paper. A part that has nothing
// to print has no pages.
func PapersDocument(p *TastingPapers, paper Paper) *Document {
	d := &Document{Title: p.Title}
	for _, part := range p.printed() {
		f := &flow{paper: paper, part: part, title: p.Title}
		switch part {
		case PartInvitation:
			f.invitation(p)
		case PartAmounts:
			f.amounts(p)
		case PartTests:
			f.tests(p)
		case PartRun:
			f.run(p)
		case PartLabels:
			f.labels(p)
		case PartBallots:
			f.ballots(p)
		}
		d.Pages = append(d.Pages, f.pages...)
	}
	return d
}

// File is the papers of one reader as a PDF file.
type File struct {
	Reader Reader
	PDF    []byte
}

// Papers writes the papers as PDF files for a size of paper, one for the kitchen
// and one for the tasters; a reader for whom nothing is printed has none.
func Papers(p *TastingPapers, paper Paper) ([]File, error) {
	for _, part := range p.Parts {
		if !slices.Contains(Parts(), part) {
			return nil, problem.New(string(part), words.Say("papers.no-part"), words.Say("papers.no-part.hint", partNames()))
		}
	}
	var out []File
	for _, r := range []Reader{ForKitchen, ForTasters} {
		own := *p
		own.Parts = slices.DeleteFunc(slices.Clone(p.printed()), func(x Part) bool { return x.Reader() != r })
		if len(own.Parts) == 0 { // no parts would be all
			continue
		}
		d := PapersDocument(&own, paper)
		if len(d.Pages) == 0 {
			continue
		}
		d.Title = r.FileName(p.Title)
		var b bytes.Buffer
		if err := d.WritePDF(&b); err != nil {
			return nil, err
		}
		out = append(out, File{r, b.Bytes()})
	}
	if len(out) == 0 {
		return nil, problem.New("", words.Say("print.no-pages"), "")
	}
	return out, nil
}

func partNames() string {
	var out []string
	for _, p := range Parts() {
		out = append(out, string(p))
	}
	return words.Join(out)
}
