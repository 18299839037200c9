package assets

import "embed"

// Guide holds the pictures of the guide, guide/NAME.png, of the program's own
// pages with the demo workbook (make shots).
//
//go:embed guide/*.png
var Guide embed.FS
