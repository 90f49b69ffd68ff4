package risk

import "frostward/climate"

// Verdict is the one word for a planting. The zero value is not known.
type Verdict int

const (
	NotKnown Verdict = iota
	Sound            // even the low end of the interval meets the grower's aim
	Likely           // the chance meets the aim, its low end does not
	TooEarly         // it fails too often, and a later day does better
	TooLate          // it fails too often, and an earlier day does better
	Poor             // it fails too often, and no day nearby does better
	Failing          // it fails too often; Assess says which of the three above it is
)

// String returns the word shown and written.
func (v Verdict) String() string {
	return [...]string{"not known", "sound", "likely", "too early", "too late", "poor", "failing"}[v]
}

// Fails says whether the chance misses the aim.
func (v Verdict) Fails() bool { return v >= TooEarly }

// grade weighs a chance of success against the one that the grower aims for, such as 0.8: sound
// where the lower end of its interval is at least the aim, so that few seasons cannot make a
// planting look sound; likely where the chance itself is; failing below.
func grade(succeeds climate.Chance, aim float64) Verdict {
	switch {
	case !succeeds.Known:
		return NotKnown
	case succeeds.Low >= aim:
		return Sound
	case succeeds.Share >= aim:
		return Likely
	}
	return Failing
}

// meets says whether a chance meets an aim at the lower end of its interval.
func meets(c climate.Chance, aim float64) bool { return grade(c, aim) == Sound }

// kindOfFailing is what to change about a planting that fails: the way to a better day says more
// than which of frost and warmth fails oftener, as a sowing may ripen late because it stood in
// cold soil.
func kindOfFailing(planned, better climate.SeasonDay, found bool) Verdict {
	switch {
	case !found:
		return Poor
	case better > planned:
		return TooEarly
	}
	return TooLate
}
