package desk

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Entry is one thing in a folder.
type Entry struct {
	Name    string
	Folder  bool
	Size    int64
	Changed time.Time
}

// Folder lists a folder for choosing from: folders first, then files with one
// of the endings (all files without any), by name, hidden ones left out. A
// folder that cannot be read lists nothing.
func Folder(dir string, endings ...string) []Entry {
	items, err := os.ReadDir(dir)
	if err != nil {
		return nil
	}
	var out []Entry
	for _, it := range items {
		info, err := os.Stat(filepath.Join(dir, it.Name())) // follows links
		if err != nil || strings.HasPrefix(it.Name(), ".") || !info.IsDir() && !hasEnding(it.Name(), endings) {
			continue
		}
		out = append(out, Entry{Name: it.Name(), Folder: info.IsDir(), Size: info.Size(), Changed: info.ModTime()})
	}
	slices.SortStableFunc(out, func(a, b Entry) int {
		if a.Folder != b.Folder {
			if a.Folder {
				return -1
			}
			return 1
		}
		return strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name))
	})
	return out
}

func hasEnding(name string, endings []string) bool {
	for _, e := range endings {
		if strings.EqualFold(filepath.Ext(name), e) {
			return true
		}
	}
	return len(endings) == 0
}

// MakeFolder makes a folder and those it is in, where they are not there.
func MakeFolder(path string) error {
	if err := os.MkdirAll(path, 0o755); err != nil {
		return problem.Wrap(err, path, words.Say("folder.failed"), words.Say("folder.failed.hint"))
	}
	return nil
}

// Home returns the folder a file dialog opens at when nothing better is known.
func Home() string {
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return string(filepath.Separator)
}

// Exists tells whether something stands at the path, and whether it is a folder.
func Exists(path string) (there, folder bool) {
	info, err := os.Stat(path)
	return err == nil, err == nil && info.IsDir()
}

// FullPath turns what a person typed into a path: ~ is her home, a bare name
// stands in dir, and ending is added where a file has none.
func FullPath(typed, dir, ending string) string {
	typed = strings.TrimSpace(typed)
	if typed == "~" || strings.HasPrefix(typed, "~"+string(filepath.Separator)) {
		typed = filepath.Join(Home(), typed[1:])
	}
	if !filepath.IsAbs(typed) {
		typed = filepath.Join(dir, typed)
	}
	if ending != "" && filepath.Ext(typed) == "" {
		typed += ending
	}
	return filepath.Clean(typed)
}
