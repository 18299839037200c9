package reading

import "strings"

// heading is what a line that stands alone announces.
type heading uint8

const (
	noHeading heading = iota
	ingredientsHead
	methodHead
	asideHead // notes, nutrition, equipment: nothing of the recipe follows
)

var headingWords = map[string]heading{
	"ingredients": ingredientsHead, "ingredient": ingredientsHead, "ingredient list": ingredientsHead, "you will need": ingredientsHead,
	"you'll need": ingredientsHead, "what you need": ingredientsHead, "what you'll need": ingredientsHead, "shopping list": ingredientsHead,
	"the ingredients": ingredientsHead, "for the recipe": ingredientsHead, "recipe ingredients": ingredientsHead,
	"method": methodHead, "methods": methodHead, "directions": methodHead, "instructions": methodHead, "preparation": methodHead, "steps": methodHead,
	"procedure": methodHead, "how to make it": methodHead, "what to do": methodHead, "cooking instructions": methodHead,
	"preparation method": methodHead, "cooking method": methodHead, "how to": methodHead, "how to cook": methodHead, "to make": methodHead,
	"the method": methodHead, "how to make": methodHead, "directions for cooking": methodHead, "let's cook": methodHead, "process": methodHead,
	"notes": asideHead, "note": asideHead, "notes on technique": asideHead, "notes de technique": asideHead, "valeurs nutritionnelles": asideHead, "recipe notes": asideHead, "tips": asideHead, "tip": asideHead, "cook's notes": asideHead, "cook's note": asideHead, "cooks notes": asideHead,
	"nutrition": asideHead, "nutrition facts": asideHead, "nutritional information": asideHead, "nutrition information": asideHead, "nutrition per serving": asideHead,
	"storage": asideHead, "equipment": asideHead, "special equipment": asideHead, "you may also like": asideHead, "comments": asideHead, "reviews": asideHead,
	"did you make this recipe": asideHead, "related recipes": asideHead, "per serving": asideHead, "nutritional info": asideHead, "make ahead": asideHead, "make it ahead": asideHead, "variations": asideHead, "substitutions": asideHead, "faq": asideHead,
}

// readHeading tells what a line announces; rest is text after "Method:" on the
// same line.
func readHeading(s string) (h heading, rest string) {
	t := strings.Trim(s, " #*=-_~:•")
	if h, ok := headingWords[fold(t)]; ok {
		return h, ""
	}
	if _, after, ok := strings.Cut(t, " / "); ok { // the same heading in two languages
		if h, rest := readHeading(after); h != noHeading {
			return h, rest
		}
	}
	if open := strings.IndexByte(t, '('); open > 0 { // "Ingredients (serves 4)"
		if h, ok := headingWords[fold(strings.TrimSpace(t[:open]))]; ok {
			return h, strings.Trim(t[open:], "() ")
		}
	}
	if head, after, ok := strings.Cut(t, ":"); ok {
		if h, ok := headingWords[fold(strings.TrimSpace(head))]; ok {
			return h, strings.TrimSpace(after)
		}
	}
	return noHeading, s
}

// partHeading reads a heading of a part of the ingredients ("For the sauce:",
// "TOPPING"); false when the line is no heading.
func partHeading(s string, sure bool) (string, bool) {
	t := strings.Trim(s, " #*=_~")
	if t == "" || len(t) > 60 || !hasLetter(t) || startsDigit(t) {
		return "", false
	}
	body := strings.TrimSpace(strings.TrimRight(t, ": "))
	colon := body != strings.TrimSpace(t)
	low := fold(body)
	if colon {
		return body, len(strings.Fields(body)) <= 8
	}
	if rest, w := cutAny(low, "for the", "for"); w != "" && rest != "" && len(strings.Fields(rest)) <= 5 && !servesPeople(low) && !strings.ContainsAny(low, ",.") {
		return body, true
	}
	upper := t == strings.ToUpper(t) && len(strings.Fields(t)) <= 5 && t != strings.ToLower(t)
	if strings.HasPrefix(s, "#") || strings.HasPrefix(s, "**") && strings.HasSuffix(s, "**") {
		return body, true
	}
	if upper && sure {
		return body, true
	}
	return body, sure && (partNames[low] || strings.HasPrefix(low, "to ") && len(strings.Fields(low)) <= 3)
}

