package measure

import "strings"

// Kind tells what a unit counts.
type Kind uint8

// Kinds of unit.
const (
	Mass   Kind = iota // grams in Unit.Grams
	Volume             // millilitres by system
	Length             // centimetres in Unit.Centimetres: "5 cm piece"
	Pack               // a tin, jar, packet: its size is its own
	Piece              // a clove, slice, sprig: its weight is the food's
	Little             // a pinch, splash, knob: a stated default
)

// Unit is one unit of amount. Word is canonical and singular.
type Unit struct {
	Word        string
	Kind        Kind
	Grams       Grams          // of one, for Mass; the stated default for Little, 0 when that is a volume
	Centimetres float64        // of one, for Length
	volume      [3]Millilitres // of one, by System
}

// Millilitres returns the volume of one unit in the system, 0 when the unit
// is no volume.
func (u *Unit) Millilitres(s System) Millilitres {
	if int(s) >= len(u.volume) {
		s = US
	}
	return u.volume[s]
}

// same gives one volume to all systems.
func same(ml Millilitres) [3]Millilitres { return [3]Millilitres{ml, ml, ml} }

// entry is a unit with every way of writing it, its own Word included.
type entry struct {
	Unit
	words string // separated by "|"; a capital letter makes it exact
}

var byWord = map[string]*Unit{}

func init() {
	for _, table := range [][]entry{massUnits, volumeUnits, packUnits, pieceUnits, littleUnits} {
		for i := range table {
			e := &table[i]
			for _, w := range strings.Split(e.words, "|") {
				if w != "" {
					byWord[w] = &e.Unit
				}
			}
			byWord[e.Word] = &e.Unit
		}
	}
}

// Lookup returns the unit a word names, in any case and with or without a
// final stop; nil when it names none. A capital T alone is a tablespoon, a
// small t a teaspoon.
func Lookup(word string) *Unit {
	word = strings.TrimSuffix(word, ".")
	if u, ok := byWord[word]; ok {
		return u
	}
	return byWord[strings.ToLower(word)]
}

var massUnits = []entry{
	{Unit{Word: "g", Kind: Mass, Grams: 1}, "gm|gms|gr|grs|grm|gram|grams|gramme|grammes"},
	{Unit{Word: "mg", Kind: Mass, Grams: 0.001}, "milligram|milligrams"},
	{Unit{Word: "kg", Kind: Mass, Grams: 1000}, "kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes"},
	{Unit{Word: "oz", Kind: Mass, Grams: GramsPerOunce}, "ozs|ounce|ounces"},
	{Unit{Word: "lb", Kind: Mass, Grams: GramsPerPound}, "lbs|pound|pounds"},
	{Unit{Word: "stone", Kind: Mass, Grams: GramsPerStone}, ""},
	{Unit{Word: "cm", Kind: Length, Centimetres: 1}, "centimetre|centimetres|centimeter|centimeters"},
	{Unit{Word: "mm", Kind: Length, Centimetres: 0.1}, "millimetre|millimetres"},
	{Unit{Word: "inch", Kind: Length, Centimetres: 2.54}, "inches|in|\""},
}

