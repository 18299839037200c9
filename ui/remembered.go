package ui

// prefBasis is the preference that keeps how the last packet label counted its
// carbohydrate: by US or EU rules. Whoever types labels types her own country's.
const prefBasis = "label.basis"

// firstBasis is the basis of the label typed last, else the US one.
func (w *Window) firstBasis() string {
	if w.app.Preferences().String(prefBasis) == basisEU {
		return basisEU
	}
	return basisUS
}

// keepBasis remembers the basis for the next label.
func (w *Window) keepBasis(key string) { w.app.Preferences().SetString(prefBasis, key) }
