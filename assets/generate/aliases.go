package main

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"parewell/recipes/food"
)

// remark is a note in brackets after a name of the starter list: "(UK)",
// "(close, fattier)", "(by weight)".
var remark = regexp.MustCompile(`\s*\(([^)]*)\)\s*$`)

// aliasesOf gives a food's other names as "name" or "name=what differs". A
// name the starter list calls close must have its difference in aliases.csv.
func (s *sources) aliasesOf(f record) ([]string, error) {
	own := s.ownAliases(f["ndb"])
	var out []string
	seen := map[string]bool{strings.ToLower(f["plain_name"]): true}
	add := func(name, differs string) {
		if name == "" || seen[strings.ToLower(name)] {
			return
		}
		seen[strings.ToLower(name)] = true
		if differs != "" {
			name += "=" + differs
		}
		out = append(out, name)
	}
	for _, part := range strings.Split(f["aliases"], ";") {
		name, isClose := plainAlias(part)
		i := slices.IndexFunc(own, func(a alias) bool { return strings.EqualFold(a.Name, name) })
		switch {
		case i >= 0 && own[i].Drop:
			seen[strings.ToLower(name)] = true
		case i >= 0:
			add(name, own[i].Differs)
		case isClose:
			return nil, fmt.Errorf("aliases.csv does not say what differs for %q", name)
		default:
			add(name, "")
		}
	}
	for _, a := range own {
		if !a.Drop {
			add(a.Name, a.Differs)
		}
	}
	return out, nil
}

// plainAlias takes the remark off a name and tells whether it says close.
func plainAlias(s string) (name string, isClose bool) {
	s = strings.TrimSpace(s)
	for {
		m := remark.FindStringSubmatchIndex(s)
		if m == nil {
			return s, isClose
		}
		isClose = isClose || strings.HasPrefix(s[m[2]:m[3]], "close")
		s = s[:m[0]]
	}
}

// ownAliases gives the rows of aliases.csv for one food.
func (s *sources) ownAliases(code string) []alias {
	var out []alias
	for _, a := range s.Aliases {
		if a.Code == code {
			out = append(out, a)
		}
	}
	return out
}

// allergens gives the allergen cell: "recorded" or "open", then what the food
// contains, then what it may contain with a question mark.
func allergens(kind record) (string, error) {
	account := kind["account"]
	if account != "recorded" && account != "open" {
		return "", fmt.Errorf("kinds.csv: account %q is neither recorded nor open", account)
	}
	out := []string{account}
	for _, column := range []string{"contains", "depends"} {
		for _, key := range strings.Split(kind[column], ";") {
			key = strings.TrimSpace(key)
			if key == "" {
				continue
			}
			if _, ok := food.AllergenByKey(key); !ok {
				return "", fmt.Errorf("kinds.csv: no allergen %q", key)
			}
			if column == "depends" {
				key += "?"
			}
			out = append(out, key)
		}
	}
	return strings.Join(out, ";"), nil
}
