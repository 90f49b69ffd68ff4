package words

import (
	"fmt"
	"math"

	"frostward/climate"
)

// nearNone is the share below which, and as near to all above which, hundredths are said: a
// tenth more or less would there be as much as the share itself, or what is left of it.
const nearNone = 0.075

// tenths is a share in whole tenths, which are never further from it than half a tenth, and
// whether it may be said so.
func tenths(share float64) (n float64, fair bool) {
	return math.Round(share * 10), share >= nearNone && share <= 1-nearNone
}

// Hundredths says a share in per cent.
func Hundredths(share float64) string {
	switch {
	case share < 0.005:
		return "under 1 %"
	case share >= 0.995:
		return "over 99 %"
	}
	return fmt.Sprintf("%.0f %%", math.Round(100*share)) // a half is rounded up, not to 0
}

// InYears says a share of seasons: "9 years in 10", "3 % of the years", "every year".
func InYears(share float64) string {
	switch n, fair := tenths(share); {
	case share <= 0:
		return "no year"
	case share >= 1:
		return "every year"
	case !fair:
		return Hundredths(share) + " of the years"
	case n == 1:
		return "1 year in 10"
	case n == 5:
		return "half the years"
	default:
		return fmt.Sprintf("%.0f years in 10", n)
	}
}

// Chances says the chance of one event: "3 chances in 10", "a chance of 2 %".
func Chances(p float64) string {
	switch n, fair := tenths(p); {
	case !fair:
		return "a chance of " + Hundredths(p)
	case n == 1:
		return "1 chance in 10"
	default:
		return fmt.Sprintf("%.0f chances in 10", n)
	}
}

// InTen says a share shortly, for pictures: "9 in 10", "3 %", "never".
func InTen(share float64) string {
	switch n, fair := tenths(share); {
	case math.IsNaN(share):
		return "not known"
	case share <= 0:
		return "never"
	case share >= 1:
		return "always"
	case !fair:
		return Hundredths(share)
	default:
		return fmt.Sprintf("%.0f in 10", n)
	}
}

// Range says an interval of a chance in per cent, "78-92": rounded outward, so that what is
// stated is never narrower than what is known, and a low end of 79.6 is not said to reach 80.
func Range(low, high float64) string {
	const hair = 1e-9 // 0.07 times 100 is a hair above 7
	return fmt.Sprintf("%.0f-%.0f", math.Floor(100*low+hair), math.Ceil(100*high-hair))
}

// Interval is Range of a chance, a dash where it is not known.
func Interval(c climate.Chance) string {
	if !c.Known {
		return Dash
	}
	return Range(c.Low, c.High)
}

// WithInterval says a chance with its interval: "87 % (78-92)".
func WithInterval(c climate.Chance) string {
	if !c.Known {
		return "not known"
	}
	return fmt.Sprintf("%.0f %% (%s)", 100*c.Share, Interval(c))
}

// met says a chance beside the aim that it meets or misses: in whole per cent, or with the
// decimals that show a chance just below the aim to be below it.
func met(c climate.Chance, aim float64) string {
	if c.Known && c.Share < aim && math.Round(100*c.Share) >= 100*aim {
		return fmt.Sprintf("%.1f %%", math.Floor(1000*c.Share)/10)
	}
	return fmt.Sprintf("%.0f %%", 100*c.Share)
}

// Aimed counts the plantings that are sound and those that are likely, by the verdicts.
func Aimed(sound, likely, of int, aim float64) string {
	s := fmt.Sprintf("Sound: %d of %s, at least %.0f %% even at the interval's lower end.", sound, Plural(of, "planting"), 100*aim)
	if likely > 0 {
		s += fmt.Sprintf(" Likely: %d more, at least that but for the lower end.", likely)
	}
	return s
}
