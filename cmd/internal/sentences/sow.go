package sentences

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// tried names a crop that is tried at a spot, and its cover.
func tried(p risk.Planting) string {
	text := fmt.Sprintf("%s at the spot %q", words.Capital(p.Crop.Label()), p.Spot)
	if p.Cover.Name != "" {
		text += " under " + p.Cover.Name
	}
	return text
}

// Supply says what the sowings for a steady supply come to.
func (w In) Supply(p risk.Planting, got risk.Supply, lasts int, aim float64) string {
	n := len(got.Sowings)
	if n == 0 {
		text := fmt.Sprintf("%s: no sowing is ready in at least %.0f %% of the years at the lower end of the interval.", tried(p), 100*aim)
		if b := got.Best; b != nil {
			text += fmt.Sprintf(" The best day is %s: it succeeds in %.0f %% of the years (90 %%: %s).", w.day(b.Day), 100*b.Succeeds.Share, words.Interval(b.Succeeds))
		}
		return text
	}
	first, last := got.Sowings[0], got.Sowings[n-1]
	end := climate.SeasonDay(math.Round(last.Harvest[1].Value)) + climate.SeasonDay(lasts)
	text := fmt.Sprintf("%s: %s for picking from about %s to about %s", tried(p), words.Plural(n, "sowing"), w.Picking(first), w.day(end))
	if n > 1 {
		text += fmt.Sprintf(", the next ready as the one before is over (%d days)", lasts)
	}
	return text + "."
}

// LastSowing says what the last sowing of the year is, and how it stands the winter; "" where there is none.
func (w In) LastSowing(p risk.Planting, got risk.Supply) string {
	how := func(p risk.Planting) string {
		if p.Raised {
			return fmt.Sprintf("sow under cover by %s and plant out by %s", w.day(p.Sow), w.day(p.Start))
		}
		return fmt.Sprintf("sow by %s", w.day(p.Start))
	}
	if r := got.LastOut; r != nil {
		return fmt.Sprintf("The last sowing: %s; it then succeeds in %s (%s %%). Frost ends it in autumn.",
			how(r.Planting), words.InYears(r.Succeeds.Share), words.Interval(r.Succeeds))
	}
	l := got.Last
	if l == nil {
		return ""
	}
	text := fmt.Sprintf("For autumn and winter: %s. It has its size by %s, when the days grow too short for growth, in %s (%s %%).",
		how(l.Planting), w.day(l.Line), words.InYears(l.Size.Share), words.Interval(l.Size))
	var alive []string
	for _, x := range l.Winter {
		if x.Alive.Known {
			alive = append(alive, fmt.Sprintf("on %s in %s", w.day(x.On), words.InYears(x.Alive.Share)))
		}
	}
	if len(alive) > 0 {
		text += fmt.Sprintf(" Of full size and alive at the spot %q: %s.", p.Spot, words.List(alive))
	}
	return text
}

// SowFor says when to sow to have a crop on a day.
func (w In) SowFor(p risk.Planting, got risk.ForDay, aim float64) string {
	head := fmt.Sprintf("%s for %s", tried(p), w.day(got.Day))
	if len(got.All) > 0 && !got.All[len(got.All)/2].Good.Known {
		return head + ": not known; too few seasons can be played through."
	}
	if got.Best < 0 {
		return head + ": no sowing has it ready and good on that day in any season."
	}
	how := func(i int) string {
		p := got.All[i].Planting
		if p.Raised {
			return fmt.Sprintf("%s (out %s)", w.day(p.Sow), w.day(p.Start))
		}
		return w.day(p.Start)
	}
	best := got.All[got.Best].Good
	surest := fmt.Sprintf("The surest is %s: ready and still good on the day in %s (%s %%).", how(got.Best), words.InYears(best.Share), words.Interval(best))
	if got.First < 0 {
		return fmt.Sprintf("%s: no sowing has it ready and good in at least %.0f %% of the years. %s", head, 100*aim, surest)
	}
	verb := "sow under cover"
	if !p.Raised {
		verb = "sow in place"
	}
	return fmt.Sprintf("%s: %s from %s to %s to have it in at least %.0f %% of the years. %s", head, verb, how(got.First), how(got.Last), 100*aim, surest)
}

// Window says on which days a crop may start, in a sentence or two.
func (w In) Window(p risk.Planting, win risk.Window) string {
	verb := "goes out"
	if !p.Raised {
		verb = "is sown in place"
	}
	head := tried(p)
	if len(win.Starts) == 0 {
		return head + ": in half the years or more its bed is not free in the time in which it may start."
	}
	if win.Best < 0 {
		return head + ": not known; too few seasons can be played through."
	}
	b := win.Starts[win.Best]
	best := fmt.Sprintf("The best day is %s: it succeeds in %.0f %% of the years (90 %%: %s).", w.day(b.Day),
		100*b.Succeeds.Share, words.Interval(b.Succeeds))
	if b.Succeeds.Share == 0 {
		return fmt.Sprintf("%s does not succeed in any season, whenever it %s.", head, verb)
	}
	if light := w.light(win.Result(win.Best)); light != "" {
		best += " " + light
	}
	if win.Earliest < 0 {
		return fmt.Sprintf("%s: no day meets the aim of %.0f %% at the lower end of the interval. %s", head, 100*win.Aim, best)
	}
	return fmt.Sprintf("%s %s from %s to %s with at least %.0f %% success even at the lower end of the interval. %s", head, verb,
		w.day(win.Starts[win.Earliest].Day), w.day(win.Starts[win.Last].Day), 100*win.Aim, best)
}
