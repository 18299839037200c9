package recipes

import (
	"testing"
	"time"
)

func release(name, digest, content string, at int) *Release {
	return &Release{
		Source: "usda", Release: name, Name: "USDA table " + name, Foods: 1, Block: "b" + content, Digest: digest, Content: content,
		Imported: time.Date(2026, 3, 4, at, 0, 0, 0, time.UTC),
	}
}

// after is the Book after a verb, which must not be refused.
func after(t *testing.T, b *Book, v Verb) *Book {
	t.Helper()
	c, err := v(b)
	if err != nil {
		t.Fatal(err)
	}
	next, err := b.With(c)
	if err != nil {
		t.Fatal(err)
	}
	return next
}

func TestReleases(t *testing.T) {
	none := NewBook(nil)
	b := after(t, none, ImportRelease(release("sr26", "d", "c", 1)))
	b = after(t, b, ImportRelease(release("sr28", "e", "f", 3)))
	b = after(t, b, ImportRelease(release("sr25", "g", "h", 2)))
	var names string
	for _, r := range b.Releases() {
		names += r.Release + " "
	}
	if names != "sr28 sr25 sr26 " || len(none.Releases()) != 0 { // newest import first
		t.Errorf("%q", names)
	}
	for _, r := range []struct {
		name            string
		release         *Release
		refused, change bool
	}{
		{"the same files", release("sr26", "d", "x", 5), false, false},
		{"the same foods", release("sr26", "x", "c", 5), false, false},
		{"other foods", release("sr26", "x", "x", 5), true, false},
		{"another release", release("sr27", "d", "c", 5), false, true},
	} {
		c, err := ImportRelease(r.release)(b)
		if (err != nil) != r.refused || c.Empty() == r.change {
			t.Errorf("%s: %v, %d edits", r.name, err, len(c.Edits))
		}
	}
	again := NewBook(b.Entities())
	if got := again.Release("usda", "sr25"); got == nil || !Same(got, b.Release("usda", "sr25")) {
		t.Errorf("%+v", got)
	}
	b = after(t, b, RemoveRelease("usda", "sr26"))
	if b.Release("usda", "sr26") != nil || len(b.Releases()) != 2 {
		t.Error("still there")
	}
	if _, err := RemoveRelease("usda", "sr26")(b); err == nil {
		t.Error("removed twice")
	}
	if ref := b.Releases()[0].Of("01001"); ref.String() != "usda/sr28/01001" {
		t.Error(ref)
	}
	if (*Release)(nil).Same(release("a", "b", "c", 1)) || release("a", "b", "c", 1).Same(nil) {
		t.Error("a release is the same as none")
	}
}
