package parts

// Align says where a cell's text sits.
type Align int

// AlignAuto follows the column (and a column's own default is AlignStart);
// AlignEnd is for numbers, whose digits then line up down the column.
const (
	AlignAuto Align = iota
	AlignStart
	AlignEnd
	AlignCentre
)

// Mark is a small drawing beside a cell's text, always more than a colour.
type Mark int

// The marks: look here, an error, a target met or missed, a value assumed rather
// than measured, an edit still on its way to the disk. VerdictMark gives others.
const (
	MarkNone Mark = iota
	MarkLook
	MarkError
	MarkMet
	MarkMissed
	MarkAssumed
	MarkPending
)

// Tick is the state of a checkbox in a cell.
type Tick int

// TickNone draws no box; TickDisabled a box that cannot be ticked here.
const (
	TickNone Tick = iota
	TickOff
	TickOn
	TickDisabled
)

// Trend says which way a change goes, for the colour of its second run.
type Trend int

// TrendAuto follows the sign of Bar.
const (
	TrendAuto Trend = iota
	TrendNone
	TrendLighter
	TrendHeavier
)

// Cell is one cell of a Matrix; it is comparable, so an update can tell what
// changed.
type Cell struct {
	Text     string
	Sub      string  // second, smaller run in a sub-column of its own
	Bar      float64 // small bar: -1 (far lighter) to 1 (far heavier), 0 none
	Trend    Trend   // colour of Sub
	Align    Align
	Bold     bool
	Muted    bool
	Mark     Mark
	Tick     Tick
	Editable bool
	Struck   bool   // line through the text
	Wrap     bool   // long text takes several lines and the row grows
	Indent   int    // steps of indentation, for parts of something
	EditText string // what editing starts with, when it is not Text
	Tip      string // longer text for the pointer and a detail line
}

// RowKind says how a row looks.
type RowKind int

// RowSection is a band across the table with the first cell's text as its name
// and its Sub at the end; it cannot be selected. RowTotal stands out.
const (
	RowPlain RowKind = iota
	RowSection
	RowTotal
)

// Row is one row. Key tells rows apart when some are added or removed; without
// keys the selection stays at its number.
type Row struct {
	Key   string
	Kind  RowKind
	Cells []Cell
}

// VersionMark puts a version's marker into a header; Index as in VersionColour.
type VersionMark struct {
	Index  int
	Letter string
}

// Sorted says how a column is sorted, drawn as an arrow in its header.
type Sorted int

// SortNone draws nothing.
const (
	SortNone Sorted = iota
	SortUp
	SortDown
)

// Column describes one column; the first one stays in place when the table
// scrolls sideways. Widths are at text factor 1.
type Column struct {
	Key     string
	Title   string
	Sub     string // second line of the header
	Version *VersionMark
	Align   Align
	Min     float32 // 0: 56
	Max     float32 // 0: 300
	Text    bool    // takes spare width, gives some up when space is short
	Sorted  Sorted
	Tip     string
}

// MatrixData is everything a Matrix shows. Rows shorter than the columns are
// filled with empty cells.
type MatrixData struct {
	Columns []Column
	Rows    []Row
	Empty   string // one sentence shown when there are no rows
}

// noCell stands for every cell outside the data; nobody writes to it.
var noCell Cell

// cell returns a cell, an empty one outside the data.
func (d *MatrixData) cell(row, col int) *Cell {
	if row < 0 || row >= len(d.Rows) || col < 0 || col >= len(d.Rows[row].Cells) {
		return &noCell
	}
	return &d.Rows[row].Cells[col]
}

// align resolves where a cell's text sits; row -1 asks for the column.
func (d *MatrixData) align(row, col int) Align {
	if a := d.cell(row, col).Align; a != AlignAuto {
		return a
	}
	if a := d.Columns[col].Align; a != AlignAuto {
		return a
	}
	return AlignStart
}

func (d *MatrixData) selectable(row int) bool {
	return row >= 0 && row < len(d.Rows) && d.Rows[row].Kind != RowSection
}

// sameColumns says whether two tables have the same columns to look at.
func sameColumns(a, b []Column) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		x, y := a[i], b[i]
		vx, vy := x.Version, y.Version
		x.Version, y.Version = nil, nil
		if x != y || (vx == nil) != (vy == nil) || (vx != nil && *vx != *vy) {
			return false
		}
	}
	return true
}

func sameRow(a, b *Row) bool {
	if a.Kind != b.Kind || len(a.Cells) != len(b.Cells) {
		return false
	}
	for i := range a.Cells {
		if a.Cells[i] != b.Cells[i] {
			return false
		}
	}
	return true
}
