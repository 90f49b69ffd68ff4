package words

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/risk"
)

// Handover says when the bed is free, and what waiting for it costs the planting that then
// scores as after.
func (w In) Handover(h *risk.Handover, after risk.Result) string {
	if !h.InTime.Known {
		return fmt.Sprintf("When %s leaves the bed is not known.", h.Before)
	}
	start := w.day(after.Planting.Start)
	out := fmt.Sprintf("The bed is free of %s by %s in %s", h.Before, start, InYears(h.InTime.Share))
	if h.Overlap > 0 {
		out = fmt.Sprintf("Planted between the last of %s for up to %d days, it can go in on %s in %s", h.Before, h.Overlap, start, InYears(h.InTime.Share))
	}
	if free := h.Free[1]; !math.IsInf(free.Value, 0) {
		out += ", usually on " + w.day(climate.SeasonDay(free.Value))
		if last := h.Free[2]; !math.IsInf(last.Value, 0) && last.Value > free.Value {
			out += fmt.Sprintf(" and by %s in 9 years in 10", w.day(climate.SeasonDay(last.Value)))
		}
	}
	return out + ". " + waitCosts(h, after)
}

func waitCosts(h *risk.Handover, after risk.Result) string {
	c := h.Cost(after)
	switch {
	case c.Never:
		return "It never waits."
	case c.Chance:
		return fmt.Sprintf("The wait costs it: in a free bed it would succeed in %.0f %% of the years, not %.0f %%. Clear the bed sooner, or give it another.",
			100*h.Alone.Succeeds.Share, 100*after.Succeeds.Share)
	case c.Later >= 1:
		return fmt.Sprintf("The wait makes its picking %s later and no less sure.", days(c.Later))
	}
	return "The wait costs it next to nothing."
}
