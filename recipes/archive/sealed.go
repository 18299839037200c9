package archive

import (
	"cmp"
	"encoding/base64"
	"encoding/json"
	"slices"

	"parewell/recipes"
	"parewell/recipes/tasting"
)

// seal keeps shut which code is which dish in a blind tasting that is not closed:
// what people read must not tell before, and what goes out must come back whole.
// It is no secret, only out of sight: Held is base64 of a key's JSON.
type seal struct {
	Tasting recipes.ID `json:"tasting"`
	Held    string     `json:"open_only_after_closing"`
}

// key is what was taken out of the entities of one tasting.
type key struct {
	Seed     uint64                    `json:"seed,omitempty"` // codes and orders can be drawn again from it
	Cups     [][]recipes.ID            `json:"cups"`           // sample of each cup, by seat
	Codes    map[recipes.ID]string     `json:"codes"`          // by sample
	Servings map[recipes.ID]recipes.ID `json:"servings,omitempty"`
}

// shut tells whether nobody may yet read which code is which dish.
func shut(t *recipes.Tasting) bool {
	return t != nil && t.State != recipes.TastingClosed && tasting.Blind(t)
}

// sealed returns the entities as people may read them, and what was taken out of
// them. Those of tastings that are closed or not blind are as they were.
func sealed(all []recipes.Entity) ([]recipes.Entity, []seal) {
	keys := map[recipes.ID]*key{}
	var order []recipes.ID
	for _, e := range all {
		if t, is := e.(*recipes.Tasting); is && shut(t) {
			keys[t.ID] = &key{Codes: map[recipes.ID]string{}, Servings: map[recipes.ID]recipes.ID{}}
			order = append(order, t.ID)
		}
	}
	out := make([]recipes.Entity, len(all))
	for i, e := range all {
		out[i] = taken(e, keys)
	}
	asPlanned(out, keys)
	slices.Sort(order)
	var seals []seal
	for _, id := range order {
		body, _ := json.Marshal(keys[id]) // plain values, which always marshal
		seals = append(seals, seal{id, base64.StdEncoding.EncodeToString(body)})
	}
	return out, seals
}

// asPlanned puts the samples of each of the tastings, which stand by code, into
// the order they were planned in: their order must not tell the codes either.
func asPlanned(all []recipes.Entity, keys map[recipes.ID]*key) {
	places := map[recipes.ID][]int{}
	for i, e := range all {
		if x, is := e.(*recipes.Sample); is && keys[x.Tasting] != nil {
			places[x.Tasting] = append(places[x.Tasting], i)
		}
	}
	for _, at := range places {
		var samples []*recipes.Sample
		for _, i := range at {
			samples = append(samples, all[i].(*recipes.Sample))
		}
		slices.SortFunc(samples, func(x, y *recipes.Sample) int { return cmp.Or(x.Place-y.Place, cmp.Compare(x.ID, y.ID)) })
		for n, i := range at {
			all[i] = samples[n]
		}
	}
}

// taken is an entity without what would join codes and dishes, which goes to the
// key of its tasting.
func taken(e recipes.Entity, keys map[recipes.ID]*key) recipes.Entity {
	switch x := e.(type) {
	case *recipes.Tasting:
		if k := keys[x.ID]; k != nil {
			n := *x
			k.Seed, n.Seed = x.Seed, 0
			n.Seats = slices.Clone(x.Seats)
			for i := range n.Seats {
				cups := slices.Clone(n.Seats[i].Cups)
				held := make([]recipes.ID, len(cups))
				for j := range cups {
					held[j], cups[j].Sample = cups[j].Sample, ""
				}
				k.Cups, n.Seats[i].Cups = append(k.Cups, held), cups
			}
			return &n
		}
	case *recipes.Sample:
		if k := keys[x.Tasting]; k != nil {
			n := *x
			k.Codes[x.ID], n.Code = x.Code, ""
			return &n
		}
	case *recipes.Serving:
		if k := keys[x.Tasting]; k != nil && x.Sample != "" {
			n := *x
			k.Servings[x.ID], n.Sample = x.Sample, ""
			return &n
		}
	}
	return e
}

// sealAt is a seal and where it stands in the file.
type sealAt struct {
	seal
	at int64
}

// seal reads one.
func (r *reader) seal(at int64, raw json.RawMessage) error {
	s := sealAt{at: at}
	if err := r.strictly(at, raw, &s.seal); err != nil {
		return err
	}
	name := "sealed/" + string(s.Tasting)
	if r.seen[name] {
		return r.fault(nil, at, "archive.twice", string(s.Tasting))
	}
	r.seen[name] = true
	r.seals = append(r.seals, s)
	return nil
}

// unseal puts back what was taken out of the entities.
func (r *reader) unseal() error {
	for _, s := range r.seals {
		body, err := base64.StdEncoding.DecodeString(s.Held)
		if err != nil || len(body) == 0 {
			return r.fault(err, s.at, "archive.field", "open_only_after_closing")
		}
		var k key
		if err := r.strictly(s.at, body, &k); err != nil {
			return err
		}
		if !r.putBack(s.Tasting, &k) {
			return r.fault(nil, s.at, "archive.seal")
		}
	}
	return nil
}

// putBack is false when the key is not that of the tasting.
func (r *reader) putBack(id recipes.ID, k *key) bool {
	found, codes, servings := false, 0, 0
	for _, e := range r.entities {
		switch x := e.(type) {
		case *recipes.Tasting:
			if x.ID == id {
				if found = shut(x) && x.Seed == 0 && fill(x.Seats, k.Cups); !found {
					return false
				}
				x.Seed = k.Seed
			}
		case *recipes.Sample:
			if code, has := k.Codes[x.ID]; x.Tasting == id && has && x.Code == "" {
				x.Code = code
				codes++
			}
		case *recipes.Serving:
			if sample, has := k.Servings[x.ID]; x.Tasting == id && has && x.Sample == "" && sample != "" {
				x.Sample = sample
				servings++
			}
		}
	}
	return found && codes == len(k.Codes) && servings == len(k.Servings)
}

// fill puts samples into the cups; false when there are more or fewer of them.
func fill(seats []recipes.Seat, cups [][]recipes.ID) bool {
	if len(seats) != len(cups) {
		return false
	}
	for i := range seats {
		if len(seats[i].Cups) != len(cups[i]) {
			return false
		}
		for j := range seats[i].Cups {
			if seats[i].Cups[j].Sample != "" {
				return false
			}
			seats[i].Cups[j].Sample = cups[i][j]
		}
	}
	return true
}