// partNames are common headings that stand without a colon.
var partNames = map[string]bool{
	"to serve": true, "to finish": true, "to garnish": true, "garnish": true, "topping": true, "toppings": true, "filling": true, "sauce": true, "dressing": true,
	"marinade": true, "crust": true, "dough": true, "pastry": true, "frosting": true, "icing": true, "glaze": true, "base": true, "salad": true,
	"the sauce": true, "the filling": true, "the topping": true, "batter": true, "streusel": true, "crumble": true, "brine": true, "rub": true,
}

// furniture are starts of lines that belong to a page, not to a recipe.
var furniture = []struct{ start, reason string }{
	{"prep time", "times"},
	{"preparation time", "times"},
	{"cook time", "times"},
	{"cooking time", "times"},
	{"total time", "times"},
	{"ready in", "times"},
	{"active time", "times"},
	{"hands-on time", "times"},
	{"additional time", "times"},
	{"chill time", "times"},
	{"resting time", "times"},
	{"rest time", "times"},
	{"bake time", "times"},
	{"time:", "times"},
	{"prep:", "times"},
	{"cook:", "times"},
	{"total:", "times"},
	{"prep ", "times"},
	{"takes ", "times"},
	{"print", "page furniture"},
	{"pin ", "page furniture"},
	{"pin", "page furniture"},
	{"save", "page furniture"},
	{"share", "page furniture"},
	{"rate", "page furniture"},
	{"rating", "page furniture"},
	{"jump to", "page furniture"},
	{"advertisement", "page furniture"},
	{"author", "page furniture"},
	{"course", "page furniture"},
	{"cuisine", "page furniture"},
	{"keyword", "page furniture"},
	{"difficulty", "page furniture"},
	{"level:", "page furniture"},
	{"skill level", "page furniture"},
	{"cook mode", "page furniture"},
	{"deselect all", "page furniture"},
	{"select all", "page furniture"},
	{"add all", "page furniture"},
	{"us customary", "page furniture"},
	{"scale", "page furniture"},
	{"1x", "page furniture"},
	{"published", "page furniture"},
	{"updated", "page furniture"},
	{"posted", "page furniture"},
	{"subscribe", "page furniture"},
	{"follow", "page furniture"},
	{"leave a comment", "page furniture"},
	{"reviews", "page furniture"},
	{"recipe by", "page furniture"},
	{"photo", "picture"},
	{"image", "picture"},
	{"watch", "page furniture"},
	{"video", "page furniture"},
	{"http", "page furniture"},
	{"www.", "page furniture"},
	{"calories", "nutrition"},
	{"kcal", "nutrition"},
	{"per serving", "nutrition"},
	{"nutrition", "nutrition"},
	{"tags:", "page furniture"},
	{"category", "page furniture"},
	{"diet:", "page furniture"},
	{"copyright", "page furniture"},
	{"©", "page furniture"},
}

// isFurniture gives the reason to leave a line out, "" to keep it.
func isFurniture(s string) string {
	low := fold(strings.TrimLeft(s, " -–•*"))
	if low == "" {
		return ""
	}
	if !hasLetter(low) {
		return "page furniture"
	}
	if len(low) > 90 {
		return ""
	}
	for _, f := range furniture {
		if !strings.HasPrefix(low, f.start) {
			continue
		}
		rest := low[len(f.start):]
		last := f.start[len(f.start)-1]
		switch {
		case f.start == "prep " || f.start == "takes ":
			if timeIn(rest) {
				return f.reason
			}
		case last == ':' || last == ' ' || f.start == "http" || f.start == "www.":
			return f.reason
		case rest == "" || strings.HasPrefix(strings.TrimLeft(rest, " "), ":") || furnitureTail(f.start, rest):
			return f.reason
		}
	}
	return ""
}

// furnitureTail tells that what follows a furniture word keeps it one: "Print
// Recipe", "Save to favourites", "Cook time 20 min".
func furnitureTail(start, rest string) bool {
	rest = strings.TrimLeft(rest, " ")
	if strings.HasSuffix(start, "time") || start == "ready in" {
		return true
	}
	for _, w := range []string{"recipe", "this", "to", "it", "by", "on", "us", "servings", "per", "now", "customary", "our", "me", "at", "\u2013", "-", "2x", "3x", "information", "facts", "\u2605", "\u2b50", "credit", "|", "metric", "mode"} {
		if strings.HasPrefix(rest, w) && len(rest) < 60 {
			return start != "course" && start != "share" || w == "this" || w == "recipe" || w == "on" || w == "it"
		}
	}
	return false
}

func timeIn(s string) bool {
	return hasAny(s, "min", "mins", "minutes", "minute", "hour", "hours", "hr", "hrs", "h", "m")
}
