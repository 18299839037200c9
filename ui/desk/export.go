package desk

import (
	"bufio"
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// ExportFile is one file to be written: its name in the folder, with "/" where it
// goes into a folder there, and what writes its content.
type ExportFile struct {
	Name  string
	Write func(io.Writer) error
}

// Export writes files into a folder that is there, each whole or not at all; a
// file of the same name is replaced. It works beside the queue, stops between
// files when ctx ends, and calls progress with 0-1 and then with the paths
// written, both on the window's thread. When one file fails those before it
// stay.
func (d *Desk) Export(ctx context.Context, folder string, files []ExportFile, progress func(share float64), then func(written []string, err error)) {
	go func() {
		var written []string
		var err error
		for i, f := range files {
			if err = ctx.Err(); err != nil {
				err = problem.Wrap(err, folder, words.Say("export.stopped", len(written)), "")
				break
			}
			path := filepath.Join(folder, filepath.FromSlash(f.Name))
			if inside := filepath.Dir(path); inside != filepath.Clean(folder) { // a name may hold one folder more
				err = os.Mkdir(inside, 0o755)
			}
			if err == nil || errors.Is(err, fs.ErrExist) {
				err = writeWhole(path, f.Write)
			}
			if err != nil {
				err = problem.Wrap(err, path, words.Say("export.failed"), words.Say("export.failed.hint"))
				break
			}
			written = append(written, path)
			share := float64(i+1) / float64(len(files))
			d.opts.Post(func() { progress(share) })
		}
		d.opts.Post(func() { then(written, err) })
	}()
}

// writeWhole writes a file beside its place and then puts it there, so that
// nobody ever meets a half-written one.
func writeWhole(path string, write func(io.Writer) error) (err error) {
	t, err := os.CreateTemp(filepath.Dir(path), ".parewell-*")
	if err != nil {
		return err
	}
	defer os.Remove(t.Name()) //nolint:errcheck // gone already when all went well
	buffered := bufio.NewWriter(t)
	if err = write(buffered); err == nil {
		err = buffered.Flush()
	}
	if err == nil {
		err = t.Sync()
	}
	if err == nil {
		err = t.Chmod(0o644)
	}
	if e := t.Close(); err == nil {
		err = e
	}
	if err != nil {
		return err
	}
	return os.Rename(t.Name(), path)
}

// longestName bounds a file name made of a title, in letters.
const longestName = 60

// FileName makes a title fit for a file's name on any disk: letters, digits,
// spaces and dashes; never empty.
func FileName(title string) string {
	var b strings.Builder
	n, gap := 0, false
	for _, r := range title {
		if n == longestName {
			break
		}
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' {
			gap = n > 0
			continue
		}
		if gap {
			b.WriteByte(' ')
			gap = false
		}
		b.WriteRune(r)
		n++
	}
	if b.Len() == 0 {
		return "recipe"
	}
	return b.String()
}
