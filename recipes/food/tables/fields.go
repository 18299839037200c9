package tables

import (
	"math"
	"strconv"
	"strings"
)

// ending tells how a line's last field ended.
type ending int

const (
	closed ending = iota // well
	open                 // inside a quotation that may go on in the next line
	broken               // a quotation mark stands where none may
)

// splitText splits a line of the USDA's ASCII files: ^ between fields, ~ around
// text. The fields share the line's memory.
func splitText(line string, out []string) ([]string, ending) {
	end := closed
	for {
		f, rest, more := strings.Cut(line, "^")
		if strings.HasPrefix(f, "~") {
			if len(f) < 2 || f[len(f)-1] != '~' {
				end = broken
			} else {
				f = f[1 : len(f)-1]
			}
		}
		out = append(out, f)
		if !more {
			return out, end
		}
		line = rest
	}
}

// splitCSV splits a line of CSV; the fields share the line's memory but for
// those with doubled quotation marks.
func splitCSV(line string, sep byte, out []string) ([]string, ending) {
	for {
		var f string
		var end ending
		if strings.HasPrefix(line, `"`) {
			f, line, end = quoted(line[1:])
		} else if i := strings.IndexByte(line, sep); i >= 0 {
			f, line = line[:i], line[i:]
		} else {
			f, line = line, ""
		}
		out = append(out, f)
		switch {
		case end != closed:
			return out, end
		case line == "":
			return out, closed
		case line[0] != sep:
			return out, broken
		}
		line = line[1:]
	}
}

// quoted reads a field after its first quotation mark.
func quoted(s string) (field, rest string, end ending) {
	doubled := false
	for i := 0; i < len(s); i++ {
		if s[i] != '"' {
			continue
		}
		if i+1 < len(s) && s[i+1] == '"' {
			doubled = true
			i++
			continue
		}
		field, rest = s[:i], s[i+1:]
		if doubled {
			field = strings.ReplaceAll(field, `""`, `"`)
		}
		return field, rest, closed
	}
	return s, "", open
}

// separatorOf is the mark between the columns of a header line.
func separatorOf(head string) byte {
	best, most := byte(','), strings.Count(head, ",")
	for _, c := range []byte{';', '\t'} {
		if n := strings.Count(head, string(c)); n > most {
			best, most = c, n
		}
	}
	return best
}

// columnKey is a column's name without capitals and marks: "Water_(g)" is
// "waterg", "Copper_mg)" is "coppermg".
func columnKey(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'A' && r <= 'Z':
			return r + ('a' - 'A')
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		}
		return -1
	}, s)
}

// powers are those of ten that a float64 holds exactly.
var powers = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// number reads an amount that is not negative. known is false for a blank
// field, ok for one that is no amount. The usual "12.345" is two exact integers
// and one division, which rounds as strconv does (Clinger 1990).
func number(s string, comma bool) (v float64, known, ok bool) {
	whole, places, dot := uint64(0), 0, false
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c >= '0' && c <= '9' && i < 15:
			whole = whole*10 + uint64(c-'0')
			if dot {
				places++
			}
		case c == '.' && !dot && len(s) > 1:
			dot = true
		default:
			return slowNumber(s, comma)
		}
	}
	return float64(whole) / powers[places], len(s) > 0, true
}

func slowNumber(s string, comma bool) (v float64, known, ok bool) {
	s = strings.TrimSpace(s)
	if s == "" {
		return 0, false, true
	}
	if comma {
		s = strings.Replace(s, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v >= 0) || math.IsInf(v, 0) {
		return 0, false, false
	}
	return v, true, true
}
