package phone

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"net/http"
	"slices"
	"strconv"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

//go:embed page.html
var pageText string

//go:embed style.css
var styleText string

var page = template.Must(template.New("page").Funcs(template.FuncMap{
	"say": func(key string, args ...any) string { return words.Say("phone."+key, args...) },
}).Parse(pageText))

// view is all that a page shows.
type view struct {
	Lang, Nonce string
	Style       template.CSS
	Kind        string // plain, join, welcome, screen, done
	Title       string // neutral: the ballot's, or just "Tasting"
	Seat        string // "" when at none
	Key         string // of plain: which message
	Alert       string // key of what went wrong, "" nothing
	Notice      string // key of what is said once, "" nothing
	Form        string // token
	Action      string // of join
	Leave       string // token of leaving, "" when at no seat
	Text        string // introduction, or thanks

	Number   int    // of the screen, from 1
	Steps    []step // one a screen
	Lead     string // what comes before a cup
	Cup      string // code of the one cup, "" when it is about several
	Cups     []string
	Tasting  bool // all cups are to be tasted on this screen
	Open     bool // an open sample stands beside them
	Fields   []field
	Note     bool
	NoteText string
	NoteMost int
	Skip     bool
	Back     string // path, "" when there is no going back
	Last     bool
	Home     bool // tasted at home: no water, nothing to refuse
}

// step is a dot of the progress line.
type step struct{ State string }

// field is one question, or one cup's place in an order.
type field struct {
	Name, Label string
	Look        string // rows: words under one another; bar: figures in a line; codes
	Choices     []choice
	Ends        []string // words under a bar: low, middle, high
	Fault       string   // key of what is wrong with it, "" nothing
	Free        bool
	Describe    bool // the words under the bar are told with it
}

// choice is one answer of a field.
type choice struct {
	Value, Mark, Word string
	Picked            bool
}

// plain shows a constant message. Nothing of the request is in it.
func (v *visit) plain(status int, key string) {
	v.render(status, view{Kind: "plain", Key: key})
}

// render sends a page with a fresh nonce for its style.
func (v *visit) render(status int, p view) {
	nonce, err := v.secret(16)
	if err != nil {
		v.w.WriteHeader(http.StatusInternalServerError)
		return
	}
	p.Lang, p.Nonce, p.Style = words.Current().Code, nonce, template.CSS(styleText)
	if p.Title == "" {
		p.Title = words.Say("phone.title")
	}
	var b bytes.Buffer
	if err := page.Execute(&b, p); err != nil {
		v.w.WriteHeader(http.StatusInternalServerError)
		return
	}
	h := v.w.Header()
	h.Set("Content-Security-Policy", policy(nonce))
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Content-Length", strconv.Itoa(b.Len()))
	v.w.WriteHeader(status)
	_, _ = v.w.Write(b.Bytes()) // a phone that has gone is no error of ours
}

// seated is what all pages at a seat share. The seat's number is padded, so that
// the pages of all seats are equally long.
func (v *visit) seated(t *tray, kind string) view {
	return view{
		Kind: kind, Title: t.ballot.Title, Seat: fmt.Sprintf("%3s", words.Number(float64(v.place.seat), 0)),
		Leave: v.formToken(v.cookie, "leave"), Cups: codes(t.ballot.Cups), Open: t.ballot.Open, Home: t.ballot.Test == recipes.TestHome,
	}
}

func codes(list []int) []string {
	var out []string
	for _, c := range list {
		out = append(out, strconv.Itoa(c))
	}
	return out
}

func (v *visit) welcomeView(t *tray) view {
	p := v.seated(t, "welcome")
	p.Text, p.Form = t.ballot.Intro, v.formToken(v.cookie, purpose(0))
	return p
}

func (v *visit) doneView(t *tray, notice string) view {
	p := v.seated(t, "done")
	p.Text, p.Notice = t.ballot.Thanks, notice
	p.Steps = steps(len(t.list), len(t.list))
	if mayGoBack(t.ballot) {
		p.Back = "/t/1"
	}
	return p
}

