package workbook

import (
	"encoding/binary"
	"errors"
	"io"
	"io/fs"
	"os"
	"sync"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// What a workbook is called by: the file itself, desktops and other programs.
// They are fixed for ever.
const (
	ApplicationID uint32 = 0x50415245               // bytes 68-71 of the file: "PARE"
	MIMEType             = "application/x-parewell" // what a desktop calls such a file
	Extension            = ".parewell"              // how such a file's name ends
)

// Format is the form this program writes; it is also the file's user_version.
// MinReader is the oldest Format whose program may still read what is written.
// Format 2 has tastings, with answers on whole trays (see upgrade).
const (
	Format    = 2
	MinReader = 1
)

// magic opens every SQLite file (sqlite.org/fileformat2.html, section 1.3).
const magic = "SQLite format 3\x00"

// identify looks at the first bytes of a file without opening it as a
// workbook: what is missing, a folder, empty, of another sort or another
// program's is told here, in a sentence of its own.
func identify(path string) error {
	st, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return say(err, path, "workbook.missing")
	case err != nil:
		return explain(path, err)
	case st.IsDir():
		return say(nil, path, "workbook.folder")
	case st.Size() == 0:
		return say(nil, path, "workbook.empty")
	}
	head, err := head(path)
	if err != nil {
		return explain(path, err)
	}
	if len(head) < 100 || string(head[:16]) != magic {
		return say(nil, path, "workbook.not-one")
	}
	if binary.BigEndian.Uint32(head[68:72]) != ApplicationID {
		return say(nil, path, "workbook.other-program")
	}
	return nil
}

// descriptors keeps files from being opened and closed past SQLite while this
// process holds a lock on one: closing any descriptor of a file drops all its
// locks (sqlite.org/howtocorrupt.html, section 2.2). Acts on a File hold it
// for reading, whoever opens a workbook as plain bytes for writing.
var descriptors sync.RWMutex

// head reads the 100 bytes every SQLite file begins with; fewer if it is shorter.
func head(path string) ([]byte, error) {
	descriptors.Lock()
	defer descriptors.Unlock()
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	b := make([]byte, 100)
	n, err := io.ReadFull(f, b)
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) {
		err = nil
	}
	return b[:n], err
}

// say makes the error a person reads: the sentence and the hint of a key, with
// err as its cause (may be nil).
func say(err error, path, key string, args ...any) error {
	hint := ""
	if words.Current().Has(key + ".hint") {
		hint = words.Say(key+".hint", args...)
	}
	return &problem.Error{Where: placeOf(path), What: words.Say(key, args...), Hint: hint, Err: err}
}
