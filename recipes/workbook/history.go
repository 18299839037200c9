package workbook

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"time"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
)

// undoable is how many changes keep their payload; older ones stay in the
// notebook by label alone.
const undoable = 1000

// History returns the notebook of a recipe, the whole workbook's for an empty
// ID: the newest limit entries (all for 0), oldest first. Label and date stay
// for ever; an entry that was taken back is marked undone.
func (f *File) History(ctx context.Context, recipe recipes.ID, limit int) (out []recipes.HistoryEntry, err error) {
	if limit <= 0 {
		limit = -1 // SQLite's "all"
	}
	err = f.use(func(c *sqlx.Conn) (err error) {
		if recipe == "" {
			out, err = entries(ctx, c, "ORDER BY seq DESC LIMIT ?", limit)
		} else {
			out, err = entries(ctx, c, "WHERE recipe = ? ORDER BY seq DESC LIMIT ?", string(recipe), limit)
		}
		return err
	})
	slices.Reverse(out)
	return out, err
}

// entryRow is a row of history as it is listed.
type entryRow struct {
	Seq    int64                `db:"seq"`
	At     string               `db:"at"`
	Origin recipes.Origin       `db:"origin"`
	State  recipes.HistoryState `db:"state"`
	Recipe *string              `db:"recipe"`
	Label  string               `db:"label"`
}

