// Package charts turns numbers into figures: a Figure is a drawing prepared
// from a snapshot of data, which can be shown on the screen pixel by pixel,
// written as PNG, TIFF, SVG, PDF or EPS, and read aloud through its text
// alternative. It is the only user of gonum/plot and knows no window.
//
// A new figure is a data struct, a check, and a paint function over the shared
// parts: sheet (text, pixels, inks), frame and gutter (title, rows), panel
// (a gonum plot in data units), bars (with hatches and intervals), grid,
// fitScale (bars and their labels together), and legend. Nothing is drawn with
// colour alone: colour always goes with a marker or a hatch.
package charts
