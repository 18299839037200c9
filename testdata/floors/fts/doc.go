// Package fts holds the typed script of the search benchmarks and, under the
// build tag sqlite_fts5, the database they are compared with.
//
// Measured 25 November 2026, two cores, medians of three interleaved runs, the
// script's 150 queries without slips (1,322 keystrokes over 8,790 foods):
//
//	                        whole script   p50 a key   p99 a key
//	recipes/food Search        28.1 ms       5.5 µs      168 µs
//	FTS5, best 20 by rank       409 ms        73 µs     2,990 µs   14.5 times longer
//	FTS5, any 20 unranked      27.9 ms        17 µs       78 µs    no order, so no answer
//
// With the 50 mistyped queries: 43.9 ms, p50 6.9 µs, p99 186 µs (budget 1 ms).
package fts
