package book

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"

	"parewell/recipes/words"
)

// usualScores are the questions the program itself offers, by the key of their
// name. What the cook asked in words of her own stays as she wrote it.
var usualScores = []string{"overall", "flavour", "texture", "appearance", "aroma", "saltiness", "sweetness"}

// scoreName is what a question is called in the language in use, where it is one
// the program offers.
func scoreName(asked string) string {
	for _, k := range usualScores {
		for _, code := range []string{"en", "fr"} {
			if l := words.Find(code); l != nil && strings.EqualFold(asked, l.Say("book.score."+k)) {
				return words.Say("book.score." + k)
			}
		}
	}
	return asked
}

// The most letters of a recipe's title and of what a figure shows in the name of
// its files.
const longTitle, longKind = 40, 48

// FileName is what the files of the figure are called without their endings:
// recipe, version, number and what it shows, in plain small letters, digits and
// hyphens ("leek-gratin-b-03-energy-swap-by-swap").
func (f *Figure) FileName() string {
	parts := []string{plainWords(f.Recipe, longTitle)}
	if parts[0] == "" {
		parts[0] = plainWords(words.Say("book.file.none"), longTitle)
	}
	if letter := plainWords(f.Version, longTitle); letter != "" {
		parts = append(parts, letter)
	}
	parts = append(parts, fmt.Sprintf("%02d", f.Number))
	if kind := plainWords(f.Name, longKind); kind != "" {
		parts = append(parts, kind)
	}
	return strings.Join(parts, "-")
}

// spelt are letters that no accent comes off from.
var spelt = strings.NewReplacer("œ", "oe", "æ", "ae", "ß", "ss", "ø", "o", "ł", "l", "đ", "d", "ð", "d", "þ", "th", "ı", "i")

// plainWords writes a text in a to z, 0 to 9 and hyphens, whole words of it up to
// most letters.
func plainWords(text string, most int) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(spelt.Replace(strings.ToLower(text))) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case !unicode.Is(unicode.Mn, r):
			b.WriteByte(' ')
		}
	}
	out := ""
	for _, w := range strings.Fields(b.String()) {
		if out != "" && len(out)+1+len(w) > most {
			break
		}
		out = strings.TrimPrefix(out+"-"+w[:min(len(w), most)], "-")
	}
	return out
}
