package words

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

var slot = regexp.MustCompile(`\{\d+\}`)

// slots are the arguments a sentence uses, each once, in order of number.
func slots(sentence string) []string {
	all := slot.FindAllString(sentence, -1)
	slices.Sort(all)
	return slices.Compact(all)
}

// TestTranslationsFitEnglish holds every other language to English: no key of
// its own, the same arguments, as many parts where a sentence is a list, and the
// same spaces and line ends around what code puts together.
func TestTranslationsFitEnglish(t *testing.T) {
	en := Find("en")
	for _, l := range Languages()[1:] {
		if len(l.sentences) < 200 {
			t.Errorf("%s has %d sentences only", l.Code, len(l.sentences))
		}
		for key, got := range l.sentences {
			base, singular := strings.CutSuffix(key, "#one")
			want, ok := en.sentences[base]
			if !ok {
				t.Errorf("%s: English has no %q", l.Code, base)
				continue
			}
			if _, ok := l.sentences[base]; !ok {
				t.Errorf("%s: %q without its plural", l.Code, key)
			}
			if a, b := slots(got), slots(want); !slices.Equal(a, b) {
				t.Errorf("%s: %q uses %v, English %v (singular %t)", l.Code, key, a, b, singular)
			}
			if strings.Count(got, "|") != strings.Count(want, "|") {
				t.Errorf("%s: %q has another number of parts than English", l.Code, key)
			}
			if got == "" {
				t.Errorf("%s: %q is empty", l.Code, key)
			}
		}
	}
}

// inFrench runs a test in French and gives English back.
func inFrench(t *testing.T) {
	t.Helper()
	was := Current()
	t.Cleanup(func() { Use(was) })
	if !Choose("fr_CH.UTF-8") || Current().Code != "fr" {
		t.Fatal("no French")
	}
}

func TestFrench(t *testing.T) {
	inFrench(t)
	rows := []struct{ name, got, want string }{
		{"decimals", Number(43.05, 1), "43,0"},
		{"four digits stay together", Number(1234, 0), "1234"},
		{"five are parted by a space", Number(12345.6, 1), "12\u00a0345,6"},
		{"fall", Signed(-1234567.8, 1), "–1\u00a0234\u00a0567,8"},
		{"no change", Signed(0.04, 1), "0,0"},
		{"rise", Signed(12, 1), "+12,0"},
		{"small share", Share(0.004), "0,4 %"},
		{"trim", Trim(2.50, 2), "2,5"},
		{"trim whole", Trim(40, 2), "40"},
		{"field", Field(12345.6, 1), "12345,6"},
		{"a field of three places is no thousand", Field(1.125, 3), "1,1250"},
		{"heavy", Grams(1250), "1,25 kg"},
		{"not a kitchen fraction", Fraction(0.04), "0,04"},
		{"not a number", Number(math.NaN(), 1), "?"},
		{"first of a month", Day(time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)), "1er mars 2026"},
		{"another day", Day(time.Date(2026, 8, 14, 0, 0, 0, 0, time.UTC)), "14 août 2026"},
		{"a list", Join([]string{"lait", "œuf", "poisson"}), "lait, œuf et poisson"},
		{"none is singular", Say("did.settle", 0), "0 ingrédient accepté"},
		{"one", Say("did.settle", 1), "1 ingrédient accepté"},
		{"one and a half is singular", Say("did.settle", 1.5), "1,5 ingrédient accepté"},
		{"two", Say("did.settle", 2), "2 ingrédients acceptés"},
		{"many, with a mark", Say("did.settle", 12345.0), "12\u00a0345 ingrédients acceptés"},
		{"a phrase kept in a workbook", P("did.settle", 3).String(), "3 ingrédients acceptés"},
		{"not translated: English", Say("menu.print-tests.none-such"), "[menu.print-tests.none-such]"},
		{"not translated: English's plural rule too", Say("export.stopped", 0), "stopped after 0 files"},
	}
	for _, r := range rows {
		if r.got != r.want {
			t.Errorf("%s: %q, want %q", r.name, r.got, r.want)
		}
	}
	if !Current().Has("export.stopped") || Current().Has("none such") {
		t.Error("Has does not look where Say looks")
	}
}

func TestEnglishPlurals(t *testing.T) {
	rows := []struct {
		name string
		arg  any
		want string
	}{
		{"none", 0, "Accepted 0 ingredients"},
		{"one", 1.0, "Accepted 1 ingredient"},
		{"one and a half", 1.5, "Accepted 1.5 ingredients"},
		{"a change is no count", "+1", "Accepted +1 ingredients"},
		{"a name is no count", "Infinity", "Accepted Infinity ingredients"},
	}
	for _, r := range rows {
		if got := Say("did.settle", r.arg); got != r.want {
			t.Errorf("%s: %q, want %q", r.name, got, r.want)
		}
	}
}

func TestChoose(t *testing.T) {
	t.Cleanup(func() { Choose("en") })
	rows := []struct {
		name  string
		codes []string
		want  string
		known bool
	}{
		{"nothing said", []string{"", ""}, "en", true},
		{"the first that is said", []string{"", "fr"}, "fr", true},
		{"before the next", []string{"en", "fr"}, "en", true},
		{"with a country", []string{"fr-BE"}, "fr", true},
		{"one there is not", []string{"xx"}, "en", false},
		{"one there is not, then one there is", []string{"xx", "fr"}, "fr", false},
	}
	for _, r := range rows {
		if known := Choose(r.codes...); known != r.known || Current().Code != r.want {
			t.Errorf("%s: %s, known %t", r.name, Current().Code, known)
		}
	}
}
