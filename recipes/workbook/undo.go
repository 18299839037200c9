package workbook

import (
	"context"
	"errors"

	"parewell/recipes"
)

// Undo takes back the newest change of the cook or of an import that still
// can be. It refuses with a sentence, changing nothing, when there is none,
// when something it touched has changed since, and when a final change
// (serving, a taster's scores, closing, removing a person) reached the same
// recipe or tasting after it; and when another program made a newer change that
// this File had not seen, since nobody who asked meant that one. Label is that of
// the change taken back.
func (f *File) Undo(ctx context.Context) (Applied, error) {
	meant := f.now.Load().undo
	return f.write(ctx, func(t *turn) error {
		if t.undo == nil {
			return say(nil, "", "workbook.nothing-to-undo")
		}
		if meant == nil || meant.Seq != t.undo.Seq {
			return say(nil, "", "workbook.undo.arrived", t.undo.Label.String())
		}
		return t.turnBack(t.undo, recipes.HistoryUndone)
	})
}

// Redo does again what Undo took back last, unless the cook has changed
// something else since. It refuses like Undo.
func (f *File) Redo(ctx context.Context) (Applied, error) {
	return f.write(ctx, func(t *turn) error {
		if t.redo == nil {
			return say(nil, "", "workbook.nothing-to-redo")
		}
		return t.turnBack(t.redo, recipes.HistoryDone)
	})
}

// turnBack moves an entry to another state: undone by the inverse of its
// edits, done by the edits themselves.
func (t *turn) turnBack(entry *recipes.HistoryEntry, to recipes.HistoryState) error {
	if err := t.mayCross(entry, to); err != nil {
		return err
	}
	var payload string
	if err := t.conn.GetContext(t.ctx, &payload, "SELECT payload FROM history WHERE seq = ?", entry.Seq); err != nil {
		return err
	}
	edits, err := decodeEdits(payload)
	if err != nil {
		return err
	}
	change := recipes.Change{Label: entry.Label, Recipe: entry.Recipe, Edits: edits}
	if to == recipes.HistoryUndone {
		change = change.Inverse()
	}
	if err := t.edit(change); err != nil {
		if errors.Is(err, recipes.ErrChangedSince) {
			return say(err, "", key(to, "changed-since"), entry.Label.String())
		}
		return err
	}
	_, err = t.conn.ExecContext(t.ctx, "UPDATE history SET state = ?, changed = ? WHERE seq = ?", string(to), t.revision, entry.Seq)
	t.out.Seq, t.out.Label = entry.Seq, entry.Label
	return err
}

// mayCross refuses to go past a final change that reached the same things
// after the entry was last done or undone.
func (t *turn) mayCross(entry *recipes.HistoryEntry, to recipes.HistoryState) error {
	found, err := entries(t.ctx, t.conn, `WHERE final = 1
		AND changed > (SELECT changed FROM history WHERE seq = ?)
		AND EXISTS (SELECT 1 FROM json_each(history.touches) WHERE value IN
			(SELECT j.value FROM history h, json_each(h.touches) j WHERE h.seq = ?))
		ORDER BY changed LIMIT 1`, entry.Seq, entry.Seq)
	if err != nil || len(found) == 0 {
		return err
	}
	return say(nil, "", key(to, "final"), entry.Label.String(), found[0].Label.String())
}

// key picks the sentence for undo or redo.
func key(to recipes.HistoryState, what string) string {
	if to == recipes.HistoryUndone {
		return "workbook.undo." + what
	}
	return "workbook.redo." + what
}
