package ratings

// Report is the whole analysis; see the package for its JSON.
type Report struct {
	Results []*Result `json:"results"`
}

// Result is the analysis of one attribute.
type Result struct {
	Attribute       string       `json:"attribute"`
	Panelists       int          `json:"panelists"`
	Servings        int          `json:"servings"`
	Blank           int          `json:"blank,omitempty"`
	Model           string       `json:"model"`
	Original        string       `json:"original"`
	ResidualSD      Number       `json:"residual_sd"`
	Samples         []Sample     `json:"samples"`
	Anova           Anova        `json:"anova"`
	PHolm           *Number      `json:"p_holm,omitempty"`
	Pairs           []Pair       `json:"pairs"`
	AgainstOriginal []Against    `json:"against_original"`
	DunnettError    Number       `json:"dunnett_error"`
	Friedman        FriedmanTest `json:"friedman"`
	Mixed           *Mixed       `json:"mixed"`
	Order           *Order       `json:"order,omitempty"`
	*SwapPart
	Notes []string `json:"notes"`

	limit  float64
	column *column
	fit    *fit
	ms     float64 // residual mean square; NaN without
	byPot  *fit    // of block + pot, when asked for
}

// Sample is what was scored of one sample. The adjusted mean is the one to
// compare; the interval is of 95 %.
type Sample struct {
	Name         string  `json:"name"`
	N            int     `json:"n"`
	Mean         Number  `json:"mean"`
	AdjustedMean Number  `json:"adjusted_mean"`
	SE           Number  `json:"se"`
	Low          Number  `json:"low"`
	High         Number  `json:"high"`
	Distribution []Count `json:"distribution"`
}

// Count is how often a score was given.
type Count struct {
	Score float64 `json:"score"`
	Count int     `json:"count"`
}

// Anova is the Type II analysis of variance.
type Anova struct {
	Sample   Term  `json:"sample"`
	Panelist Term  `json:"panelist"`
	Tasting  *Term `json:"tasting,omitempty"`
	Residual struct {
		DF int    `json:"df"`
		SS Number `json:"ss"`
		MS Number `json:"ms"`
	} `json:"residual"`
}

// Term is one line of an analysis of variance.
type Term struct {
	DF int    `json:"df"`
	SS Number `json:"ss"`
	MS Number `json:"ms"`
	F  Number `json:"f"`
	P  Number `json:"p"`
}

// Pair is a less b, Tukey's p and simultaneous 95 % interval.
type Pair struct {
	A          string `json:"a"`
	B          string `json:"b"`
	Difference Number `json:"difference"`
	SE         Number `json:"se"`
	P          Number `json:"p_tukey"`
	Low        Number `json:"low"`
	High       Number `json:"high"`
}

// Against is a sample less the original, Dunnett's p and simultaneous 95 %
// interval.
type Against struct {
	Sample     string      `json:"sample"`
	Difference Number      `json:"difference"`
	SE         Number      `json:"se"`
	P          Number      `json:"p_dunnett"`
	Low        Number      `json:"low"`
	High       Number      `json:"high"`
	Equivalent *Equivalent `json:"equivalent,omitempty"`
}

// Equivalent is the pair of one-sided tests against the margin on both sides, P of
// this sample alone and PHolm over all samples set against the original.
type Equivalent struct {
	Margin Number `json:"margin"`
	P      Number `json:"p"`
	PHolm  Number `json:"p_holm"`
}

// FriedmanTest is the rank test (Durbin's, or Skillings and Mack's, when
// servings are missing).
type FriedmanTest struct {
	Chi2  Number `json:"chi2"`
	DF    Number `json:"df"`
	P     Number `json:"p"`
	Exact Number `json:"exact"`
	W     Number `json:"w"`
}

// Codes of Result.Notes.
const (
	NoteNoVariation  = "no_variation"   // all scores are equal
	NoteNoResidual   = "no_residual"    // every panelist put exactly the same differences
	NoteOneSample    = "one_sample"     // nothing to compare
	NoteOnePanelist  = "one_panelist"   // nothing to measure scatter by
	NoteNoScatter    = "no_scatter"     // no degrees of freedom are left for it
	NoteApart        = "apart"          // samples that no panelist joins
	NoteOnePotEach   = "one_pot_each"   // intervals cannot hold what a pot does
	NoteFewPots      = "few_pots"       // pots are known on fewer than 4 degrees of freedom
	NoteSaturated    = "saturated"      // versions cannot show whether swaps interact
	NoteLackOfFit    = "lack_of_fit"    // versions miss the sum of their swaps
	NoteFirst        = "first_position" // the first on the tray is scored differently
	NoteCarryover    = "carryover"      // what came before tells
	NoteMixedUp      = "mixed_up"       // a swap goes with the cook, the day or the position
	NoteBoundary     = "mixed_boundary" // panelists do not differ in level beyond scatter
	NoteNotServed    = "not_served"     // versions of SWAPS.csv without scores
	NoteNoSwapVaries = "no_swap_varies" // every swap was always on or never
)
