package portions

// units maps the words of the published tables to the unit a cook writes.
var units = map[string]string{
	"cup": "cup", "cups": "cup", "tbsp": "tbsp", "tablespoon": "tbsp", "tablespoons": "tbsp",
	"tsp": "tsp", "teaspoon": "tsp", "fl oz": "fl oz", "fluid ounce": "fl oz", "pint": "pint",
	"quart": "quart", "liter": "litre", "dash": "dash", "pat": "pat", "stick": "stick", "drop": "drop",
	"clove": "clove", "cloves": "clove", "slice": "slice", "slices": "slice", "leaf": "leaf", "leaves": "leaf",
	"stalk": "stalk", "stalks": "stalk", "sprig": "sprig", "sprigs": "sprig", "bunch": "bunch", "head": "head",
	"ear": "ear", "spear": "spear", "spears": "spear", "fillet": "fillet", "breast": "breast", "thigh": "thigh",
	"drumstick": "drumstick", "wing": "wing", "leg": "leg", "steak": "steak", "chop": "chop", "roast": "roast",
	"rack": "rack", "shank": "shank", "can": "can", "package": "package", "pack": "package", "packet": "packet",
	"envelope": "envelope", "container": "container", "bottle": "bottle", "jar": "jar", "box": "box",
	"sheet": "sheet", "sheets": "sheet", "cube": "cube", "cubes": "cube", "block": "block", "bulb": "bulb",
	"wedge": "wedge", "strip": "strip", "strips": "strip", "rasher": "rasher", "link": "link", "floweret": "floret",
	"piece": "piece", "pieces": "piece", "bar": "bar", "loaf": "loaf", "half": "half", "ring": "ring",
	"jigger": "jigger", "glass": "glass", "crown": "crown", "kernel": "kernel", "shell": "shell",
	"wrapper": "wrapper", "root": "root", "pod": "pod", "pods": "pod", "crust": "crust", "heart": "heart",
	"extra small": "extra small", "small": "small", "medium": "medium", "large": "large",
	"extra large": "extra large", "jumbo": "jumbo",
}

// sizes are units that tell how big a counted one is.
var sizes = []string{"extra small", "small", "medium", "large", "extra large", "jumbo"}

// wholeWords are nouns of the tables for one whole of the food itself.
var wholeWords = []string{"fruit", "bird", "each", "whole", "pepper", "potato", "melon", "nuts", "berries", "roll"}
