package workbook

import (
	"context"
	"fmt"

	"github.com/jmoiron/sqlx"

	"parewell/recipes"
)

// table is where one kind of entity is kept.
type table struct {
	kind recipes.Kind // also its name
	key  string       // the column of the entity's Key
	made string       // the statement that makes it with its first row; "" for those every workbook has
}

// tables are all kinds, those that others link to first.
var tables = []table{
	{kind: recipes.KindOfSetting, key: "name"},
	{kind: recipes.KindOfRelease, key: "ref", made: releaseSchema},
	{kind: recipes.KindOfFood, key: "ref"},
	{kind: recipes.KindOfChoice, key: "name"},
	{kind: recipes.KindOfPanelist, key: "id"},
	{kind: recipes.KindOfRecipe, key: "id"},
	{kind: recipes.KindOfSwap, key: "id"},
	{kind: recipes.KindOfVersion, key: "id"},
	{kind: recipes.KindOfBatch, key: "id"},
	{kind: recipes.KindOfTasting, key: "id"},
	{kind: recipes.KindOfSample, key: "id"},
	{kind: recipes.KindOfServing, key: "id"},
	{kind: recipes.KindOfMeal, key: "id"},
}

// tableOf finds the table of a kind; it panics on a kind that has none, which
// the sealed set of entities rules out.
func tableOf(k recipes.Kind) table {
	for _, t := range tables {
		if t.kind == k {
			return t
		}
	}
	panic("workbook: no table for " + string(k))
}

// tablesOf lists the tables that a file has.
func tablesOf(ctx context.Context, c *sqlx.Conn) ([]table, error) {
	var out []table
	for _, t := range tables {
		if t.made != "" {
			var n int
			err := c.GetContext(ctx, &n, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = ?", string(t.kind))
			if err != nil {
				return nil, err
			}
			if n == 0 {
				continue
			}
		}
		out = append(out, t)
	}
	return out, nil
}

// put writes an entity's row, new or over the one of its key.
func (t table) put(ctx context.Context, c *sqlx.Conn, key string, body []byte) error {
	if t.made != "" {
		if _, err := c.ExecContext(ctx, t.made); err != nil {
			return err
		}
	}
	_, err := c.ExecContext(ctx, fmt.Sprintf(
		"INSERT INTO %[1]s (%[2]s, body) VALUES (?, ?) ON CONFLICT (%[2]s) DO UPDATE SET body = excluded.body", t.kind, t.key),
		key, string(body))
	return err
}

// drop removes an entity's row.
func (t table) drop(ctx context.Context, c *sqlx.Conn, key string) error {
	_, err := c.ExecContext(ctx, fmt.Sprintf("DELETE FROM %s WHERE %s = ?", t.kind, t.key), key)
	return err
}

// putAll writes entities, parents and children in any order.
func putAll(ctx context.Context, c *sqlx.Conn, entities []recipes.Entity) error {
	for _, e := range entities {
		body, err := recipes.EncodeEntity(e)
		if err != nil {
			return err
		}
		if err := tableOf(e.Kind()).put(ctx, c, e.Key(), body); err != nil {
			return err
		}
	}
	return nil
}
