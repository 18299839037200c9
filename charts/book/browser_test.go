package book

import (
	"encoding/base64"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"parewell/testdata/chromium"
)

// TestABrowserShowsAndPrintsTheBook opens the whole book in a real browser: at a
// phone's width nothing but what scrolls in its own frame is wider than the phone,
// and a chart stays large enough to read; on paper every recipe begins a page and
// no table of a serving is parted.
func TestABrowserShowsAndPrintsTheBook(t *testing.T) {
	b := chromium.Start(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "book.html")
	m := harbourBook(t, Metric)
	if err := os.WriteFile(path, written(t, m.WriteHTML), 0o600); err != nil {
		t.Fatal(err)
	}
	b.Phone(360, 740, "light")
	b.Do("Page.navigate", map[string]any{"url": "file://" + path})
	b.Until("document.images.length>2&&[...document.images].every(i=>i.complete&&i.naturalWidth>0)")
	if wide := b.Eval("document.documentElement.scrollWidth"); wide != float64(360) {
		t.Errorf("the page is %v wide on a phone of 360", wide)
	}
	if wide, _ := b.Eval("Math.min(...[...document.images].map(i=>i.width))").(float64); wide < 500 {
		t.Errorf("a chart is %v wide on a phone: its letters cannot be read", wide)
	}
	pages := printedPages(t, b, dir)
	for _, p := range m.Pages {
		found := 0
		for _, page := range pages {
			if strings.HasPrefix(page, p.Title+"\n") {
				found++
			}
		}
		if found != 1 {
			t.Errorf("%s begins %d pages", p.Title, found)
		}
	}
	for n, page := range pages {
		if from, to := strings.Count(page, "of which saturates"), strings.Count(page, "\nSalt "); from != to {
			t.Errorf("page %d: %d tables begin and %d end", n+1, from, to)
		}
	}
}

// printedPages are the texts of the pages as they come from a printer.
func printedPages(t *testing.T, b *chromium.Browser, dir string) []string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not installed")
	}
	data, err := base64.StdEncoding.DecodeString(fmt.Sprint(b.Do("Page.printToPDF", map[string]any{"preferCSSPageSize": true})["data"]))
	if err != nil {
		t.Fatal(err)
	}
	look(t, "browser.pdf", data)
	path := filepath.Join(dir, "printed.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(string(out), "\f")
	for i := range pages {
		pages[i] = strings.TrimSpace(pages[i])
	}
	return pages
}
