package workbook

import (
	"context"
	"encoding/binary"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
)

// Recovered is what came out of a damaged workbook.
type Recovered struct {
	Kept map[recipes.Kind]int // entities in the new workbook
	Lost map[recipes.Kind]int // entities that are known to have been there and are not
	// Mended counts entities kept without a part: a version without a lost swap,
	// an ingredient without its lost food.
	Mended int
	Blocks int // photos and tables kept
	Labels int // entries of the notebook kept
}

// TotalLost adds up what was lost.
func (r Recovered) TotalLost() int {
	n := 0
	for _, k := range r.Lost {
		n += k
	}
	return n
}

// Recover reads every row it can of the workbook at bad and writes those that
// make sense together to a new workbook at to, which must be free. The damaged
// file is only read, from a copy, so that nothing here can make it worse. The
// notebook comes along by label; undo starts afresh. It fails only when nothing
// at all could be read or the new file could not be written.
func Recover(ctx context.Context, bad, to string, o Options) (Recovered, error) {
	out := Recovered{Kept: map[recipes.Kind]int{}, Lost: map[recipes.Kind]int{}}
	if err := vacant(to); err != nil {
		return out, err
	}
	patient, err := patientOf(bad, to)
	if err != nil {
		return out, err
	}
	defer os.RemoveAll(filepath.Dir(patient))
	s, err := salvageFrom(ctx, patient)
	if err != nil || len(s.entities)+len(s.notebook) == 0 {
		return out, say(err, bad, "workbook.recover.nothing")
	}
	entities, mended := coherent(withBlocks(s.entities, s.blocks))
	out.Mended = mended
	f, err := createWith(to, o, func(ctx context.Context, c *sqlx.Conn) error {
		out.Blocks, out.Labels = len(s.blocks), len(s.notebook)
		return errors.Join(putAll(ctx, c, entities), putBlocks(ctx, c, s.blocks), putNotebook(ctx, c, s.notebook))
	})
	if err != nil {
		return out, err
	}
	for _, e := range entities {
		out.Kept[e.Kind()]++
	}
	for k, n := range s.seen {
		if lost := n - out.Kept[k]; lost > 0 {
			out.Lost[k] = lost
		}
	}
	return out, f.Close()
}

// patientOf is a copy of the damaged file to work on, in a folder of its own: where
// the system keeps passing files, or beside the new workbook if there is no room or
// no such place.
func patientOf(bad, to string) (patient string, err error) {
	for _, parent := range []string{os.TempDir(), filepath.Dir(to)} {
		var dir string
		if dir, err = os.MkdirTemp(parent, ".parewell-recover-*"); err != nil {
			err = explain(to, err)
			continue
		}
		patient = filepath.Join(dir, "damaged"+Extension)
		if err = copyWithJournal(bad, patient); err == nil {
			err = pad(patient)
		}
		if err == nil {
			return patient, nil
		}
		os.RemoveAll(dir)
		if !isFull(err) {
			return "", explain(bad, err)
		}
		err = explain(to, err)
	}
	return "", err
}

// copyWithJournal copies a file and the journal beside it, if there is one.
func copyWithJournal(from, to string) error {
	descriptors.Lock()
	defer descriptors.Unlock()
	if err := copyFile(from, to); err != nil {
		return err
	}
	if err := copyFile(from+"-journal", to+"-journal"); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// pad lengthens a file that was cut short to the length its header speaks of:
// SQLite then reads the pages that are left and meets the lost ones one by one.
// Page size and count stand at bytes 16 and 28 (sqlite.org/fileformat2.html, 1.3).
func pad(path string) error {
	b, err := head(path)
	if err != nil || len(b) < 100 {
		return err
	}
	size := int64(binary.BigEndian.Uint16(b[16:18]))
	if size == 1 {
		size = 65536
	}
	want := size * int64(binary.BigEndian.Uint32(b[28:32]))
	st, err := os.Stat(path)
	if err != nil || st.Size() >= want || want > maxPadded {
		return err
	}
	return os.Truncate(path, want)
}

// maxPadded bounds what a damaged header can ask for; the lengthened part
// takes no room on disk.
const maxPadded = 8 << 30

func copyFile(from, to string) error {
	r, err := os.Open(from)
	if err != nil {
		return err
	}
	defer r.Close()
	w, err := os.Create(to)
	if err != nil {
		return err
	}
	_, err = io.Copy(w, r)
	return errors.Join(err, w.Close())
}

// salvage is what could be read.
type salvage struct {
	entities []recipes.Entity
	seen     map[recipes.Kind]int // how many rows the file speaks of
	blocks   []Block
	notebook []entryRow
}

// salvageFrom reads every table row by row, past what is damaged.
func salvageFrom(ctx context.Context, path string) (*salvage, error) {
	db, conn, err := dial(ctx, path, "rw")
	if err != nil {
		return nil, err
	}
	defer db.Close()
	defer conn.Close()
	s := &salvage{seen: map[recipes.Kind]int{}}
	have, err := tablesOf(ctx, conn)
	if err != nil {
		have = slices.DeleteFunc(slices.Clone(tables), func(t table) bool { return t.made != "" })
	}
	for _, t := range have {
		s.table(ctx, conn, t)
	}
	s.readBlocks(ctx, conn)
	s.readNotebook(ctx, conn)
	return s, nil
}
