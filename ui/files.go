package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/measure"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// recipeEndings are the files a recipe may come in.
var recipeEndings = []string{".txt", ".md", ".json", ".jsonld", ".html", ".htm"}

// newWorkbook asks where a new workbook is kept and makes it; then, when given,
// runs once it is open.
func (w *Window) newWorkbook(then func()) {
	w.chooseFile(fileWish{
		title: words.Say("file.new.title"), ok: words.Say("file.new.ok"), name: words.Say("file.new.name"),
		endings: []string{desk.Extension}, save: true,
		then: func(path string) {
			w.desk.Create(path, func(err error) {
				if err != nil {
					w.problemDialog(err)
				} else if then != nil {
					then()
				}
			})
		},
	})
}

func (w *Window) chooseWorkbook() {
	w.chooseFile(fileWish{
		title: words.Say("file.open.title"), ok: words.Say("file.open.ok"),
		endings: []string{desk.Extension}, then: w.openPath,
	})
}

func (w *Window) openPath(path string) {
	w.desk.Open(path, func(err error) { w.Opened(path, err) })
}

// Opened tells how the opening of a workbook went, from the menu, the desktop or
// the command line: a damaged one offers to be recovered.
func (w *Window) Opened(path string, err error) {
	switch {
	case desk.Damaged(err):
		w.offerRecovery(path, err)
	case err != nil:
		w.problemDialog(err)
	}
}

func (w *Window) openDemo() { w.desk.OpenDemo(w.problemDialogOrNil) }

func (w *Window) problemDialogOrNil(err error) {
	if err != nil {
		w.problemDialog(err)
	}
}

// offerRecovery asks whether what is left of a damaged workbook shall be read
// into a new one beside it.
func (w *Window) offerRecovery(path string, err error) {
	name := strings.TrimSuffix(filepath.Base(path), desk.Extension)
	to := filepath.Join(filepath.Dir(path), words.Say("file.recovered.name", name)+desk.Extension)
	parts.Confirm(w.win, words.Say("file.recover.title"), words.Say("file.recover.text", err.Error()),
		words.Say("file.recover.ok"), words.Say("button.cancel"), false, func() {
			w.desk.Rescue(path, to, func(kept, lost int, err error) {
				if err != nil {
					w.problemDialog(err)
					return
				}
				w.status.SetMessage(words.Say("file.recovered", kept, lost))
			})
		})
}

func (w *Window) saveCopy() {
	if w.view.Path == "" {
		return
	}
	w.chooseFile(fileWish{
		title: words.Say("file.copy.title"), ok: words.Say("file.copy.ok"), name: words.Say("file.copy.name", w.view.Name()),
		endings: []string{desk.Extension}, save: true,
		then: func(path string) {
			w.desk.SaveCopy(path, func(err error) {
				if err != nil {
					w.problemDialog(err)
					return
				}
				w.status.SetMessage(words.Say("file.copied", path))
			})
		},
	})
}

// saveEditorCopy writes a copy that says nothing private of anybody.
func (w *Window) saveEditorCopy() {
	if w.view.Path == "" {
		return
	}
	w.chooseFile(fileWish{
		title: words.Say("file.editor.title"), ok: words.Say("file.copy.ok"), name: words.Say("file.editor.name", w.view.Name()),
		endings: []string{desk.Extension}, save: true,
		then: func(path string) {
			w.desk.SaveEditorCopy(path, func(err error) {
				if err != nil {
					w.problemDialog(err)
					return
				}
				w.status.SetMessage(words.Say("file.editor.copied", path))
			})
		},
	})
}

// tablesShown opens the published tables from the menu.
func (w *Window) tablesShown() {
	if w.view.Path != "" {
		w.showTables()
	}
}

// withWorkbook runs then at once when a workbook is open, else asks for one
// first.
func (w *Window) withWorkbook(then func()) {
	if w.view.Path != "" {
		then()
		return
	}
	w.newWorkbook(then)
}

func (w *Window) importFiles() {
	w.chooseFile(fileWish{
		title: words.Say("file.import.title"), ok: words.Say("file.import.ok"), endings: recipeEndings,
		then: func(path string) { w.importPaths([]string{path}) },
	})
}

func (w *Window) importPaths(paths []string) {
	w.withWorkbook(func() {
		w.desk.Import(paths, measure.US, w.newID, func(ids []recipes.ID, err error) {
			switch {
			case err != nil:
				w.problemDialog(err)
			case len(ids) == 1:
				w.goTo(place{page: pageRecipe, recipe: ids[0], tab: tabOriginal})
			default:
				w.goTo(place{page: pageRecipes})
			}
		})
	})
}

// dropped takes files from the desktop: a workbook is opened, all else read as
// recipes.
func (w *Window) dropped(uris []fyne.URI) {
	var others []string
	for _, u := range uris {
		if strings.EqualFold(filepath.Ext(u.Path()), desk.Extension) {
			w.openPath(u.Path())
			return
		}
		others = append(others, u.Path())
	}
	if len(others) > 0 {
		w.importPaths(others)
	}
}
