package food

// Hit is one food found by a search. Rank 0 is best; Alias is the name that
// matched when it was not the food's own, Close when that alias names a
// neighbour rather than the food itself.
type Hit struct {
	Food    *Food
	Score   float64 // higher is better; comparable within one search only
	Alias   string
	Close   bool
	Differs string
}
