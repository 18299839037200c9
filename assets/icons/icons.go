// Package icons holds the drawings of the window as embedded bytes.
package icons

import "embed"

//go:embed *.svg
var files embed.FS

// SVG returns the bytes of one drawing by name without extension ("swaps"),
// or nil when there is none. Each is 24 by 24 and filled with #000000 only,
// so a caller may recolour it by replacing that one word.
func SVG(name string) []byte {
	b, err := files.ReadFile(name + ".svg")
	if err != nil {
		return nil
	}
	return b
}

// Names lists every drawing, in alphabetical order.
func Names() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		return nil
	}
	names := make([]string, 0, len(entries))
	for _, e := range entries {
		n := e.Name()
		names = append(names, n[:len(n)-len(".svg")])
	}
	return names
}
