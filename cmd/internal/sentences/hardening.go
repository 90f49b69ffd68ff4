package sentences

import (
	"fmt"
	"strings"

	"frostward/cmd/internal/words"
	"frostward/risk"
)

// Hardening says how often the plants must come in while they harden off.
func (w In) Hardening(h risk.Hardening) string {
	worst := h.Worst()
	if worst < 0 || !h.Any.Known {
		return "How cold its nights are is not known."
	}
	n := len(h.Nights)
	switch {
	case h.Any.Share == 0:
		return fmt.Sprintf("None of its %s was too cold to leave them out in any season; shelter them from wind and hot sun at first.", nightsOf(n))
	case h.Any.Share < 0.1:
		return fmt.Sprintf("One of its %s is too cold to leave them out in %s.", nightsOf(n), words.InYears(h.Any.Share))
	}
	return fmt.Sprintf("%s %s: bring them in then. The worst is the night to %s (%.0f %%).", hurt(h.Inside[0].Value, h.Inside[1].Value, n), w.limits(h),
		w.day(h.Nights[worst].Day), 100*h.Nights[worst].Harm.Share)
}

func nightsOf(n int) string {
	if n == 1 {
		return "single night"
	}
	return fmt.Sprintf("%d nights", n)
}

// limits says how cold a night may not be: "(at 1.0 °C or below at first, 0.0 °C at last)".
func (w In) limits(h risk.Hardening) string {
	first, last := h.Nights[0].Limit, h.Nights[len(h.Nights)-1].Limit
	if first == last {
		return fmt.Sprintf("(at %s or below)", w.Tenths(first))
	}
	return fmt.Sprintf("(at %s or below at first, %s at last)", w.Tenths(first), w.Tenths(last))
}

// hurt says on how many of its nights the plants would be hurt, from the median and the 90 %
// quantile over the seasons.
func hurt(median, ninety float64, of int) string {
	const hurt = "plants so far hardened would be set back"
	switch {
	case ninety < 0.5:
		return fmt.Sprintf("Hardly ever, on one of its %d nights, %s", of, hurt)
	case median < 0.5:
		return fmt.Sprintf("In a usual year they can stay out; in a bad one (1 in 10), on %.0f of its %d nights, %s", ninety, of, hurt)
	case ninety < median+0.5:
		return fmt.Sprintf("On %.0f of its %d nights %s", median, of, hurt)
	}
	return fmt.Sprintf("On %.0f of its %d nights in a usual year, and on %.0f in a bad one (1 in 10), %s", median, of, ninety, hurt)
}

// HardeningNights is the chance of harm of each night of hardening off.
func (w In) HardeningNights(h risk.Hardening) string {
	if h.Any.Share < 0.1 {
		return ""
	}
	var n []string
	for _, x := range h.Nights {
		n = append(n, fmt.Sprintf("%.0f", 100*x.Harm.Share))
	}
	return fmt.Sprintf(" Night by night from %s: %s %%.", w.Calendar.Words(h.Nights[0].Day), strings.Join(n, " "))
}
