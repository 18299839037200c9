// Package sqliteimport holds the import of a published table against the sqlite3
// shell importing the same file:
//
//	go test -run xxx -bench Import ./testdata/floors/sqliteimport
package sqliteimport
