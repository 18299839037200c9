package tables

import (
	"archive/zip"
	"bufio"
	"errors"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// place is where a table lies and in which layout.
type place struct {
	fsys   fs.FS
	dir    string            // folder in fsys
	files  map[string]string // names in the folder by their lower-case form
	main   string            // the file that lists the foods
	layout layout
	folder string // whole path of the folder
	hint   string // of what was named: its words may tell the release
	closer io.Closer
}

func (at *place) close() {
	if at.closer != nil {
		at.closer.Close() //nolint:errcheck // it was only read
	}
}

// fault makes the error of something that cannot be read at all.
func fault(err error, where, key string, args ...any) *problem.Error {
	hint := ""
	if words.Current().Has(key + ".hint") {
		hint = words.Say(key + ".hint")
	}
	return &problem.Error{Where: where, What: words.Say(key, args...), Hint: hint, Err: err}
}

// locate finds the table a path means.
func locate(name string) (*place, error) {
	st, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fault(err, name, "tables.missing")
	case err != nil:
		return nil, fault(err, name, "tables.unreadable", reason(err))
	}
	full, err := filepath.Abs(name)
	if err != nil {
		full = name
	}
	switch {
	case st.IsDir():
		return locateIn(os.DirFS(name), ".", full)
	case strings.EqualFold(filepath.Ext(name), ".zip"):
		z, err := zip.OpenReader(name)
		if err != nil {
			return nil, fault(err, name, "tables.zip")
		}
		at, err := locateIn(z, ".", strings.TrimSuffix(full, filepath.Ext(full)))
		if err != nil {
			z.Close() //nolint:errcheck // it was only read
			return nil, err
		}
		at.closer = z
		return at, nil
	}
	return locateIn(os.DirFS(filepath.Dir(name)), filepath.Base(name), full)
}

// reason is an error of the file system without the path, which the place says.
func reason(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

// locateIn finds the table called name in fsys: a file of any of the layouts, or
// a folder with such files in it or one or two folders down.
func locateIn(fsys fs.FS, name, hint string) (*place, error) {
	st, err := fs.Stat(fsys, name)
	if err != nil {
		return nil, fault(err, hint, "tables.missing")
	}
	if !st.IsDir() {
		at, err := listed(fsys, path.Dir(name), path.Dir(filepath.ToSlash(hint)))
		if err != nil {
			return nil, err
		}
		at.hint = hint
		return at.byFile(path.Base(name))
	}
	for depth := range 3 {
		for _, dir := range foldersAt(fsys, name, depth) {
			at, err := listed(fsys, dir, path.Join(filepath.ToSlash(hint), dir))
			if err == nil && at.byNames() {
				return at, nil
			}
		}
	}
	return nil, fault(nil, hint, "tables.folder")
}

// foldersAt lists the folders that lie depth below dir, in order of name.
func foldersAt(fsys fs.FS, dir string, depth int) []string {
	if depth == 0 {
		return []string{dir}
	}
	entries, err := fs.ReadDir(fsys, dir)
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		if e.IsDir() && !strings.HasPrefix(e.Name(), ".") {
			out = append(out, foldersAt(fsys, path.Join(dir, e.Name()), depth-1)...)
		}
	}
	return out
}

// listed is a folder with the names of its files; full is its whole path as far
// as it is known.
func listed(fsys fs.FS, dir, full string) (*place, error) {
	entries, err := fs.ReadDir(fsys, dir)
	if err != nil {
		return nil, fault(err, full, "tables.unreadable", reason(err))
	}
	at := &place{fsys: fsys, dir: dir, files: map[string]string{}, folder: full, hint: full}
	for _, e := range entries {
		if !e.IsDir() {
			at.files[strings.ToLower(e.Name())] = e.Name()
		}
	}
	return at, nil
}

// byNames tells from the names of its files which layout a folder holds. The
// relational one comes first: it says more than the abbreviated file beside it.
func (at *place) byNames() bool {
	for _, known := range []struct {
		file   string
		layout layout
	}{{"food_des.txt", relational}, {"food.csv", central}, {"abbrev.csv", abbreviatedCSV}, {"abbrev.txt", abbreviatedText}} {
		if name, ok := at.files[known.file]; ok {
			at.main, at.layout = name, known.layout
			return true
		}
	}
	return false
}

// byFile tells from a file's first line which layout it is of; a file that is
// one of several of a table stands for the folder it is in.
func (at *place) byFile(name string) (*place, error) {
	first, err := at.firstLine(name)
	if err != nil {
		return nil, err
	}
	at.main = name
	switch {
	case strings.HasPrefix(first, "~") && strings.Count(first, "^") == abbreviatedFields-1:
		at.layout = abbreviatedText
	case strings.HasPrefix(first, "~") && at.has("food_des.txt"):
		at.main, at.layout = at.files["food_des.txt"], relational
	case strings.HasPrefix(first, "~") && strings.Count(first, "^") == descriptionFields-1:
		at.files["food_des.txt"], at.layout = name, relational
	default:
		if !at.byHeader(first) {
			return nil, fault(nil, name, "tables.unknown")
		}
	}
	return at, nil
}

// byHeader tells a CSV file from its header line.
func (at *place) byHeader(first string) bool {
	head, end := splitCSV(first, separatorOf(first), nil)
	if end != closed {
		return false
	}
	for i, h := range head {
		head[i] = columnKey(h)
	}
	has := func(key string) bool { return slices.Contains(head, key) }
	switch {
	case has("ndbno") && has("energkcal"):
		at.layout = abbreviatedCSV
	case at.has("food.csv") && (has("fdcid") || has("nutrientnbr")):
		at.main, at.layout = at.files["food.csv"], central
	case has("fdcid") && has("datatype") && has("description"):
		at.files["food.csv"], at.layout = at.main, central
	default:
		return false
	}
	return true
}

func (at *place) has(lower string) bool {
	_, ok := at.files[lower]
	return ok
}

// firstLine reads the first line with anything in it, without a byte-order mark.
func (at *place) firstLine(name string) (string, error) {
	f, err := at.fsys.Open(path.Join(at.dir, name))
	if err != nil {
		return "", fault(err, name, "tables.unreadable", reason(err))
	}
	defer f.Close()
	r := bufio.NewReaderSize(f, 64<<10)
	start, _ := r.Peek(512)
	if err := isText(name, start); err != nil {
		return "", err
	}
	for range 100 {
		line, err := r.ReadSlice('\n')
		s := strings.TrimSpace(strings.TrimPrefix(string(line), mark))
		if s != "" || err != nil {
			return s, nil
		}
	}
	return "", nil
}
