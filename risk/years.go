package risk

import (
	"fmt"
	"math"
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
