package risk

import "frostward/climate"

// NotPlayed is why a season's outcome is not known; the zero value is that the record has days missing.
type NotPlayed int

// Why a season is not played to its end.
const (
	DaysMissing       NotPlayed = iota
	DaysMissingBefore           // for the planting before it in the bed
	DiedBefore                  // it would not have lived to a day on which it is known to live
)

// Outcome is what became of one planting in one season. A day of what did not
// happen is climate.NeverDay. The zero value is not known.
type Outcome struct {
	Known bool
	Why   NotPlayed // where it is not known

	KilledOn   climate.SeasonDay // the night that kills it before anything is picked
	Lost       bool              // killed so: it does not survive
	SetBackOn  climate.SeasonDay // the first night it is set back before picking
	SetBacks   int               // nights that set it back before picking
	Chilled    int               // nights at or below the chilling limit in its first fortnight
	ColdNights int               // nights before picking that uncovered would set it back or kill it

	EmergedOn climate.SeasonDay // of a sowing in place
	ReadyOn   climate.SeasonDay // first picking, were it to escape a killing frost in spring
	EndsOn    climate.SeasonDay // the killing frost, or the end of the span, after which nothing is picked
	Ripens    bool              // ready in time to be worth picking
	Light     bool              // it fails for light: without the light limit it would have ripened
}

// begun is what is known of a planting before its season is played: nothing has happened.
func begun() Outcome {
	return Outcome{Known: true, KilledOn: climate.NeverDay, SetBackOn: climate.NeverDay, EmergedOn: climate.NeverDay,
		ReadyOn: climate.NeverDay, EndsOn: climate.NeverDay}
}

// upOn is the day on which a planting is out in the open: NeverDay for seed that does not come up.
func (f Outcome) upOn(p Planting) climate.SeasonDay {
	if p.Raised {
		return p.Start
	}
	return f.EmergedOn
}

// Succeeds says whether the planting both survives and ripens.
func (f Outcome) Succeeds() bool { return !f.Lost && f.Ripens }
