package assets

import _ "embed"

// Swaps is the catalogue of swap ideas, a CSV that ideas.ReadCatalogue reads.
// It is our own and kept by hand: ratios, uses and failures are common
// practice, not published values; a test holds every claim against the table.
//
//go:embed swaps.csv
var Swaps []byte

// Kitchen names families of foods that take the same swaps, and the words by
// which a recipe shows what is done with an ingredient; ideas.ReadCatalogue
// reads it with Swaps.
//
//go:embed kitchen.csv
var Kitchen []byte
