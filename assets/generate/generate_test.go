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

func TestParseMeasure(t *testing.T) {
	names := nameWords(record{"plain_name": "onion, raw", "aliases": "olives; bagel; thigh"})
	for _, r := range []struct {
		what, unit, detail string
		times              float64
	}{
		{"cup", "cup", "", 1},
		{"cup, chopped", "cup", "chopped", 1},
		{"cup slices", "cup", "slices", 1},
		{"tablespoon", "tbsp", "", 1},
		{"Tbsp", "tbsp", "", 1},
		{"fl oz", "fl oz", "", 1},
		{`pat,  (1" sq, 1/3" high)`, "pat", "", 1},
		{`medium (2-1/2" dia)`, "medium", "", 1},
		{"extra large", "extra large", "", 1},
		{`stalk, medium (7-1/2" - 8" long)`, "stalk", "medium", 1},
		{"olive", "whole", "", 1},
		{"large bagel", "large", "", 1},
		{"thigh with skin", "thigh", "with skin", 1},
		{"cup,  (not packed)", "cup", "not packed", 1},
		{"package (10 oz)", "package", "10 oz", 1},
		{"can, 14.5 oz", "can", "14.5 oz", 1},
		{"serving, 1/2 cup", "cup", "", 0.5},
		{"serving (2 tbsp)", "tbsp", "", 2},
		{"oz", "", "", 1},
		{"NLEA serving", "", "", 1},
		{"cubic inch", "", "", 1},
		{"unit (yield from 1 lb ready-to-cook chicken)", "", "", 1},
		{"", "", "", 1},
	} {
		m := parseMeasure(r.what, names)
		if m.Unit != r.unit || m.Detail != r.detail || m.Grams != r.times {
			t.Errorf("%q: %q %q times %v, want %q %q times %v", r.what, m.Unit, m.Detail, m.Grams, r.unit, r.detail, r.times)
		}
	}
}

func TestLeadingNumber(t *testing.T) {
	for _, r := range []struct {
		text string
		n    float64
		rest string
	}{{"1 tbsp", 1, "tbsp"}, {".5 cup, diced", 0.5, "cup, diced"}, {"10 beans", 10, "beans"}, {"cup", 1, "cup"}, {"0 cup", 1, "0 cup"}, {"", 1, ""}} {
		if n, rest := leadingNumber(r.text); n != r.n || rest != r.rest {
			t.Errorf("%q: %v %q, want %v %q", r.text, n, rest, r.n, r.rest)
		}
	}
}

func TestPlainAlias(t *testing.T) {
	for _, r := range []struct {
		text, name string
		isClose    bool
	}{
		{" tomato sauce (AU)", "tomato sauce", false}, {"creme fraiche (close, fattier)", "creme fraiche", true},
		{"sea salt (by weight)", "sea salt", false}, {"ghee", "ghee", false}, {"(close)", "", true},
	} {
		if name, isClose := plainAlias(r.text); name != r.name || isClose != r.isClose {
			t.Errorf("%q: %q, close %v", r.text, name, isClose)
		}
	}
}
