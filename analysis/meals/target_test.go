package meals

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"parewell/analysis/nutrition"
)

// The equation worked by hand from its published form.
func TestResting(t *testing.T) {
	rows := []struct {
		name string
		p    Person
		want float64
	}{
		{"woman of 30", Person{Sex: Woman, Age: 30, Height: 165, Weight: 60}, 600 + 1031.25 - 150 - 161}, // 1320.25
		{"man of 30", Person{Sex: Man, Age: 30, Height: 180, Weight: 80}, 800 + 1125 - 150 + 5},          // 1780
		{"woman of 78", Person{Sex: Woman, Age: 78, Height: 150, Weight: 45}, 836.5},
		{"man of 19", Person{Sex: Man, Age: 19, Height: 175.5, Weight: 68.2}, 682 + 1096.875 - 95 + 5},
	}
	for _, r := range rows {
		if got := Resting(r.p); math.Abs(got-r.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", r.name, got, r.want)
		}
	}
}

func TestThumb(t *testing.T) {
	// 110 lb: 1,100 kcal a day
	if got := Thumb(110 * 0.45359237); math.Abs(got-1100) > 1e-9 {
		t.Errorf("110 lb: %v", got)
	}
}

// FAO/WHO/UNU's own worked example.
func TestSpentAsPublished(t *testing.T) {
	b, err := os.ReadFile(filepath.Join(root(t), "..", "shared", "reference", "nutrition", "worked-examples.json"))
	if err != nil {
		t.Skip("the reference folder is not here")
	}
	var all struct {
		Cases []struct {
			ID     string          `json:"id"`
			Inputs json.RawMessage `json:"inputs"`
			Out    json.RawMessage `json:"published_outputs"`
		} `json:"cases"`
	}
	if err := json.Unmarshal(b, &all); err != nil {
		t.Fatal(err)
	}
	for _, c := range all.Cases {
		if c.ID != "FAO-TEE" {
			continue
		}
		var in struct {
			BMR float64 `json:"BMR_kcal"`
			PAL float64
		}
		var out struct{ Kcal float64 }
		if json.Unmarshal(c.Inputs, &in) != nil || json.Unmarshal(c.Out, &out) != nil || in.BMR == 0 || out.Kcal == 0 {
			t.Fatal("the example cannot be read")
		}
		if got := tens(Spent(in.BMR, in.PAL)); got != out.Kcal {
			t.Errorf("%v x %v is %v, published %v", in.BMR, in.PAL, got, out.Kcal)
		}
		if l, _ := LevelOf(Moderate); in.PAL < l.Low || in.PAL > l.High {
			t.Errorf("the example's level %v is not moderate", in.PAL)
		}
		return
	}
	t.Error("no example FAO-TEE")
}

// root is the folder of go.mod above the test.
func root(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
}

