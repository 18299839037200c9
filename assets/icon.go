package assets

import _ "embed"

// Icon is the program's own mark as a PNG of 256 by 256 pixels: a pear with a
// paring lifted off and the notches of a scale.
//
//go:embed icon/parewell-256.png
var Icon []byte

// IconSVG is the same mark as a drawing.
//
//go:embed icon/parewell.svg
var IconSVG []byte
