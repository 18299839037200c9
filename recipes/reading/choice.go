package reading

import (
	"slices"
	"strings"
)

// sharedHeads are last words that both sides of an "or" share: "beef or
// chicken stock" is beef stock or chicken stock.
var sharedHeads = set(`stock broth juice wine vinegar cheese milk cream sugar flour bread bean beans rice pepper peppers onion onions
noodles pasta breast breasts thigh thighs mince fillet fillets zest sauce paste seed seeds powder leaves chips nuts peel oil lentils
mushrooms tomatoes potatoes potato mustard yogurt yoghurt butter salt syrup apples apple lettuce cabbage steak steaks chicken beef pork
sausage sausages tofu honey berries blueberries raspberries strawberries peas corn spinach raisins chocolate chillies chiles tortillas`)

// cutOr leaves the first of several alternatives and keeps the others.
func (p *phrase) cutOr(name string) string {
	low := strings.ToLower(name)
	if len(low) != len(name) {
		return name
	}
	for _, mark := range []string{" and/or ", " or ", "/"} {
		i := strings.Index(low, mark)
		if i <= 0 {
			continue
		}
		left := strings.TrimSpace(name[:i])
		right := strings.TrimSpace(name[i+len(mark):])
		right, _ = cutAny(right, "use", "a", "an", "other", "some", "your favourite", "any other")
		if mark == "/" && !slashDivides(left, right) || right == "" {
			continue
		}
		if describes(left) && len(wordsOf(right)) > 1 && describes(firstOf(right)) { // "fresh or frozen blueberries"
			p.or = append(p.or, right)
			return left + " " + afterFirst(right)
		}
		p.or = append(p.or, strings.Split(right, " or ")...)
		p.left = left
		return completed(left, p.or[len(p.or)-1])
	}
	return name
}

// mustShare are shared heads that a left side always lacks: lemon or lime
// juice is never a lemon.
var mustShare = set("stock broth juice zest vinegar wine oil peel")

// unlend takes a lent word back where the left side is a food by itself: "sour
// cream or Greek yogurt".
func (r *lineReader) unlend() {
	p := &r.say
	if p.left == "" || p.left == p.full || r.opt.Foods == nil || mustShare[fold(lastOf(p.full))] {
		return
	}
	if _, sure, _ := r.opt.Foods.Match(p.left); sure {
		p.full = p.left
		p.name, _ = stripFront(p.left, "")
	}
}

// slashDivides tells an alternative ("butter/margarine") from a ratio ("80/20").
func slashDivides(left, right string) bool {
	return hasLetter(lastOf(left)) && hasLetter(firstOf(right))
}

func firstOf(s string) string {
	w, _ := firstWord(s)
	return w
}

func afterFirst(s string) string {
	_, rest := firstWord(s)
	return strings.TrimSpace(rest)
}

func lastOf(s string) string {
	list := strings.Fields(s)
	if len(list) == 0 {
		return ""
	}
	return list[len(list)-1]
}

// completed lends the right side's last word to a left side that lacks it.
func completed(left, right string) string {
	head := lastOf(right)
	low := fold(head)
	if len(wordsOf(right)) < 2 || !sharedHeads[low] || slices.Contains(wordsOf(fold(left)), low) {
		return left
	}
	if mustShare[fold(lastOf(left))] || !lacksNoun(fold(left), low) { // "chicken stock or bone broth"
		return left
	}
	return left + " " + head
}

// lacksNoun tells whether a left side needs the shared last word: colours and
// other describing words always, meats before stock, plants before oil or juice.
func lacksNoun(left, head string) bool {
	if describes(left) {
		return true
	}
	switch singular(head) {
	case "oil":
		return hasAny(left, "olive", "vegetable", "canola", "sunflower", "rapeseed", "peanut", "groundnut", "corn", "avocado", "grapeseed", "sesame", "coconut", "walnut", "neutral")
	case "butter", "honey", "chicken", "beef", "pork", "tofu", "apple", "potato", "spinach", "pea", "corn", "chocolate", "salt", "mushroom", "tomato", "sausage", "lettuce", "cabbage":
		return false
	}
	return true
}
