// Package problem holds the one error type that is meant for a person: where
// it happened, what is wrong, and what to do about it.
package problem

import (
	"errors"
	"fmt"
	"strings"
)

// Error is a failure a person can act on. Where names the place (a file and
// line, a cell, a command), What is one plain sentence without a full stop,
// Hint is the mend (may be empty), Err the internal cause (may be nil).
type Error struct {
	Where string
	What  string
	Hint  string
	Err   error
}

// Error joins place, fault and mend in one line.
func (e *Error) Error() string {
	var b strings.Builder
	if e.Where != "" {
		b.WriteString(e.Where)
		b.WriteString(": ")
	}
	b.WriteString(e.What)
	if e.Hint != "" {
		b.WriteString("; ")
		b.WriteString(e.Hint)
	}
	return b.String()
}

// Unwrap returns the internal cause, nil if there is none.
func (e *Error) Unwrap() error { return e.Err }

// New returns an Error with place, fault and mend.
func New(where, what, hint string) *Error {
	return &Error{Where: where, What: what, Hint: hint}
}

// Wrap returns an Error that keeps err as its cause; nil if err is nil.
func Wrap(err error, where, what, hint string) error {
	if err == nil {
		return nil
	}
	return &Error{Where: where, What: what, Hint: hint, Err: err}
}

// At puts a place in front of err: an *Error gets its Where set or extended,
// any other error is wrapped with its own text as the fault. Nil stays nil.
func At(where string, err error) error {
	if err == nil {
		return nil
	}
	var p *Error
	if errors.As(err, &p) {
		q := *p
		if q.Where == "" {
			q.Where = where
		} else {
			q.Where = fmt.Sprintf("%s, %s", where, q.Where)
		}
		return &q
	}
	return &Error{Where: where, What: err.Error(), Err: err}
}
