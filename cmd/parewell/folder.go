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
// wrote: one that somebody changed since, or made, is never overwritten. A file
// stands in the list before it is written, so that an export that was killed
// leaves nothing the next one would not dare to touch.
type folder struct {
	path  string
	wrote map[string][]string // file name to SHA-256 in hex: what may stand there
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
			f.wrote[name] = append(f.wrote[name], digest)
		}
	}
}

// put writes one file whole, unless something else stands in its place.
func (f *folder) put(name string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	sum := sha256.Sum256(b.Bytes())
	digest := hex.EncodeToString(sum[:])
	path := filepath.Join(f.path, name)
	if err := f.mayWrite(path, name, digest); err != nil {
		return err
	}
	if err := f.intend(name, digest); err != nil {
		return f.fault(err)
	}
	err := writeWhole(path, func(w io.Writer) error {
		_, err := w.Write(b.Bytes())
		return err
	})
	if err == nil {
		f.wrote[name] = []string{digest}
	}
	return err
}

// intend puts a file in the list that is about to be written.
func (f *folder) intend(name, digest string) error {
	list, err := os.OpenFile(filepath.Join(f.path, listName), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(list, "%s  %s\n", digest, name)
	return errors.Join(err, list.Close())
}

// fault is one of the folder itself: whoever writes into it knows of no list.
func (f *folder) fault(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return writeFault(filepath.Join(f.path, listName), err)
	}
	return writeFault(f.path, err)
}

func (f *folder) mayWrite(path, name, fresh string) error {
	old, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fileFault(path, err)
	}
	sum := sha256.Sum256(old)
	there := hex.EncodeToString(sum[:])
	if there != fresh && !slices.Contains(f.wrote[name], there) {
		return problem.New(path, words.Say("cmd.export.changed"), words.Say("cmd.export.changed.hint"))
	}
	return nil
}

// end closes the folder and returns what went wrong, the first of it only: a full
// disk is told once.
func (f *folder) end(err error) error {
	if e := f.close(); err == nil {
		err = e
	}
	return err
}

// close keeps the list for the next export, each file once.
func (f *folder) close() error {
	return writeWhole(filepath.Join(f.path, listName), func(w io.Writer) error {
		for _, name := range slices.Sorted(maps.Keys(f.wrote)) {
			for _, digest := range f.wrote[name] {
				if _, err := fmt.Fprintf(w, "%s  %s\n", digest, name); err != nil {
					return err
				}
			}
		}
		return nil
	})
}
