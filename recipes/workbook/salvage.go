package workbook

import (
	"context"
	"fmt"
	"slices"

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
	rows, broken := rowsOf[bodyRow](ctx, c, string(t.kind), "rowid, body")
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
	for _, k := range keysOf(ctx, c, t) {
		if !read[k] {
			listed++
		}
	}
	s.seen[t.kind] = max(listed, len(read)+broken)
}

// keysOf reads the keys an index of a table's holds, as far as it goes.
func keysOf(ctx context.Context, c *sqlx.Conn, t table) []string {
	var keys []string
	rows, err := c.QueryxContext(ctx, fmt.Sprintf("SELECT %[1]s FROM %[2]s INDEXED BY sqlite_autoindex_%[2]s_1", t.key, t.kind))
	if err != nil {
		return nil
	}
	defer rows.Close()
	for rows.Next() {
		var k string
		if rows.Scan(&k) != nil {
			break
		}
		keys = append(keys, k)
	}
	return keys
}

func (s *salvage) readBlocks(ctx context.Context, c *sqlx.Conn) {
	rows, _ := rowsOf[blockRow](ctx, c, "block", "rowid, hash, kind, bytes")
	for _, r := range rows {
		if hashOf(r.Bytes) == r.Hash {
			s.blocks = append(s.blocks, Block{Hash: r.Hash, Kind: r.Kind, Bytes: r.Bytes})
		}
	}
}

func (s *salvage) readNotebook(ctx context.Context, c *sqlx.Conn) {
	rows, _ := rowsOf[entryRow](ctx, c, "history", "seq, at, origin, state, recipe, label")
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

// gap is how many missing rows are asked for one by one.
const gap = 200_000

// rowsOf reads a table forwards until it breaks, then backwards until it
// breaks, then asks for every row in between by number. broken counts the
// numbers that answered with an error.
func rowsOf[T numbered](ctx context.Context, c *sqlx.Conn, table, columns string) (rows []T, broken int) {
	rows, err := walk[T](ctx, c, fmt.Sprintf("SELECT %s FROM %s ORDER BY rowid", columns, table))
	if err == nil {
		return rows, 0
	}
	backward, _ := walk[T](ctx, c, fmt.Sprintf("SELECT %s FROM %s ORDER BY rowid DESC", columns, table))
	slices.Reverse(backward)
	var first int64
	if n := len(rows); n > 0 {
		first = rows[n-1].row()
	}
	last := first + gap
	if len(backward) > 0 {
		last = min(last, backward[0].row())
	}
	for i := first + 1; i < last; i++ {
		one, err := walk[T](ctx, c, fmt.Sprintf("SELECT %s FROM %s WHERE rowid = %d", columns, table, i))
		rows = append(rows, one...)
		if err != nil {
			broken++
		}
	}
	for _, r := range backward {
		if r.row() > first {
			rows = append(rows, r)
		}
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
