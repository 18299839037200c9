// Package assets holds the bytes that travel inside the program: published
// facts in our own layout, read by the packages that know their types.
package assets

import _ "embed"

// Foods is the starter food table, a CSV that food.ReadStarter reads. It is
// made by `go run ./assets/generate`; never edit it by hand.
//
//go:embed foods.csv
var Foods []byte
