package tables

import (
	"testing"

	"parewell/recipes/food"
)

func TestPlain(t *testing.T) {
	for _, r := range []struct{ published, want string }{
		{"BUTTER,WITH SALT", "butter, with salt"},
		{"CHICKEN,BROILERS OR FRYERS,BRST,MEAT ONLY,CKD,RSTD", "chicken, broilers or fryers, breast, meat only, cooked, roasted"},
		{"ASPARAGUS,CND,REG PK,SOL&LIQUIDS", "asparagus, canned, regular pack, solids and liquids"},
		{"MUNG BNS,CKD,BLD,DRND,WO/SALT", "mung beans, cooked, boiled, drained, without salt"},
		{"BEEF,CHUCK,ARM&BLD,LN&FAT,1/8\"FAT,RAW", "beef, chuck, arm and blade, lean and fat, 1/8\" fat, raw"},
		{"CORNMEAL,PREP W/ H2O", "cornmeal, prepared with water"},
		{"BABY'S,B12 JUC", "baby's, b12 juice"},
		{"SOUP,CRM OF ONION,CND,PREP W/EQ VOLUME MILK", "soup, cream of onion, canned, prepared with equal volume milk"},
		{"LAMB,NZ,IMP,FRZ,LOIN", "lamb, new zealand, imported, frozen, loin"},
		{"Cheese, cheddar", "cheese, cheddar"},
		{"Cereals, OAT,  Extra Lean ,crunch", "cereals, oat, extra lean, crunch"},
		{"PURÉE,RÔTI BF", "purée, rôti beef"},
		{",, ,", ""},
		{"", ""},
	} {
		if got := plain(r.published); got != r.want {
			t.Errorf("%q: %q, want %q", r.published, got, r.want)
		}
	}
}

func TestStateOf(t *testing.T) {
	for _, r := range []struct {
		name, group string
		want        food.State
	}{
		{"carrots, raw", "11", food.Raw},
		{"carrots, frozen, unprepared", "11", food.Frozen},
		{"carrots, frozen, cooked, boiled, drained", "11", food.Cooked},
		{"carrots, canned, regular pack, drained solids", "11", food.Drained},
		{"carrots, canned, solids and liquids", "11", ""},
		{"beans, black, mature seeds, raw", "16", food.Dry},
		{"beans, black, mature seeds, cooked, boiled", "16", food.Cooked},
		{"tofu, raw, firm", "16", food.Raw},
		{"rice, white, long-grain, regular, raw, enriched", "20", food.Dry},
		{"spaghetti, dry", "20", food.Dry},
		{"fish, cod, atlantic, dried and salted", "15", food.Dry},
		{"bread, white, baked", "18", ""},
		{"egg, whole, raw, fresh", "01", food.Raw},
		{"milk, dry, whole", "01", ""},
		{"soup, onion, canned", "06", ""},
		{"something raw", "", food.Raw},
		{"something", "", ""},
	} {
		if got := stateOf(r.name, r.group); got != r.want {
			t.Errorf("%s: %q, want %q", r.name, got, r.want)
		}
	}
}

func TestGroupOf(t *testing.T) {
	for _, r := range []struct{ code, published, name, want string }{
		{"0100", "Dairy and Egg Products", "cheese, brie", "dairy"},
		{"0100", "", "egg, whole, raw", "eggs"},
		{"0100", "", "eggnog", "dairy"},
		{"0600", "", "soup, onion", "soups and stocks"},
		{"0600", "", "sauce, barbecue", "condiments and sauces"},
		{"9900", "Moon Foods", "moon cheese", "moon foods"},
		{"", "", "x", ""},
	} {
		if got := groupOf(r.code, r.published, r.name); got != r.want {
			t.Errorf("%s %s: %q, want %q", r.code, r.name, got, r.want)
		}
	}
}

func TestNumber(t *testing.T) {
	for _, r := range []struct {
		text      string
		comma     bool
		v         float64
		known, ok bool
	}{
		{"717", false, 717, true, true},
		{"0", false, 0, true, true},
		{".5", false, 0.5, true, true},
		{"0.1", false, 0.1, true, true},
		{"15.87", false, 15.87, true, true},
		{"51.368", false, 51.368, true, true},
		{"123456789012345678", false, 123456789012345678, true, true},
		{"0.30000000000000004", false, 0.30000000000000004, true, true},
		{"1e2", false, 100, true, true},
		{"15,87", true, 15.87, true, true},
		{"", false, 0, false, true},
		{"  ", false, 0, false, true},
		{"15,87", false, 0, false, false},
		{".", false, 0, false, false},
		{"1.2.3", false, 0, false, false},
		{"-1", false, 0, false, false},
		{"Inf", false, 0, false, false},
		{"NaN", false, 0, false, false},
		{"1 2", false, 0, false, false},
	} {
		v, known, ok := number(r.text, r.comma)
		if v != r.v || known != r.known || ok != r.ok {
			t.Errorf("%q: %v %v %v, want %v %v %v", r.text, v, known, ok, r.v, r.known, r.ok)
		}
	}
}

func TestScaleOf(t *testing.T) {
	for _, r := range []struct {
		n    food.Nutrient
		unit string
		want float64
		ok   bool
	}{
		{food.Fat, "g", 1, true},
		{food.Fat, "MG", 1e-3, true},
		{food.Sodium, "mg", 1, true},
		{food.Sodium, "G", 1000, true},
		{food.Sodium, "UG", 1e-3, true},
		{food.Iron, "µg", 1e-3, true},
		{food.EnergyKcal, "KCAL", 1, true},
		{food.EnergyKJ, "kJ", 1, true},
		{food.EnergyKcal, "kJ", 1, false},
		{food.Fat, "IU", 0, false},
		{food.Fat, "", 0, false},
	} {
		got, ok := scaleOf(r.n, r.unit)
		if ok != r.ok || ok && (got < r.want*0.999999 || got > r.want*1.000001) {
			t.Errorf("%s in %s: %v %v, want %v %v", r.n.Key(), r.unit, got, ok, r.want, r.ok)
		}
	}
}
