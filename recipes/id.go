// Package recipes is the domain: recipes, swaps, versions, tests and tastings
// as plain immutable values, the Book that holds them, and the verbs that
// change a Book. It does no input or output.
package recipes

import (
	"encoding/base32"
	"io"
	"strings"
)

// ID names an entity for ever: 16 characters from 80 random bits. The empty
// ID names nothing.
type ID string

var idEncoding = base32.NewEncoding("abcdefghijkmnpqrstuvwxyz23456789").WithPadding(base32.NoPadding)

// NewID draws an ID from random, which must deliver 10 bytes (crypto/rand in
// the program, a seeded source in tests); it panics if random fails, because
// no entity can be made without one.
func NewID(random io.Reader) ID {
	var b [10]byte
	if _, err := io.ReadFull(random, b[:]); err != nil {
		panic("recipes: no randomness for an id: " + err.Error())
	}
	return ID(idEncoding.EncodeToString(b[:]))
}

// addedLineID gives a line that a swap adds its fixed ID: made from the swap's
// ID, the operation's and the line's position, so that it never changes and no
// other swap can address it.
func addedLineID(swap ID, op, pos int) ID {
	var b strings.Builder
	b.WriteString(string(swap))
	b.WriteByte('.')
	b.WriteByte(byte('a' + op%26))
	if op >= 26 {
		b.WriteByte(byte('a' + op/26))
	}
	b.WriteByte(byte('0' + pos%10))
	if pos >= 10 {
		b.WriteByte(byte('0' + pos/10))
	}
	return ID(b.String())
}
