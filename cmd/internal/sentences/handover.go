package sentences

import (
	"fmt"
	"math"

	"frostward/cmd/internal/words"
	"frostward/risk"
)

// handover says when the bed is free, and what waiting for it costs the planting that then
// scores as after.
func (w In) handover(h *risk.Handover, after risk.Result) string {
	if !h.InTime.Known {
		return fmt.Sprintf("When %s leaves the bed is not known.", h.Before)
	}
	start := w.day(after.Planting.Start)
	out := fmt.Sprintf("The bed is free of %s by %s in %s", h.Before, start, words.InYears(h.InTime.Share))
	if h.Overlap > 0 {
		out = fmt.Sprintf("Planted between the last of %s for up to %d days, it can go in on %s in %s", h.Before, h.Overlap, start, words.InYears(h.InTime.Share))
	}
	return out + "." + w.leaves(h) + " " + waitCosts(h, after)
}

// leaves says when the planting before leaves the bed in the seasons in which it lives and is
// picked, and in how many it does.
func (w In) leaves(h *risk.Handover) string {
	usual, last := h.Leaves[1], h.Leaves[2]
	if !h.Picked.Known || !usual.Known || math.IsInf(usual.Value, 0) {
		return ""
	}
	out := fmt.Sprintf(" After a picking of %s, in %s, it is free about %s", h.Before, words.InYears(h.Picked.Share), words.Day(w.Calendar, usual.Value))
	if last.Known && !math.IsInf(last.Value, 0) && words.Day(w.Calendar, last.Value) != words.Day(w.Calendar, usual.Value) {
		out += fmt.Sprintf(", by %s in 9 of 10 such years", words.Day(w.Calendar, last.Value))
	}
	return out + "."
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
