package opened

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// Contradiction is what does not fit together in a plan that can be read: it is played as it stands all the same.
type Contradiction struct {
	Kind      string
	Plantings []int // by their place in the plan
	Text      string
}

// Kinds of contradiction.
const (
	SownAfterOut = "sown after planted out"
	NotHardened  = "planted out before hardened"
	SharedBed    = "two crops in one bed at once"
	OutOfSeason  = "out of season"
)

const (
	// longestUnderCover is the longest that a plant is raised under cover, in days: a sowing later in the year than the
	// planting out is of the autumn before if it is no longer ago (common practice, no source).
	longestUnderCover = 26 * 7

	// passing is how long two plantings may stand in one bed, by the middle of the seasons, without a remark, in days.
	passing = 7
)

// sownAfter says whether a row is sown after it is planted out.
func (p Planned) sownAfter() bool {
	sow, out := p.Row.Sow, p.Row.PlantOut
	if !sow.Given() || !out.Given() {
		return false
	}
	if sow.Year != 0 && out.Year != 0 {
		return sow.Year > out.Year || sow.Year == out.Year && sow.Day > out.Day
	}
	return sow.Day > out.Day && out.Day+climate.YearDays-sow.Day > longestUnderCover
}

// Contradictions are what does not fit together in a plan that has been assessed, in the order of its lines.
func (g *Garden) Contradictions(plantings []Planned, assessed []risk.Assessment) []Contradiction {
	var out []Contradiction
	day := g.Calendar.Words
	for i, p := range plantings {
		say := func(kind, format string, args ...any) {
			out = append(out, Contradiction{kind, []int{i}, p.Row.Place() + ": " + p.Label() + " " + fmt.Sprintf(format, args...)})
		}
		under := int(p.Start - p.Sow)
		span, window := risk.Customary(p.Crop)
		hardens := p.Crop.HardeningDays
		switch {
		case p.sownAfter():
			say(SownAfterOut, "is sown on %s, after it is planted out on %s; it is played as sown in time.", p.Row.Sow.Text, p.Row.PlantOut.Text)
		case p.Raised && p.Row.Sow.Given() && hardens.Known() && under < int(hardens.Value)+risk.DefaultEmergenceDays:
			say(NotHardened, "is planted out %s after it is sown, before it can be hardened off: that takes the last %.0f days of about %.0f weeks under cover.",
				words.Plural(under, "day"), hardens.Value, WeeksUnderCover(p.Crop))
		}
		prior, _ := site.PriorOf(p.Where.Kind)
		away := (p.Start - window.From) % climate.YearDays
		if away < 0 {
			away += climate.YearDays
		}
		if p.Crop.OutFrom.Known() && p.Crop.OutTo.Known() && !prior.Roofed() && away > window.To-window.From {
			say(OutOfSeason, "goes out on %s; it customarily goes into open ground from %s to %s.", day(p.Start), day(span.From), day(span.To))
		}
		for j := range i {
			if from, to, shared := shareBed(plantings, assessed, j, i); shared {
				q := plantings[j]
				out = append(out, Contradiction{SharedBed, []int{j, i}, fmt.Sprintf("%s and %s: %s and %s both stand in %s from %s to about %s. "+
					"Where the later one waits for the bed, say so under follows; where they share it, give each its metres.",
					q.Row.Place(), p.Row.Place(), q.Label(), p.Label(), bedName(p), day(from), day(to))})
			}
		}
	}
	return out
}

func bedName(p Planned) string {
	if p.Bed == "bench" || len(p.Bed) > 3 && p.Bed[:3] == "bed" {
		return p.Bed
	}
	return "the bed " + p.Bed
}

// shareBed says from when to when two plantings stand in the same bed, by the middle of the seasons, though neither waits for the other.
func shareBed(plantings []Planned, assessed []risk.Assessment, i, j int) (from, to climate.SeasonDay, shared bool) {
	p, q := plantings[i], plantings[j]
	if p.Bed == "" || p.Bed != q.Bed || p.Where.Name != q.Where.Name || p.Row.Metres > 0 && q.Row.Metres > 0 || waitsFor(plantings, i, j) || waitsFor(plantings, j, i) {
		return 0, 0, false
	}
	free := func(k int) climate.SeasonDay {
		q := assessed[k].FreeOn()[1]
		if !q.Known {
			return plantings[k].Start
		}
		return climate.SeasonDay(math.Round(min(q.Value, float64(climate.SpanTo))))
	}
	for _, years := range []climate.SeasonDay{0, -1, 1} { // what overwinters meets the next year's
		apart := years * climate.YearDays
		from, to = max(p.Start, q.Start+apart), min(free(i), free(j)+apart)
		if to-from > passing {
			return from, to, true
		}
	}
	return 0, 0, false
}

// waitsFor says whether a planting follows another in its bed, at once or by way of others. The plan has no circles.
func waitsFor(plantings []Planned, i, before int) bool {
	for {
		j, err := followed(plantings, i)
		if err != nil || j < 0 {
			return false
		}
		if j == before {
			return true
		}
		i = j
	}
}
