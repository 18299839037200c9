package reading

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

func isWordRune(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// fold makes a name comparable: lower case, accents off, curly quotes plain.
func fold(s string) string {
	if isPlain(s) {
		return s
	}
	var b strings.Builder
	for _, r := range norm.NFD.String(strings.ToLower(s)) {
		switch {
		case unicode.Is(unicode.Mn, r):
		case r == '’' || r == '‘' || r == 'ʼ':
			b.WriteByte('\'')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

func isPlain(s string) bool {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= 0x80 || c >= 'A' && c <= 'Z' {
			return false
		}
	}
	return true
}

// oddPlurals are those no rule below finds, and words that only look plural.
var oddPlurals = map[string]string{
	"leaves": "leaf", "loaves": "loaf", "halves": "half", "knives": "knife", "calves": "calf",
	"radishes": "radish", "potatoes": "potato", "tomatoes": "tomato", "mangoes": "mango",
	"cookies": "cookie", "brownies": "brownie", "chilies": "chili", "chillies": "chilli", "chiles": "chile",
	"pies": "pie", "anchovies": "anchovy", "cloves": "clove", "olives": "olive", "chives": "chives",
	"molasses": "molasses", "hummus": "hummus", "couscous": "couscous", "asparagus": "asparagus",
	"swiss": "swiss", "bass": "bass", "grass": "grass", "lemongrass": "lemongrass", "watercress": "watercress",
	"cress": "cress", "haas": "haas", "octopus": "octopus", "citrus": "citrus", "schnapps": "schnapps",
	"boneless": "boneless", "skinless": "skinless", "seedless": "seedless", "swede": "swede", "brussels": "brussels",
	"grits": "grits", "oats": "oats", "greens": "greens", "asafoetida": "asafoetida", "plus": "plus", "gas": "gas",
	"less": "less", "its": "its", "this": "this", "fines": "fines", "herbes": "herb", "haricots": "haricot",
	"worcestershire": "worcestershire", "worcesters": "worcester", "petits": "petits", "pois": "pois",
	"brandies": "brandy", "geese": "goose", "fungi": "fungus", "cacti": "cactus", "canneloni": "cannelloni",
	"moroccans": "moroccan", "bacons": "bacon", "sheaves": "sheaf", "thieves": "thief", "glass": "glass",
	"press": "press", "express": "express", "cypress": "cypress", "ras": "ras", "peas": "pea", "teas": "tea",
	"ladies'": "ladies", "confectioners'": "confectioners", "confectioner's": "confectioners",
	"lasagnas": "lasagne", "lasagna": "lasagne",
}

// singular makes a folded word singular by English rules good enough for food.
func singular(w string) string {
	if s, ok := oddPlurals[w]; ok {
		return s
	}
	w = strings.TrimSuffix(strings.Trim(w, "'"), "'s")
	switch n := len(w); {
	case n > 4 && strings.HasSuffix(w, "ies"):
		return w[:n-3] + "y"
	case n > 4 && (strings.HasSuffix(w, "ches") || strings.HasSuffix(w, "shes") || strings.HasSuffix(w, "sses") || strings.HasSuffix(w, "xes") || strings.HasSuffix(w, "oes")):
		return w[:n-2]
	case n > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "us") && !strings.HasSuffix(w, "is"):
		return w[:n-1]
	}
	return w
}
