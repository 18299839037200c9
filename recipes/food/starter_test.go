package food_test

import (
	"testing"

	"parewell/assets"
	"parewell/recipes/food"
)

// starter reads the embedded table once for the tests of this file's package.
func starter(t testing.TB) []*food.Food {
	t.Helper()
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		t.Fatal(err)
	}
	return foods
}

func TestStarterReads(t *testing.T) {
	if foods := starter(t); len(foods) != 901 {
		t.Errorf("%d foods, want 901", len(foods))
	}
}
