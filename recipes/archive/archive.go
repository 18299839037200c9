// Package archive takes a whole workbook out as plain files and brings it back:
// CSV files that people and other programs read, one JSON file with everything in
// it, and the photos and tables beside it. A workbook that went out and came back
// goes out again as the very same files.
package archive

import (
	"bytes"
	"context"
	"io"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// DataName is the file that Read reads: all else in the folder but the photos
// and tables it names is for people.
const DataName = "workbook.json"

// GuideName is the file that tells people what is in the folder.
const GuideName = "READ ME.txt"

// File is one file of an archive: its name in the folder and what writes it.
type File struct {
	Name  string
	Write func(io.Writer) error
}

// Files lists the files of a workbook's contents, in the order they are to be
// written: what DataName refers to stands before it. people says that the
// contents hold people's details (workbook.File.Contents). The same contents
// always give the same bytes. Which code is which dish in a blind tasting that is
// not closed stands in one list of DataName only, folded up.
func Files(ctx context.Context, c workbook.Contents, people bool) ([]File, error) {
	blocks, err := blockFiles(ctx, c)
	if err != nil {
		return nil, err
	}
	d := newData(c)
	var out []File
	for _, b := range blocks {
		out = append(out, File{b.Name, func(w io.Writer) error {
			bytes, err := c.Read(ctx, b.Hash)
			if err == nil {
				_, err = w.Write(bytes)
			}
			return err
		}})
	}
	for _, s := range sheets {
		out = append(out, File{s.name, func(w io.Writer) error { return s.write(w, d) }})
	}
	return append(out,
		File{GuideName, func(w io.Writer) error { return writeGuide(w, people) }},
		File{DataName, func(w io.Writer) error { return writeData(w, c, blocks, people) }}), nil
}

// blockFile names the file of a block, as DataName lists it.
type blockFile struct {
	Hash string `json:"hash"` // SHA-256 of the file, hex
	Kind string `json:"kind"`
	Name string `json:"name"`
}

// blockFiles gives every block a file name: its kind, its hash and the ending of
// what is in it.
func blockFiles(ctx context.Context, c workbook.Contents) ([]blockFile, error) {
	out := make([]blockFile, 0, len(c.Blocks))
	for _, b := range c.Blocks {
		data, err := c.Read(ctx, b.Hash)
		if err != nil {
			return nil, err
		}
		out = append(out, blockFile{b.Hash, b.Kind, b.Kind + "-" + b.Hash + ending(data)})
	}
	return out, nil
}

// ending is the usual one of a file's sort, by its first bytes (the signatures of
// the PNG, JPEG, GIF, WebP and gzip formats).
func ending(b []byte) string {
	switch {
	case bytes.HasPrefix(b, []byte("\xff\xd8\xff")):
		return ".jpg"
	case bytes.HasPrefix(b, []byte("\x89PNG\r\n\x1a\n")):
		return ".png"
	case bytes.HasPrefix(b, []byte("GIF8")):
		return ".gif"
	case len(b) > 12 && bytes.HasPrefix(b, []byte("RIFF")) && string(b[8:12]) == "WEBP":
		return ".webp"
	case bytes.HasPrefix(b, []byte("\x1f\x8b")):
		return ".csv.gz"
	}
	return ".bin"
}

// kinds are the kinds of entity in the order DataName has them: what others
// refer to stands first.
var kinds = []recipes.Kind{
	recipes.KindOfSetting, recipes.KindOfRelease, recipes.KindOfFood, recipes.KindOfChoice, recipes.KindOfPanelist,
	recipes.KindOfRecipe, recipes.KindOfSwap, recipes.KindOfVersion, recipes.KindOfBatch,
	recipes.KindOfTasting, recipes.KindOfSample, recipes.KindOfServing, recipes.KindOfMeal,
}

// bad is the error of a place in a file of the archive.
func bad(err error, where, key string, args ...any) error {
	hint := ""
	if words.Current().Has(key + ".hint") {
		hint = words.Say(key + ".hint")
	}
	return &problem.Error{Where: where, What: words.Say(key, args...), Hint: hint, Err: err}
}
