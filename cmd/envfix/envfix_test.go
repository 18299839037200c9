package envfix

import (
	"maps"
	"testing"
)

func TestSettledNamesALanguage(t *testing.T) {
	type env = map[string]string
	rows := []struct {
		name     string
		is, want env
	}{
		{"nothing said", env{}, nil},
		{"the bare machine's default", env{"LANG": "C.UTF-8"}, env{"LANG": plain}},
		{"the same above all", env{"LC_ALL": "C.UTF-8", "LANG": "de_DE.UTF-8"}, env{"LC_ALL": plain}},
		{"the same for messages", env{"LC_MESSAGES": "C.utf8", "LANG": "de_DE.UTF-8"}, env{"LC_MESSAGES": plain}},
		{"what the library knows", env{"LC_ALL": "C", "LANG": "C.UTF-8"}, nil},
		{"POSIX", env{"LANG": "POSIX", "LANGUAGE": "C"}, nil},
		{"a language", env{"LANG": "en_GB.UTF-8"}, nil},
		{"a language with more", env{"LANG": "de_DE@euro", "LC_ALL": ""}, nil},
		{"no country", env{"LANG": "fr"}, nil},
		{"a country in digits", env{"LANG": "es_419.UTF-8"}, nil},
		{"nonsense", env{"LANG": "zz_nonsense_x"}, env{"LANG": plain}},
		{"a list goes before", env{"LC_ALL": "C.UTF-8", "LANGUAGE": "fr:en"}, nil},
		{"a list with one that is none", env{"LANG": "de_DE.UTF-8", "LANGUAGE": "fr:C:en_US"}, env{"LANGUAGE": "fr:en_US"}},
		{"a list of none, nothing else", env{"LANGUAGE": "C.UTF-8"}, env{"LANGUAGE": plain}},
	}
	for _, r := range rows {
		if got := settled(func(name string) string { return r.is[name] }); !maps.Equal(got, r.want) {
			t.Errorf("%s: %v, want %v", r.name, got, r.want)
		}
	}
}
