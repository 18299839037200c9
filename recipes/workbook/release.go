package workbook

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	_ "embed" // the statement that makes the table
	"encoding/csv"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
)

//go:embed schema_release.sql
var releaseSchema string

// tableKind is the Kind of a block that holds the foods of a release: CSV with a
// header line, compressed with gzip, so that any program can read it.
const tableKind = "table"

// releaseColumns are the columns before the values, which have the stable names
// of package food. Several aliases or measures in one cell are parted by a bar.
var releaseColumns = []string{
	"code", "name", "published", "group", "state", "density", "edible", "swells", "note", "aliases", "measures",
}

// NewRelease makes the entity and the block of an imported table. Source and
// release are those of its foods' Refs; what a published table does not have
// (allergens, core) is not kept. The same foods always have the same content.
func NewRelease(name, digest string, foods []*food.Food, at time.Time) (*recipes.Release, Block, error) {
	if len(foods) == 0 {
		return nil, Block{}, problem.New(name, "a table without foods", "")
	}
	plain := encodeFoods(foods)
	var packed bytes.Buffer
	z, err := gzip.NewWriterLevel(&packed, gzip.BestSpeed)
	if err == nil {
		_, err = z.Write(plain)
	}
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		return nil, Block{}, err
	}
	sum := sha256.Sum256(plain)
	b := NewBlock(tableKind, packed.Bytes())
	return &recipes.Release{
		Source: foods[0].Source, Release: foods[0].Release, Name: name, Foods: len(foods), Block: b.Hash,
		Digest: digest, Content: hex.EncodeToString(sum[:]), Imported: at.UTC().Truncate(time.Second),
	}, b, nil
}

// Release reads the foods of an imported table.
func (f *File) Release(ctx context.Context, r *recipes.Release) ([]*food.Food, error) {
	b, err := f.Block(ctx, r.Block)
	if err != nil {
		return nil, err
	}
	foods, err := decodeFoods(b, r.Source, r.Release)
	if err != nil {
		return nil, damaged(f.path, fmt.Errorf("table %s: %w", r.Key(), err))
	}
	return foods, nil
}

// encodeFoods writes foods as CSV.
func encodeFoods(foods []*food.Food) []byte {
	out := make([]byte, 0, 200*len(foods)+400)
	for _, c := range releaseColumns {
		out = append(append(out, c...), ',')
	}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		out = append(append(out, n.Key()...), ',')
	}
	out[len(out)-1] = '\n'
	for _, f := range foods {
		out = appendFood(out, f)
	}
	return out
}

func appendFood(out []byte, f *food.Food) []byte {
	for _, s := range []string{f.Code, f.Name, f.Published, f.Group, string(f.State)} {
		out = append(appendCell(out, s), ',')
	}
	for _, v := range []float64{f.Density, f.Edible, f.Swells} {
		out = append(appendNumber(out, v, v != 0), ',')
	}
	out = append(appendCell(out, f.Note), ',')
	out = append(appendCell(out, aliasCell(f.Aliases)), ',')
	out = append(appendCell(out, measureCell(f.Measures)), ',')
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		v, known := f.Per100.Get(n)
		if n == food.EnergyKJ && derived(f, v) {
			known = false
		}
		out = append(appendNumber(out, v, known), ',')
	}
	out[len(out)-1] = '\n'
	return out
}

// derived tells whether kJ are only kcal in other words, which need no keeping.
func derived(f *food.Food, kJ float64) bool {
	kcal, known := f.Per100.Get(food.EnergyKcal)
	return known && kJ == kcal*food.KJPerKcal
}

func appendNumber(out []byte, v float64, known bool) []byte {
	if !known {
		return out
	}
	return strconv.AppendFloat(out, v, 'g', -1, 64)
}

func appendCell(out []byte, s string) []byte {
	if !strings.ContainsAny(s, "\",\r\n") && !strings.HasPrefix(s, " ") {
		return append(out, s...)
	}
	out = append(out, '"')
	out = append(out, strings.ReplaceAll(s, `"`, `""`)...)
	return append(out, '"')
}

