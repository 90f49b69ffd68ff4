package words

import (
	"fmt"
	"math"

	"frostward/climate"
)

// InYears says a share of seasons as years in 10: "9 years in 10". Shares that would round
// to none or all of the 10 say so.
func InYears(share float64) string {
	switch n := int(math.Round(share * 10)); {
	case share <= 0:
		return "no year"
	case share >= 1:
		return "every year"
	case share < 0.05:
		return "under 1 year in 20"
	case share > 0.95:
		return "over 19 years in 20"
	case n == 10: // 0.95 itself
		return "19 years in 20"
	case n == 1:
		return "1 year in 10"
	case n == 5:
		return "half the years"
	default:
		return fmt.Sprintf("%d years in 10", n)
	}
}

// Chances says the chance of one night's event: "3 chances in 10", "1 chance in 40".
func Chances(p float64) string {
	switch n := math.Round(p * 10); {
	case p < 0.001:
		return "less than 1 chance in 1000"
	case p < 0.15:
		return fmt.Sprintf("1 chance in %.0f", math.Round(1/p))
	case p > 0.95:
		return "more than 19 chances in 20"
	default:
		return fmt.Sprintf("%.0f chances in 10", n)
	}
}

// Percent says a chance with its interval: "87 % (78-92)".
func Percent(c climate.Chance) string {
	if !c.Known {
		return "not known"
	}
	return fmt.Sprintf("%.0f %% (%.0f-%.0f)", 100*c.Share, 100*c.Low, 100*c.High)
}
