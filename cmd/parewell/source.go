package main

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"unicode/utf8"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// maxSource is the longest recipe file that is read, bytes: far more than any
// recipe, little enough to be read whole.
const maxSource = 16 << 20

// readSource returns the text of a recipe file; "-" is standard input. What
// cannot be a recipe (a folder, nothing, a picture) is refused by name.
func readSource(name string, in io.Reader) ([]byte, error) {
	if name == "-" {
		b, err := readText(in)
		return b, problem.At(placeName(name), err)
	}
	if err := mustBeFile(name); err != nil {
		return nil, err
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, fileFault(name, err)
	}
	defer f.Close()
	b, err := readText(f)
	return b, problem.At(name, err)
}

// placeName is what messages call a recipe file.
func placeName(name string) string {
	if name == "-" {
		return words.Say("cmd.stdin")
	}
	return name
}

// readText reads all of r and makes sure that it is text.
func readText(r io.Reader) ([]byte, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxSource+1))
	switch {
	case err != nil:
		return nil, err
	case len(b) > maxSource:
		return nil, problem.New("", words.Say("cmd.too-long"), "")
	case len(bytes.TrimSpace(b)) == 0:
		return nil, problem.New("", words.Say("cmd.empty"), words.Say("cmd.empty.hint"))
	case !isText(b):
		return nil, problem.New("", words.Say("cmd.binary"), words.Say("cmd.binary.hint"))
	}
	return b, nil
}

// isText tells text from pictures, programs and the like by their zero bytes;
// UTF-16, which has them too, is known by its first two.
func isText(b []byte) bool {
	if bytes.HasPrefix(b, []byte{0xff, 0xfe}) || bytes.HasPrefix(b, []byte{0xfe, 0xff}) {
		return true
	}
	if bytes.IndexByte(b, 0) >= 0 {
		return false
	}
	return utf8.Valid(b) || !manyControls(b)
}

// manyControls tells whether more than one byte in a hundred is a control
// character that no text has.
func manyControls(b []byte) bool {
	n := 0
	for _, c := range b {
		if c < ' ' && c != '\t' && c != '\n' && c != '\r' && c != '\f' {
			n++
		}
	}
	return n*100 > len(b)
}

// mustBeFile refuses a name that is missing or a folder.
func mustBeFile(name string) error {
	st, err := os.Stat(name)
	switch {
	case err != nil:
		return fileFault(name, err)
	case st.IsDir():
		return problem.New(name, words.Say("cmd.folder"), words.Say("cmd.folder.hint"))
	}
	return nil
}

// fileFault says in plain words why a file cannot be used.
func fileFault(name string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return problem.Wrap(err, name, words.Say("cmd.missing"), words.Say("cmd.missing.hint"))
	case errors.Is(err, fs.ErrPermission):
		return problem.Wrap(err, name, words.Say("cmd.not-allowed"), "")
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return problem.Wrap(err, name, words.Say("cmd.disk-full"), words.Say("cmd.disk-full.hint"))
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return problem.Wrap(err, name, err.Error(), "")
}

// writeFault says in plain words why something cannot be written, and where to
// write instead. A folder that is gone is named itself.
func writeFault(name string, err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return problem.Wrap(err, filepath.Dir(name), words.Say("cmd.folder-gone"), words.Say("cmd.folder-gone.hint"))
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return problem.Wrap(err, name, words.Say("cmd.not-written"), words.Say("cmd.not-written.hint"))
	}
	return fileFault(name, err)
}

// writeWhole has write fill a file of a passing name and gives it its name once
// it is complete on disk: nobody ever sees half of it.
func writeWhole(name string, write func(io.Writer) error) error {
	t, err := os.CreateTemp(filepath.Dir(name), ".parewell-*.part")
	if err != nil {
		return writeFault(name, err)
	}
	defer os.Remove(t.Name())
	err = write(t)
	err = errors.Join(err, t.Chmod(0o644), t.Sync(), t.Close())
	if err == nil {
		err = os.Rename(t.Name(), name)
	}
	var p *problem.Error
	if err == nil || errors.As(err, &p) {
		return err
	}
	return writeFault(name, err)
}
