//go:build sqlite_fts5

// Package fts is the floor our food search is measured against: the same 8,790
// foods in SQLite's FTS5 with a prefix index, asked the same letters. Run both:
//
//	go test -tags sqlite_fts5 -run xxx -bench FTS ./testdata/floors/fts
//	go test -run xxx -bench NoSlips ./recipes/food
package fts

import (
	"bufio"
	"database/sql"
	"encoding/csv"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	_ "github.com/mattn/go-sqlite3"
)

const reference = "../../../../shared/reference/usda-sr28/ABBREV.csv"

// typed gives every query of the script letter by letter, mistyped ones left
// out: FTS5 cannot answer those.
func typed(b *testing.B) []string {
	f, err := os.Open("typed.txt")
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	var out []string
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		q := strings.TrimSpace(sc.Text())
		if q == "" || strings.HasPrefix(q, "#") || strings.HasPrefix(q, "~") {
			continue
		}
		for i := 1; i <= len(q); i++ {
			out = append(out, q[:i])
		}
	}
	return out
}

// open builds the full-text table in memory, where the database is fastest.
func open(b *testing.B) *sql.DB {
	f, err := os.Open(reference)
	if err != nil {
		b.Skip("the reference folder is not here")
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		b.Fatal(err)
	}
	db, err := sql.Open("sqlite3", ":memory:")
	if err != nil {
		b.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	b.Cleanup(func() { db.Close() })
	must := func(q string, args ...any) {
		if _, err := db.Exec(q, args...); err != nil {
			b.Fatal(err)
		}
	}
	must(`CREATE VIRTUAL TABLE food USING fts5(code UNINDEXED, name, prefix='1 2 3 4', tokenize='unicode61 remove_diacritics 2')`)
	must("BEGIN")
	for _, r := range rows[1:] {
		must("INSERT INTO food(code, name) VALUES (?, ?)", r[0], r[1])
	}
	must("COMMIT")
	must("INSERT INTO food(food) VALUES ('optimize')")
	return db
}

// match writes a query in FTS5's words: all of them, the last as a prefix.
func match(q string) string {
	words := strings.Fields(q)
	for i, w := range words {
		words[i] = `"` + strings.ReplaceAll(w, `"`, "") + `"`
	}
	return strings.Join(words, " ") + "*"
}

// BenchmarkFTS8790 asks for the best 20 by FTS5's own rank.
func BenchmarkFTS8790(b *testing.B) {
	bench(b, "SELECT code, name FROM food WHERE food MATCH ? ORDER BY rank LIMIT 20")
}

// BenchmarkFTS8790Unranked asks for any 20, which spares the database the
// ranking that makes the answer useful.
func BenchmarkFTS8790Unranked(b *testing.B) {
	bench(b, "SELECT code, name FROM food WHERE food MATCH ? LIMIT 20")
}

func bench(b *testing.B, query string) {
	db := open(b)
	stmt, err := db.Prepare(query)
	if err != nil {
		b.Fatal(err)
	}
	defer stmt.Close()
	keys := typed(b)
	var took []time.Duration
	found := 0
	for b.Loop() {
		for _, q := range keys {
			start := time.Now()
			found += ask(b, stmt, match(q))
			took = append(took, time.Since(start))
		}
	}
	if found == 0 {
		b.Fatal("nothing found")
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)/2].Nanoseconds()), "p50-ns/key")
	b.ReportMetric(float64(took[len(took)*99/100].Nanoseconds()), "p99-ns/key")
	b.ReportMetric(float64(len(keys)), "keys/op")
}

func ask(b *testing.B, stmt *sql.Stmt, q string) int {
	rows, err := stmt.Query(q)
	if err != nil {
		b.Fatal(err)
	}
	defer rows.Close()
	n := 0
	for rows.Next() {
		var code, name string
		if err := rows.Scan(&code, &name); err != nil {
			b.Fatal(err)
		}
		n++
	}
	if err := rows.Err(); err != nil {
		b.Fatal(err)
	}
	return n
}
