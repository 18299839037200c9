package parts

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func TestDialogKeys(t *testing.T) {
	tests := []struct {
		name string
		do   func(w fyne.Window, e *Entry)
		want string
		open bool
	}{
		{"enter in the field confirms", func(_ fyne.Window, e *Entry) { test.Type(e, "x"); keys(e, fyne.KeyReturn) }, "ok x", false},
		{"escape in the field closes", func(_ fyne.Window, e *Entry) { keys(e, fyne.KeyEscape) }, "closed", false},
		{"escape in a changed field first restores", func(_ fyne.Window, e *Entry) { test.Type(e, "x"); keys(e, fyne.KeyEscape) }, "", true},
		{"escape with nothing focused", func(w fyne.Window, _ *Entry) {
			w.Canvas().Unfocus()
			w.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
		}, "closed", false},
		{"refused", func(_ fyne.Window, e *Entry) { test.Type(e, "no"); keys(e, fyne.KeyReturn) }, "", true},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			useClock(t)
			w := inWindow(t, fyne.NewSize(800, 600), NewText("page"))
			got := ""
			e := NewEntry("", "Name", nil)
			d := ShowDialog(w, DialogOptions{
				Title: "New version", Content: e, First: e, Confirm: "Make it", Cancel: "Cancel",
				OnOK: func() bool {
					if e.Text == "no" {
						return false
					}
					got = "ok " + e.Text
					return true
				},
				OnClosed: func() { got = "closed" },
			})
			if w.Canvas().Focused() != e {
				t.Fatal("the first field has not the keyboard")
			}
			tt.do(w, e)
			if got != tt.want || (dialogOn(w.Canvas()) == d) != tt.open {
				t.Errorf("got %q, open %v", got, dialogOn(w.Canvas()) == d)
			}
			d.Close()
		})
	}
}

func TestConfirmAndProblem(t *testing.T) {
	useClock(t)
	w := inWindow(t, fyne.NewSize(800, 600), NewText("page"))
	done := false
	Confirm(w, "Remove this taster?", "Her details go for good.", "Remove", "Keep", true, func() { done = true })
	b, ok := w.Canvas().Focused().(*Button)
	if !ok || b.Text() != "Remove" {
		t.Fatalf("focus on %T", w.Canvas().Focused())
	}
	keys(b, fyne.KeyReturn)
	if !done || w.Canvas().Overlays().Top() != nil {
		t.Error("Enter did not confirm")
	}
	ShowProblem(w, "The workbook cannot be opened", "gratin.parewell", "Choose another folder.", "Close")
	w.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Canvas().Overlays().Top() != nil || w.Canvas().OnTypedKey() != nil {
		t.Error("Esc did not close the message, or left its keys behind")
	}
}

func TestChoose(t *testing.T) {
	useClock(t)
	w := inWindow(t, fyne.NewSize(900, 700), NewText("page"))
	items := []Suggestion{{Text: "Leek gratin", Key: "g"}, {Text: "Bean chilli", Key: "c"}, {Text: "Bean stew", Detail: "draft", Key: "s"}}
	open := func() (*chooseEntry, *string) {
		picked := ""
		Choose(w, ChooseOptions{Title: "Open", Choose: "Open", Cancel: "Cancel", Empty: "Nothing like that.", Items: items}, func(s Suggestion) { picked = s.Key })
		e, ok := w.Canvas().Focused().(*chooseEntry)
		if !ok {
			t.Fatalf("focus on %T", w.Canvas().Focused())
		}
		return e, &picked
	}
	e, picked := open()
	test.Type(e, "bean")
	keys(e, fyne.KeyDown, fyne.KeyReturn)
	if *picked != "s" {
		t.Errorf("picked %q, want the second bean", *picked)
	}
	e, picked = open()
	test.Type(e, "zzz")
	keys(e, fyne.KeyReturn)
	if *picked != "" || dialogOn(w.Canvas()) == nil {
		t.Error("something was picked from an empty list")
	}
	keys(e, fyne.KeyEscape)
	if dialogOn(w.Canvas()) != nil {
		t.Error("Esc did not close the list")
	}
}

func TestDialogFieldsFindTheirLayer(t *testing.T) {
	useClock(t)
	w := inWindow(t, fyne.NewSize(800, 600), NewText("page"))
	p := NewPicker([]Suggestion{{Text: "Baking", Key: "b"}}, "", "How", nil)
	d := ShowDialog(w, DialogOptions{Title: "T", Content: p, First: p, Confirm: "OK"})
	keys(p, fyne.KeySpace)
	if p.list == nil || p.list.layer != findLayer(d.overlay, 6) {
		t.Error("the list is not on the dialog's layer")
	}
	d.Close()
}

// TestADialogAsksOnce: a dialog that opens another as it is confirmed goes, and
// the other stays with the keys.
func TestADialogAsksOnce(t *testing.T) {
	useClock(t)
	w := inWindow(t, fyne.NewSize(800, 600), NewText("page"))
	before := w.Canvas().OnTypedKey()
	var second *Dialog
	asked := 0
	first := ShowDialog(w, DialogOptions{Title: "Where", Content: NewText("x"), Confirm: "Save", OnOK: func() bool {
		second = ShowDialog(w, DialogOptions{Title: "Replace?", Content: NewText("y"), Confirm: "Replace", OnOK: func() bool { asked++; return true }})
		return true
	}})
	first.Confirm()
	if top := dialogOn(w.Canvas()); top != second || w.Canvas().Overlays().Top() != second.overlay {
		t.Fatal("the question is gone")
	}
	w.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if asked != 1 || dialogOn(w.Canvas()) != nil || w.Canvas().Overlays().Top() != nil {
		t.Errorf("asked %d times", asked)
	}
	if (w.Canvas().OnTypedKey() == nil) != (before == nil) {
		t.Error("the keys are not where they were")
	}
}
