package ledger

import (
	"math"
	"slices"
)

// point is a combination in the running.
type point struct {
	low, saving float64 // saving NaN when not known
	mask        uint32
}

// picker keeps what the walk comes by: the best by low end, those no other
// beats both ways, and the one for the limit.
type picker struct {
	w        *walker
	limit    float64
	keep     int
	seen     int
	ranked   []point // best first
	front    []point // saving ascending, low descending
	bestMask point
	apart    map[uint32]bool // tasted or failed: not judged on the way
	hold     []uint64        // the same as bits, quick to ask
	version  map[uint32]int
	tasted   []point // with their own figures: what a prediction has to beat
}

// nearly is what sums kept up step by step may be off: who comes so near is
// worked out anew.
const nearly = 1e-9

func newPicker(w *walker, limit float64, keep int) *picker {
	p := &picker{w: w, limit: limit, keep: keep, apart: map[uint32]bool{}, version: map[uint32]int{}, hold: make([]uint64, 1<<max(0, len(w.use)-6)+1)}
	for v, fact := range w.m.e.Versions {
		mask, ok := w.maskOf(w.m.on[v])
		if !ok || mask == 0 {
			continue
		}
		if old, twice := p.version[mask]; !twice || better(fact, w.m.e.Versions[old]) {
			p.version[mask] = v
		}
		if fact.DoesNotWork || fact.Servings > 0 {
			p.hold[mask>>6] |= 1 << (mask & 63)
			p.apart[mask] = p.apart[mask] || fact.DoesNotWork
		}
	}
	p.findTasted()
	return p
}

// sameSaving is how much more a prediction must save than a tasted version to be
// worth more: savings that differ by less than a hundredth are the same, because
// the foods' figures are no surer (judgement).
const sameSaving = 0.01

// beaten tells that a tasted version is surely liked as well as a predicted
// combination and takes off as much.
func (p *picker) beaten(pt point) bool {
	return slices.ContainsFunc(p.tasted, func(t point) bool {
		return t.low >= pt.low && t.saving >= pt.saving*(1-sameSaving)
	})
}

// better prefers, of two versions with the same swaps, the one more is known of.
func better(a, b VersionFact) bool {
	switch {
	case a.Servings != b.Servings:
		return a.Servings > b.Servings
	case a.Cooked != b.Cooked:
		return a.Cooked
	}
	return a.ID < b.ID
}

// visit weighs the walker's present combination.
func (p *picker) visit() {
	mask := p.w.mask
	if p.hold[mask>>6]>>(mask&63)&1 == 1 {
		if !p.apart[mask] {
			p.seen++ // a tasted one: added with its own figures at the end
		}
		return
	}
	p.seen++
	saving := p.w.saving
	if p.w.unknown > 0 {
		saving = math.NaN()
	}
	if pt := (point{p.w.low(), saving, mask}); p.wanted(pt) {
		p.add(point{p.interval(mask).Low, p.savingOf(), mask})
	}
}

// wanted tells quickly whether a point may belong to what is kept.
func (p *picker) wanted(pt point) bool {
	if len(p.ranked) < p.keep || pt.low > p.ranked[len(p.ranked)-1].low-nearly {
		return true
	}
	if !(pt.saving > 0) {
		return false
	}
	if p.limit > 0 && pt.low > -p.limit-nearly && pt.saving > p.bestMask.saving-nearly {
		return true
	}
	i := p.place(pt.saving - nearly)
	return i == len(p.front) || p.front[i].low < pt.low+nearly
}

