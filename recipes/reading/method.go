package reading

import "strings"

// method reads the steps.
func (p *textReader) method(rows []row) {
	aside := false
	for _, r := range rows {
		h, rest := readHeading(r.raw)
		switch {
		case h == methodHead:
			aside = false
			if rest != "" && rest != r.raw {
				p.step(row{at: r.at, raw: rest, text: rest, blank: true})
			}
			continue
		case h == asideHead:
			aside = true
			p.skip(r, "notes")
			continue
		case aside:
			p.skip(r, "notes")
			continue
		}
		if len(r.text) < 60 && p.facts(r) {
			continue
		}
		p.step(r)
	}
}

// step adds a row to the steps: a new one, or more of the last where a
// sentence was broken over lines.
func (p *textReader) step(r row) {
	text, isNew := numbered(r.raw)
	text = clean(text)
	if text == "" || stepLabel(text) {
		return
	}
	steps := p.draft.Steps
	if n := len(steps); n > 0 && !isNew && !r.blank && !bulleted(r.raw) && !endsSentence(steps[n-1]) {
		steps[n-1] += " " + text
		return
	}
	p.draft.Steps = append(steps, text)
}

func bulleted(s string) bool {
	return s != "" && strings.ContainsAny(firstOfString(s), bullets)
}

func firstOfString(s string) string {
	for _, r := range s {
		return string(r)
	}
	return ""
}

func endsSentence(s string) bool {
	return strings.HasSuffix(s, ".") || strings.HasSuffix(s, "!") || strings.HasSuffix(s, "?") || strings.HasSuffix(s, ".)") || strings.HasSuffix(s, ":")
}

// stepLabel tells "Step 1" standing alone.
func stepLabel(s string) bool {
	rest, ok := cut(s, "step")
	return ok && strings.Trim(rest, "0123456789 .:") == ""
}

// numbered cuts "1.", "2)", "Step 3:" off the front of a step.
func numbered(s string) (string, bool) {
	t := strings.TrimLeft(s, " *#"+"•")
	lead := false
	if rest, ok := cut(t, "step"); ok && startsDigit(rest) {
		t, lead = rest, true
	}
	i := 0
	for i < len(t) && t[i] >= '0' && t[i] <= '9' {
		i++
	}
	if i == 0 || i > 2 {
		return s, false
	}
	rest := t[i:]
	mark := strings.HasPrefix(rest, ".") || strings.HasPrefix(rest, ")") || strings.HasPrefix(rest, ":") || strings.HasPrefix(rest, " -")
	if !mark && !lead {
		return s, false
	}
	rest = strings.TrimLeft(rest, ".):- ")
	if strings.HasPrefix(t[i:], ".") && len(t) > i+1 && t[i+1] >= '0' && t[i+1] <= '9' {
		return s, false // "1.5 kg"
	}
	return rest, true
}
