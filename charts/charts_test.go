package charts

import (
	"bytes"
	"errors"
	"fmt"
	"image/png"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"parewell/recipes/problem"
)

// blank is a canvas of a size that keeps a record of what was drawn.
type blank struct {
	*recorder.Canvas
	w, h vg.Length
}

func (b blank) Size() (w, h vg.Length) { return b.w, b.h }

// sheetOf paints f for the screen at w by h screen units and returns the sheet
// and the record.
func sheetOf(f *Figure, w, h float64, look Look) (*sheet, *recorder.Canvas) {
	rec := &recorder.Canvas{}
	return f.sheet(blank{rec, vg.Length(w) * 0.75, vg.Length(h) * 0.75}, 0.75, look), rec
}

func written(s *sheet) string {
	var out []string
	for _, t := range s.texts {
		out = append(out, t.text)
	}
	return strings.Join(out, "|")
}

func TestChangeChartWritesEveryName(t *testing.T) {
	d := sampleData(3)
	s, _ := sheetOf(mustChange(t, d), 1200, 420, ScreenLight)
	got := written(s)
	for _, want := range []string{
		d.Title, "Calories", "Fat", "Sodium", "original 684 kcal", "original 43.1 g", "A", "B", "C", d.Versions[1].Name,
		"–144 kcal", "–19.8 g", "+62 mg", "not known", "at most –171 kcal", "at least –14.7 g", "change per serving, in % of the original; to the left is lighter",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %s", want, got)
		}
	}
}

func TestChangeLabels(t *testing.T) {
	for _, row := range []struct {
		name string
		c    Change
		how  detail
		want string
	}{
		{"a fall", Change{Amount: -143, Percent: -21, Known: true}, withPercent, "–143 kcal (–21 %)"},
		{"exact is the same", Change{Amount: -143, Percent: -21, Known: true, Bound: "exact"}, withUnit, "–143 kcal"},
		{"a rise", Change{Amount: 12.4, Percent: 2, Known: true}, numberOnly, "+12"},
		{"nothing", Change{Amount: 0, Percent: 0, Known: true}, withPercent, "no change"},
		{"rounds to nothing", Change{Amount: -0.3, Percent: 0, Known: true}, withUnit, "no change"},
		{"original had none", Change{Amount: 30, Percent: math.NaN(), Known: true}, withPercent, "+30 kcal"},
		{"unknown", Change{}, withUnit, "not known"},
		{"unknown by bound", Change{Amount: 3, Known: true, Bound: "unknown"}, withUnit, "not known"},
		{"no number", Change{Amount: math.Inf(1), Known: true}, withUnit, "not known"},
		{"lighter by at least", Change{Amount: -9, Percent: -1, Known: true, Bound: "at_least"}, withUnit, "at least –9 kcal"},
		{"lighter by at most", Change{Amount: -9, Percent: -1, Known: true, Bound: "at_most"}, withUnit, "at most –9 kcal"},
		{"heavier by at most", Change{Amount: 9, Percent: 1, Known: true, Bound: "at_least"}, withUnit, "at most +9 kcal"},
		{"heavier by at least", Change{Amount: 9, Percent: 1, Known: true, Bound: "at_most"}, withUnit, "at least +9 kcal"},
		{"not heavier", Change{Known: true, Bound: "at_least"}, withUnit, "not heavier"},
		{"terse and unsure", Change{Amount: -9, Known: true, Bound: "at_most"}, terse, "–9 ?"},
		{"no label", Change{Amount: -9, Known: true}, noLabel, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := row.c.label("kcal", row.how); got != row.want {
				t.Errorf("got %q, want %q", got, row.want)
			}
		})
	}
}

func TestChangeChartDrawsABarForEveryChange(t *testing.T) {
	for n := 1; n <= Versions; n++ {
		s, _ := sheetOf(mustChange(t, sampleData(n)), 900, 400, Print)
		if s.bars != 3*n {
			t.Errorf("%d versions: %d bars, want %d", n, s.bars, 3*n)
		}
	}
}