// escaped keeps the marks that part a cell apart from the same marks in words.
var (
	escaped   = strings.NewReplacer(`\`, `\\`, `|`, `\|`, `=`, `\=`, `;`, `\;`)
	unescaped = strings.NewReplacer(`\\`, `\`, `\|`, `|`, `\=`, `=`, `\;`, `;`)
)

// aliasCell writes "name" or "name=what differs".
func aliasCell(aliases []food.Alias) string {
	if len(aliases) == 0 {
		return ""
	}
	var b strings.Builder
	for i, a := range aliases {
		if i > 0 {
			b.WriteByte('|')
		}
		b.WriteString(escaped.Replace(a.Name))
		if a.Close {
			b.WriteString("=" + escaped.Replace(a.Differs))
		}
	}
	return b.String()
}

// measureCell writes "unit=grams" or "unit;detail=grams".
func measureCell(measures []food.Measure) string {
	if len(measures) == 0 {
		return ""
	}
	var b []byte
	for i, m := range measures {
		if i > 0 {
			b = append(b, '|')
		}
		b = append(b, escaped.Replace(m.Unit)...)
		if m.Detail != "" {
			b = append(append(b, ';'), escaped.Replace(m.Detail)...)
		}
		b = strconv.AppendFloat(append(b, '='), m.Grams, 'g', -1, 64)
	}
	return string(b)
}

// mostUnpacked bounds what a block may unpack to.
const mostUnpacked = 256 << 20

// decodeFoods reads what NewRelease wrote. Columns it does not know, of a newer
// program, are skipped; the values it lacks are unknown.
func decodeFoods(packed []byte, source, release string) ([]*food.Food, error) {
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	rd := csv.NewReader(io.LimitReader(z, mostUnpacked))
	rd.ReuseRecord = true
	head, err := rd.Read()
	if err != nil {
		return nil, err
	}
	at := make([]int, len(releaseColumns))
	for i, c := range releaseColumns {
		if at[i] = slices.Index(head, c); at[i] < 0 {
			return nil, fmt.Errorf("no column %s", c)
		}
	}
	values := make([]int, food.NutrientCount)
	for n := range values {
		values[n] = slices.Index(head, food.Nutrient(n).Key())
	}
	var foods []food.Food
	for {
		rec, err := rd.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		f, err := decodeFood(rec, at, values)
		if err != nil {
			return nil, err
		}
		f.Source, f.Release = source, release
		foods = append(foods, f)
	}
	out := make([]*food.Food, len(foods))
	for i := range foods {
		out[i] = &foods[i]
	}
	return out, nil
}

func decodeFood(rec []string, at, values []int) (f food.Food, err error) {
	f.Code, f.Name, f.Published, f.Group, f.State = rec[at[0]], rec[at[1]], rec[at[2]], rec[at[3]], food.State(rec[at[4]])
	for i, to := range []*float64{&f.Density, &f.Edible, &f.Swells} {
		if cell := rec[at[5+i]]; cell != "" {
			if *to, err = strconv.ParseFloat(cell, 64); err != nil {
				return f, err
			}
		}
	}
	f.Note = rec[at[8]]
	for _, part := range cut(rec[at[9]], '|') {
		a := cut(part, '=')
		if len(a) == 0 {
			return f, fmt.Errorf("aliases %q", rec[at[9]])
		}
		alias := food.Alias{Name: unescaped.Replace(a[0]), Close: len(a) > 1}
		if alias.Close {
			alias.Differs = unescaped.Replace(a[1])
		}
		f.Aliases = append(f.Aliases, alias)
	}
	if f.Measures, err = decodeMeasures(rec[at[10]]); err != nil {
		return f, err
	}
	for n, i := range values {
		if i < 0 || rec[i] == "" {
			continue
		}
		v, err := strconv.ParseFloat(rec[i], 64)
		if err != nil {
			return f, err
		}
		f.Per100.Set(food.Nutrient(n), v)
	}
	if _, known := f.Per100.Get(food.EnergyKJ); !known {
		if kcal, ok := f.Per100.Get(food.EnergyKcal); ok {
			f.Per100.Set(food.EnergyKJ, kcal*food.KJPerKcal)
		}
	}
	return f, nil
}

func decodeMeasures(cell string) ([]food.Measure, error) {
	parts := cut(cell, '|')
	if len(parts) == 0 {
		return nil, nil
	}
	out := make([]food.Measure, 0, len(parts))
	for _, part := range parts {
		what := cut(part, '=')
		if len(what) != 2 {
			return nil, fmt.Errorf("measure %q", part)
		}
		grams, err := strconv.ParseFloat(what[1], 64)
		if err != nil {
			return nil, err
		}
		m := food.Measure{Grams: grams}
		unit := cut(what[0], ';')
		if len(unit) > 0 {
			m.Unit = unescaped.Replace(unit[0])
		}
		if len(unit) > 1 {
			m.Detail = unescaped.Replace(unit[1])
		}
		out = append(out, m)
	}
	return out, nil
}

// cut parts s at every mark that no backslash stands before; none for "".
func cut(s string, mark byte) []string {
	if s == "" {
		return nil
	}
	var out []string
	start := 0
	for i := 0; i < len(s); i++ {
		switch s[i] {
		case '\\':
			i++
		case mark:
			out = append(out, s[start:i])
			start = i + 1
		}
	}
	return append(out, s[start:])
}

// withBlocks returns entities without the releases whose foods are not among the
// blocks: a table that cannot be read is better imported again.
func withBlocks(entities []recipes.Entity, blocks []Block) []recipes.Entity {
	have := map[string]bool{}
	for _, b := range blocks {
		have[b.Hash] = true
	}
	return slices.DeleteFunc(slices.Clone(entities), func(e recipes.Entity) bool {
		r, is := e.(*recipes.Release)
		return is && !have[r.Block]
	})
}

// releases finds imported tables whose foods are not in the file.
func (k *checking) releases() error {
	have, err := tablesOf(k.ctx, k.conn)
	if err != nil || !slices.Contains(have, tableOf(recipes.KindOfRelease)) {
		return err
	}
	var lost []string
	err = k.conn.SelectContext(k.ctx, &lost, "SELECT name FROM release WHERE block NOT IN (SELECT hash FROM block)")
	for _, name := range lost {
		k.add("workbook.check.table", name)
	}
	return err
}
