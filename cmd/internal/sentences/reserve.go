package sentences

import (
	"fmt"
	"math"

	"frostward/cmd/internal/words"
	"frostward/risk"
)

// ReserveName names what a planting falls back on, shortly.
func (w In) ReserveName(r risk.Reserve) string {
	if r.Again {
		return "again on " + w.day(r.On)
	}
	return fmt.Sprintf("%s until %s", words.Plural(r.Plants, "plant"), w.day(r.On))
}

// Reserved says in how many years there is a crop from a planting or its reserve, from when, and at
// what cost. yearly is what the reserve costs a year and lost what a lost planting does, both in unit; NaN is
// not known.
func (w In) Reserved(a *risk.Assessment, yearly, lost float64, unit string) string {
	r, alone := a.Reserved, a.Result.Succeeds
	if !r.Pair.Succeeds.Known {
		return ""
	}
	var text, cost string
	if r.Again {
		how := "planted out"
		if !a.Result.Planting.Raised {
			how = "sown"
		}
		text = fmt.Sprintf("%s again on %s: from one or the other there is", words.Capital(how), w.day(r.On))
		cost = "again"
	} else {
		of := ""
		if r.Of > 0 {
			of = fmt.Sprintf(" for the %d of the planting", r.Of)
		}
		text = fmt.Sprintf("%s held back under cover until %s%s, and planted out then in place of what frost has killed (in %s): there is",
			words.Plural(r.Plants, "plant"), w.day(r.On), of, words.InYears(r.Needed.Share))
		cost = "plant"
	}
	text += fmt.Sprintf(" a crop in %s (%s %%), not in %.0f %%", words.InYears(r.Pair.Succeeds.Share), words.Interval(r.Pair.Succeeds), 100*alone.Share)
	if r.Used.Share == 0 {
		return text + "."
	}
	if first := w.Picking(r.Pair); first != words.Dash {
		text += ", picked from about " + first
	}
	if pick, _ := r.Second.WhenItSucceeds(); !math.IsNaN(pick) {
		text += fmt.Sprintf("; in the %s of the years with a crop from the reserve alone, from about %s", words.Hundredths(r.Used.Share), words.Day(w.Calendar, pick))
	}
	switch {
	case math.IsNaN(yearly) || math.IsNaN(lost):
		text += fmt.Sprintf(". What that costs, and whether it is worth it, is not known: garden.yaml does not give %s and lost under costs.", cost)
	default:
		text += fmt.Sprintf(". It costs %.2g %s a year and saves about %.2g, a planting lost counting %.2g.", yearly, unit, r.Saves(lost), lost)
	}
	return text
}

// ReserveKind names a kind of reserve.
func ReserveKind(r risk.Reserve, raised bool) string {
	switch {
	case !r.Again:
		return "spare plants"
	case raised:
		return "a second planting"
	}
	return "a second sowing"
}

// Reserves says what a reserve does for a crop, against one planting on its best day. lost is what a planting
// lost counts, NaN where that is not known.
func (w In) Reserves(p risk.Planting, win risk.Window, plans []risk.ReservePlan, lost float64, unit string) string {
	if win.Best < 0 || len(plans) == 0 {
		return tried(p) + ": not known, or no crop in any year; there is nothing to fall back on."
	}
	one := win.Starts[win.Best]
	text := fmt.Sprintf("%s: by itself, on its best day (%s), it succeeds in %.0f %% of the years.", tried(p), w.day(one.Day), 100*one.Succeeds.Share)
	for _, x := range plans {
		c := x.Of.Pair.Succeeds
		if x.Of.Again {
			text += fmt.Sprintf(" On %s and again on %s, both left to stand, there is a crop in %.0f %%", w.day(x.First.Planting.Start), w.day(x.Of.On), 100*c.Share)
		} else {
			text += fmt.Sprintf(" On %s, with spare plants held back under cover until %s, there is a crop in %.0f %%", w.day(x.First.Planting.Start), w.day(x.Of.On), 100*c.Share)
		}
		if later := (c.Share - one.Succeeds.Share) * lost; !math.IsNaN(later) && later > 0 {
			text += fmt.Sprintf(", which saves about %.2g %s a year before its own costs", later, unit)
		}
		text += "."
	}
	if math.IsNaN(lost) {
		text += " What that is worth is not known: garden.yaml does not give lost under costs."
	}
	return text
}
