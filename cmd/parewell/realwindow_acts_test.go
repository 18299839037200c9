//go:build realwindow

package main

import (
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
)

// act does something, waits until the workbook on disk is another, and holds
// the screen to have changed too. It returns the workbook before and after.
func (w *window) act(what, book string, do func()) (before, after *recipes.Book) {
	w.t.Helper()
	w.settle()
	before = bookAt(w.t, book)
	picture := w.shot("before")
	was := digest(before)
	do()
	w.until(what+" is on disk", func() bool {
		after = bookAt(w.t, book)
		return digest(after) != was
	})
	w.settle()
	w.mustDiffer(what, picture)
	return before, after
}

// mustDiffer holds the window to look otherwise than in a picture.
func (w *window) mustDiffer(what string, picture image.Image) {
	w.t.Helper()
	if n := changed(picture, w.shot("after")); n < 50 {
		w.t.Errorf("%s: only %d pixels changed", what, n)
	}
}

// paste puts a recipe in by its text.
func (w *window) paste(book string) {
	w.t.Helper()
	w.key("ctrl+shift+p")
	w.click(words.Say("paste.hint"))
	w.typeText(pasted)
	w.waitFor(words.Say("serves.stated", 4)) // it has been read
	_, after := w.act("the pasted recipe", book, func() { w.click(words.Say("paste.add")) })
	soup := recipeCalled(w.t, after, "Cheddar soup")
	if len(soup.Lines) != 5 || soup.Servings != 4 {
		w.t.Errorf("%d ingredients, %v servings; want 5 and 4", len(soup.Lines), soup.Servings)
	}
}

// resolve gives the one line that asks something its weight.
func (w *window) resolve(book string) {
	w.t.Helper()
	_, after := w.act("the weight of the salt", book, func() {
		w.click(words.Say("doubts.grams.hint"))
		w.typeText("3")
		w.key("Return")
	})
	for _, l := range recipeCalled(w.t, after, "Cheddar soup").Lines {
		if l.Status() != recipes.StatusMatched {
			w.t.Errorf("%s still asks something: %v", l.Text, l.Doubts)
		}
		if l.Text == "salt to taste" && l.Grams != 3 {
			w.t.Errorf("the salt weighs %v g, want 3", l.Grams)
		}
	}
}

// tickASwap switches a swap on in version A with the mouse and sees A's energy
// move.
func (w *window) tickASwap(book string) {
	w.t.Helper()
	const swap = "tomato salsa for the Cheddar"
	w.key("ctrl+4")
	w.waitFor(swap)
	energy := w.under("A")
	_, after := w.act("the tick", book, func() { w.clickCell(swap, "A") })
	if on := swapsOn(after, "A"); !on[swap] {
		w.t.Errorf("the swap is not on in A: %v", on)
	}
	if now := w.under("A"); now == energy {
		w.t.Errorf("A's energy still reads %s", now)
	}
}

// swapsOn lists by name the swaps a version has on.
func swapsOn(b *recipes.Book, letter string) map[string]bool {
	on := map[string]bool{}
	for _, r := range b.Recipes() {
		for _, v := range b.Versions(r.ID) {
			if r.Title != workedOn || v.Letter != letter {
				continue
			}
			for _, s := range b.On(v) {
				on[s.Name] = true
			}
		}
	}
	return on
}

// typeOver types another amount over an ingredient of version A: it becomes a
// swap, and A's energy moves.
func (w *window) typeOver(book string) {
	w.t.Helper()
	const column = "lean beef" // version A's name, in its head
	energyRow := words.Say("nutrient.with-unit", words.Say("nutrient.energy_kcal"), "kcal")
	w.key("ctrl+3")
	energy := w.inCell(energyRow, column)
	before, after := w.act("the amount typed over", book, func() {
		w.clickCell("30 g tomato paste", column)
		w.typeText("20 g")
		w.key("Return")
	})
	if is, was := len(swapsOn(after, "A")), len(swapsOn(before, "A")); is != was+1 {
		w.t.Errorf("A has %d swaps on, had %d", is, was)
	}
	if now := w.inCell(energyRow, column); now == energy {
		w.t.Errorf("A's energy still reads %s", now)
	}
}

