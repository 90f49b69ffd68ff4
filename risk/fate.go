package risk

// Fate is what became of one planting in one season. Days are season days as floats,
// climate.Never for what did not happen. The zero value is not known.
type Fate struct {
	Known bool
	Why   string // why it is not known

	KilledOn   float64 // the night that kills it before anything is picked, or Never
	Lost       bool    // killed so: it does not survive
	SetBackOn  float64 // the first night it is set back before picking
	SetBacks   int     // nights that set it back before picking
	Chilled    int     // nights at or below the chilling limit in its first fortnight
	ColdNights int     // nights before picking that uncovered would set it back or kill it

	EmergedOn float64 // of a sowing in place
	ReadyOn   float64 // first picking, were it to escape a killing frost in spring
	EndsOn    float64 // the killing frost, or the end of the span, after which nothing is picked
	Ripens    bool    // ready in time to be worth picking
	Light     bool    // it fails for light: without the light limit it would have ripened
}

// Succeeds tells whether the planting both survives and ripens.
func (f Fate) Succeeds() bool { return !f.Lost && f.Ripens }
