package desk

import (
	"bytes"
	"context"
	"errors"
	"image"
	"os"
	"slices"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// PhotoEndings are the files a photo may come in.
var PhotoEndings = []string{".jpg", ".jpeg", ".png", ".webp", ".gif"}

// What is read of a photo and what is kept of it.
const (
	photoBytes  = 64 << 20 // of the largest file
	photoPixels = 120e6    // of the largest picture: more is no camera's
	photoSide   = 2048     // the long side as stored, DESIGN section 3
	photoBlock  = "photo"  // the kind of its block
)

// AddPhoto reads a photo file, keeps it at most 2,048 pixels long and without
// what the camera noted in it, and adds it to a test. It works beside the
// window; then is called on the window's thread. already is true when the test
// had the very same photo: nothing was changed.
func (d *Desk) AddPhoto(recipe, test recipes.ID, path string, then func(already bool, err error)) {
	type read struct {
		block workbook.Block
		err   error
	}
	Background(d, "photo:"+string(test)+path, func(context.Context, *recipes.Book) read {
		data, err := photoFile(path)
		if err != nil {
			return read{err: err}
		}
		small, err := shrinkPhoto(data)
		if err != nil {
			return read{err: problem.Wrap(errors.New("photo"), path, err.Error(), words.Say("photo.hint"))}
		}
		return read{block: workbook.NewBlock(photoBlock, small)}
	}, func(r read) {
		switch t := d.Book().Test(recipe, test); {
		case r.err != nil:
			then(false, r.err)
		case t != nil && slices.Contains(t.Photos, r.block.Hash):
			then(true, nil)
		default:
			d.DoAs(recipes.ByCook, withPhoto(recipe, test, r.block.Hash), func(err error) { then(false, err) }, r.block)
		}
	})
}

// photoFile reads a photo's file; a folder, a missing file and one too large
// for any photo get a sentence each.
func photoFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, problem.Wrap(err, path, words.Say("desk.import.missing"), "")
	case err != nil:
		return nil, problem.Wrap(err, path, words.Say("desk.import.unreadable"), "")
	case info.IsDir():
		return nil, problem.New(path, words.Say("desk.import.folder"), words.Say("photo.folder.hint"))
	case info.Size() > photoBytes:
		return nil, problem.New(path, words.Say("photo.large"), words.Say("photo.large.hint"))
	}
	data, err := os.ReadFile(path)
	return data, problem.Wrap(err, path, words.Say("desk.import.unreadable"), "")
}

// withPhoto adds a photo's hash to a test, once.
func withPhoto(recipe, test recipes.ID, hash string) recipes.Verb {
	return photoVerb("did.add-photo", recipe, test, func(have []string) []string {
		if slices.Contains(have, hash) {
			return have
		}
		return append(slices.Clip(have), hash)
	})
}

// WithoutPhoto takes a photo out of a test; its block stays for undo.
func WithoutPhoto(recipe, test recipes.ID, hash string) recipes.Verb {
	return photoVerb("did.remove-photo", recipe, test, func(have []string) []string {
		return slices.DeleteFunc(slices.Clone(have), func(h string) bool { return h == hash })
	})
}

// photoVerb changes a test's photos; the test may have changed since it was
// asked for, so the newest is taken.
func photoVerb(key string, recipe, test recipes.ID, change func([]string) []string) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t := b.Test(recipe, test)
		if t == nil {
			return recipes.RemoveTest(recipe, test)(b) // says that it is gone
		}
		c := *t
		c.Photos = change(t.Photos)
		letter := words.Minus
		if v := b.Version(recipe, t.Version); v != nil {
			letter = v.Letter
		}
		return recipes.All(words.P(key, t.Number, letter), recipe, recipes.EditTest(&c))(b)
	}
}

// Photo has a stored photo read and fitted into most pixels on its long side;
// then is called on the window's thread.
func (d *Desk) Photo(hash string, most int, then func(image.Image, error)) {
	d.Block(hash, func(data []byte, err error) {
		if err != nil {
			then(nil, err)
			return
		}
		go func() {
			img, _, err := image.Decode(bytes.NewReader(data))
			if err != nil {
				err = problem.Wrap(err, "", words.Say("photo.damaged"), "")
			} else {
				img = fitted(img, most)
			}
			d.opts.Post(func() { then(img, err) })
		}()
	})
}
