package workbook

import (
	"context"
	"fmt"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
)

// numbered is a row that knows its rowid.
type numbered interface{ row() int64 }

type bodyRow struct {
	Row  int64  `db:"rowid"`
	Body string `db:"body"`
}

func (r bodyRow) row() int64 { return r.Row }

type blockRow struct {
	Row   int64  `db:"rowid"`
	Hash  string `db:"hash"`
	Kind  string `db:"kind"`
	Bytes []byte `db:"bytes"`
}

func (r blockRow) row() int64 { return r.Row }

func (r entryRow) row() int64 { return r.Seq }

// table reads one table's entities and counts what it speaks of: its keys have
// an index of their own, which may be whole where the table is not.
func (s *salvage) table(ctx context.Context, c *sqlx.Conn, t table) {
	index := indexOf(ctx, c, t)
	rows, broken := rowsOf[bodyRow](ctx, c, string(t.kind), "rowid, body", index)
	read := map[string]bool{}
	for _, r := range rows {
		e, err := recipes.DecodeEntity(t.kind, []byte(r.Body))
		if err != nil || e.Key() == "" {
			broken++
			continue
		}
		if !read[e.Key()] {
			read[e.Key()] = true
			s.entities = append(s.entities, e)
		}
	}
	listed := len(read)
	for _, r := range index {
		if !read[r.Key] {
			listed++
		}
	}
	s.seen[t.kind] = max(listed, len(read)+broken)
}

// keyRow is what the index of a table's key holds of a row.
type keyRow struct {
	Row int64  `db:"rowid"`
	Key string `db:"key"`
}

// indexOf reads the index of a table's key, as far as it goes; SQLite need not
// look at the table for it.
func indexOf(ctx context.Context, c *sqlx.Conn, t table) []keyRow {
	rows, _ := walk[keyRow](ctx, c, fmt.Sprintf("SELECT rowid, %[1]s AS key FROM %[2]s INDEXED BY sqlite_autoindex_%[2]s_1", t.key, t.kind))
	return rows
}

func (s *salvage) readBlocks(ctx context.Context, c *sqlx.Conn) {
	rows, _ := rowsOf[blockRow](ctx, c, "block", "rowid, hash, kind, bytes", nil)
	for _, r := range rows {
		if hashOf(r.Bytes) == r.Hash {
			s.blocks = append(s.blocks, Block{Hash: r.Hash, Kind: r.Kind, Bytes: r.Bytes})
		}
	}
}

func (s *salvage) readNotebook(ctx context.Context, c *sqlx.Conn) {
	rows, _ := rowsOf[entryRow](ctx, c, "history", "seq, at, origin, state, recipe, label", nil)
	for _, r := range rows {
		if _, err := r.entry(); err == nil {
			s.notebook = append(s.notebook, r)
		}
	}
}

// putNotebook writes entries by label alone: nothing in them can be undone.
func putNotebook(ctx context.Context, c *sqlx.Conn, rows []entryRow) error {
	for _, r := range rows {
		if r.State == recipes.HistoryDone {
			r.State = recipes.HistoryKept
		}
		_, err := c.ExecContext(ctx, `INSERT INTO history (seq, at, origin, state, final, recipe, label, touches, changed)
			VALUES (?, ?, ?, ?, 0, ?, ?, '[]', 0)`, r.Seq, r.At, string(r.Origin), string(r.State), r.Recipe, r.Label)
		if err != nil {
			return err
		}
	}
	return nil
}

// gap is how many numbers are tried beyond the last row that could be read.
const gap = 20_000

// rowsOf reads a table forwards until it breaks, then backwards until it
// breaks, then asks one by one for the rows in between and for those an index
// speaks of. broken counts the numbers that answered with an error.
func rowsOf[T numbered](ctx context.Context, c *sqlx.Conn, table, columns string, index []keyRow) (rows []T, broken int) {
	rows, err := walk[T](ctx, c, fmt.Sprintf("SELECT %s FROM %s ORDER BY rowid", columns, table))
	if err == nil {
		return rows, 0
	}
	backward, _ := walk[T](ctx, c, fmt.Sprintf("SELECT %s FROM %s ORDER BY rowid DESC", columns, table))
	read := map[int64]bool{}
	var first int64
	for _, r := range rows {
		read[r.row()], first = true, r.row()
	}
	last := first + gap
	for _, r := range backward {
		if !read[r.row()] {
			rows = append(rows, r)
		}
		read[r.row()], last = true, min(last, r.row())
	}
	try := func(n int64) {
		if read[n] {
			return
		}
		read[n] = true
		one, err := walk[T](ctx, c, fmt.Sprintf("SELECT %s FROM %s WHERE rowid = %d", columns, table, n))
		rows = append(rows, one...)
		if err != nil {
			broken++
		}
	}
	for _, r := range index {
		try(r.Row)
	}
	for n := first + 1; n < last && len(index) == 0; n++ {
		try(n)
	}
	return rows, broken
}

// walk reads rows until the end or the first error.
func walk[T any](ctx context.Context, c *sqlx.Conn, query string) ([]T, error) {
	rows, err := c.QueryxContext(ctx, query)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []T
	for rows.Next() {
		var r T
		if err := rows.StructScan(&r); err != nil {
			return out, err
		}
		out = append(out, r)
	}
	return out, rows.Err()
}
