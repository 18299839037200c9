package tables

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"hash"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/food/portions"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// work is one reading on its way.
type work struct {
	ctx      context.Context
	place    *place
	progress func(done, total int)
	stopped  error // ctx's error, once it has ended

	done, told, total int

	sum    hash.Hash
	foods  []entry
	byCode map[string]int32 // into foods; -1 for a food whose row was bad
	bad    []*problem.Error
	count  Count
	listed int // rows of the file that lists the foods
	parser portions.Parser
	dated  string // newest date of a FoodData Central table
	sorts  map[string]bool
}

// entry is a food on its way, with what only the reading needs.
type entry struct {
	food.Food
	line int
	rank [food.NutrientCount]uint8 // of the figure each value came from, 0 is best
}

// measure adds up the sizes of the files that will be read, for the progress.
func (w *work) measure() error {
	w.sum = sha256.New()
	w.byCode = make(map[string]int32, 10_000)
	w.sorts = map[string]bool{}
	for _, name := range w.place.wanted() {
		st, err := fs.Stat(w.place.fsys, path.Join(w.place.dir, name))
		if err != nil {
			return fault(err, name, "tables.unreadable", reason(err))
		}
		w.total += int(st.Size())
	}
	return w.ctx.Err()
}

// wanted are the files of the layout that are there.
func (at *place) wanted() []string {
	out := []string{at.main}
	var more []string
	switch at.layout {
	case relational:
		more = []string{"fd_group.txt", "nutr_def.txt", "nut_data.txt", "abbrev.txt", "weight.txt"}
	case central:
		more = []string{"nutrient.csv", "food_nutrient.csv", "food_category.csv", "measure_unit.csv", "food_portion.csv"}
	}
	for _, m := range more {
		if name, ok := at.files[m]; ok && name != at.main {
			out = append(out, name)
		}
	}
	return out
}

// tick is how many bytes go by between two looks at the clock of others.
const tick = 64 << 10

// step counts bytes read; now and then it tells how far it is and looks whether
// it should stop.
func (w *work) step(n int) {
	w.done += n
	if w.done-w.told < tick {
		return
	}
	w.told = w.done
	w.stopped = w.ctx.Err()
	if w.progress != nil {
		w.progress(min(w.done, w.total), w.total)
	}
}

// rows are the rows of one file.
type rows struct {
	*lines
	w     *work
	name  string
	sep   byte           // of CSV; 0 for the USDA's ASCII files
	comma bool           // numbers have a decimal comma
	cols  map[string]int // of CSV, by columnKey
	want  int            // fields a row has
	f     []string       // the row's fields
	first int            // its first line
	total int            // rows read
	bad   int            // of those, left out
	file  io.Closer
}

// open begins a file; fields is how many a row of ASCII has, 0 for CSV, whose
// header says it.
func (w *work) open(name string, fields int) (*rows, error) {
	f, err := w.place.fsys.Open(path.Join(w.place.dir, name))
	if err != nil {
		return nil, fault(err, name, "tables.unreadable", reason(err))
	}
	io.WriteString(w.sum, strings.ToLower(name)+"\n") //nolint:errcheck // a hash takes everything
	r := &rows{lines: newLines(w, io.TeeReader(f, w.sum)), w: w, name: name, want: fields, file: f}
	start, _ := r.in.Peek(512)
	if err := isText(name, start); err != nil {
		f.Close() //nolint:errcheck // it was only read
		return nil, err
	}
	if fields == 0 {
		return r, r.header()
	}
	return r, nil
}

// header reads the first line of CSV.
func (r *rows) header() error {
	line, ok := r.next()
	for ok && strings.TrimSpace(line) == "" {
		line, ok = r.next()
	}
	r.sep = separatorOf(line)
	r.comma = r.sep == ';'
	head, end := splitCSV(line, r.sep, nil)
	if !ok || end != closed {
		r.file.Close() //nolint:errcheck // it was only read
		return fault(r.err, r.name, "tables.unknown")
	}
	r.want = len(head)
	r.cols = make(map[string]int, len(head))
	for i, h := range head {
		if key := columnKey(h); key != "" {
			if _, twice := r.cols[key]; !twice {
				r.cols[key] = i
			}
		}
	}
	return nil
}

// column gives the place of a column by any of its names, -1 if it is not there.
func (r *rows) column(keys ...string) int {
	for _, k := range keys {
		if i, ok := r.cols[k]; ok {
			return i
		}
	}
	return -1
}

