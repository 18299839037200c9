package parts

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/test"
)

// galleryDir names the folder the gallery is written to; without it the pictures
// are only drawn, which still finds panics and empty pages.
const galleryDir = "PAREWELL_GALLERY"

func shot(t *testing.T, w fyne.Window, name string) {
	t.Helper()
	w.Resize(fyne.NewSize(1280, 800)) // a second pass settles wrapped text
	save(t, w, name)
}

// save looks at a window and keeps its picture where the gallery is wanted.
func save(t *testing.T, w fyne.Window, name string) {
	t.Helper()
	img := w.Canvas().Capture()
	if !hasPicture(img) {
		t.Errorf("%s: nothing was painted", name)
	}
	dir := os.Getenv(galleryDir)
	if dir == "" {
		return
	}
	f, err := os.Create(filepath.Join(dir, name+".png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
}

func hasPicture(img image.Image) bool {
	seen := map[color.Color]bool{}
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y += 7 {
		for x := b.Min.X; x < b.Max.X; x += 7 {
			seen[img.At(x, y)] = true
		}
	}
	return len(seen) > 20
}

func galleryWindow(t *testing.T, dark bool, factor float32, content func() fyne.CanvasObject) fyne.Window {
	t.Helper()
	a := test.NewTempApp(t)
	a.Settings().SetTheme(NewTheme(dark, factor))
	w := a.NewWindow("gallery")
	w.SetPadded(false)
	w.SetContent(WithLayer(content()))
	w.Resize(fyne.NewSize(1280, 800))
	t.Cleanup(w.Close)
	return w
}

func recipeTable() MatrixData {
	d := MatrixData{Columns: []Column{
		{Key: "name", Title: "Per serving"},
		{Key: "o", Title: "Original", Sub: "6 servings, 412 g", Version: &VersionMark{Index: -1}},
		{Key: "a", Title: "Yogurt", Sub: "6 servings, 405 g", Version: &VersionMark{0, "A"}},
		{Key: "b", Title: "Yogurt and oil", Sub: "6 servings, 398 g", Version: &VersionMark{1, "B"}},
		{Key: "c", Title: "Half the cheese", Sub: "6 servings, 402 g", Version: &VersionMark{2, "C"}},
	}}
	num := func(v, s string, bar float64, m Mark) Cell {
		return Cell{Text: v, Sub: s, Bar: bar, Align: AlignEnd, Mark: m}
	}
	d.Rows = []Row{
		{Key: "kcal", Cells: []Cell{{Text: "Energy", Sub: "kcal"}, num("684", "", 0, MarkMissed), num("541", "–143 (–21 %)", -.21, MarkMissed), num("455", "–229 (–33 %)", -.33, MarkMet), num("512", "–172 (–25 %)", -.25, MarkMissed)}},
		{Key: "fat", Cells: []Cell{{Text: "Fat", Sub: "g"}, num("43.1", "", 0, 0), num("28.4", "–14.7 (–34 %)", -.34, 0), num("20.2", "–22.9 (–53 %)", -.53, 0), num("26.0", "–17.1 (–40 %)", -.4, 0)}},
		{Key: "sat", Cells: []Cell{{Text: "of which saturated", Sub: "g", Indent: 1}, num("25.6", "", 0, 0), num("16.1", "–9.5 (–37 %)", -.37, 0), num("8.3", "–17.3 (–68 %)", -.68, 0), num("14.2", "–11.4 (–45 %)", -.45, 0)}},
		{Key: "prot", Cells: []Cell{{Text: "Protein", Sub: "g"}, num("34.8", "", 0, 0), num("38.2", "+3.4 (+10 %)", .1, 0), num("37.9", "+3.1 (+9 %)", .09, 0), num("30.9", "–3.9 (–11 %)", -.11, MarkLook)}},
		{Key: "na", Cells: []Cell{{Text: "Sodium", Sub: "mg"}, num("1,240", "", 0, 0), num("1,262", "+22 (+2 %)", .02, 0), num("1,388", "+148 (+12 %)", .12, MarkLook), num("980", "–260 (–21 %)", -.21, MarkMet)}},
		{Kind: RowSection, Cells: []Cell{{Text: "Ingredients"}}},
		{Key: "cream", Cells: []Cell{{Text: "Double cream", Sub: "300 ml"}, {Text: "="}, {Text: "strained yogurt 150 g", Wrap: true}, {Text: "strained yogurt 150 g, cornflour 8 g, milk 60 ml", Wrap: true}, {Text: "=", Muted: true}}},
		{Key: "butter", Cells: []Cell{{Text: "Butter", Sub: "60 g"}, {Text: "="}, {Text: "=", Muted: true}, {Text: "olive oil 20 g"}, {Text: "=", Muted: true}}},
		{Key: "cheese", Cells: []Cell{{Text: "Mature cheddar", Sub: "150 g"}, {Text: "="}, {Text: "=", Muted: true}, {Text: "=", Muted: true}, {Text: "75 g, finely grated"}}},
		{Key: "crumb", Cells: []Cell{{Text: "White breadcrumbs", Sub: "80 g"}, {Text: "="}, {Text: "left out", Struck: true}, {Text: "=", Muted: true}, {Text: "wholemeal 60 g", Mark: MarkPending}}},
		{Kind: RowSection, Cells: []Cell{{Text: "Steps"}}},
		{Key: "s1", Cells: []Cell{{Text: "1  Sweat the leeks", Wrap: true}, {Text: "Sweat the leeks in the butter for 12 minutes until soft but not coloured.", Wrap: true}, {Text: "=", Muted: true}, {Text: "Sweat the leeks in the oil with a splash of water, lid on.", Wrap: true}, {Text: "=", Muted: true}}},
	}
	d.Rows[0].Kind = RowPlain
	return d
}

func swapsTable() MatrixData {
	d := MatrixData{Columns: []Column{
		{Key: "swap", Title: "Swap", Text: true},
		{Key: "kind", Title: "Kind"},
		{Key: "by", Title: "Lighter by", Sub: "kcal a serving", Align: AlignEnd},
		{Key: "a", Version: &VersionMark{0, "A"}, Align: AlignCentre},
		{Key: "b", Version: &VersionMark{1, "B"}, Align: AlignCentre},
		{Key: "c", Version: &VersionMark{2, "C"}, Align: AlignCentre},
		{Key: "d", Version: &VersionMark{3, "D"}, Align: AlignCentre},
	}}
	for i, n := range []string{"Strained yogurt for half the cream", "Olive oil for the butter", "Half the cheddar, grated fine", "Wholemeal crumb, less of it", "Salt –25 %"} {
		r := Row{Key: n, Cells: []Cell{{Text: n, Editable: true}, {Text: []string{"replace", "replace", "use less", "replace", "use less"}[i], Muted: true}, {Text: []string{"–143", "–61", "–52", "–18", "0"}[i], Bar: []float64{-.9, -.4, -.35, -.12, 0}[i]}}}
		for v := range 4 {
			tick := TickOff
			if (i+v)%2 == 0 {
				tick = TickOn
			}
			if i == 4 && v == 3 {
				tick = TickDisabled
			}
			r.Cells = append(r.Cells, Cell{Tick: tick})
		}
		d.Rows = append(d.Rows, r)
	}
	d.Rows = append(d.Rows, Row{Kind: RowTotal, Cells: []Cell{{Text: "Together", Bold: true}, {}, {}, {Text: "–161", Bold: true}, {Text: "–113", Bold: true}, {Text: "–213", Bold: true}, {Text: "–113", Bold: true}}})
	return d
}

func chartPicture(w, h int, scale float32, isDark bool) image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	ground := light[RoleCard]
	if isDark {
		ground = dark[RoleCard]
	}
	draw.Draw(img, img.Bounds(), image.NewUniform(ground), image.Point{}, draw.Src)
	for i := range 4 {
		x := w * (2*i + 1) / 9
		top := h * (i + 1) / 7
		draw.Draw(img, image.Rect(x, top, x+w/9, h-int(10*scale)), image.NewUniform(VersionColour(i-1, isDark)), image.Point{}, draw.Src)
	}
	return img
}

func versionsPage() fyne.CanvasObject {
	nav := NewNav([]NavItem{{Key: "r", Icon: "recipes", Label: "Recipes", Count: "12"}, {Key: "f", Icon: "foods", Label: "Foods", Count: "8,790"}, {Key: "t", Icon: "tasters", Label: "Tasters", Count: "9"}, {Key: "m", Icon: "meals", Label: "Meals"}, {Key: "s", Icon: "settings", Label: "Settings", Gap: true}}, nil)
	tabs := NewTabs([]Tab{{"v", "versions", "Versions", "4"}, {"s", "swaps", "Swaps", "5"}, {"t", "tasting", "Tastings", "3"}, {"k", "keep-or-drop", "Keep or drop", ""}, {"p", "page", "Printed page", ""}}, nil)
	m := NewMatrix()
	m.SetData(recipeTable())
	m.Select(1, 2)
	head := PageHead("Leek and smoked haddock gratin", "Keep the crust and the smoke. At most 500 kcal and 2 g salt a serving; your limit is 0.5.", NewButton(Quiet, "export", "Export", nil), NewButton(Primary, "add", "Version", nil))
	status := NewStatusLine()
	status.SetMessageAction("Swap “Olive oil for the butter” switched on in B.", "undo", "Undo", func() {})
	status.SetPending(true)
	status.SetNote("The Harbour Kitchen")
	chips := Line(GapSmall, NewMetChip(true, "B: 455 of 500 kcal"), NewMetChip(false, "A: 541 of 500 kcal"), NewAssumedChip("haddock assumed raw"), NewChip(ToneError, "error", "cream has no food"))
	page := Fill(GapMedium, 3, head, tabs, chips, NewTableCard("", "", m))
	body := Pad(GapLarge, 20, GapMedium, 20, page)
	return Frame(nil, Side(Pad(14, 10, 10, 10, nav)), body, nil, status)
}

func partsPage() fyne.CanvasObject {
	swaps := NewMatrix()
	swaps.Whole = true
	swaps.SetData(swapsTable())
	shares := NewShareList([]Share{{"a", "Double cream", .42, "267 kcal", "42 %", true}, {"b", "Mature cheddar", .21, "134 kcal", "21 %", false}, {"c", "Butter", .15, "95 kcal", "15 %", false}, {"d", "Smoked haddock", .11, "70 kcal", "11 %", false}, {"e", "Breadcrumbs", .07, "45 kcal", "7 %", false}})
	shares.choose(0)
	chart := NewChartView(fyne.NewSize(260, 170), chartPicture)
	form := NewForm()
	form.Row("Servings", NewNumberEntry("6", "", nil), "servings", "How many people the dish serves.")
	form.Row("Helping", NewNumberEntry("412", "", nil), "g", "").SetError("Write a weight in grams, for example 400.")
	form.Row("Cooked by", NewPicker([]Suggestion{{"Baking", "", "b"}}, "b", "", nil), "", "")
	form.Row("", NewCheck("Show kilojoules too", true, nil), "", "")
	right := Fill(GapMedium, 1,
		NewCard("Where the calories are", "Original, per serving", shares, NewIconButton("more", "More", nil)),
		NewCard("Change by version", "", chart, NewIconButton("export", "Export", nil)))
	left := Rows(GapMedium,
		NewBanner(ToneLook, "“Olive oil” and “Half the cheddar” were always served together, so this table cannot tell them apart.", NewButton(Quiet, "", "What to cook next", nil)),
		NewBanner(ToneError, "Line 4: no food is chosen for “creme fraiche”. Its calories are left out."),
		NewTableCard("Swaps", "Tick a swap to use it in a version.", swaps, NewButton(Plain, "idea", "Ideas", nil), NewButton(Quiet, "add", "Swap", nil)),
		NewSection("Helping"), Limit(560, form))
	buttons := Line(GapSmall, NewButton(Primary, "check", "Serve", nil), NewButton(Quiet, "print", "Print", nil), NewButton(Danger, "delete", "Remove taster", nil), NewButton(Plain, "copy", "Copy", nil), disabledButton(), NewSegmented([]Suggestion{{"Per serving", "", "s"}, {"Per 100 g", "", "g"}, {"Whole dish", "", "d"}}, "s", nil))
	cols := Columns(GapLarge, []float32{1.75, 1}, Rows(GapMedium, left, buttons), right)
	return container.New(layout.NewStackLayout(), Pad(GapLarge, 20, GapLarge, 20, cols))
}

func disabledButton() *Button {
	b := NewButton(Primary, "", "Close tasting", nil)
	b.Disable()
	return b
}

func emptyPage() fyne.CanvasObject {
	var cards []fyne.CanvasObject
	for _, a := range []Art{ArtPot, ArtTicks, ArtCups, ArtScales, ArtSheet, ArtPeople, ArtPlate, ArtJar, ArtSearch} {
		cards = append(cards, NewPanel(GapMedium, NewEmptyState(a, "No tastings yet", "Plan a tasting to find out whether your friends like a version as much as the original.", NewButton(Primary, "add", "Plan a tasting", nil), NewButton(Quiet, "", "How it works", nil))))
	}
	return PadAll(GapLarge, container.New(layout.NewGridLayoutWithColumns(3), cards...))
}

func iconsPage() fyne.CanvasObject {
	grid := container.New(layout.NewGridLayoutWithColumns(10))
	for _, n := range iconNames() {
		grid.Add(Rows(4, middle(NewIcon(n, RoleInk, 32)), middle(NewCaption(n))))
	}
	markers := Line(GapLarge)
	for i := -1; i < 8; i++ {
		markers.Add(NewMarker(i, VersionLetter(i)))
	}
	return PadAll(GapLarge, Rows(GapLarge, markers, grid))
}

func TestGallery(t *testing.T) {
	defer UseTiming(InstantTiming(time.Date(2024, 5, 1, 12, 0, 0, 0, time.UTC)))()
	pages := []struct {
		name string
		page func() fyne.CanvasObject
	}{{"versions", versionsPage}, {"parts", partsPage}, {"empty", emptyPage}, {"icons", iconsPage}}
	for _, isDark := range []bool{false, true} {
		for _, p := range pages {
			name := fmt.Sprintf("%s-%v", p.name, map[bool]string{false: "light", true: "dark"}[isDark])
			t.Run(name, func(t *testing.T) {
				shot(t, galleryWindow(t, isDark, 1, p.page), name)
			})
		}
	}
}

// narrowPage is a small window with large text: nothing may be cut off for good.
func narrowPage() fyne.CanvasObject {
	nav := NewNav([]NavItem{{Key: "r", Icon: "recipes", Label: "Recipes"}, {Key: "f", Icon: "foods", Label: "Foods"}}, nil)
	nav.SetNarrow(true)
	list := NewMatrix()
	list.WholeRow, list.Stretch = true, true
	list.SetData(MatrixData{
		Columns: []Column{{Title: "Food", Sorted: SortUp}, {Title: "Energy", Sub: "kcal per 100 g", Align: AlignEnd}, {Title: "From"}},
		Rows: []Row{
			{Cells: []Cell{{Text: "Cream, double, fresh"}, {Text: "467"}, {Text: "own food"}}},
			{Cells: []Cell{{Text: "Yogurt, strained, whole milk", Mark: MarkAssumed}, {Text: "97"}, {Text: "starter"}}},
			{Cells: []Cell{{Text: "Cheddar, mature"}, {Text: "416"}, {Text: "starter", Muted: true}}},
		},
	})
	list.Select(1, 0)
	list.focused = true
	small := NewMatrix()
	small.SetData(MatrixData{Columns: []Column{{Title: "Taster"}, {Title: "Score", Align: AlignEnd}}, Empty: "No scores yet: type one to start."})
	head := PageHead("Foods", "Everything your recipes can use, with where each figure comes from.", NewButton(Primary, "add", "Food", nil))
	find := NewEntry("", "Find a food", nil)
	tools := Stretch(GapSmall, 0, find, NewPicker([]Suggestion{{Text: "Every source", Key: "a"}}, "a", "", nil))
	page := Fill(GapMedium, 2, head, tools, NewTableCard("", "", list), NewBanner(ToneNeutral, "Figures are per 100 g of the food as bought."), NewTableCard("Scores", "Tuesday's tasting", Sized(0, 150, small)))
	return Frame(nil, Side(Pad(14, 8, 10, 8, nav)), PadAll(GapLarge, page), nil, nil)
}

func TestGalleryNarrow(t *testing.T) {
	defer UseTiming(InstantTiming(time.Date(2024, 5, 1, 12, 0, 0, 0, time.UTC)))()
	for _, factor := range []float32{0.9, 1.5} {
		a := test.NewTempApp(t)
		a.Settings().SetTheme(NewTheme(false, factor))
		w := a.NewWindow("narrow")
		w.SetPadded(false)
		w.SetContent(WithLayer(narrowPage()))
		w.Resize(fyne.NewSize(820, 800))
		save(t, w, fmt.Sprintf("narrow-%v", factor))
		w.Close()
	}
}

func TestGalleryDialogs(t *testing.T) {
	restore := UseTiming(Timing{
		Do: func(f func()) { f() }, Go: func(f func()) { f() }, Now: time.Now,
		After: func(time.Duration, func()) func() { return func() {} },
	})
	defer restore()
	w := galleryWindow(t, false, 1, versionsPage)
	f := NewForm()
	how := NewPicker([]Suggestion{{Text: "Baking", Detail: "oven, uncovered", Key: "b"}, {Text: "Frying", Detail: "shallow", Key: "f"}, {Text: "Steaming", Key: "s"}}, "b", "", nil)
	f.Row("Name", NewEntry("Yogurt and oil", "", nil), "", "Shown beside the letter in every table.")
	f.Row("Servings", NewNumberEntry("6", "", nil), "servings", "")
	f.Row("Cooked by", how, "", "")
	f.Row("Notes", NewTextArea("", "What you want to find out", 3, nil), "", "")
	d := ShowDialog(w, DialogOptions{Title: "New version", Content: f, First: how, Confirm: "Make it", Cancel: "Cancel", Width: 520})
	keys(how, fyne.KeySpace)
	save(t, w, "dialog-form")
	d.Close()
	d = Confirm(w, "Remove this taster?", "Her name and details go from this workbook for good. Her scores stay under a number.", "Remove", "Keep her", true, func() {})
	save(t, w, "dialog-confirm")
	d.Close()
	d = ShowProblem(w, "The workbook cannot be saved", "The Harbour Kitchen.parewell", "The disk is full. Free some room, or save a copy on another disk.", "Close")
	save(t, w, "dialog-problem")
	d.Close()
	var items []Suggestion
	for _, it := range swapsTable().Rows[:5] {
		items = append(items, Suggestion{Text: it.Cells[0].Text, Detail: it.Cells[2].Text + " kcal", Key: it.Key})
	}
	d = Choose(w, ChooseOptions{Title: "Use a swap", Hint: "Type to narrow the list", Choose: "Use it", Cancel: "Cancel", Items: items}, func(Suggestion) {})
	save(t, w, "dialog-choose")
	d.Close()
}
