package desk

import (
	"os"
	"path/filepath"
	"testing"
)

func TestFolderListsFoldersFirstAndOnlyWhatFits(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"b.parewell", "a.PAREWELL", "notes.txt", ".hidden.parewell"} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(dir, "z"), 0o700); err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range Folder(dir, ".parewell") {
		names = append(names, e.Name)
	}
	if len(names) != 3 || names[0] != "z" || names[1] != "a.PAREWELL" || names[2] != "b.parewell" {
		t.Errorf("listed %q", names)
	}
	if got := Folder(filepath.Join(dir, "nowhere")); got != nil {
		t.Errorf("a folder that is not there lists %v", got)
	}
}

func TestFullPath(t *testing.T) {
	t.Setenv("HOME", "/home/cook")
	rows := []struct{ name, typed, want string }{
		{"bare name", "supper", "/books/supper.parewell"},
		{"with its ending", "supper.parewell", "/books/supper.parewell"},
		{"absolute", "/tmp/x", "/tmp/x.parewell"},
		{"home", "~/x", "/home/cook/x.parewell"},
		{"spaces around", "  supper  ", "/books/supper.parewell"},
		{"up and over", "../x", "/x.parewell"},
	}
	for _, r := range rows {
		if got := FullPath(r.typed, "/books", ".parewell"); got != r.want {
			t.Errorf("%s: %s, want %s", r.name, got, r.want)
		}
	}
}
