package justright

import (
	"testing"

	"parewell/testdata/reference"
)

type object = reference.Object

// read opens a check file of the reference folder and its input.
func read(t *testing.T, name string, input any) *reference.File {
	t.Helper()
	return reference.Sensory(t, name, input)
}