func TestOffer(t *testing.T) {
	woman := Person{Sex: Woman, Age: 30, Height: 165, Weight: 60, Activity: Light} // at rest 1320.25
	man := Person{Sex: Man, Age: 30, Height: 180, Weight: 80, Activity: Moderate}  // at rest 1780
	with := func(p Person, f func(*Person)) Person { f(&p); return p }
	thumb := func(s Sex, pounds float64) Person { return Person{Sex: s, Goal: pounds * kgPerPound} }
	rows := []struct {
		name      string
		p         Person
		asked     Asked
		m         Method
		reason    Reason
		low, high float64
		raised    bool
	}{
		{"woman, light", woman, NoneOfIt, ByEquation, Offered, 1850, 2230, false},                                                                       // 1848.35, 2231.2
		{"man, moderate", man, NoneOfIt, ByEquation, Offered, 3030, 3540, false},                                                                        // 3026, 3542.2
		{"500 off", with(woman, func(p *Person) { p.Less = 500 }), NoneOfIt, ByEquation, Offered, 1350, 1730, false},                                    // 1348.35, 1731.2
		{"750 off is cut at the floor", with(woman, func(p *Person) { p.Less = 750 }), NoneOfIt, ByEquation, Offered, 1200, 1480, true},                 // 1098, 1481
		{"751 off", with(woman, func(p *Person) { p.Less = 751 }), NoneOfIt, ByEquation, TooMuchOff, 0, 0, false},                                       //
		{"less than nothing off", with(woman, func(p *Person) { p.Less = -1 }), NoneOfIt, ByEquation, TooMuchOff, 0, 0, false},                          //
		{"off is no number", with(woman, func(p *Person) { p.Less = math.NaN() }), NoneOfIt, ByEquation, TooMuchOff, 0, 0, false},                       //
		{"small and old is cut", Person{Woman, 78, 150, 45, Light, 0, 0}, NoneOfIt, ByEquation, Offered, 1200, 1410, true},                              // 1171.1, 1413.7
		{"and under the floor with 300 off", Person{Woman, 78, 150, 45, Light, 300, 0}, NoneOfIt, ByEquation, UnderFloor, 0, 0, false},                  // 1113.7
		{"and under medical care with 650 off", Person{Woman, 78, 150, 45, Light, 650, 0}, NoneOfIt, ByEquation, UnderMedical, 0, 0, false},             // 763.7
		{"a man's floor is higher", Person{Man, 78, 155, 48, Light, 500, 0}, NoneOfIt, ByEquation, UnderFloor, 0, 0, false},                             // (1063.75 x 1.69) - 500 = 1297.7
		{"not asked yet", woman, NotAsked, ByEquation, AskFirst, 0, 0, false},                                                                           //
		{"one of it", woman, SomeOfIt, ByEquation, TakeAdvice, 0, 0, false},                                                                             //
		{"an answer nobody can give", woman, "maybe", ByEquation, AskFirst, 0, 0, false},                                                                //
		{"17, whatever was answered", with(woman, func(p *Person) { p.Age = 17 }), NoneOfIt, ByEquation, TakeAdvice, 0, 0, false},                       //
		{"17 by the rule of thumb", with(thumb(Woman, 140), func(p *Person) { p.Age = 17 }), NoneOfIt, ByThumb, TakeAdvice, 0, 0, false},                //
		{"18 is no age of the equation", with(woman, func(p *Person) { p.Age = 18 }), NoneOfIt, ByEquation, OutsideAges, 0, 0, false},                   //
		{"19 is", with(woman, func(p *Person) { p.Age = 19 }), NoneOfIt, ByEquation, Offered, 1930, 2320, false},                                        // 1375.25: 1925.35, 2324.2
		{"78 is", with(man, func(p *Person) { p.Age = 78 }), NoneOfIt, ByEquation, Offered, 2620, 3060, false},                                          // 1540: 2618, 3064.6
		{"79 is not", with(man, func(p *Person) { p.Age = 79 }), NoneOfIt, ByEquation, OutsideAges, 0, 0, false},                                        //
		{"no weight", with(woman, func(p *Person) { p.Weight = 0 }), NoneOfIt, ByEquation, Missing, 0, 0, false},                                        //
		{"no height", with(woman, func(p *Person) { p.Height = math.NaN() }), NoneOfIt, ByEquation, Missing, 0, 0, false},                               //
		{"no activity", with(woman, func(p *Person) { p.Activity = "" }), NoneOfIt, ByEquation, Missing, 0, 0, false},                                   //
		{"no sex", with(woman, func(p *Person) { p.Sex = "" }), NoneOfIt, ByEquation, Missing, 0, 0, false},                                             //
		{"the rule at 140 lb", thumb(Woman, 140), NoneOfIt, ByThumb, Offered, 1400, 1400, false},                                                        //
		{"the rule at 110 lb is under her floor", thumb(Woman, 110), NoneOfIt, ByThumb, UnderFloor, 0, 0, false},                                        //
		{"the rule at 140 lb is under his floor", thumb(Man, 140), NoneOfIt, ByThumb, UnderFloor, 0, 0, false},                                          //
		{"the rule at 79 lb is under medical care", thumb(Woman, 79), NoneOfIt, ByThumb, UnderMedical, 0, 0, false},                                     //
		{"the rule is never used unasked", with(thumb(Woman, 140), func(p *Person) { p.Activity = Light }), NoneOfIt, ByEquation, Missing, 0, 0, false}, //
		{"the rule without a goal", Person{Sex: Man}, NoneOfIt, ByThumb, Missing, 0, 0, false},                                                          //
		{"the rule before asking", thumb(Woman, 140), NotAsked, ByThumb, AskFirst, 0, 0, false},                                                         //
	}
	for _, r := range rows {
		o := OfferTo(r.p, r.asked, r.m)
		if o.Reason != r.reason || o.Low != r.low || o.High != r.high || o.Raised != r.raised {
			t.Errorf("%s: %+v, want %q %v to %v", r.name, o, r.reason, r.low, r.high)
		}
	}
}