// screenView shows a screen with the answers and faults of r.
func (v *visit) screenView(t *tray, i int, notice string, r reply) view {
	sc := t.list[i]
	p := v.seated(t, "screen")
	p.Form, p.Number, p.Steps = v.formToken(v.cookie, purpose(i+1)), i+1, steps(i, len(t.list))
	p.Notice, p.Last, p.Skip, p.NoteMost = notice, i+1 == len(t.list), sc.owes(), tasting.LongestNote
	p.Note, p.NoteText = sc.kind != orderScreen, r.answers[sc.cups[0]].Note
	p.Tasting = sc.kind == orderScreen || sc.kind == trayScreen && i == 0
	if sc.kind == cupScreen {
		p.Cup, p.Lead = strconv.Itoa(sc.cups[0]), words.Say("phone.cup.lead")
		if c := t.ballot.Between; c != "" {
			p.Lead = words.Say("phone.cup.lead.between", c)
		}
	}
	switch {
	case len(r.missing) > 0:
		p.Alert = "missing"
	case len(r.twice) > 0:
		p.Alert = "twice"
	case notice == "unsaved":
		p.Alert, p.Notice = notice, ""
	}
	if mayGoBack(t.ballot) && i > 0 {
		p.Back = "/t/" + strconv.Itoa(i)
	}
	for n, cup := range sc.cups {
		for j, q := range sc.ask {
			name := sc.field(j, n)
			picked, given := r.answers[cup].Scores[q.Key]
			f := sc.show(q, cup, func(v float64) bool { return given && v == picked })
			f.Name, f.Free = name, q.Free
			if r.missing[name] {
				f.Fault = "missing.one"
			} else if r.twice[name] {
				f.Fault = "twice.one"
			}
			p.Fields = append(p.Fields, f)
		}
	}
	return p
}

func steps(at, of int) []step {
	var out []step
	for i := range of {
		switch {
		case i < at:
			out = append(out, step{"past"})
		case i == at:
			out = append(out, step{"here"})
		default:
			out = append(out, step{"next"})
		}
	}
	return out
}

// show lays a question out: words along the whole scale under one another,
// figures with words at some of them in a line, codes as big as on the cups.
func (sc screen) show(q tasting.Question, cup int, picked func(float64) bool) field {
	f := field{Label: q.Label, Look: "rows"}
	add := func(v float64, mark, word string) {
		f.Choices = append(f.Choices, choice{strconv.Itoa(int(v)), mark, word, picked(v)})
	}
	switch q.Kind {
	case tasting.AskCode:
		f.Look = "codes"
		for _, c := range q.Codes {
			add(float64(c), strconv.Itoa(c), "")
		}
		if q.Nothing != "" {
			add(0, "", q.Nothing)
		}
	case tasting.AskYesNo:
		for i, o := range q.Options {
			add(float64(i), "", o)
		}
	case tasting.AskOrders:
		f.Look, f.Label = "bar", words.Say("phone.place", cup, q.Label)
		for n := 1; n <= len(sc.cups); n++ {
			add(float64(n), strconv.Itoa(n), "")
		}
	default:
		for n := int(q.Low); n <= int(q.High); n++ {
			word := ""
			if i := n - int(q.Low); i < len(q.Anchors) {
				word = q.Anchors[i]
			}
			add(float64(n), strconv.Itoa(n), word)
		}
		f.bar()
	}
	return f
}

// bar lays a scale in a line when some of its figures have no words.
func (f *field) bar() {
	if !slices.ContainsFunc(f.Choices, func(c choice) bool { return c.Word == "" }) {
		return
	}
	n := len(f.Choices)
	f.Look = "bar"
	f.Ends = []string{f.Choices[0].Word, f.Choices[n/2].Word, f.Choices[n-1].Word}
	f.Describe = slices.ContainsFunc(f.Ends, func(s string) bool { return s != "" })
	if n%2 == 0 {
		f.Ends[1] = "" // no figure is in the middle
	}
}
