package risk

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/crops"
)

// Reasons says in plain sentences why a planting scores as it does, the weightiest first.
func (a Assessment) Reasons(c climate.Calendar) []string {
	r := a.Result
	if !r.Succeeds.Known {
		return []string{fmt.Sprintf("Not known: only %d of the seasons can be played through, and at least %d are needed.",
			r.Succeeds.Seasons, climate.MinSeasons)}
	}
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	lost, unripe := 1-r.Survives.Share, 1-r.Ripens.Share

	if a.Handover != nil {
		add("%s", a.Handover.Words(c, r))
	}
	if lost > 0 {
		add("Frost kills it before picking in %s.", InYears(lost))
	}
	if r.SetBack.Share > 0.1 {
		add("It is set back by cold in %s.", InYears(r.SetBack.Share))
	}
	switch {
	case unripe >= 0.05 && r.Light.Share > unripe/2:
		add("It is not ready in time in %s: by warmth alone it would be, but %s.", InYears(unripe), lightWords(r.Planting.Crop))
	case unripe >= 0.05 && r.Light.Share >= 0.05:
		add("It is not ready in time in %s; in %s the warmth would do, but %s.", InYears(unripe), InYears(r.Light.Share), lightWords(r.Planting.Crop))
	case unripe >= 1:
		add("It is never ready in time.")
	case unripe >= 0.05:
		add("It is not ready in time in %s.", InYears(unripe))
	}
	if r.Chilled >= 3 {
		add("About %.0f nights of its first fortnight are at or below %.0f °C, which check it.", r.Chilled, r.Planting.Crop.Chill.Value)
	}
	if a.Handover == nil && !r.Planting.Raised && r.UpOn-float64(r.Planting.Start) > 25 && !math.IsInf(r.UpOn, 1) {
		add("The soil is cold: it comes up about %s, %.0f days after sowing.", c.Words(climate.SeasonDay(r.UpOn)), r.UpOn-float64(r.Planting.Start))
	}
	if s := a.coverWords(); s != "" {
		out = append(out, s)
	}
	if b, ok := a.Better(); ok {
		word := "later"
		if b.Planting.Start < r.Planting.Start {
			word = "earlier"
		}
		does := "does better"
		if meets(b.Succeeds, a.Aim) {
			does = "is sound"
		}
		add("%s, %s %s, %s: it succeeds in %.0f %% of the years, not %.0f %%.", c.Words(b.Planting.Start), days(float64(apart(b, r))), word, does,
			100*b.Succeeds.Share, 100*r.Succeeds.Share)
	} else if a.Verdict != Sound && a.Verdict != Likely {
		add("No day within six weeks of it does clearly better.")
	}
	if len(out) == 0 {
		add("Nothing goes wrong with it in any of the seasons.")
	}
	return out
}

// LightWords says in how many years the planting fails for light alone, and how; "" where that
// is under 1 year in 20.
func (r Result) LightWords() string {
	if !r.Light.Known || r.Light.Share < 0.05 {
		return ""
	}
	return fmt.Sprintf("In %s it has the warmth to ripen, but %s.", InYears(r.Light.Share), lightWords(r.Planting.Crop))
}

// lightWords says how light fails a crop.
func lightWords(c crops.Crop) string {
	if c.LightHours.Known() {
		return fmt.Sprintf("days of under %.0f hours come first, and it all but stops growing", c.LightHours.Value)
	}
	return "the low sun of autumn is too weak for it to use that warmth"
}

// coverWords says what the cover does, or would do.
func (a Assessment) coverWords() string {
	r, o := a.Result, a.Other
	nights := r.ColdNights[1]
	if !nights.Known || nights.Value < 1 || !o.Succeeds.Known {
		return ""
	}
	n := wanted(r.ColdNights[0].Value, nights.Value)
	if r.Planting.Cover.Name != "" {
		return fmt.Sprintf("The %s is wanted %s; without it, it would succeed in %s.",
			r.Planting.Cover.Name, n, InYears(o.Succeeds.Share))
	}
	if o.Succeeds.Share > r.Succeeds.Share && InYears(o.Succeeds.Share) != InYears(r.Succeeds.Share) {
		return fmt.Sprintf("Under %s, wanted %s, it would succeed in %s.", o.Planting.Cover.Name, n, InYears(o.Succeeds.Share))
	}
	return ""
}

// wanted says on how many nights a cover is wanted, from the median and the 90 % quantile over
// the seasons.
func wanted(median, ninety float64) string {
	bad := fmt.Sprintf("on %.0f in a bad one (1 in 10)", ninety)
	switch {
	case median < 0.5:
		return "on no night in a usual year, " + bad
	case ninety < median+0.5:
		return "on " + nightsWord(median)
	}
	return fmt.Sprintf("on %s in a usual year, %s", nightsWord(median), bad)
}

func nightsWord(n float64) string {
	if n < 1.5 {
		return "1 night"
	}
	return fmt.Sprintf("%.0f nights", n)
}
