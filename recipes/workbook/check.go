package workbook

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Check looks through the whole file and returns what is wrong, nothing when it
// is sound: SQLite's own quick check, links that lead nowhere, rows that cannot
// be read or are not in their regular form, everything a verb would refuse, and
// tables that disagree with what they are made from. err is only for a check
// that could not be made.
func (f *File) Check(ctx context.Context) (found []*problem.Error, err error) {
	err = f.use(func(c *sqlx.Conn) error {
		k := &checking{ctx: ctx, conn: c, path: f.path}
		err := reading(ctx, c, k.all)
		found = k.found
		return err
	})
	return found, err
}

// checking gathers what a check finds.
type checking struct {
	ctx   context.Context
	conn  *sqlx.Conn
	path  string
	found []*problem.Error
}

func (k *checking) add(key string, args ...any) {
	k.found = append(k.found, problem.New(placeOf(k.path), words.Say(key, args...), words.Say("workbook.damaged.hint")))
}

func (k *checking) all() error {
	for _, step := range []func() error{k.file, k.links, k.bodies, k.derived, k.history, k.blocks, k.releases} {
		err := step()
		if code := resultCode(err); err != nil && (code == 0 || busy(err)) {
			return err
		} else if err != nil { // too damaged to look further this way
			k.add("workbook.check.file", err.Error())
		}
	}
	return nil
}

// file has SQLite check its pages.
func (k *checking) file() error {
	var said []string
	if err := k.conn.SelectContext(k.ctx, &said, "PRAGMA quick_check"); err != nil {
		return err
	}
	for _, s := range said {
		if s != "ok" {
			k.add("workbook.check.file", s)
		}
	}
	return nil
}

// links finds rows that refer to rows that are not there.
func (k *checking) links() error {
	var bad []struct {
		Table  string `db:"table"`
		Row    *int64 `db:"rowid"`
		Parent string `db:"parent"`
		FK     int    `db:"fkid"`
	}
	if err := k.conn.SelectContext(k.ctx, &bad, "PRAGMA foreign_key_check"); err != nil {
		return err
	}
	for _, b := range bad {
		k.add("workbook.check.link", b.Table, b.Parent)
	}
	return nil
}

// bodies reads every entity and asks of the Book what every edit is asked.
func (k *checking) bodies() error {
	var entities []recipes.Entity
	have, err := tablesOf(k.ctx, k.conn)
	if err != nil {
		return err
	}
	for _, t := range have {
		var rows []struct{ Key, Body string }
		if err := k.conn.SelectContext(k.ctx, &rows, fmt.Sprintf("SELECT %s AS key, body FROM %s", t.key, t.kind)); err != nil {
			return err
		}
		for _, r := range rows {
			e, err := recipes.DecodeEntity(t.kind, []byte(r.Body))
			if err != nil || e.Key() != r.Key {
				k.add("workbook.check.body", string(t.kind), r.Key)
				continue
			}
			if again, err := recipes.EncodeEntity(e); err != nil || !bytes.Equal(again, []byte(r.Body)) {
				k.add("workbook.check.form", string(t.kind), r.Key)
			}
			entities = append(entities, e)
		}
	}
	for e, err := range Faults(entities) {
		k.add("workbook.check.rule", string(e.Kind()), e.Key(), sentence(err))
	}
	return nil
}

// Faults returns the entities that a Book of all of them would refuse, each
// with what it says.
func Faults(entities []recipes.Entity) map[recipes.Entity]error {
	book := recipes.NewBook(entities)
	all := recipes.Change{}
	for _, e := range entities {
		all.Edits = append(all.Edits, recipes.Edit{Before: e, After: e})
	}
	if _, err := book.With(all); err == nil {
		return nil
	}
	faults := map[recipes.Entity]error{}
	for _, edit := range all.Edits {
		if _, err := book.With(recipes.Change{Edits: []recipes.Edit{edit}}); err != nil {
			faults[edit.After] = err
		}
	}
	return faults
}

// sentence is an error without its place.
func sentence(err error) string {
	var p *problem.Error
	if errors.As(err, &p) {
		return p.What
	}
	return err.Error()
}

// derived compares the tables that triggers keep with what they are made from.
func (k *checking) derived() error {
	for _, d := range []struct{ table, kind, rows, source string }{
		{
			"version_swap", "version", "SELECT version, swap FROM version_swap",
			"SELECT v.id, j.value FROM version v, json_each(v.body, '$.swaps') j WHERE j.value IS NOT NULL",
		},
		{
			"score", "serving", "SELECT serving, attribute, score FROM score",
			"SELECT s.id, j.key, CAST(j.value AS REAL) FROM serving s, json_each(s.body, '$.scores') j WHERE j.value IS NOT NULL",
		},
	} {
		var n int
		q := fmt.Sprintf("SELECT (SELECT count(*) FROM (%[1]s EXCEPT %[2]s)) + (SELECT count(*) FROM (%[2]s EXCEPT %[1]s))", d.rows, d.source)
		if err := k.conn.GetContext(k.ctx, &n, q); err != nil {
			return err
		}
		if n > 0 {
			k.add("workbook.check.rows", d.table, d.kind)
		}
	}
	return nil
}

// history reads every entry of the notebook and every payload.
func (k *checking) history() error {
	var rows []struct {
		entryRow
		Touches string  `db:"touches"`
		Payload *string `db:"payload"`
	}
	err := k.conn.SelectContext(k.ctx, &rows, "SELECT seq, at, origin, state, recipe, label, touches, payload FROM history ORDER BY seq")
	if err != nil {
		return err
	}
	for i := range rows {
		_, err := rows[i].entry()
		if err == nil {
			var reach []string
			err = json.Unmarshal([]byte(rows[i].Touches), &reach)
		}
		if err == nil && rows[i].Payload != nil {
			_, err = decodeEdits(*rows[i].Payload)
		}
		if err != nil {
			k.add("workbook.check.history", int(rows[i].Seq))
		}
	}
	return nil
}

// blocks compares every block with its digest, one at a time.
func (k *checking) blocks() error {
	var hashes []string
	if err := k.conn.SelectContext(k.ctx, &hashes, "SELECT hash FROM block"); err != nil {
		return err
	}
	for _, h := range hashes {
		var b []byte
		if err := k.conn.GetContext(k.ctx, &b, "SELECT bytes FROM block WHERE hash = ?", h); err != nil {
			return err
		}
		if hashOf(b) != h {
			k.add("workbook.check.block", h)
		}
	}
	return nil
}
