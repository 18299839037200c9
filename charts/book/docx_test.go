package book

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"parewell/analysis/claims"
	"parewell/charts/manuscript"
)

// wellFormed reads all of an XML document and calls each start of an element.
func wellFormed(t *testing.T, name string, data []byte, each func(xml.StartElement)) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(data))
	d.Strict = true
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Fatalf("%s is not well-formed: %v", name, err)
		}
		if e, ok := tok.(xml.StartElement); ok && each != nil {
			each(e)
		}
	}
}

func attr(e xml.StartElement, local string) string {
	for _, a := range e.Attr {
		if a.Name.Local == local {
			return a.Value
		}
	}
	return ""
}

func unzip(t *testing.T, data []byte) map[string][]byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if out[f.Name], err = io.ReadAll(r); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// TestTheDocumentHoldsTogether: every part is well-formed, every style, list,
// picture and bookmark that is referred to is there, tables have head rows, and
// pictures their text.
func TestTheDocumentHoldsTogether(t *testing.T) {
	m := harbourBook(t, Both)
	parts := unzip(t, written(t, m.WriteDOCX))
	ids := map[string]map[string]bool{"style": {}, "num": {}, "rel": {}, "bookmark": {}}
	for name, data := range parts {
		if strings.HasSuffix(name, ".png") {
			if _, err := png.Decode(bytes.NewReader(data)); err != nil {
				t.Errorf("%s: %v", name, err)
			}
			continue
		}
		wellFormed(t, name, data, func(e xml.StartElement) {
			switch {
			case name == "word/styles.xml" && e.Name.Local == "style":
				ids["style"][attr(e, "styleId")] = true
			case name == "word/numbering.xml" && e.Name.Local == "num":
				ids["num"][attr(e, "numId")] = true
			case name == "word/_rels/document.xml.rels" && e.Name.Local == "Relationship":
				ids["rel"][attr(e, "Id")] = true
				if _, ok := parts["word/"+attr(e, "Target")]; !ok {
					t.Errorf("there is no part %s", attr(e, "Target"))
				}
			case e.Name.Local == "bookmarkStart":
				ids["bookmark"][attr(e, "name")] = true
			}
		})
	}
	count := map[string]int{}
	wellFormed(t, "word/document.xml", parts["word/document.xml"], func(e xml.StartElement) {
		count[e.Name.Local]++
		refers := map[string][2]string{"pStyle": {"style", "val"}, "tblStyle": {"style", "val"}, "numId": {"num", "val"}, "blip": {"rel", "embed"}, "hyperlink": {"bookmark", "anchor"}, "footerReference": {"rel", "id"}}
		if r, ok := refers[e.Name.Local]; ok && !ids[r[0]][attr(e, r[1])] {
			t.Errorf("%s refers to %q, which is not there", e.Name.Local, attr(e, r[1]))
		}
		if e.Name.Local == "docPr" && len(attr(e, "descr")) < 40 {
			t.Errorf("a picture says %q", attr(e, "descr"))
		}
	})
	for _, s := range looks {
		if s.id != styleVersion && !bytes.Contains(parts["word/document.xml"], []byte(`w:val="`+string(s.id)+`"`)) { // one version a recipe
			t.Errorf("nothing is set in %s", s.id)
		}
	}
	if n := count["pageBreakBefore"]; n != len(m.Pages)+len(m.ends()) || count["br"] > 0 {
		t.Errorf("%d titles begin a page of the %d there are; %d breaks could leave one empty", n, len(m.Pages)+len(m.ends()), count["br"])
	}
	if count["tblHeader"] != count["tbl"] || count["tbl"] < 6 || count["drawing"] != 3 {
		t.Errorf("tables, heads and pictures: %v", count)
	}
	for _, want := range []string{"<dc:title>The Harbour Kitchen</dc:title>", "2026-04-01T12:00:00Z"} {
		if !strings.Contains(string(parts["docProps/core.xml"]), want) {
			t.Errorf("properties have no %s", want)
		}
	}
}

// TestAShortTableStaysOnOnePage: every row keeps with the next, the last with the
// note under the table; a long one may be parted.
func TestAShortTableStaysOnOnePage(t *testing.T) {
	for _, row := range []struct{ rows, kept int }{{3, 3}, {keptRows, keptRows}, {keptRows + 1, 0}} {
		d := newDocx("x", manuscript.A4, someDay)
		d.grid(&block{kind: grid, right: []bool{false}, rows: slices.Repeat([][]string{{"salt"}}, row.rows), text: "a note"})
		if err := d.enc.Flush(); err != nil {
			t.Fatal(err)
		}
		if got := strings.Count(d.body.String(), "<w:keepNext>"); got != row.kept {
			t.Errorf("%d of %d rows keep with the next, want %d", got, row.rows, row.kept)
		}
	}
}

// TestAnOfficeOpensIt has an office suite read documents and print them, where
// one is installed.
func TestAnOfficeOpensIt(t *testing.T) {
	office, err := exec.LookPath("soffice")
	if err != nil {
		t.Skip("no office suite (soffice) is installed")
	}
	dir := t.TempDir()
	b := gaps(t)
	hostile, err := PageOf(b, "r", "v", Usual(Both, claims.EU))
	if err != nil {
		t.Fatal(err)
	}
	for name, write := range map[string]func(io.Writer) error{"book": harbourBook(t, Both).WriteDOCX, "marks": docxOf(hostile)} {
		if err := os.WriteFile(filepath.Join(dir, name+".docx"), written(t, write), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command(office, "-env:UserInstallation=file://"+dir+"/profile", "--headless", "--convert-to", "txt:Text", "--outdir", dir, filepath.Join(dir, name+".docx")).CombinedOutput()
		if err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		text, err := os.ReadFile(filepath.Join(dir, name+".txt"))
		if err != nil {
			t.Fatal(err)
		}
		wants := map[string][]string{"book": {"The Harbour Kitchen", "Smoked haddock and leek gratin", kept("½ cup + 2 tbsp"), "Index by ingredient", "of which saturates"}, "marks": {"Cheese & <salt>"}}[name]
		for _, want := range wants {
			if !strings.Contains(string(text), want) {
				t.Errorf("%s has no %q once opened", name, want)
			}
		}
	}
}