// Whatever a person gives, no offer lies under the floor.
func TestNoOfferUnderTheFloor(t *testing.T) {
	for weight := 20.0; weight <= 160; weight += 7 {
		for age := 10.0; age <= 95; age += 5 {
			for less := 0.0; less <= 900; less += 150 {
				for _, s := range []Sex{Woman, Man} {
					for _, m := range []Method{ByEquation, ByThumb} {
						p := Person{s, age, 160, weight, Light, less, weight}
						o := OfferTo(p, NoneOfIt, m)
						if o.Reason == Offered && (o.Low < Floor(s) || o.High < o.Low || age < 18) {
							t.Fatalf("%+v is offered %+v", p, o)
						}
						if o.Reason != Offered && (o.Low != 0 || o.High != 0) {
							t.Fatalf("%+v is refused with a figure: %+v", p, o)
						}
					}
				}
			}
		}
	}
}

func TestJudge(t *testing.T) {
	o := Offer{Low: 1800, High: 2000}
	rows := []struct {
		name string
		o    Offer
		f    nutrition.Figure
		want Verdict
		off  float64
	}{
		{"within", o, nutrition.Figure{Amount: 1900}, Within, 0},
		{"at the low end", o, nutrition.Figure{Amount: 1800}, Within, 0},
		{"at the high end", o, nutrition.Figure{Amount: 2000}, Within, 0},
		{"over", o, nutrition.Figure{Amount: 2100}, Over, 100},
		{"under", o, nutrition.Figure{Amount: 1750}, Under, -50},
		{"over with more unknown", o, nutrition.Figure{Amount: 2100, AtLeast: true}, Over, 100},
		{"within with more unknown", o, nutrition.Figure{Amount: 1900, AtLeast: true}, CannotTell, 0},
		{"under with more unknown", o, nutrition.Figure{Amount: 100, AtLeast: true}, CannotTell, 0},
		{"off either way", o, nutrition.Figure{Amount: 2100, About: true}, CannotTell, 0},
		{"known nowhere", o, nutrition.Figure{Nowhere: true}, CannotTell, 0},
		{"nothing offered", Offer{Reason: UnderFloor}, nutrition.Figure{Amount: 1900}, CannotTell, 0},
	}
	for _, r := range rows {
		if got, off := r.o.Judge(r.f); got != r.want || off != r.off {
			t.Errorf("%s: %s by %v, want %s by %v", r.name, got, off, r.want, r.off)
		}
	}
}

func TestKept(t *testing.T) {
	k := Kept{Person: Person{Woman, 52, 165, 62, Moderate, 250, 0}, Method: ByEquation}
	back, ok := ReadKept(k.Encode())
	if !ok || back != k || back.Offer() != OfferTo(k.Person, NoneOfIt, ByEquation) {
		t.Errorf("%+v came back as %+v, %v", k, back, ok)
	}
	for _, bad := range []string{"", "{", `{"person":7}`, Kept{Person: Person{Weight: math.NaN()}}.Encode()} {
		if _, ok := ReadKept(bad); ok {
			t.Errorf("%q was read", bad)
		}
	}
}
