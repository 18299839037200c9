package sensory

import (
	"math"
	"testing"

	"parewell/testdata/reference"
)

type object = reference.Object

// read opens a check file of the reference folder and its input.
func read(t *testing.T, name string, input any) *reference.File {
	t.Helper()
	return reference.Sensory(t, name, input)
}

// num is nil for what JSON cannot hold.
func num(v float64) any {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return v
}

func pair(l Limits) []any { return []any{num(l.Low), num(l.High)} }
