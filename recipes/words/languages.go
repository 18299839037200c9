package words

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// LanguageVariable names the environment variable that chooses the language
// for commands, and for the window before its user's own choice.
const LanguageVariable = "PAREWELL_LANGUAGE"

// noBreak is a space at which no line ends.
const noBreak = "\u00a0"

// spoken are the languages there are sentences in, English first: it has all
// of them, the others those that were translated. Number marks: French groups
// digits by a space and parts decimals by a comma (Imprimerie nationale's usage;
// from memory).
var spoken = []Language{
	{Code: "en", Name: "English", Decimal: ".", Thousands: ",", one: oneExactly},
	{Code: "fr", Name: "Français", Decimal: ",", Thousands: noBreak, one: oneBelowTwo, hold: holdFrench},
}

// The marks that French sets off from words by a space, at which no line ends
// (Imprimerie nationale's usage; from memory).
var (
	beforeMark = regexp.MustCompile(` ([:;?!»])`)
	afterMark  = regexp.MustCompile(`« `)
	beforeSign = regexp.MustCompile(`([0-9}]) %`)
)

// holdFrench keeps each mark of a sentence on the line of its word.
func holdFrench(sentence string) string {
	sentence = beforeMark.ReplaceAllString(sentence, noBreak+"$1")
	sentence = afterMark.ReplaceAllString(sentence, "«"+noBreak)
	return beforeSign.ReplaceAllString(sentence, "$1"+noBreak+"%")
}

// oneExactly is the English plural rule: one, and all else is many.
func oneExactly(v float64) bool { return v == 1 }

// oneBelowTwo is the French rule: nought and one and a half are singular too
// (Unicode CLDR plural rules, fr: one for 0 and 1 by the whole part).
func oneBelowTwo(v float64) bool { return v < 2 }

// loaded are the languages by their place in spoken.
var loaded = loadAll()

// loadAll reads every language; the files are embedded at build time, so a
// fault in them is a programmer's and stops the program.
func loadAll() []*Language {
	var out []*Language
	for i := range spoken {
		l, err := load(files, spoken[i])
		if err != nil {
			panic(err)
		}
		if i > 0 {
			l.fallback = out[0]
		}
		out = append(out, l)
	}
	return out
}

// Languages returns the languages there are, English first.
func Languages() []*Language { return slices.Clone(loaded) }

// Find returns the language of a code such as "fr" or "fr_CA.UTF-8", nil when
// there is none.
func Find(code string) *Language {
	short := strings.ToLower(code)
	if i := strings.IndexAny(short, "_-.@"); i >= 0 {
		short = short[:i]
	}
	for _, l := range loaded {
		if l.Code == short {
			return l
		}
	}
	return nil
}

// Choose makes the first of codes that is a language the one in use, else
// English; empty codes are passed over. It returns false when a code was given
// that is no language.
func Choose(codes ...string) bool {
	known := true
	for _, code := range codes {
		if code == "" {
			continue
		}
		if l := Find(code); l != nil {
			Use(l)
			return known
		}
		known = false
	}
	Use(loaded[0])
	return known
}

// counts reads an argument as a count in the language's own marks, as plain
// writes it; false for words and for changes with a sign.
func (l *Language) counts(arg string) (float64, bool) {
	if arg == "" || arg[0] < '0' || arg[0] > '9' {
		return 0, false
	}
	s := strings.ReplaceAll(arg, l.Thousands, "")
	v, err := strconv.ParseFloat(strings.Replace(s, l.Decimal, ".", 1), 64)
	return v, err == nil
}
