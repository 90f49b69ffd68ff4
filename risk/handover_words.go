package risk

import (
	"fmt"
	"math"

	"frostward/climate"
)

// Words says in plain sentences when the bed is free, and what waiting for it costs the
// planting that then scores as after.
func (h *Handover) Words(c climate.Calendar, after Result) string {
	if !h.InTime.Known {
		return fmt.Sprintf("When %s leaves the bed is not known.", h.Before)
	}
	start := c.Words(after.Planting.Start)
	out := fmt.Sprintf("The bed is free of %s by %s in %s", h.Before, start, InYears(h.InTime.Share))
	if h.Overlap > 0 {
		out = fmt.Sprintf("Planted between the last of %s for up to %d days, it can go in on %s in %s", h.Before, h.Overlap, start, InYears(h.InTime.Share))
	}
	if free := h.Free[1]; !math.IsInf(free.Value, 0) {
		out += ", usually on " + c.Words(climate.SeasonDay(free.Value))
		if last := h.Free[2]; !math.IsInf(last.Value, 0) && last.Value > free.Value {
			out += fmt.Sprintf(" and by %s in 9 years in 10", c.Words(climate.SeasonDay(last.Value)))
		}
	}
	return out + ". " + h.cost(c, after)
}

func (h *Handover) cost(c climate.Calendar, after Result) string {
	if h.InTime.Share == 1 {
		return "It never waits."
	}
	alone, waits := h.Alone.Succeeds.Share, after.Succeeds.Share
	if alone-waits > asGood {
		return fmt.Sprintf("The wait costs it: in a free bed it would succeed in %.0f %% of the years, not %.0f %%. Clear the bed sooner, or give it another.", 100*alone, 100*waits)
	}
	later := after.Harvest[1].Value - h.Alone.Harvest[1].Value
	if later >= 1 && !math.IsInf(later, 0) { // NaN where neither is picked in half the years
		return fmt.Sprintf("The wait makes its picking %s later and no less sure.", days(later))
	}
	return "The wait costs it next to nothing."
}

func days(n float64) string {
	if n < 1.5 {
		return "a day"
	}
	return fmt.Sprintf("%.0f days", n)
}