// The dashes are what tells an unknown change from none without colour.
func TestUnknownChangesAreDashed(t *testing.T) {
	dashes := func(d ChangeData) (n int) {
		_, rec := sheetOf(mustChange(t, d), 900, 400, Print)
		for _, a := range rec.Actions {
			if sd, ok := a.(*recorder.SetLineDash); ok && len(sd.Dashes) > 0 {
				n++
			}
		}
		return n
	}
	d := sampleData(2)
	if got := dashes(d); got != 0 {
		t.Errorf("all known: %d dashed boxes, want 0", got)
	}
	d.Panels[0].Changes[1].Known = false
	d.Panels[1].Changes[1].Bound = "at_most"
	if got := dashes(d); got != 2 {
		t.Errorf("one unknown and one bounded: %d dashed boxes, want 2", got)
	}
}

func TestEveryVersionHasAnotherHatchAndMarker(t *testing.T) {
	hs, ms := map[hatch]bool{}, map[string]bool{}
	for i := range Versions {
		hs[hatches[i]], ms[VersionMarkers[i]] = true, true
	}
	if len(hs) != Versions || len(ms) != Versions {
		t.Errorf("%d hatches and %d markers for %d versions", len(hs), len(ms), Versions)
	}
	r := vg.Rectangle{Max: vg.Point{X: 40, Y: 12}}
	for _, h := range hatches[1:] {
		if len(h.hatchLines(r, 4))+len(h.hatchFill(r, 4)) == 0 {
			t.Errorf("hatch %d draws nothing", h)
		}
		for _, c := range append(h.hatchLines(r, 4), h.hatchFill(r, 4)...) {
			if c.Type != vg.CloseComp && (c.Pos.X < -1e-9 || c.Pos.X > 40+1e-9 || c.Pos.Y < -1e-9 || c.Pos.Y > 12+1e-9) {
				t.Errorf("hatch %d leaves its bar at %v", h, c.Pos)
			}
		}
	}
}

func TestStyleFollowsTheLetter(t *testing.T) {
	for _, row := range []struct {
		letter    string
		pos, want int
	}{{"A", 3, 0}, {"B", 0, 1}, {"H", 0, 7}, {"I", 0, 0}, {"", 2, 2}, {"AB", 9, 1}, {"é", 1, 1}} {
		if got := styleOf(row.letter, row.pos); got != row.want {
			t.Errorf("%q at %d: %d, want %d", row.letter, row.pos, got, row.want)
		}
	}
}

func TestTextStandsClear(t *testing.T) {
	sizes := [][2]float64{{320, 200}, {360, 300}, {480, 240}, {640, 280}, {640, 480}, {900, 400}, {1200, 420}, {1400, 600}, {1400, 260}}
	for n := 1; n <= Versions; n++ {
		long := sampleData(n)
		for i := range long.Versions {
			long.Versions[i].Name = "an uncommonly long name of a version with Worcestershiresauceandmore " + long.Versions[i].Name
		}
		for name, f := range map[string]*Figure{
			"change": mustChange(t, sampleData(n)), "long names": mustChange(t, long), "share": mustShare(t, sampleShare(n)),
			"rises": mustChange(t, scaled(sampleData(n), -7)), "small": mustChange(t, scaled(sampleData(n), 0.02)), "none": mustChange(t, scaled(sampleData(n), 0)),
		} {
			for _, size := range sizes {
				for _, look := range []Look{ScreenLight, Print} {
					s, _ := sheetOf(f, size[0], size[1], look)
					checkClear(t, fmt.Sprintf("%s, %d versions, %v, look %d", name, n, size, look), s)
				}
			}
		}
	}
}

// scaled multiplies every change of d.
func scaled(d ChangeData, k float64) ChangeData {
	for i := range d.Panels {
		for j := range d.Panels[i].Changes {
			c := &d.Panels[i].Changes[j]
			c.Amount *= k
			c.Percent *= k
		}
	}
	return d
}

