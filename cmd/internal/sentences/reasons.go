// Package sentences has what the program says in sentences of the results of risk, site, quality and of an opened
// garden. Results come in as values.
package sentences

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/words"
	"frostward/crops"
	"frostward/risk"
)

// In is what sentences are said in.
type In struct{ words.In }

func (w In) day(sd climate.SeasonDay) string { return w.Calendar.Words(sd) }

// Reasons says why a planting scores as it does, the weightiest first.
func (w In) Reasons(a *risk.Assessment) []string {
	var out []string
	for _, r := range a.Reasons() {
		if s := w.reason(a, r); s != "" {
			out = append(out, s)
		}
	}
	if len(out) == 0 {
		out = append(out, "Nothing goes wrong with it in any of the seasons.")
	}
	return out
}

// reason is one of them; "" where it makes no difference that these words could show.
func (w In) reason(a *risk.Assessment, r risk.Reason) string {
	switch r.Kind {
	case risk.TooFewSeasons:
		return fmt.Sprintf("Not known: only %d of the seasons can be played through, and at least %d are needed.", r.Seasons, climate.MinSeasons)
	case risk.WaitsForBed:
		return w.handover(a.Handover, a.Result)
	case risk.KilledByFrost:
		return fmt.Sprintf("Frost kills it before picking in %s.", words.InYears(r.Share))
	case risk.SetBackByCold:
		return fmt.Sprintf("It is set back by cold in %s.", words.InYears(r.Share))
	case risk.NotReady:
		if r.Share >= 1 {
			return "It is never ready in time."
		}
		return fmt.Sprintf("It is not ready in time in %s.", words.InYears(r.Share))
	case risk.NotReadyPartlyForLight:
		return fmt.Sprintf("It is not ready in time in %s; in %s the warmth would do, but %s.", words.InYears(r.Share), words.InYears(r.ForLight), failsForLight(a.Result.Planting.Crop))
	case risk.NotReadyForLight:
		return fmt.Sprintf("It is not ready in time in %s: by warmth alone it would be, but %s.", words.InYears(r.Share), failsForLight(a.Result.Planting.Crop))
	case risk.ChilledAtFirst:
		return fmt.Sprintf("About %.0f nights of its first fortnight are at or below %s, which check it.", r.Nights[0], w.Whole(r.Limit))
	case risk.ColdSoil:
		return fmt.Sprintf("The soil is cold: it comes up about %s, %.0f days after sowing.", w.day(r.Day), r.Days)
	case risk.CoverSaves:
		return fmt.Sprintf("The %s is wanted %s; without it, it would succeed in %s.", r.Cover, wanted(r.Nights), words.InYears(r.Share))
	case risk.CoverWouldSave:
		if words.InYears(r.Share) == words.InYears(a.Result.Succeeds.Share) {
			return ""
		}
		return fmt.Sprintf("Under %s, wanted %s, it would succeed in %s.", r.Cover, wanted(r.Nights), words.InYears(r.Share))
	case risk.BetterDay:
		return w.better(a, r)
	case risk.NoBetterDay:
		return "No day of its season does clearly better."
	case risk.BedTaken:
		return fmt.Sprintf("It is planned too early for its bed: %s is when that is usually free.", w.day(r.Day))
	}
	panic(fmt.Sprintf("words: a reason of no known kind, %d", r.Kind))
}

func (w In) better(a *risk.Assessment, r risk.Reason) string {
	apart, word := r.Days, "later"
	if apart < 0 {
		apart, word = -apart, "earlier"
	}
	does := "does better"
	if r.Sound {
		does = "is sound"
	}
	return fmt.Sprintf("%s, %s %s, %s: it succeeds in %.0f %% of the years, not %.0f %%.", w.day(r.Day), days(apart), word, does,
		100*r.Share, 100*a.Result.Succeeds.Share)
}

// light says in how many years a planting fails for light alone, and how; "" where that is
// under 1 year in 20.
func (w In) light(r risk.Result) string {
	if !r.Light.Known || r.Light.Share < 0.05 {
		return ""
	}
	return fmt.Sprintf("In %s it has the warmth to ripen, but %s.", words.InYears(r.Light.Share), failsForLight(r.Planting.Crop))
}

// failsForLight says how light fails a crop.
func failsForLight(c crops.Crop) string {
	if c.LightHours.Known() {
		return fmt.Sprintf("days of under %.0f hours come first, and it all but stops growing", c.LightHours.Value)
	}
	return "the low sun of autumn is too weak for it to use that warmth"
}

// wanted says on how many nights a cover is wanted, from the median and the 90 % quantile over
// the seasons.
func wanted(nights [2]float64) string {
	median, ninety := nights[0], nights[1]
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

// days says a number of days, "a day" at least.
func days(n float64) string {
	if n < 1.5 {
		return "a day"
	}
	return fmt.Sprintf("%.0f days", n)
}

// NotPlayed says why what became of a planting in a season is not known.
func NotPlayed(why risk.NotPlayed) string {
	return [...]string{risk.DaysMissing: "days missing in the record", risk.DaysMissingBefore: "days missing in the record of the planting before it",
		risk.DiedBefore: "it would not have lived to this day"}[why]
}
