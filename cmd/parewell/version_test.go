package main

import (
	"bytes"
	"fmt"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"parewell/assets"
)

// TestFyneAppAgrees holds the packager's file to what the program says of itself.
func TestFyneAppAgrees(t *testing.T) {
	b, err := os.ReadFile(filepath.Join("..", "..", "FyneApp.toml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		fmt.Sprintf("Name = %q", programName), fmt.Sprintf("ID = %q", programID),
		fmt.Sprintf("Version = %q", version), fmt.Sprintf("Build = %d", build), "fyneDo = true",
	} {
		if !strings.Contains(string(b), want+"\n") {
			t.Errorf("FyneApp.toml lacks %s", want)
		}
	}
}

func TestIconIsSquare(t *testing.T) {
	img, err := png.Decode(bytes.NewReader(assets.Icon))
	if err != nil {
		t.Fatal(err)
	}
	if s := img.Bounds().Size(); s.X != 256 || s.Y != 256 {
		t.Errorf("the icon is %v", s)
	}
	if !bytes.Contains(assets.IconSVG, []byte("<svg")) {
		t.Error("the drawing is no SVG")
	}
}

func TestSlips(t *testing.T) {
	rows := []struct {
		name, a, b string
		want       int
	}{
		{"the same", "compare", "compare", 0},
		{"neighbours swapped", "exprot", "export", 1},
		{"one letter wrong", "compair", "compaie", 1},
		{"one left out", "chek", "check", 1},
		{"one too many", "demoo", "demo", 1},
		{"nothing typed", "", "demo", 4},
		{"letters of two bytes", "légère", "legere", 2},
	}
	for _, r := range rows {
		if got := slips(r.a, r.b); got != r.want {
			t.Errorf("%s: %d, want %d", r.name, got, r.want)
		}
		if back := slips(r.b, r.a); back != r.want {
			t.Errorf("%s, the other way round: %d, want %d", r.name, back, r.want)
		}
	}
}

func TestSafeName(t *testing.T) {
	rows := []struct{ name, title, want string }{
		{"plain", "Beef and bean chilli", "Beef and bean chilli"},
		{"a path", "../../etc/passwd", "etc passwd"},
		{"what file systems refuse", `a\b:c*d?e"f<g>h|i`, "a b c d e f g h i"},
		{"controls", "two\nlines\x00", "two lines"},
		{"nothing left", "...", "recipe"},
		{"very long", strings.Repeat("ö", 200), strings.Repeat("ö", 80)},
	}
	for _, r := range rows {
		if got := safeName(r.title); got != r.want {
			t.Errorf("%s: %q, want %q", r.name, got, r.want)
		}
	}
}