// checkClear fails where a text leaves the sheet or runs into another.
func checkClear(t *testing.T, name string, s *sheet) {
	t.Helper()
	const slack = 0.6 // points: boxes include ascenders and descenders that may be absent
	for i, a := range s.texts {
		if a.box.Min.X < s.Min.X-slack || a.box.Max.X > s.Max.X+slack || a.box.Min.Y < s.Min.Y-slack || a.box.Max.Y > s.Max.Y+slack {
			t.Errorf("%s: %q leaves the sheet", name, a.text)
		}
		for _, b := range s.texts[:i] {
			if a.box.Min.X < b.box.Max.X-slack && b.box.Min.X < a.box.Max.X-slack && a.box.Min.Y < b.box.Max.Y-slack*2.5 && b.box.Min.Y < a.box.Max.Y-slack*2.5 {
				t.Errorf("%s: %q runs into %q", name, a.text, b.text)
			}
		}
	}
}

func TestNumbersStayAtUsefulSizes(t *testing.T) {
	for n := 1; n <= Versions; n++ {
		for _, size := range [][2]float64{{320, 200}, {640, 280}, {1200, 420}} {
			s, _ := sheetOf(mustChange(t, sampleData(n)), size[0], size[1], ScreenLight)
			if !strings.Contains(written(s), "–144") {
				t.Errorf("%d versions at %v: no amount is written", n, size)
			}
		}
	}
}

func TestDataThatCannotBeDrawn(t *testing.T) {
	for name, d := range map[string]ChangeData{
		"no versions": {Panels: sampleData(1).Panels}, "no panels": {Versions: sampleData(1).Versions},
		"nine versions": {Versions: make([]ChangeVersion, 9), Panels: sampleData(1).Panels},
		"uneven":        {Versions: sampleData(2).Versions, Panels: sampleData(1).Panels},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := ChangeChart(d)
			isProblem(t, err)
		})
	}
	for name, d := range map[string]ShareData{
		"share: no versions": {Parts: []SharePart{{"x", nil}}}, "share: no parts": {Versions: sampleData(1).Versions},
		"share: negative": {Versions: sampleData(1).Versions, Parts: []SharePart{{"x", []float64{-1}}}},
		"share: infinite": {Versions: sampleData(1).Versions, Parts: []SharePart{{"x", []float64{math.Inf(1)}}}},
		"share: uneven":   {Versions: sampleData(1).Versions, Parts: []SharePart{{"x", nil}}},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := ShareChart(d)
			isProblem(t, err)
		})
	}
}

func isProblem(t *testing.T, err error) {
	t.Helper()
	var p *problem.Error
	if !errors.As(err, &p) || p.What == "" || p.Hint == "" || strings.HasPrefix(p.What, "[") || strings.HasPrefix(p.Hint, "[") {
		t.Errorf("want a problem with a fault and a mend, got %v", err)
	}
}

func TestPanicsBecomeProblems(t *testing.T) {
	f := &Figure{title: "broken", paint: func(*sheet) { panic("no font") }}
	_, err := f.Draw(100, 100, 1, ScreenLight)
	isProblem(t, err)
	var b bytes.Buffer
	for name, err := range map[string]error{
		"png": f.WritePNG(&b, 100, 50, 300), "tiff": f.WriteTIFF(&b, 100, 50, 300), "svg": f.WriteSVG(&b, 100, 50),
		"pdf": f.WritePDF(&b, 100, 50), "eps": f.WriteEPS(&b, 100, 50),
	} {
		t.Run(name, func(t *testing.T) { isProblem(t, err) })
	}
	if b.Len() > 0 {
		t.Errorf("%d bytes of a broken figure were written", b.Len())
	}
	if img := f.Image(90, 40, 1, ScreenDark); img.Bounds().Dx() != 90 || img.Bounds().Dy() != 40 {
		t.Errorf("stand-in is %v", img.Bounds())
	}
}

func TestImageHasExactlyThePixelsAskedFor(t *testing.T) {
	f := mustChange(t, sampleData(2))
	for _, scale := range []float64{0.75, 1, 1.25, 1.3, 1.5, 2, math.NaN()} {
		for _, w := range []int{1, 37, 320, 641, 1399} {
			if b := f.Image(w, w/2+1, scale, ScreenLight).Bounds(); b.Dx() != w || b.Dy() != w/2+1 {
				t.Errorf("asked %d x %d at %v, got %v", w, w/2+1, scale, b)
			}
		}
	}
	if _, err := f.Draw(0, 10, 1, ScreenLight); err == nil {
		t.Error("no error for no width")
	}
}

