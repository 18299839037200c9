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
}

// tables are all kinds, those that others link to first.
var tables = []table{
	{recipes.KindOfSetting, "name"},
	{recipes.KindOfRelease, "ref"},
	{recipes.KindOfFood, "ref"},
	{recipes.KindOfChoice, "name"},
	{recipes.KindOfPanelist, "id"},
	{recipes.KindOfRecipe, "id"},
	{recipes.KindOfSwap, "id"},
	{recipes.KindOfVersion, "id"},
	{recipes.KindOfBatch, "id"},
	{recipes.KindOfTasting, "id"},
	{recipes.KindOfSample, "id"},
	{recipes.KindOfServing, "id"},
	{recipes.KindOfMeal, "id"},
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

// put writes an entity's row, new or over the one of its key.
func (t table) put(ctx context.Context, c *sqlx.Conn, key string, body []byte) error {
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
