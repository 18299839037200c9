package sqliteimport

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/food/tables"
	"parewell/recipes/workbook"
)

const reference = "../../../../shared/reference/usda-sr28/ABBREV.csv"

// BenchmarkImport imports the 8,790 foods by turns into a new database with the
// sqlite3 shell and into a new workbook. One op is one turn of both; the figures
// are the medians. Budget: 2 times the shell. With PAREWELL_BINARY the program
// is run too, starting included, as the shell's is.
func BenchmarkImport(b *testing.B) {
	if _, err := os.Stat(reference); err != nil {
		b.Skip("the reference folder is not here")
	}
	shell, err := exec.LookPath("sqlite3")
	if err != nil {
		b.Skip("the sqlite3 shell is not installed")
	}
	program := os.Getenv("PAREWELL_BINARY")
	dir := b.TempDir()
	var theirs, ours, whole []time.Duration
	for b.Loop() {
		db, book := filepath.Join(dir, "floor.db"), filepath.Join(dir, "ours.parewell")
		theirs = append(theirs, took(b, db, func() error {
			return exec.Command(shell, db, ".import --csv "+reference+" food").Run()
		}))
		ours = append(ours, took(b, book, func() error { return importInto(book) }))
		if program != "" {
			whole = append(whole, took(b, book, func() error {
				return exec.Command(program, "foods", "import", book, reference).Run()
			}))
		}
	}
	b.ReportMetric(0, "ns/op")
	b.ReportMetric(ms(theirs), "sqlite3-ms")
	b.ReportMetric(ms(ours), "parewell-ms")
	b.ReportMetric(ms(ours)/ms(theirs), "x-sqlite3")
	if program != "" {
		b.ReportMetric(ms(whole), "program-ms")
		b.ReportMetric(ms(whole)/ms(theirs), "program-x-sqlite3")
	}
}

// importInto reads the table and takes it into a new workbook, on disk when it
// returns.
func importInto(path string) error {
	im, err := tables.Read(context.Background(), reference, tables.Options{})
	if err != nil {
		return err
	}
	r, block, err := workbook.NewRelease(im.Name, im.Digest, im.Foods, time.Now())
	if err != nil {
		return err
	}
	f, err := workbook.Create(path, workbook.Options{})
	if err != nil {
		return err
	}
	defer f.Close()
	_, err = f.Apply(context.Background(), recipes.ImportRelease(r), recipes.ByImport, block)
	return err
}

// took times act, which writes a file that is not there before nor after.
func took(b *testing.B, file string, act func() error) time.Duration {
	b.Helper()
	start := time.Now()
	if err := act(); err != nil {
		b.Fatal(err)
	}
	d := time.Since(start)
	if err := os.Remove(file); err != nil {
		b.Fatal(err)
	}
	return d
}

func ms(all []time.Duration) float64 {
	slices.Sort(all)
	return float64(all[len(all)/2].Microseconds()) / 1000
}
