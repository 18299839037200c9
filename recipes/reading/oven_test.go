package reading

import "testing"

func TestOven(t *testing.T) {
	for _, row := range []struct {
		name                string
		steps               []string
		heat, minutes, rest Said
	}{
		{"all in one", []string{"Mix.", "Bake at 200 C for 25 minutes, then rest 10 minutes."}, Said{200, 2}, Said{25, 2}, Said{10, 2}},
		{"fan and gas beside it", []string{"Heat the oven to 200°C/180°C fan/gas 6.", "Bake for 45-50 minutes. Leave to stand for 5 minutes."}, Said{200, 1}, Said{47.5, 2}, Said{5, 2}},
		{"fan in brackets", []string{"Preheat the oven to 190 °C (fan 170 °C).", "Roast for 1 hour.", "Leave it for 15 minutes to rest."}, Said{190, 1}, Said{60, 2}, Said{15, 3}},
		{"Fahrenheit", []string{"Preheat oven to 350 degrees F.", "Bake 30 minutes."}, Said{175, 1}, Said{30, 2}, Said{}},
		{"both scales", []string{"Preheat the oven to 350 F (180 C) and bake for 30 minutes."}, Said{180, 1}, Said{30, 1}, Said{}},
		{"gas alone", []string{"Bake at gas mark 4 for 20 minutes."}, Said{180, 1}, Said{20, 1}, Said{}},
		{"two heats", []string{"Bake at 220 C for 10 minutes.", "Turn the oven down to 180 C and bake for 20 minutes."}, Said{}, Said{20, 2}, Said{}},
		{"a core and an oil", []string{"Heat the oil to 180 C.", "Simmer for 40 minutes until it reads 75 C."}, Said{}, Said{40, 2}, Said{}},
		{"a dough rests before", []string{"Let the dough rest for 30 minutes.", "Bake at 230 C for 12 minutes with the rest of the cheese for 2 minutes."}, Said{230, 2}, Said{12, 2}, Said{}},
		{"no scale", []string{"Bake at 200 for 25 minutes."}, Said{}, Said{25, 1}, Said{}},
		{"nothing", nil, Said{}, Said{}, Said{}},
	} {
		got := Oven(row.steps)
		if got.Heat != row.heat || got.Minutes != row.minutes || got.Rest != row.rest {
			t.Errorf("%s: %+v", row.name, got)
		}
	}
}
