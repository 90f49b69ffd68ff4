package risk

import (
	"fmt"

	"frostward/climate"
)

// Words says in plain sentences how often the plants must come in while they harden off.
func (h Hardening) Words(c climate.Calendar) string {
	w := h.Worst()
	if w < 0 || !h.Any.Known {
		return "How cold its nights are is not known."
	}
	worst := h.Nights[w]
	switch {
	case h.Any.Share == 0:
		return fmt.Sprintf("No night of the %d was cold enough to set the plants back in any season; cover them when it is windy.", len(h.Nights))
	case h.Any.Share < 0.1:
		return fmt.Sprintf("A night among the %d is cold enough to set them back in %s only.", len(h.Nights), InYears(h.Any.Share))
	}
	return fmt.Sprintf("Bring them in on %s of the %d: left out, they would be set back in %s. The riskiest is the night to %s (%.0f %%, at %.1f °C or below).",
		nightsIn(h.Inside[0].Value, h.Inside[1].Value), len(h.Nights), InYears(h.Any.Share), c.Words(worst.Day), 100*worst.Harm.Share, worst.Limit)
}

// nightsIn says how many nights, from the median and the 90 % quantile: "2 nights in a usual
// season, up to 5 in 9 of 10,".
func nightsIn(median, ninety float64) string {
	switch {
	case median < 0.5 && ninety < 1.5:
		return "at most 1 night (9 years in 10)"
	case median < 0.5:
		return fmt.Sprintf("at most %.0f nights (9 years in 10)", ninety)
	case median < 1.5:
		return fmt.Sprintf("1 night in a usual year, up to %.0f (9 years in 10)", ninety)
	}
	return fmt.Sprintf("%.0f nights in a usual year, up to %.0f (9 years in 10)", median, ninety)
}
