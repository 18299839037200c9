package ui

import (
	"bytes"
	"image/png"
	"os"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/assets"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

func (k *kitchenWindow) guideList() *parts.Matrix {
	k.t.Helper()
	m, ok := k.pins["guide.list"].(*parts.Matrix)
	if !ok {
		k.t.Fatal("no guide")
	}
	return m
}

// TestTheGuide: F1 opens it, each chapter has its words and its picture and leads
// to its place; typing finds chapters; Esc closes.
func TestTheGuide(t *testing.T) {
	for i, c := range guideChapters {
		title, text := guideWords(c.name)
		if strings.Contains(title+text, "[guide.") || len(text) < 80 {
			t.Errorf("%s: %q", c.name, text)
		}
		data, err := assets.Guide.ReadFile(pictureOf(c.name))
		if (err == nil) != (c.to.page != "") {
			t.Errorf("%s: picture: %v", c.name, err)
		}
		if err == nil {
			if img, err := png.DecodeConfig(bytes.NewReader(data)); err != nil || img.Width*800 != img.Height*1280 || len(data) > 120_000 {
				t.Errorf("%s: %v %v, %d bytes", c.name, img.Width, err, len(data))
			}
		}
		k := openKitchen(t, i%2 == 1, fyne.NewSize(1280, 800))
		k.goTo(place{page: pageRecipes})
		k.win.Canvas().Unfocus()
		k.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyF1})
		k.settle()
		k.guideList().Select(i, 0)
		k.picture("guide-" + c.name)
		if c.to.page == "" {
			k.escape()
			if k.win.Canvas().Overlays().Top() != nil {
				t.Error("Esc does not close the guide")
			}
			continue
		}
		k.pushPin("guide.go")
		if k.at.page != c.to.page || k.at.tab != c.to.tab || c.to.page == pageRecipe && k.recipe() == nil {
			t.Errorf("%s leads to %v", c.name, k.at)
		}
	}
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.showGuide()
	k.fill("guide.find", "backups EDITOR")
	if rows := k.guideList().Data().Rows; len(rows) != 1 || rows[0].Key != "file" {
		t.Errorf("found %v", rows)
	}
	k.fill("guide.find", "nowhere to be found")
	if rows := k.guideList().Data().Rows; len(rows) != 0 {
		t.Errorf("found %v", rows)
	}
	k.settle()
	said := k.reads()
	if _, last := guideWords("file"); strings.Contains(said, sheets.Paragraphs(last)[0][:20]) {
		t.Error("the last chapter still stands beside the empty list")
	}
	if !strings.Contains(said, words.Say("guide.none.hint")[:20]) {
		t.Error("nothing says what to try")
	}
}

// TestTheGuideIsFoundByAnEditorsWords: what an editor types leads to the chapter that
// tells of it.
func TestTheGuideIsFoundByAnEditorsWords(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.showGuide()
	for typed, chapter := range map[string]string{
		"figure": "figures", "figures": "figures", "dpi": "figures", "TIFF": "figures", "eps": "figures", "caption": "figures", "chart width": "figures",
		"width": "figures", "proof": "figures", "alt text": "figures", "charts": "figures", "DOCX": "printed", "claims": "printed",
	} {
		k.fill("guide.find", typed)
		found := false
		for _, r := range k.guideList().Data().Rows {
			found = found || r.Key == chapter
		}
		if !found {
			t.Errorf("%q does not find %s", typed, chapter)
		}
	}
	k.fill("guide.find", "chart")
	k.guideList().SelectKey("figures")
	k.picture("guide-found")
}

// TestPicturesOfTheReadMe: each is there and is one of the guide's.
func TestPicturesOfTheReadMe(t *testing.T) {
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`!\[([^]]+)\]\(assets/guide/(\w+)\.png\)`).FindAllStringSubmatch(string(text), -1)
	if len(found) < 4 {
		t.Fatalf("%d pictures", len(found))
	}
	for _, f := range found {
		if _, err := assets.Guide.ReadFile("guide/" + f[2] + ".png"); err != nil {
			t.Errorf("%s: %v", f[1], err)
		}
	}
}
