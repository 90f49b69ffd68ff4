package main

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

func (w *sowing) day(sd climate.SeasonDay) string { return w.s.Calendar.Words(sd) }

// sown is the day of sowing, under cover or in place.
func (w *sowing) sown(p risk.Planting) climate.SeasonDay {
	if p.Raised {
		return p.Sow
	}
	return p.Start
}

// head names the crop, the spot and the cover.
func (w *sowing) head() string {
	text := fmt.Sprintf("%s at the spot %q", words.Capital(w.p.Crop.Label()), w.spot.Name)
	if w.p.Cover.Name != "" {
		text += " under " + w.p.Cover.Name
	}
	return text
}

func (w *sowing) supplyWords(got supplied) string {
	n := len(got.sowings)
	if n == 0 {
		return fmt.Sprintf("%s: no sowing is ready in at least %.0f %% of the years.", w.head(), 100*w.aim)
	}
	first, last := got.sowings[0], got.sowings[n-1]
	end := climate.SeasonDay(math.Round(last.Harvest[1].Value)) + climate.SeasonDay(w.lasts)
	text := fmt.Sprintf("%s: %s for picking from about %s to about %s", w.head(), words.Plural(n, "sowing"), w.s.picking(first), w.day(end))
	if n > 1 {
		text += fmt.Sprintf(", the next ready as the one before is over (%d days)", w.lasts)
	}
	return text + "."
}

// lastWords says what the last sowing of the year is, and how it stands the winter.
func (w *sowing) lastWords(got supplied) string {
	how := func(p risk.Planting) string {
		if p.Raised {
			return fmt.Sprintf("sow under cover by %s and plant out by %s", w.day(p.Sow), w.day(p.Start))
		}
		return fmt.Sprintf("sow by %s", w.day(p.Start))
	}
	if r := got.lastSow; r != nil {
		return fmt.Sprintf("The last sowing: %s; it then succeeds in %s (%s %%). Frost ends it in autumn.",
			how(r.Planting), words.InYears(r.Succeeds.Share), words.Interval(r.Succeeds))
	}
	if !got.hasLast {
		return ""
	}
	l := got.last
	text := fmt.Sprintf("For autumn and winter: %s. It has its size by %s, when the days grow too short for growth, in %s (%s %%).",
		how(l.Planting), w.day(l.Line), words.InYears(l.Size.Share), words.Interval(l.Size))
	var alive []string
	for _, x := range l.Winter {
		if x.Alive.Known {
			alive = append(alive, fmt.Sprintf("on %s in %s", w.day(x.On), words.InYears(x.Alive.Share)))
		}
	}
	if len(alive) > 0 {
		text += fmt.Sprintf(" Of full size and alive at the spot %q: %s.", w.spot.Name, words.List(alive))
	}
	return text
}
