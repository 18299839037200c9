package parts

import (
	"testing"

	"fyne.io/fyne/v2"
)

// TestASearchNeverTypesOverAField: letters typed on a field that cannot be
// edited look for a row; the second letter must not be typed over the field of
// the row that the first one found, and figures search for nothing.
func TestASearchNeverTypesOverAField(t *testing.T) {
	m, w := newTestMatrix(t, 3, 2)
	var edits []string
	m.OnEdit = func(_, _ int, text string) { edits = append(edits, text) }
	m.SetData(MatrixData{Columns: []Column{{Key: "a"}, {Key: "b"}}, Rows: []Row{
		{Key: "1", Cells: []Cell{{Text: "energy"}, {Text: "710"}}},
		{Key: "2", Cells: []Cell{{Text: "butter"}, {Text: "60 g", Editable: true}}},
		{Key: "3", Cells: []Cell{{Text: "bulgur"}, {Text: "25 g", Editable: true}}},
	}})
	w.Canvas().Focus(m)
	m.Select(0, 1)
	for _, r := range "20 " {
		m.TypedRune(r)
	}
	if row, _ := m.Selected(); row != 0 {
		t.Fatalf("figures went to row %d", row)
	}
	for _, r := range "bul" {
		m.TypedRune(r)
	}
	if row, _ := m.Selected(); row != 2 || len(edits) != 0 || m.editor.Open() {
		t.Fatalf("row %d, edits %q: want bulgur and no edit", row, edits)
	}
	m.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	m.TypedRune('5')
	if !m.editor.Open() {
		t.Fatal("after moving by hand, typing on a field edits it")
	}
}

func TestATableWithoutColumnsIsEmpty(t *testing.T) {
	m := NewMatrix()
	m.Stretch = true
	inWindow(t, fyne.NewSize(400, 200), m)
	m.SetData(MatrixData{})
	if row, col := m.Selected(); row >= 0 || col > 0 {
		t.Errorf("row %d, column %d of nothing are selected", row, col)
	}
}
