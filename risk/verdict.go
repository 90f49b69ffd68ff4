package risk

import "frostward/climate"

// Verdict is the one word for a planting. The zero value is not known.
type Verdict int

const (
	NotKnown Verdict = iota
	Sound            // even the low end of the interval meets the grower's aim
	Likely           // the chance meets the aim, its low end does not
	TooEarly         // it fails too often, mostly by frost, and a later day does better
	TooLate          // it fails too often, mostly by not ripening, and an earlier day does better
	Poor             // it fails too often, and no day nearby does better
)

// String returns the word shown and written.
func (v Verdict) String() string {
	return [...]string{"not known", "sound", "likely", "too early", "too late", "poor"}[v]
}

// Grade weighs a result against the chance of success that the grower aims for, such as
// 0.8. It is graded on the lower end of the interval, so that few seasons cannot make a
// planting look sound.
func Grade(r Result, aim float64) Verdict {
	switch {
	case !r.Succeeds.Known:
		return NotKnown
	case r.Succeeds.Low >= aim:
		return Sound
	case r.Succeeds.Share >= aim:
		return Likely
	case r.Survives.Share < aim && r.Ripens.Share < aim:
		return Poor
	case r.Survives.Share < r.Ripens.Share:
		return TooEarly
	default:
		return TooLate
	}
}

// meets tells whether a chance meets an aim at the lower end of its interval.
func meets(c climate.Chance, aim float64) bool { return c.Known && c.Low >= aim }