// volumeUnits: in metric recipes a pint and fluid ounce are the imperial ones,
// because cooks who weigh in grams and still say pint are British or Irish; a
// quart likewise. Imperial spoons are 15 and 5 ml, as sold since the 1970s, and
// an imperial cup is half an imperial pint (all from memory). Dash, pinch and
// smidgen are 1/8, 1/16 and 1/32 teaspoon: common practice, no standard.
var volumeUnits = []entry{
	{Unit{Word: "ml", Kind: Volume, volume: same(1)}, "mls|mil|mils|cc|millilitre|millilitres|milliliter|milliliters"},
	{Unit{Word: "cl", Kind: Volume, volume: same(10)}, "centilitre|centilitres|centiliter|centiliters"},
	{Unit{Word: "dl", Kind: Volume, volume: same(100)}, "decilitre|decilitres|deciliter|deciliters"},
	{Unit{Word: "l", Kind: Volume, volume: same(1000)}, "ltr|ltrs|lt|litre|litres|liter|liters"},
	{Unit{Word: "tsp", Kind: Volume, volume: [3]Millilitres{USTeaspoon, 5, 5}}, "t|tsps|tspn|tea spoon|teaspoon|teaspoons|teaspoonful|teaspoonfuls"},
	{Unit{Word: "dessertspoon", Kind: Volume, volume: [3]Millilitres{10, 10, 10}}, "dsp|dsps|dessertspoons|dessertspoonful|dessertspoonfuls|dessert spoon|dessert spoons"},
	{
		Unit{Word: "tbsp", Kind: Volume, volume: [3]Millilitres{USTablespoon, 15, 15}},
		"T|Tb|Tbs|Tbl|tbs|tbl|tb|tbsps|tblsp|tblsps|tbls|tbspn|tablespoon|tablespoons|tablespoonful|tablespoonfuls|table spoon|table spoons",
	},
	{Unit{Word: "cup", Kind: Volume, volume: [3]Millilitres{USCup, 250, ImperialPint / 2}}, "c|C|cups|cupful|cupfuls"},
	{
		Unit{Word: "fl oz", Kind: Volume, volume: [3]Millilitres{USFluidOunce, ImperialFluidOunce, ImperialFluidOunce}},
		"floz|fl. oz|fl.oz|fl ozs|fluid ounce|fluid ounces|fluid oz|fl ounce|fl ounces",
	},
	{Unit{Word: "pint", Kind: Volume, volume: [3]Millilitres{2 * USCup, ImperialPint, ImperialPint}}, "pt|pts|pints"},
	{Unit{Word: "quart", Kind: Volume, volume: [3]Millilitres{4 * USCup, 2 * ImperialPint, 2 * ImperialPint}}, "qt|qts|quarts"},
	{Unit{Word: "gallon", Kind: Volume, volume: [3]Millilitres{16 * USCup, 8 * ImperialPint, 8 * ImperialPint}}, "gal|gals|gallons"},
	{Unit{Word: "gill", Kind: Volume, volume: [3]Millilitres{USCup / 2, ImperialPint / 4, ImperialPint / 4}}, "gills"},
	{Unit{Word: "shot", Kind: Volume, volume: [3]Millilitres{1.5 * USFluidOunce, 25, 25}}, "shots|jigger|jiggers"},
	{Unit{Word: "glass", Kind: Volume, volume: [3]Millilitres{175, 175, 175}}, "glasses|wineglass|wineglasses|wine glass"},
	{Unit{Word: "ladle", Kind: Volume, volume: [3]Millilitres{USCup / 2, 125, 125}}, "ladles|ladleful|ladlefuls"},
	{Unit{Word: "scoop", Kind: Volume, volume: [3]Millilitres{USCup / 2, 125, 125}}, "scoops"},
}

var packUnits = []entry{
	{Unit{Word: "can", Kind: Pack}, "cans"},
	{Unit{Word: "tin", Kind: Pack}, "tins"},
	{Unit{Word: "jar", Kind: Pack}, "jars"},
	{Unit{Word: "packet", Kind: Pack}, "packets|pkt|pkts|sachet|sachets|envelope|envelopes|env|sleeve|sleeves"},
	{Unit{Word: "pack", Kind: Pack}, "packs|package|packages|pkg|pkgs|pckg|bag|bags|pouch|pouches"},
	{Unit{Word: "carton", Kind: Pack}, "cartons|box|boxes|brick|bricks"},
	{Unit{Word: "bottle", Kind: Pack}, "bottles"},
	{Unit{Word: "tub", Kind: Pack}, "tubs|pot|pots|container|containers"},
	{Unit{Word: "tube", Kind: Pack}, "tubes"},
	{Unit{Word: "block", Kind: Pack}, "blocks"},
	{Unit{Word: "bar", Kind: Pack}, "bars"},
	{Unit{Word: "punnet", Kind: Pack}, "punnets|tray|trays"},
}