// takeBack undoes the newest edit: the workbook is as it was before it.
func (w *window) takeBack(book string) {
	w.t.Helper()
	on := len(swapsOn(bookAt(w.t, book), "A"))
	_, after := w.act("undo", book, func() { w.key("ctrl+z") })
	if now := len(swapsOn(after, "A")); now != on-1 {
		w.t.Errorf("A has %d swaps on after undo, want %d", now, on-1)
	}
}

// otherProgram imports a recipe from a second process while the window is open;
// then the window edits again. Both are in the file, and both in sight.
func (w *window) otherProgram(book string) {
	w.t.Helper()
	text := filepath.Join(w.t.TempDir(), "pot.txt")
	if err := os.WriteFile(text, []byte("Bean pot\nServes 2\n\nIngredients\n400 g green beans\n"), 0o600); err != nil {
		w.t.Fatal(err)
	}
	if out, err := exec.Command(program(w.t), "import", book, text).CombinedOutput(); err != nil {
		w.t.Fatalf("import beside the window: %v\n%s", err, out)
	}
	w.typeOver(book)
	recipeCalled(w.t, bookAt(w.t, book), "Bean pot")
	w.key("ctrl+1")
	w.waitFor("Bean pot")
}

// printsAPage chooses a version for the book, saves its page and reads the files.
func (w *window) printsAPage(home, book string) {
	w.t.Helper()
	to := filepath.Join(home, "pages")
	if err := os.Mkdir(to, 0o755); err != nil {
		w.t.Fatal(err)
	}
	w.key("ctrl+k")
	at := w.atRest("the page's cards are shown", func() (seen, bool) { return w.object(words.Say("printed.what")) })
	for range 40 { // what is open stands above, longer or shorter; beside the fields, which keep the wheel
		if o, ok := w.object(words.Say("printed.units.us")); ok && o.Text == words.Say("printed.units.us") {
			break
		}
		w.tool("xdotool", "mousemove", "--window", w.id, strconv.Itoa(int(at.X-8)), strconv.Itoa(int(at.Y+at.H/2)), "click", "--repeat", "4", "--delay", "30", "5")
		w.settle()
	}
	_, after := w.act("US measures", book, func() { w.click(words.Say("printed.units.us")) })
	if got := after.Setting("print.units"); got != "us" {
		w.t.Errorf("measures %q", got)
	}
	w.click(words.Say("printed.save"))
	w.waitFor(words.Say("printed.form.docx"))
	w.settle() // the field has the keyboard
	w.key("ctrl+a")
	w.typeText(to)
	w.key("Return")
	for _, want := range []struct{ ending, begins string }{{".docx", "PK"}, {".pdf", "%PDF"}} {
		w.until("the page is written as "+want.ending, func() bool {
			found, err := filepath.Glob(filepath.Join(to, "*"+want.ending))
			if err != nil || len(found) != 1 {
				return false
			}
			b, err := os.ReadFile(found[0])
			return err == nil && strings.HasPrefix(string(b), want.begins)
		})
	}
	w.settle()
	w.printsFrenchCharts(to)
	w.key("ctrl+4") // back where it was
}

// printsFrenchCharts saves the charts of the page with French labels, while the
// window stays English.
func (w *window) printsFrenchCharts(to string) {
	w.t.Helper()
	w.click(words.Say("printed.charts"))
	w.waitFor(words.Say("printed.charts.title"))
	w.settle()
	w.key("ctrl+a")
	w.typeText(to)
	w.click("Français")
	w.key("Return")
	w.until("the charts are written in French", func() bool {
		found, err := filepath.Glob(filepath.Join(to, "*", "captions.txt"))
		if err != nil || len(found) != 1 {
			return false
		}
		b, err := os.ReadFile(found[0])
		return err == nil && strings.Contains(string(b), "une portion")
	})
	w.settle()
	w.waitFor(words.Say("printed.charts"))
}