// entries reads entries of the notebook; rest is WHERE, ORDER and LIMIT.
func entries(ctx context.Context, c *sqlx.Conn, rest string, args ...any) ([]recipes.HistoryEntry, error) {
	var rows []entryRow
	err := c.SelectContext(ctx, &rows, "SELECT seq, at, origin, state, recipe, label FROM history "+rest, args...)
	if err != nil {
		return nil, err
	}
	out := make([]recipes.HistoryEntry, len(rows))
	for i := range rows {
		if out[i], err = rows[i].entry(); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func (r *entryRow) entry() (recipes.HistoryEntry, error) {
	e := recipes.HistoryEntry{Seq: r.Seq, Origin: r.Origin, State: r.State}
	if r.Recipe != nil {
		e.Recipe = recipes.ID(*r.Recipe)
	}
	if err := json.Unmarshal([]byte(r.Label), &e.Label); err != nil {
		return e, err
	}
	at, err := time.Parse(time.RFC3339, r.At)
	if err != nil {
		return e, fmt.Errorf("%w: notebook entry %d: %w", ErrDamaged, r.Seq, err)
	}
	e.At = at
	return e, nil
}

// readEnds reads what undo and redo would take next.
func (s *state) readEnds(ctx context.Context, c *sqlx.Conn) error {
	for _, end := range []struct {
		to   **recipes.HistoryEntry
		rest string
	}{{&s.undo, newestDone}, {&s.redo, lastUndone}} {
		found, err := entries(ctx, c, end.rest)
		if err != nil {
			return err
		}
		*end.to = nil
		if len(found) > 0 {
			*end.to = &found[0]
		}
	}
	return nil
}

// A payload is there exactly while a change can still be undone or redone.
// Undo goes from the newest down, so what was undone last has the lowest seq.
const (
	newestDone = "WHERE state = 'done' AND payload IS NOT NULL ORDER BY seq DESC LIMIT 1"
	lastUndone = "WHERE state = 'undone' AND payload IS NOT NULL ORDER BY seq LIMIT 1"
)

// record adds a change to the notebook. One of the cook's or an import's can be
// undone unless it is final, and ends the chance to redo; a final one keeps no
// payload at all, so that a removed person's details are not kept here.
func (t *turn) record(c recipes.Change, origin recipes.Origin, reached []string) (int64, error) {
	label, err := json.Marshal(c.Label)
	if err != nil {
		return 0, err
	}
	what, err := json.Marshal(reached)
	if err != nil {
		return 0, err
	}
	state, payload := recipes.HistoryKept, any(nil)
	byCook := origin == recipes.ByCook || origin == recipes.ByImport
	if byCook && !c.Final {
		state = recipes.HistoryDone
		if payload, err = encodeEdits(c.Edits); err != nil {
			return 0, err
		}
	}
	if byCook {
		if err := t.forgetUndone(); err != nil {
			return 0, err
		}
	}
	res, err := t.conn.ExecContext(t.ctx, `INSERT INTO history (at, origin, state, final, recipe, label, touches, payload, changed)
		VALUES (?, ?, ?, ?, nullif(?, ''), ?, ?, ?, ?)`,
		t.file.opts.Now().Format(time.RFC3339), string(origin), string(state), c.Final, string(c.Recipe),
		string(label), string(what), payload, t.revision)
	if err != nil {
		return 0, err
	}
	if err := t.letGo(); err != nil {
		return 0, err
	}
	return res.LastInsertId()
}

// forgetUndone ends the chance to redo: the entries stay, marked undone.
func (t *turn) forgetUndone() error {
	_, err := t.conn.ExecContext(t.ctx, "UPDATE history SET payload = NULL, touches = '[]' WHERE state = 'undone' AND payload IS NOT NULL")
	return err
}

// letGo drops the payloads beyond the newest undoable ones.
func (t *turn) letGo() error {
	_, err := t.conn.ExecContext(t.ctx, `UPDATE history SET payload = NULL, touches = '[]', state = 'kept'
		WHERE state = 'done' AND payload IS NOT NULL AND seq <=
		(SELECT seq FROM history WHERE state = 'done' AND payload IS NOT NULL ORDER BY seq DESC LIMIT 1 OFFSET ?)`, undoable)
	return err
}

// encodeEdits writes edits as the JSON of a payload.
func encodeEdits(edits []recipes.Edit) (string, error) {
	var b bytes.Buffer
	b.WriteByte('[')
	for i, e := range edits {
		kind := recipes.Kind("")
		for _, x := range []recipes.Entity{e.Before, e.After} {
			if x != nil {
				kind = x.Kind()
			}
		}
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, `{"kind":%q`, kind)
		for _, side := range []struct {
			name string
			is   recipes.Entity
		}{{"before", e.Before}, {"after", e.After}} {
			if side.is == nil {
				continue
			}
			body, err := recipes.EncodeEntity(side.is)
			if err != nil {
				return "", err
			}
			fmt.Fprintf(&b, `,%q:%s`, side.name, body)
		}
		b.WriteByte('}')
	}
	b.WriteByte(']')
	return b.String(), nil
}

// decodeEdits reads what encodeEdits wrote.
func decodeEdits(payload string) ([]recipes.Edit, error) {
	var stored []struct {
		Kind          recipes.Kind
		Before, After json.RawMessage
	}
	if err := json.Unmarshal([]byte(payload), &stored); err != nil {
		return nil, err
	}
	edits := make([]recipes.Edit, len(stored))
	for i, s := range stored {
		for raw, to := range map[*json.RawMessage]*recipes.Entity{&s.Before: &edits[i].Before, &s.After: &edits[i].After} {
			if *raw == nil {
				continue
			}
			e, err := recipes.DecodeEntity(s.Kind, *raw)
			if err != nil {
				return nil, err
			}
			*to = e
		}
	}
	return edits, nil
}

// touches names what a change reaches: every entity it edits, the recipe or
// tasting each belongs to, and the recipe whose notebook it stands in. Undo
// never goes past a final change that reaches the same.
func touches(before, after *recipes.Book, c recipes.Change) []string {
	r := reach{}
	r.add(recipes.KindOfRecipe, c.Recipe)
	for _, e := range c.Edits {
		for _, side := range []recipes.Entity{e.Before, e.After} {
			if side != nil {
				r.entity(side, before, after)
			}
		}
	}
	return slices.Sorted(maps.Keys(r))
}

// reach is a set of things by kind and key.
type reach map[string]bool

func (r reach) add(k recipes.Kind, id recipes.ID) {
	if id != "" {
		r[string(k)+"/"+string(id)] = true
	}
}

// entity adds an entity and what it belongs to.
func (r reach) entity(e recipes.Entity, books ...*recipes.Book) {
	r.add(e.Kind(), recipes.ID(e.Key()))
	switch x := e.(type) {
	case *recipes.Swap:
		r.add(recipes.KindOfRecipe, x.Recipe)
	case *recipes.Version:
		r.add(recipes.KindOfRecipe, x.Recipe)
	case *recipes.Batch:
		r.add(recipes.KindOfRecipe, x.Recipe)
	case *recipes.Tasting:
		r.add(recipes.KindOfRecipe, x.Recipe)
	case *recipes.Sample:
		r.tasting(x.Tasting, books)
	case *recipes.Serving:
		r.tasting(x.Tasting, books)
	}
}

// tasting adds a tasting and the recipe it tastes.
func (r reach) tasting(id recipes.ID, books []*recipes.Book) {
	r.add(recipes.KindOfTasting, id)
	for _, b := range books {
		for _, t := range b.Tastings() {
			if t.ID == id {
				r.add(recipes.KindOfRecipe, t.Recipe)
			}
		}
	}
}
