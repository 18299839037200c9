// Package fts holds the typed script of the search benchmarks and, under the
// build tag sqlite_fts5, the database they are compared with.
package fts
