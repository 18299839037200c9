package reading

import "testing"

// TestRowsThatStartWithAFractionAreIngredients holds a fault found in use: a
// row such as "1/2 tsp salt" was parted at its stroke and taken for page
// furniture.
func TestRowsThatStartWithAFractionAreIngredients(t *testing.T) {
	d, err := ReadText("Soup\nServes 2\n\nIngredients\n500g carrots\n1/2 tsp salt\n3/4 cup milk\n100g/4oz butter\n½ tsp sugar; sifted\n\nMethod\nBoil.\n", Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Lines) != 5 {
		t.Fatalf("%d lines, want all 5", len(d.Lines))
	}
}
