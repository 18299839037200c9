// Package sqliteimport holds the import of a published table against the sqlite3
// shell importing the same file:
//
//	go test -run xxx -bench Import ./testdata/floors/sqliteimport
//
// Measured 25 November 2026, two cores with other work on them, medians of 75
// interleaved turns, the 8,790 foods of USDA SR28 (ABBREV.csv, 2.1 MB) into a new
// file on disk:
//
//	sqlite3 shell, .import --csv            57 ms
//	reading, packing and writing, ours      82 ms   1.43 times (budget 2)
//	parewell foods import, start included   90 ms   1.58 times
package sqliteimport
