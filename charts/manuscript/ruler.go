package manuscript

// Ruler measures and breaks text in its Face. The zero Ruler is ready; it is one
// goroutine's.
type Ruler struct{ typing }

// Width returns how wide a line is set, in points.
func (r *Ruler) Width(text string, size float64, bold bool) float64 {
	return r.width(text, size, bold)
}

// Wrap breaks text into lines no wider than so many points; a word wider than
// that is cut, and a sign the fonts do not have becomes a question mark.
func (r *Ruler) Wrap(text string, size, wide float64, bold bool) []string {
	return r.wrap(text, size, wide, bold)
}

// OneLine cuts text to a width with an ellipsis.
func (r *Ruler) OneLine(text string, size, wide float64, bold bool) string {
	return r.oneLine(text, size, wide, bold)
}
