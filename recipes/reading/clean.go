package reading

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxLine bounds what is read of one ingredient line; no cook writes more.
const maxLine = 2000

// tidy puts pasted text right: odd spaces, fraction slashes, stray control
// characters, HTML left-overs; spaces are single.
var tidy = strings.NewReplacer(
	"\u00a0", " ", "\u2007", " ", "\u2009", " ", "\u200a", " ", "\u202f", " ", "\u3000", " ", "\t", " ",
	"\u200b", "", "\u200c", "", "\u200d", "", "\ufeff", "", "\u00ad", "", "\ufe0f", "",
	"\u2044", "/", "\u2215", "/", "\u2011", "-", "\u2010", "-", "\u2212", "-", "\uff0c", ",",
	"&amp;", "&", "&nbsp;", " ", "&frac12;", "½", "&frac14;", "¼", "&frac34;", "¾", "&#39;", "'", "&quot;", "\"", "&deg;", "°",
)

// clean returns a line fit for reading: tidied, without a bullet, trimmed.
// Cleaning twice changes nothing more.
func clean(s string) string {
	if len(s) > maxLine {
		s = s[:maxLine]
		for !utf8.ValidString(s) && len(s) > 0 {
			s = s[:len(s)-1]
		}
	}
	s = strings.ToValidUTF8(s, "")
	for {
		next := unbullet(squeeze(tidy.Replace(unpictured(s))))
		if next == s {
			return s
		}
		s = next
	}
}

// squeeze makes every run of spaces and control characters one space.
func squeeze(s string) string {
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsControl(r)
	}), " ")
}

const bullets = "•·*▢☐□■▪◦‣–—-✓✔☑○●►▸+>|_~#"

// unbullet takes list marks off the front and bold marks off both ends.
func unbullet(s string) string {
	s = strings.ReplaceAll(s, "**", "")
	s = strings.ReplaceAll(s, "__", "")
	if rest, ok := strings.CutPrefix(s, "[ ]"); ok {
		s = rest
	}
	if len(s) >= 3 && strings.EqualFold(s[:3], "[x]") {
		s = s[3:]
	}
	t := strings.TrimLeft(s, bullets+" ")
	return strings.TrimSpace(t)
}

// cut removes word from the front of s, in any case, when it ends there;
// spaces after it go too.
func cut(s, word string) (string, bool) {
	if len(s) < len(word) || !strings.EqualFold(s[:len(word)], word) {
		return s, false
	}
	rest := s[len(word):]
	if r, _ := utf8.DecodeRuneInString(rest); rest != "" && (isWordRune(r) || r == '\'') && isWordRune(lastRune(word)) {
		return s, false
	}
	return strings.TrimLeft(rest, " "), true
}

// cutAny removes the first of the words that stands at the front of s.
func cutAny(s string, list ...string) (rest, word string) {
	for _, w := range list {
		if r, ok := cut(s, w); ok {
			return r, w
		}
	}
	return s, ""
}

func lastRune(s string) rune {
	r, _ := utf8.DecodeLastRuneInString(s)
	return r
}

// firstWord returns the first word of s, letters and inner marks, and the rest.
func firstWord(s string) (word, rest string) {
	i := strings.IndexFunc(s, func(r rune) bool {
		return !isWordRune(r) && r != '\'' && r != '’' && r != '-'
	})
	if i < 0 {
		return s, ""
	}
	return s[:i], s[i:]
}

// hasWord tells whether folded text holds the word or phrase as whole words.
func hasWord(text, phrase string) bool {
	for from := 0; ; {
		i := strings.Index(text[from:], phrase)
		if i < 0 {
			return false
		}
		i += from
		end := i + len(phrase)
		before, _ := utf8.DecodeLastRuneInString(text[:i])
		after, _ := utf8.DecodeRuneInString(text[end:])
		if (i == 0 || !isWordRune(before)) && (end == len(text) || !isWordRune(after)) {
			return true
		}
		from = end
	}
}

// hasAny tells whether folded text holds one of the phrases.
func hasAny(text string, phrases ...string) bool {
	for _, p := range phrases {
		if hasWord(text, p) {
			return true
		}
	}
	return false
}