var pieceUnits = []entry{
	{Unit{Word: "clove", Kind: Piece}, "cloves"},
	{Unit{Word: "slice", Kind: Piece}, "slices"},
	{Unit{Word: "rasher", Kind: Piece}, "rashers"},
	{Unit{Word: "strip", Kind: Piece}, "strips"},
	{Unit{Word: "sprig", Kind: Piece}, "sprigs|spray|sprays"},
	{Unit{Word: "stalk", Kind: Piece}, "stalks|stem|stems|rib|ribs"},
	{Unit{Word: "stick", Kind: Piece}, "sticks"},
	{Unit{Word: "head", Kind: Piece}, "heads"},
	{Unit{Word: "bulb", Kind: Piece}, "bulbs"},
	{Unit{Word: "bunch", Kind: Piece}, "bunches"},
	{Unit{Word: "leaf", Kind: Piece}, "leaves"},
	{Unit{Word: "ear", Kind: Piece}, "ears|cob|cobs"},
	{Unit{Word: "fillet", Kind: Piece}, "fillets|filet|filets"},
	{Unit{Word: "piece", Kind: Piece}, "pieces|pc|pcs|chunk|chunks|thumb|thumbs"},
	{Unit{Word: "sheet", Kind: Piece}, "sheets"},
	{Unit{Word: "ball", Kind: Piece}, "balls"},
	{Unit{Word: "cube", Kind: Piece}, "cubes"},
	{Unit{Word: "wedge", Kind: Piece}, "wedges"},
	{Unit{Word: "floret", Kind: Piece}, "florets"},
	{Unit{Word: "link", Kind: Piece}, "links"},
	{Unit{Word: "loaf", Kind: Piece}, "loaves"},
	{Unit{Word: "pod", Kind: Piece}, "pods"},
	{Unit{Word: "round", Kind: Piece}, "rounds"},
	{Unit{Word: "square", Kind: Piece}, "squares"},
	{Unit{Word: "pat", Kind: Piece}, "pats"},
	{Unit{Word: "rack", Kind: Piece}, "racks"},
	{Unit{Word: "strand", Kind: Piece}, "strands|thread|threads"},
	{Unit{Word: "drop", Kind: Little, volume: same(0.05)}, "drops"},
}

// littleUnits carry stated defaults: common practice, no standard.
var littleUnits = []entry{
	{Unit{Word: "dash", Kind: Little, volume: [3]Millilitres{USTeaspoon / 8, 5.0 / 8, 5.0 / 8}}, "dashes|shake|shakes"},
	{Unit{Word: "pinch", Kind: Little, volume: [3]Millilitres{USTeaspoon / 16, 5.0 / 16, 5.0 / 16}}, "pinches|pinchful|sprinkle|sprinkles|sprinkling|sprinklings"},
	{Unit{Word: "smidgen", Kind: Little, volume: [3]Millilitres{USTeaspoon / 32, 5.0 / 32, 5.0 / 32}}, "smidgens|smidge|smidgeon"},
	{Unit{Word: "grind", Kind: Little, Grams: 0.1}, "grinds|grinding|grindings|twist|twists|turn|turns|grating|gratings|crack|cracks"},
	{Unit{Word: "splash", Kind: Little, volume: same(10)}, "splashes"},
	{Unit{Word: "drizzle", Kind: Little, volume: same(10)}, "drizzles"},
	{Unit{Word: "squeeze", Kind: Little, volume: same(5)}, "squeezes|squirt|squirts"},
	{Unit{Word: "glug", Kind: Little, volume: same(30)}, "glugs|slug|slugs"},
	{Unit{Word: "knob", Kind: Little, Grams: 15}, "knobs|nub|walnut-sized piece"},
	{Unit{Word: "dollop", Kind: Little, volume: same(20)}, "dollops|blob|blobs|spoonful|spoonfuls"},
	{Unit{Word: "handful", Kind: Little, Grams: 30}, "handfuls|handsful|fistful|fistfuls"},
	{Unit{Word: "dusting", Kind: Little, Grams: 5}, ""},
}
