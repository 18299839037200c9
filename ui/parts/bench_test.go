package parts

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func BenchmarkMatrixUpdateAll(b *testing.B) {
	m := benchMatrix(b)
	sets := [2]MatrixData{figures(30, 8), figures(30, 8)}
	for r := range sets[1].Rows {
		for c := 1; c < len(sets[1].Rows[r].Cells); c++ {
			sets[1].Rows[r].Cells[c].Text = fmt.Sprint(7*r + c)
			sets[1].Rows[r].Cells[c].Sub = fmt.Sprintf("+%d (+%d %%)", c, r)
		}
	}
	i := 0
	for b.Loop() {
		i++
		m.SetData(sets[i%2])
	}
}

func BenchmarkMatrixUpdateOne(b *testing.B) {
	m := benchMatrix(b)
	sets := [2]MatrixData{figures(30, 8), figures(30, 8)}
	sets[1].Rows[7].Cells[3].Text = "999"
	i := 0
	for b.Loop() {
		i++
		m.SetData(sets[i%2])
	}
}

func BenchmarkMatrixBuild(b *testing.B) {
	a := test.NewTempApp(b)
	a.Settings().SetTheme(NewTheme(false, 1))
	w := a.NewWindow("bench")
	defer w.Close()
	w.Resize(fyne.NewSize(1600, 1200))
	for b.Loop() {
		m := NewMatrix()
		m.SetData(figures(30, 8))
		w.SetContent(WithLayer(m))
	}
}

func BenchmarkMatrixScroll(b *testing.B) {
	m := benchMatrix(b)
	m.SetData(figures(5000, 8))
	y := float32(0)
	for b.Loop() {
		y += 40
		if y > 100000 {
			y = 0
		}
		m.SetScroll(fyne.NewPos(0, y))
	}
}

func benchMatrix(b *testing.B) *Matrix {
	b.Helper()
	a := test.NewTempApp(b)
	a.Settings().SetTheme(NewTheme(false, 1))
	w := a.NewWindow("bench")
	b.Cleanup(w.Close)
	m := NewMatrix()
	m.SetData(figures(30, 8))
	w.SetContent(WithLayer(m))
	w.Resize(fyne.NewSize(1600, 1200))
	return m
}

// BenchmarkMatrixFirst builds a table with nothing measured yet, as at the start
// of the program.
func BenchmarkMatrixFirst(b *testing.B) {
	a := test.NewTempApp(b)
	a.Settings().SetTheme(NewTheme(false, 1))
	w := a.NewWindow("bench")
	defer w.Close()
	w.Resize(fyne.NewSize(1600, 1200))
	for b.Loop() {
		faces = map[face]*faceWidths{}
		m := NewMatrix()
		m.SetData(figures(30, 8))
		w.SetContent(WithLayer(m))
	}
}

func BenchmarkMatrixUpdateOneOf5000(b *testing.B) {
	m := benchMatrix(b)
	sets := [2]MatrixData{figures(5000, 8), figures(5000, 8)}
	sets[1].Rows[7].Cells[3].Text = "999"
	i := 0
	for b.Loop() {
		i++
		m.SetData(sets[i%2])
	}
}
