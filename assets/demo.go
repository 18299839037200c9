package assets

import "embed"

// Demo holds the texts of the invented demo book, The Harbour Kitchen: recipes
// as a cook writes them, and for each a plan with its brief, swaps and
// versions. Package recipes/demo reads them.
//
//go:embed demo/*.txt
var Demo embed.FS