// line gives the next line that is not blank.
func (r *rows) line() (string, bool) {
	for {
		s, ok := r.lines.next()
		if !ok || strings.TrimSpace(s) != "" {
			return s, ok
		}
	}
}

// row reads the next good row into f; false at the end. A bad one is named and
// passed over.
func (r *rows) row() bool {
	for {
		line, ok := r.line()
		if !ok {
			return false
		}
		r.total++
		r.first = r.at
		if r.lines.long {
			r.fail("tables.bad.long")
			continue
		}
		end := r.split(line)
		if end == open {
			end = r.joined(line)
		}
		switch {
		case end != closed:
			r.fail("tables.bad.quote")
		case len(r.f) < r.want || len(r.f) > r.want && strings.Join(r.f[r.want:], "") != "":
			r.fail("tables.bad.fields", len(r.f), r.want)
		default:
			return true
		}
	}
}

func (r *rows) split(line string) (end ending) {
	if r.sep == 0 {
		r.f, end = splitText(line, r.f[:0])
	} else {
		r.f, end = splitCSV(line, r.sep, r.f[:0])
	}
	return end
}

// mostJoined is how many lines a quotation may go on for.
const mostJoined = 20

// joined reads on while a quotation is open. If it is not closed soon, or gives
// no whole row, only the first line is bad and the others are read afresh.
func (r *rows) joined(line string) ending {
	var read []string
	for len(read) < mostJoined {
		s, ok := r.lines.next()
		if !ok {
			break
		}
		read = append(read, s)
		line += " " + s
		if end := r.split(line); end == closed && len(r.f) == r.want {
			return closed
		} else if end != open {
			break
		}
	}
	r.back(read)
	return broken
}

// fail counts the present row as bad and names it while there are few.
func (r *rows) fail(key string, args ...any) {
	r.bad++
	r.w.note(r.where(), key, args...)
}

// where is the present row.
func (r *rows) where() string { return words.Say("tables.row", r.name, r.first) }

// note keeps a bad row by name while there are few.
func (w *work) note(where, key string, args ...any) {
	if len(w.bad) < MostBad {
		w.bad = append(w.bad, problem.New(where, words.Say(key, args...), ""))
	}
}

// close ends a file: what stopped the reading, or a refusal when more than a
// tenth of its rows are bad.
func (r *rows) close() error {
	r.file.Close() //nolint:errcheck // it was only read
	r.w.count.Rows += r.total
	r.w.count.Bad += r.bad
	if err := r.err; err != nil {
		if errors.Is(err, r.w.stopped) {
			return err
		}
		return fault(err, r.name, "tables.unreadable", reason(err))
	}
	if r.tooBad() {
		p := fault(nil, r.name, "tables.refused", r.bad, r.total)
		if len(r.w.bad) > 0 {
			p.Hint = words.Say("tables.refused.first", r.w.bad[0].Error())
		}
		return p
	}
	return nil
}

func (r *rows) tooBad() bool { return r.bad*10 > r.total }

// cell is a field by its place, "" for a column that is not there.
func (r *rows) cell(i int) string {
	if i < 0 || i >= len(r.f) {
		return ""
	}
	return strings.TrimSpace(r.f[i])
}

// finish gives every food its Ref and puts them in order of their codes.
func (w *work) finish(o Options) (*Import, error) {
	w.count.Left += w.dropEmpty()
	if len(w.foods) == 0 {
		return nil, fault(nil, w.place.main, "tables.no-foods")
	}
	im := &Import{Bad: w.bad, Count: w.count, Digest: hex.EncodeToString(w.sum.Sum(nil))}
	im.Source, im.Release, im.Name = w.named(o.Release)
	im.Foods = make([]*food.Food, len(w.foods))
	for i := range w.foods {
		f := &w.foods[i].Food
		f.Source, f.Release = im.Source, im.Release
		derive(&f.Per100)
		im.Foods[i] = f
	}
	slices.SortFunc(im.Foods, func(a, b *food.Food) int { return strings.Compare(a.Code, b.Code) })
	if w.progress != nil {
		w.progress(w.total, w.total)
	}
	if err := w.ctx.Err(); err != nil {
		return nil, err
	}
	return im, nil
}

// dropEmpty is for tables that list foods without any figure: they would only
// be in the way of a search. It tells how many went.
func (w *work) dropEmpty() int {
	n := len(w.foods)
	w.foods = slices.DeleteFunc(w.foods, func(e entry) bool { return e.Per100.Known == 0 })
	return n - len(w.foods)
}
