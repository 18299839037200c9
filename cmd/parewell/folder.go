package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// listName is the file in which an export keeps what it wrote, so that the next
// one knows which files it may write anew.
const listName = ".parewell-export"

// folder is where an export goes. Its list has a digest for each file an export
// wrote: one that somebody changed since, or made, is never overwritten.
type folder struct {
	path  string
	wrote map[string]string // file name to SHA-256 in hex
}

// readList reads the list; a missing or strange one means nothing was written.
func (f *folder) readList(path string) {
	b, err := os.ReadFile(path)
	if err != nil {
		return
	}
	for line := range strings.Lines(string(b)) {
		digest, name, ok := strings.Cut(strings.TrimRight(line, "\n"), "  ")
		if ok && len(digest) == 2*sha256.Size {
			f.wrote[name] = digest
		}
	}
}

// put writes one file whole, unless something else stands in its place.
func (f *folder) put(name string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	path := filepath.Join(f.path, name)
	if err := f.mayWrite(path, name); err != nil {
		return err
	}
	sum := sha256.Sum256(b.Bytes())
	err := writeWhole(path, func(w io.Writer) error {
		_, err := w.Write(b.Bytes())
		return err
	})
	if err == nil {
		f.wrote[name] = hex.EncodeToString(sum[:])
	}
	return err
}

func (f *folder) mayWrite(path, name string) error {
	old, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fileFault(path, err)
	}
	sum := sha256.Sum256(old)
	if f.wrote[name] != hex.EncodeToString(sum[:]) {
		return problem.New(path, words.Say("cmd.export.changed"), words.Say("cmd.export.changed.hint"))
	}
	return nil
}

// close keeps the list for the next export.
func (f *folder) close() error {
	return writeWhole(filepath.Join(f.path, listName), func(w io.Writer) error {
		for _, name := range slices.Sorted(maps.Keys(f.wrote)) {
			if _, err := fmt.Fprintf(w, "%s  %s\n", f.wrote[name], name); err != nil {
				return err
			}
		}
		return nil
	})
}
