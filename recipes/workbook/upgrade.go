package workbook

import (
	"context"
	"fmt"
	"strings"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
)

// upgrade brings a workbook of format 1 up to date in one transaction: servings
// may be of whole trays. No entity is written otherwise than before, so what could
// be undone still can.
func upgrade(ctx context.Context, c *sqlx.Conn) (err error) {
	if _, err := c.ExecContext(ctx, "BEGIN IMMEDIATE"); err != nil {
		return err
	}
	defer func() {
		if err != nil {
			c.ExecContext(ctx, "ROLLBACK") //nolint:errcheck // the cause is told; the file is as before either way
		}
	}()
	var format int
	if err := c.GetContext(ctx, &format, "SELECT format FROM meta"); err != nil || format >= Format {
		if err == nil {
			_, err = c.ExecContext(ctx, "COMMIT") // another program was quicker
		}
		return err
	}
	return execAll(
		ctx, c,
		"PRAGMA defer_foreign_keys = ON",
		"DROP VIEW v_scores",
		"CREATE TEMP TABLE kept AS SELECT id, body FROM serving",
		"DROP TABLE score",
		"DROP TABLE serving",
		servingSchema,
		"INSERT INTO serving (id, body) SELECT id, body FROM temp.kept",
		"DROP TABLE temp.kept",
		fmt.Sprintf("UPDATE meta SET format = %d", Format),
		fmt.Sprintf("PRAGMA user_version = %d", Format),
		"COMMIT",
	)
}

// forget takes out of the history what a removal must not leave there: payloads
// of changes that reached a removed person, or the cook's own measures. Labels
// name nobody.
func (t *turn) forget(c recipes.Change) error {
	for _, e := range c.Edits {
		var what string
		switch x := e.Before.(type) {
		case *recipes.Panelist:
			if p, ok := e.After.(*recipes.Panelist); e.After != nil && (!ok || !p.Removed) {
				continue
			}
			what = string(recipes.KindOfPanelist) + "/" + x.Key()
		case *recipes.Setting:
			if e.After != nil || !recipes.Personal(x.Name) {
				continue
			}
			what = string(recipes.KindOfSetting) + "/" + x.Key()
		default:
			continue
		}
		id := what[strings.IndexByte(what, '/')+1:]
		_, err := t.conn.ExecContext(t.ctx, `UPDATE history SET payload = NULL, touches = '[]',
			state = CASE state WHEN 'done' THEN 'kept' ELSE state END
			WHERE payload IS NOT NULL AND (instr(payload, ?) > 0 OR EXISTS (SELECT 1 FROM json_each(touches) WHERE value = ?))`,
			`"`+id+`"`, what)
		if err != nil {
			return err
		}
	}
	return nil
}

// Compact rewrites the file without the room of what was deleted, so that
// nothing of it is left in the file.
func (f *File) Compact(ctx context.Context) error {
	return f.use(func(c *sqlx.Conn) error {
		_, err := c.ExecContext(ctx, "VACUUM")
		return explain(f.path, err)
	})
}
