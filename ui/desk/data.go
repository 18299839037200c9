package desk

import (
	"context"
	"os"

	"parewell/recipes/archive"
	"parewell/recipes/problem"
	"parewell/recipes/workbook"
)

// DataFiles makes the plain files of the whole workbook, with everything about
// people or without, unless ctx ends. The files read the open workbook as they
// are written. then is called on the window's thread.
func (d *Desk) DataFiles(ctx context.Context, people bool, then func([]ExportFile, error)) {
	var out []ExportFile
	d.with(func(err error) { then(out, err) }, func(f *workbook.File) error {
		contents, err := f.Contents(ctx, people)
		if err != nil {
			return err
		}
		files, err := archive.Files(ctx, contents, people)
		if err != nil {
			return err
		}
		for _, x := range files {
			out = append(out, ExportFile{Name: x.Name, Write: x.Write})
		}
		return nil
	})
}

// OpenData makes a new workbook at path, where nothing may be yet, of the plain
// files in a folder and opens it, like Open. When one thing in the folder is
// wrong, or ctx ends, nothing comes in and nothing is left at path.
func (d *Desk) OpenData(ctx context.Context, folder, path string, then func(error)) {
	d.bring(then, func() (*workbook.File, error) {
		contents, err := archive.Read(ctx, os.DirFS(folder))
		if err == nil {
			err = ctx.Err() // stopped, with no photo to be stopped at
		}
		if err != nil {
			return nil, problem.At(folder, err)
		}
		if err := workbook.SaveContents(ctx, path, contents, d.fileOptions()); err != nil {
			return nil, err
		}
		return workbook.Open(path, d.fileOptions())
	})
}
