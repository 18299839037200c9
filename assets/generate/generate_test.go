package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

// TestSameBytes makes the table again and compares it with the committed one.
func TestSameBytes(t *testing.T) {
	shared := filepath.Join("..", "..", "..", "shared")
	if _, err := os.Stat(shared); err != nil {
		t.Skip("the reference folder is not here; the table cannot be made again")
	}
	src, err := readSources(filepath.Join(shared, "reference"), filepath.Join(shared, "starter"), ".")
	if err != nil {
		t.Fatal(err)
	}
	rows, err := build(src)
	if err != nil {
		t.Fatal(err)
	}
	got, err := encode(rows)
	if err != nil {
		t.Fatal(err)
	}
	want, err := os.ReadFile(filepath.Join("..", "foods.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("assets/foods.csv is not what the lists make; run the generator")
	}
}

func TestPlainAlias(t *testing.T) {
	for _, r := range []struct {
		text, name string
		isClose    bool
	}{
		{" tomato sauce (AU)", "tomato sauce", false},
		{"creme fraiche (close, fattier)", "creme fraiche", true},
		{"sea salt (by weight)", "sea salt", false},
		{"ghee", "ghee", false},
		{"(close)", "", true},
	} {
		if name, isClose := plainAlias(r.text); name != r.name || isClose != r.isClose {
			t.Errorf("%q: %q, close %v", r.text, name, isClose)
		}
	}
}
