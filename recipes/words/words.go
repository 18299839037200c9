// Package words holds every sentence a person reads, by key with arguments
// and plurals, and the only formatter of numbers, signs, units, dates and
// fractions. A language is a set of text files of "key = sentence" lines.
package words

import (
	"embed"
	"fmt"
	"io/fs"
	"strconv"
	"strings"
	"sync/atomic"
)

//go:embed en/*.txt fr/*.txt
var files embed.FS

// Phrase is a sentence not yet put into words: a key and its arguments. It can
// be stored and said later in another language.
type Phrase struct {
	Key  string   `json:"key"`
	Args []string `json:"args,omitempty"`
}

// P makes a Phrase; arguments are put down as text.
func P(key string, args ...any) Phrase {
	p := Phrase{Key: key}
	for _, a := range args {
		p.Args = append(p.Args, plain(a))
	}
	return p
}

// String says the phrase in the current language.
func (p Phrase) String() string {
	args := make([]any, len(p.Args))
	for i, a := range p.Args {
		args[i] = a
	}
	return Say(p.Key, args...)
}

// Language is one set of sentences. Number words follow its rules.
type Language struct {
	Code      string // "en"
	Name      string // in the language itself
	sentences map[string]string
	fallback  *Language           // says what this one lacks
	Decimal   string              // "." or ","
	Thousands string              // between groups of three digits
	one       func(float64) bool  // which counts take the singular
	hold      func(string) string // puts no-break spaces into a sentence; nil: none
}

var current atomic.Pointer[Language]

func init() { current.Store(loaded[0]) }

// Current returns the language in use.
func Current() *Language { return current.Load() }

// Use makes l the language in use.
func Use(l *Language) { current.Store(l) }

// load reads a language's CODE/*.txt of fsys: "key = sentence" lines, # comments,
// blank lines.
func load(fsys fs.FS, as Language) (*Language, error) {
	l := &as
	l.sentences = map[string]string{}
	names, err := fs.Glob(fsys, l.Code+"/*.txt")
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		b, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, err
		}
		if err := l.read(name, string(b)); err != nil {
			return nil, err
		}
	}
	return l, nil
}

// read adds the sentences of one file; a key given twice is an error.
func (l *Language) read(name, text string) error {
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		key, sentence, ok := strings.Cut(line, "=")
		key, sentence = strings.TrimSpace(key), strings.TrimSpace(sentence)
		if !ok || key == "" {
			return fmt.Errorf("%s:%d: want key = sentence", name, i+1)
		}
		if _, twice := l.sentences[key]; twice {
			return fmt.Errorf("%s:%d: %s is given twice", name, i+1, key)
		}
		sentence = strings.ReplaceAll(sentence, `\n`, "\n")
		if l.hold != nil {
			sentence = l.hold(sentence)
		}
		l.sentences[key] = sentence
	}
	return nil
}

// Has tells whether the key has a sentence, here or where l falls back.
func (l *Language) Has(key string) bool {
	_, ok := l.sentences[key]
	return ok || l.fallback != nil && l.fallback.Has(key)
}

// Say returns the sentence of key in the current language with {0}, {1} ...
// replaced by args. Where "key#one" exists it is used when the first argument is
// a count that takes the singular: exactly one in English. An unknown key is returned itself, in brackets, so that
// it shows in a test and never crashes.
func Say(key string, args ...any) string { return Current().Say(key, args...) }

// Say is the same in language l, falling back where l lacks the key.
func (l *Language) Say(key string, args ...any) string {
	s, ok := l.pick(key, args)
	if !ok {
		if l.fallback != nil {
			return l.fallback.Say(key, args...)
		}
		return "[" + key + "]"
	}
	if !strings.Contains(s, "{") {
		return s
	}
	pairs := make([]string, 0, 2*len(args))
	for i, a := range args {
		pairs = append(pairs, "{"+strconv.Itoa(i)+"}", plain(a))
	}
	return strings.NewReplacer(pairs...).Replace(s)
}

func (l *Language) pick(key string, args []any) (string, bool) {
	if s, ok := l.sentences[key+"#one"]; ok && len(args) > 0 {
		if v, counted := l.counts(plain(args[0])); counted && l.one(v) {
			return s, true
		}
	}
	s, ok := l.sentences[key]
	return s, ok
}

// plain puts an argument into text: whole numbers without decimals.
func plain(a any) string {
	switch v := a.(type) {
	case string:
		return v
	case int:
		return strconv.Itoa(v)
	case float64:
		return Trim(v, 2)
	case Phrase:
		return v.String()
	}
	return fmt.Sprint(a)
}