// place is the first point of the frontier that saves at least so much.
func (p *picker) place(saving float64) int {
	lo, hi := 0, len(p.front)
	for lo < hi {
		if mid := (lo + hi) / 2; p.front[mid].saving < saving {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// savingOf is the saving of the walker's mask, worked out anew.
func (p *picker) savingOf() float64 {
	s := p.w.saving
	if p.w.unknown > 0 {
		return math.NaN()
	}
	return s
}

// interval is a combination's own interval where it was tasted and that is
// known, otherwise the sum of its swaps, made anew.
func (p *picker) interval(mask uint32) Interval {
	if v, ok := p.version[mask]; ok && p.w.m.e.Versions[v].Direct != nil && p.w.m.e.Versions[v].Servings > 0 {
		return p.w.m.version(v)
	}
	keep := p.w.mask
	p.w.mask = mask
	p.w.anew()
	i := p.w.m.interval(p.w.effect, math.Sqrt(math.Max(p.w.variance, 0)))
	if p.w.mask = keep; keep != mask {
		p.w.anew()
	}
	return i
}

// findTasted works out the combinations the walk leaves out: tasted, and not
// failed.
func (p *picker) findTasted() {
	masks := make([]uint32, 0, len(p.version))
	for mask, v := range p.version {
		if p.w.m.e.Versions[v].Servings > 0 && !p.apart[mask] && p.w.m.offered(p.w.m.on[v]) {
			masks = append(masks, mask)
		}
	}
	slices.Sort(masks)
	for _, mask := range masks {
		p.w.mask = mask
		i := p.interval(mask)
		p.w.anew()
		p.tasted = append(p.tasted, point{i.Low, p.savingOf(), mask})
	}
	p.w.mask = 0
	p.w.anew()
}

// addTasted brings them in.
func (p *picker) addTasted() {
	for _, pt := range p.tasted {
		p.add(pt)
	}
}

// offered tells whether ticks (in the model's order) can be estimated and cooked.
func (m *model) offered(on []bool) bool {
	bits := uint64(0)
	for i, x := range on {
		if x && i < 64 {
			bits |= 1 << i
		}
	}
	for i, x := range on {
		if x && (m.bars[i]&bits != 0 || m.skipped[i]) {
			return false
		}
	}
	return estimable(m.null, on)
}

// add puts an exact point where it belongs.
func (p *picker) add(pt point) {
	i, _ := slices.BinarySearchFunc(p.ranked, pt, byLow)
	if i < p.keep {
		p.ranked = slices.Insert(p.ranked, i, pt)
		p.ranked = p.ranked[:min(len(p.ranked), p.keep)]
	}
	if !(pt.saving > 0) || !slices.Contains(p.tasted, pt) && p.beaten(pt) {
		return
	}
	if p.limit > 0 && pt.low > -p.limit && (p.bestMask.mask == 0 || bySaving(pt, p.bestMask) < 0) {
		p.bestMask = pt
	}
	p.addFront(pt)
}

// addFront keeps the frontier free of points that another beats or equals.
func (p *picker) addFront(pt point) {
	i := p.place(pt.saving)
	if i < len(p.front) && (p.front[i].low > pt.low || p.front[i].low == pt.low && !(p.front[i].saving == pt.saving && simpler(pt, p.front[i]) < 0)) {
		return
	}
	end := i
	for end < len(p.front) && p.front[end].saving == pt.saving {
		end++
	}
	start := i
	for start > 0 && p.front[start-1].low <= pt.low {
		start--
	}
	p.front = slices.Replace(p.front, start, end, pt)
}

// byLow puts the highest low end first, then what saves more, then the simpler.
func byLow(a, b point) int {
	switch {
	case a.low != b.low:
		return order(b.low, a.low)
	case a.saving != b.saving && !(math.IsNaN(a.saving) && math.IsNaN(b.saving)):
		return order(b.saving, a.saving)
	}
	return simpler(a, b)
}

// bySaving puts the largest saving first, then the higher low end.
func bySaving(a, b point) int {
	switch {
	case a.saving != b.saving:
		return order(b.saving, a.saving)
	case a.low != b.low:
		return order(b.low, a.low)
	}
	return simpler(a, b)
}

// order compares; NaN comes before all, so that after turning round it is last.
func order(a, b float64) int {
	switch {
	case a < b || math.IsNaN(a) && !math.IsNaN(b):
		return -1
	case a > b || math.IsNaN(b) && !math.IsNaN(a):
		return 1
	}
	return 0
}

// simpler puts fewer swaps first, then the lower mask.
func simpler(a, b point) int {
	if d := size(a.mask) - size(b.mask); d != 0 {
		return d
	}
	return int(a.mask) - int(b.mask)
}
