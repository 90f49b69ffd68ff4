package sentences

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/words"
)

// warmthTrend says a trend in amounts.
func warmthTrend(t opened.Trend, unit string, scale float64) string {
	if !t.OK || t.N < 10 {
		return "Too few seasons for a trend."
	}
	p := fmt.Sprintf("= %.2f", t.P)
	if t.P < 0.005 {
		p = "below 0.01"
	}
	return fmt.Sprintf("Trend: %+.0f %s a decade (90 %% interval %+.0f to %+.0f, Sen; Mann-Kendall p %s).",
		10*t.Slope*scale, unit, 10*t.Low*scale, 10*t.High*scale, p)
}

// Growing says what is out of the ordinary in a growing season.
func Growing(g climate.GrowingSeason) string {
	switch g.State {
	case climate.GrowingNotKnown:
		return "days are missing that could change it"
	case climate.GrowingNever:
		return "no six warm days on end"
	case climate.GrowingToYearsEnd:
		return "does not end within the year"
	case climate.GrowingUndefined:
		return "cool days come before the first warm ones after midsummer: the index has no length"
	}
	return ""
}

func Hours(h float64) string {
	m := int(math.Round(h * 60))
	return fmt.Sprintf("%d h %02d", m/60, m%60)
}

func Latitude(lat float64) string {
	if lat < 0 {
		return fmt.Sprintf("%.1f° south", -lat)
	}
	return fmt.Sprintf("%.1f° north", lat)
}

// LackOfWarmth says why a season has no sum.
func LackOfWarmth(w climate.Warmth) string {
	if w.Missing == 0 {
		return fmt.Sprintf("%s of %d missing: more than one in twenty", words.Plural(w.Filled, "day"), w.Days)
	}
	return fmt.Sprintf("%s of %d missing in a long run or at an end", words.Plural(w.Missing, "day"), w.Days)
}

func (w In) growingDay(v float64) string {
	if math.IsInf(v, 0) {
		return "beyond the year's end"
	}
	return words.Day(w.Calendar, v)
}

// Warmth says how the sums are made and what they rest on.
func (w In) Warmth(g *opened.Garden, x *opened.Warmth) []string {
	of := ""
	if x.Of != "" {
		of = " for " + x.Of
	}
	limit := "without upper limit"
	if x.Sum.Limit != climate.NoLimit {
		limit = fmt.Sprintf("%s upper limit %s", x.Sum.Limit, w.Degrees(x.Sum.Upper))
	}
	notes := []string{fmt.Sprintf("%s%s: %s to %s above %s, %s, %s.", w.DegreeDays(), of, w.Calendar.Words(x.Days.From),
		w.Calendar.Words(x.Days.To), w.Degrees(x.Sum.Base), limit, strings.ReplaceAll(x.Sum.Method.String(), "-", " "))}
	notes = append(notes, fmt.Sprintf("crop heat units: Ontario's, from %s to the first %s of autumn or until the usual mean falls below %s; "+
		"growing season: ETCCDI's, by means above and below %s.", w.Calendar.Words(climate.HeatUnitStart),
		w.Degrees(float64(climate.HeatUnitFrost)), w.Degrees(climate.HeatUnitMean), w.Degrees(climate.GrowingMean)))
	q := x.DegreeDays[0]
	n := fmt.Sprintf("%s counted for %s", words.Plural(q.Seasons, "season"), w.DegreeDays())
	if q.LeftOut > 0 {
		n += fmt.Sprintf(", %d left out as not complete", q.LeftOut)
	}
	if g := x.Growing[0]; g.LeftOut != q.LeftOut {
		n += fmt.Sprintf("; for the growing season %d, %d left out", g.Seasons, g.LeftOut)
	}
	if !q.Known {
		n += fmt.Sprintf("; a chance wants %d", climate.MinSeasons)
	}
	notes = append(notes, n+". "+warmthTrend(x.Trend, w.DegreeDays(), w.Difference(1)))
	if start, end := x.Starts[2], x.Ends[2]; start.Known && end.Known {
		notes = append(notes, fmt.Sprintf("growing season in a middling year: from %s to %s.", w.growingDay(start.Value), w.growingDay(end.Value)))
	}
	if f := x.SoFar; f != nil && f.Past.Known {
		notes = append(notes, fmt.Sprintf("%d so far: %.0f by %s; half of the past seasons had at least %.0f by then, and %d of %d had less than this one.",
			f.Season, f.Sum.Sum*w.Difference(1), w.Calendar.Words(f.Last), f.Past.Value*w.Difference(1), f.Below, f.Of))
	}
	return append(notes, w.Ways(g)...)
}
