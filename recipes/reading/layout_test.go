package reading

import (
	"strings"
	"testing"
)

// TestLayouts reads recipes laid out as cooks and pages lay them out; each row
// names what it was that a reading once stumbled over.
func TestLayouts(t *testing.T) {
	for _, c := range []struct {
		name, text   string
		title        string
		serves, high float64
		lines, steps int
	}{
		{"method without a heading", "Cookies\nYield: 24 cookies\n1 cup butter\n1 cup sugar\nflaky sea salt, for sprinkling\nCream butter and sugar for 3 minutes.\nScoop 2 Tbsp balls onto a lined sheet.\nSprinkle with flaky salt.", "Cookies", 24, 0, 3, 3},
		{"a food without an amount first", "Lava Cakes\nServes: 4\nNonstick cooking spray\n6 oz dark chocolate\n2 eggs\nSpray four ramekins with cooking spray.\nBake everything for 12 minutes.", "Lava Cakes", 4, 0, 3, 2},
		{"pictures as bullets", "Soup\n⏲️ 30 min  🍽️ 4 servings\n🛒 INGREDIENTS\n🔸 4 Tbsp butter\n🔸 1 onion\n👩‍🍳 INSTRUCTIONS\nFry the onion in the butter.", "Soup", 4, 0, 2, 1},
		{"a table with tabs", "Fried Rice\nServes 2\nIngredients\nEggs\t2 large\nCooked rice\t3 cups\nScallions\t2, sliced\nMethod\nFry it all.", "Fried Rice", 2, 0, 3, 1},
		{"name, comma, amount", "Stew\nServes 2\nOlive oil, 2 Tbsp.\nOnion, 1 large, chopped\nGarlic, 3 cloves, minced\nLemon, 1, juiced\nDirections: Heat oil. Fry onion.", "Stew", 2, 0, 4, 1},
		{"several on a row", "Tacos\nServes 4\nSlaw: 3 c. shredded cabbage; 1/4 c. mayonnaise; 1 tsp. sugar\n8 corn tortillas\nToss slaw and fill the tortillas with everything.", "Tacos", 4, 0, 4, 1},
		{"servings in the title", "Bibimbap (2 people)\n200 g rice\n2 eggs\nCook everything separately in a pan.", "Bibimbap", 2, 0, 2, 1},
		{"servings after a dash", "FISH TACOS — 4 SERVINGS\n1 lb cod\n8 corn tortillas\nFry the fish in a pan.", "FISH TACOS", 4, 0, 2, 1},
		{"servings after a bar", "Oat Pancakes | Serves 2\n1 cup oat flour\n1 banana\nBlend everything. Cook in a pan.", "Oat Pancakes", 2, 0, 2, 1},
		{"a choice of servings", "Risotto\nServes 2 large or 4 small\n300 g arborio rice\n50 g butter\nStir until done in a pan.", "Risotto", 2, 4, 2, 1},
		{"cups made, servings in brackets", "Chowder\nMakes about 10 cups (8 servings)\n1 onion\n2 cups milk\nSimmer everything in a pot.", "Chowder", 8, 0, 2, 1},
		{"cuts into", "Pudding\nCuts into 9 squares\n175 g dates\n85 g butter\nBake in the oven for 20 minutes.", "Pudding", 9, 0, 2, 1},
		{"another language beside", "Tiramisù\nPer 8 persone / Serves 8\n500 g mascarpone\n5 eggs\nBeat everything together well in a bowl.", "Tiramisù", 8, 0, 2, 1},
		{"heading in two languages", "Carbonara\nIngredienti / Ingredients (4 persone)\n400 g spaghetti\n4 egg yolks\nMethod\nToss together.", "Carbonara", 4, 0, 2, 1},
		{"stick plus spoons", "Cake\nServes 8\n1 stick plus 2 tbsp butter\n2 eggs + 1 yolk\nBake everything in the oven.", "Cake", 8, 0, 4, 1},
		{"three on a row with and", "Ragù\nServes 4\n1 onion, 1 carrot and 1 celery stick, all finely chopped\n500 g minced beef\nTo assemble\n12 lasagne sheets\nFry everything in a pan until brown.", "Ragù", 4, 0, 5, 1},
		{"yield in the title", "Simple Sauce  (yield: 2 cups)\n2 Tablespoons Butter\n2 Tablespoons Flour\nMelt the butter in a pan and stir in the flour until it thickens.", "Simple Sauce", 1, 0, 2, 1},
		{"para", "Pozole\nPara 8 personas / Serves 8\n3 lbs pork shoulder\n1 white onion\nSimmer everything in a pot.", "Pozole", 8, 0, 2, 1},
		{"served with a list", "Chili\nServes 6\n1 lb ground beef\nShredded cheddar, sour cream, and sliced scallions for serving\nCook it in a pot until done.", "Chili", 6, 0, 4, 1},
	} {
		d, err := ReadText(c.text, Options{Foods: table(t)})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		var lines []string
		for _, l := range d.Lines {
			lines = append(lines, l.Text)
			if l.Food.Zero() {
				t.Errorf("%s: no food for %q", c.name, l.Text)
			}
		}
		if d.Title != c.title || d.Servings != c.serves || d.ServingsHigh != c.high || len(d.Lines) != c.lines || len(d.Steps) != c.steps {
			t.Errorf("%s: %q serves %v-%v\n\t%d lines: %s\n\t%d steps: %s", c.name, d.Title, d.Servings, d.ServingsHigh, len(d.Lines), strings.Join(lines, " / "), len(d.Steps), strings.Join(d.Steps, " / "))
		}
	}
}
