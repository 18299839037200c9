package recipes

// Clash says why two swaps cannot both be on; the empty Clash means they can.
type Clash string

// Reasons that make two swaps either/or (DESIGN section 3).
const (
	NoClash      Clash = ""
	ClashLadder  Clash = "ladder"  // strengths of one swap
	ClashSet     Clash = "set"     // both set the same property of a line or the dish
	ClashShares  Clash = "shares"  // together they exchange more than all of a line
	ClashRemoved Clash = "removed" // one removes a line the other touches
)

// Alternatives tells why swaps a and b cannot both be on. It is symmetric. A
// swap does not clash with itself.
func Alternatives(a, b *Swap) Clash {
	if a.ID == b.ID {
		return NoClash
	}
	if a.Ladder != "" && a.Ladder == b.Ladder {
		return ClashLadder
	}
	for i := range a.Ops {
		for j := range b.Ops {
			if c := opsClash(&a.Ops[i], &b.Ops[j]); c != NoClash {
				return c
			}
		}
	}
	return sharesClash(a, b)
}

func opsClash(x, y *Op) Clash {
	if x.Kind == OpDish && y.Kind == OpDish {
		return ClashSet
	}
	if x.Line == "" || x.Line != y.Line {
		return NoClash
	}
	if x.Kind == OpRemove || y.Kind == OpRemove {
		return ClashRemoved
	}
	if x.Kind == y.Kind && (x.Kind == OpPartEaten || x.Kind == OpTechnique || x.Kind == OpState) {
		return ClashSet
	}
	return NoClash
}

// sharesClash adds the shares both exchange of each line.
func sharesClash(a, b *Swap) Clash {
	for _, id := range a.Touches() {
		sa, sb := a.share(id), b.share(id)
		if sa > 0 && sb > 0 && sa+sb > 1+shareSlack {
			return ClashShares
		}
	}
	return NoClash
}

// share returns how much of the line the swap exchanges, 0-1.
func (s *Swap) share(line ID) float64 {
	total := 0.0
	for i := range s.Ops {
		if s.Ops[i].Kind == OpExchange && s.Ops[i].Line == line {
			total += s.Ops[i].Share
		}
	}
	return total
}

// CombinedShareTooLarge tells whether three or more swaps, though pairwise
// free, exchange more than all of one line; it names the line, else "".
func CombinedShareTooLarge(on []*Swap) ID {
	total := map[ID]float64{}
	for _, s := range on {
		for _, id := range s.Touches() {
			total[id] += s.share(id)
			if total[id] > 1+shareSlack {
				return id
			}
		}
	}
	return ""
}