func TestAltStatesTheNumbers(t *testing.T) {
	alt := mustChange(t, sampleData(3)).Alt()
	for _, want := range []string{"Leek and smoked haddock gratin", "Calories (original 684 kcal): A strained yogurt for half the cream: –144 kcal (–21 %);", "C milk thickened with cornflour and a little mustard: not known.", "at least –14.7 g (–34 %)"} {
		if !strings.Contains(alt, want) {
			t.Errorf("no %q in %s", want, alt)
		}
	}
	alt = mustShare(t, sampleShare(1)).Alt()
	for _, want := range []string{"Original, 684 kcal: double cream: 243 kcal; mature cheese: 121 kcal", "everything else: 32 kcal"} {
		if !strings.Contains(alt, want) {
			t.Errorf("no %q in %s", want, alt)
		}
	}
}

func TestShareOfAnUnknownPartSaysAtLeast(t *testing.T) {
	d := sampleShare(1)
	d.Parts[0].Amounts[1] = math.NaN()
	s, _ := sheetOf(mustShare(t, d), 900, 400, ScreenLight)
	if !strings.Contains(written(s), "at least ") {
		t.Errorf("no at least in %s", written(s))
	}
}

func TestDataIsCopied(t *testing.T) {
	d := sampleData(2)
	f := mustChange(t, d)
	a, _ := sheetOf(f, 900, 400, ScreenLight)
	d.Panels[0].Changes[0].Amount, d.Versions[0].Name, d.Panels[0].Label = 999, "other", "other"
	b, _ := sheetOf(f, 900, 400, ScreenLight)
	if written(a) != written(b) {
		t.Error("the figure changed with the caller's data")
	}
}

// Endless names once took seconds to measure.
func TestEndlessTextsAreCut(t *testing.T) {
	d := sampleData(8)
	endless := strings.Repeat("leek ", 5000)
	d.Title, d.Panels[0].Label, d.Panels[0].Unit = endless, endless, endless
	for i := range d.Versions {
		d.Versions[i] = ChangeVersion{endless, endless}
	}
	f := mustChange(t, d)
	if n := len(f.Alt()); n > 40000 {
		t.Errorf("text alternative has %d bytes", n)
	}
	if n := len([]rune(f.Title())); n != longest {
		t.Errorf("title has %d letters, want %d", n, longest)
	}
	f.Image(320, 200, 1, ScreenLight)
}

func TestImageDecodesAsDrawn(t *testing.T) {
	var b bytes.Buffer
	if err := png.Encode(&b, mustChange(t, sampleData(4)).Image(300, 200, 1, ScreenDark)); err != nil {
		t.Fatal(err)
	}
}

func FuzzChangeChart(f *testing.F) {
	f.Add(uint8(2), "A", "name", "Fat", "g", -3.0, -20.0, true, "at_least", uint16(320), uint16(200))
	f.Add(uint8(8), "", "\x00\n", "", "", math.NaN(), math.Inf(1), true, "", uint16(1), uint16(1))
	f.Add(uint8(0), "Z", "漢字 ½ ≤", "x", "kcal", 1e300, -1e300, true, "exact", uint16(900), uint16(20))
	f.Add(uint8(3), "A", "n", "Sodium", "mg", 5.0, 1e9, true, "at_most", uint16(640), uint16(280))
	f.Fuzz(func(t *testing.T, n uint8, letter, name, label, unit string, amount, percent float64, known bool, bound string, w, h uint16) {
		d := ChangeData{Title: name}
		p := ChangePanel{Label: label, Unit: unit, Original: amount}
		for range n % 10 {
			d.Versions = append(d.Versions, ChangeVersion{letter, name})
			p.Changes = append(p.Changes, Change{amount, percent, known, bound, ""})
		}
		d.Panels = []ChangePanel{p, p}
		fig, err := ChangeChart(d)
		if err != nil {
			isProblem(t, err)
			return
		}
		if _, err := fig.Draw(int(w%1500)+1, int(h%700)+1, 1, Look(n%3)); err != nil {
			t.Errorf("cannot be drawn: %v", err)
		}
	})
}
