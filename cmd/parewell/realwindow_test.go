//go:build realwindow

package main

import "testing"

func TestRealWindow(t *testing.T) {
	home := t.TempDir()
	book := demoWorkbook(t, home)
	s := newScreen(t, 1280, 800)
	w := s.launch(home, program(t), nil, book).find()
	w.waitFor("Beef and bean chilli")
	w.shot("a")
	for _, o := range w.view().Objects {
		t.Logf("%+v", o)
	}
}
