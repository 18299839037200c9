package food

import "encoding/json"

// MarshalJSON writes the known nutrients by their stable names; an unknown one
// is absent, never zero.
func (p Profile) MarshalJSON() ([]byte, error) {
	m := make(map[string]float64, NutrientCount)
	for n := Nutrient(0); n < NutrientCount; n++ {
		if v, ok := p.Get(n); ok {
			m[n.Key()] = v
		}
	}
	return json.Marshal(m)
}

// UnmarshalJSON reads what MarshalJSON wrote; names it does not know are skipped.
func (p *Profile) UnmarshalJSON(b []byte) error {
	var m map[string]float64
	if err := json.Unmarshal(b, &m); err != nil {
		return err
	}
	*p = Profile{}
	for k, v := range m {
		if n, ok := ByKey(k); ok {
			p.Set(n, v)
		}
	}
	return nil
}
