package tasting

import (
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
)

// Ballot is what one taster is asked, in her order, by codes only. Nothing in it
// tells versions apart: paper, screen and phone are all made from it.
type Ballot struct {
	Title string // neutral: the day, never the dish's promise
	Seat  int
	Test  string
	Intro string
	// Between is what is eaten between samples as the plan says, "" for water.
	Between string
	Cups    []int      // codes in tasting order
	Open    bool       // a sample is served open beside the cups (match the sample)
	Ask     []Question // of each cup
	Whole   []Question // once, after all cups
	Thanks  string
}

// QuestionKind is how a question is answered.
type QuestionKind string

// Kinds of question.
const (
	AskScale  QuestionKind = "scale"  // a whole number from Low to High
	AskCode   QuestionKind = "code"   // one of the cups' codes; 0 where Nothing allows it
	AskYesNo  QuestionKind = "choice" // one of the Options, by its place from 0
	AskOrders QuestionKind = "rank"   // a different place for each cup
)

// Question is one thing asked. Answers are numbers in Serving.Scores under Key.
type Question struct {
	Key     string
	Kind    QuestionKind
	Label   string
	Low     float64
	High    float64
	Anchors []string // words along the scale, from Low to High; "" where none stands
	Codes   []int    // of AskCode
	Nothing string   // of AskCode: what 0 stands for, "" when a code must be given
	Options []string // of AskYesNo
	Whole   bool     // asked once of the tray
	Free    bool     // need not be answered
}

// Takes tells whether v answers the question.
func (q *Question) Takes(v float64) bool {
	switch q.Kind {
	case AskCode:
		return v == 0 && q.Nothing != "" || isCode(v) && slices.Contains(q.Codes, int(v))
	case AskYesNo:
		return v == float64(int(v)) && v >= 0 && int(v) < len(q.Options)
	}
	return v == float64(int(v)) && v >= q.Low && v <= q.High
}

// Range says what the question takes, for an error's hint.
func (q *Question) Range() string {
	switch q.Kind {
	case AskCode:
		var codes []string
		for _, c := range q.Codes {
			codes = append(codes, codeText(float64(c)))
		}
		if q.Nothing != "" {
			codes = append(codes, "0")
		}
		return words.Join(codes)
	case AskYesNo:
		return words.Say("tasting.range", 0, len(q.Options)-1)
	}
	return words.Say("tasting.range", int(q.Low), int(q.High))
}

// Questions returns what a tasting asks of each sample.
func Questions(t *recipes.Tasting) []Question {
	switch {
	case t.Test == recipes.TestHome:
		return homeQuestions()
	case t.Test == "ranking":
		return []Question{{Key: recipes.AskRank, Kind: AskOrders, Label: words.Say("ballot.rank"), Low: 1, High: float64(max(1, cups(t)))}}
	case Trays(t.Test):
		return nil
	}
	var out []Question
	for _, a := range t.Attributes {
		out = append(out, Question{
			Key: a.Name, Kind: AskScale, Label: a.Name, Low: 1, High: a.Top(), Anchors: anchors(a.Kind),
		})
	}
	return out
}

func cups(t *recipes.Tasting) int {
	n := 0
	for _, s := range t.Seats {
		n = max(n, len(s.Cups))
	}
	return n
}

// anchors are the words along a scale. The nine of liking run from dislike
// extremely to like extremely (Peryam and Pilgrim 1957).
func anchors(k recipes.AttributeKind) []string {
	switch k {
	case recipes.AskLiking:
		return words.List("ballot.liking")
	case recipes.AskJustRight:
		return words.List("ballot.just-right")
	}
	return words.List("ballot.intensity")
}

func homeQuestions() []Question {
	ask := func(key, word string) Question {
		return Question{Key: key, Kind: AskYesNo, Label: words.Say("ballot.home." + word), Options: words.List("ballot.home." + word + ".options")}
	}
	return []Question{
		ask(recipes.AskAsWritten, "as-written"), ask(recipes.AskLeft, "left"),
		ask(recipes.AskAgain, "again"), ask(recipes.AskMissed, "missed"),
	}
}

// Closing returns what is asked once of a whole tray: the choice of a test of
// trays, and last, after all scores, which was the usual recipe.
func Closing(t *recipes.Tasting, seat *recipes.Seat) []Question {
	var codes []int
	for _, c := range seat.Cups {
		codes = append(codes, c.Code)
	}
	q := Question{Key: recipes.AskChoice, Kind: AskCode, Codes: codes, Whole: true}
	switch t.Test {
	case recipes.TestHome, recipes.TestNotes:
		return nil
	case "tetrad":
		q.Key, q.Codes = recipes.AskPair, codes[min(1, len(codes)):]
		q.Label = words.Say("ballot.tetrad", codeText(float64(first(codes))))
		return []Question{q}
	case "triangle", "3-afc", "duo-trio":
		q.Label = words.Say("ballot." + t.Test)
		if t.Test == "3-afc" {
			q.Label = words.Say("ballot.2-afc", what(t))
		}
		return []Question{q}
	case "2-afc":
		q.Label = words.Say("ballot.2-afc", what(t))
		return []Question{q}
	case "preference":
		q.Label, q.Nothing = words.Say("ballot.preference"), words.Say("ballot.no-preference")
		return []Question{q}
	}
	return []Question{{
		Key: recipes.AskUsual, Kind: AskCode, Codes: codes, Whole: true, Free: true,
		Label: words.Say("ballot.usual"), Nothing: words.Say("ballot.cannot-tell"),
	}}
}

func first(codes []int) int {
	if len(codes) == 0 {
		return 0
	}
	return codes[0]
}

// what names the one thing that a test of "which has more" asks about.
func what(t *recipes.Tasting) string {
	if len(t.Attributes) > 0 {
		return t.Attributes[0].Name
	}
	return words.Say("ballot.flavour")
}

// BallotOf makes a seat's ballot.
func BallotOf(t *recipes.Tasting, seat *recipes.Seat) *Ballot {
	b := &Ballot{
		Title: words.Say("ballot.title", t.Date), Seat: seat.Number, Test: t.Test, Intro: intro(t), Between: between(t),
		Ask: Questions(t), Whole: Closing(t, seat), Open: seat.Reference != "", Thanks: words.Say("ballot.thanks"),
	}
	for _, c := range seat.Cups {
		b.Cups = append(b.Cups, c.Code)
	}
	return b
}

// between is what is eaten between samples, "" for water and for a dish taken home.
func between(t *recipes.Tasting) string {
	if t.Test == recipes.TestHome {
		return ""
	}
	return strings.TrimSpace(t.Cleanser)
}

// intro says what to do, and what the plan says is taken between samples.
func intro(t *recipes.Tasting) string {
	say := words.Say("ballot.between.water")
	if c := between(t); c != "" {
		say = words.Say("ballot.between", c)
	}
	return words.Say(introKey(t.Test), say)
}

func introKey(test string) string {
	switch {
	case test == recipes.TestHome:
		return "ballot.intro.home"
	case Trays(test):
		return "ballot.intro.trays"
	case test == "ranking":
		return "ballot.intro.rank"
	}
	return "ballot.intro"
}
