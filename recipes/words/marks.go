package words

// Sample shows the language's marks: "12,500.5".
func (l *Language) Sample() string {
	return "12" + l.Thousands + "500" + l.Decimal + "5"
}

// Marked is the language with numbers in other marks than its own: a decimal
// "," or "."; the language itself for any other, and where it has them already.
func (l *Language) Marked(decimal string) *Language {
	if decimal == l.Decimal || decimal != "," && decimal != "." {
		return l
	}
	out := *l
	out.Decimal, out.Thousands = decimal, ","
	if decimal == "," {
		out.Thousands = noBreak // never a point, which others read as a decimal
	}
	return &out
}
