package opened

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"frostward/climate"
	"frostward/climate/quality"
	"frostward/cmd/internal/words"
)

// Fitness is what there is to say of whether a record is fit to rely on.
type Fitness struct {
	Gaps         []Gap // the longest first
	Years        []MissingYear
	DoubtfulDays int
	ByRule       map[string][]quality.Flag
	Questions    []quality.Question
	Steps        []quality.Step
	Frosts       []climate.FrostDates // by threshold
	Lone         []LoneFrost
	Verdict      Verdict

	garden *Garden
}

// Fitness judges the garden's record, for frosts at thresholds in °C.
func (g *Garden) Fitness(thresholds []float64) *Fitness {
	c := &Fitness{garden: g, ByRule: map[string][]quality.Flag{}}
	c.Gaps, c.Years = gapsOf(g.Record)
	flagged := map[climate.Day]bool{}
	for _, f := range g.Flags {
		flagged[f.Day] = true
		c.ByRule[f.Rule] = append(c.ByRule[f.Rule], f)
	}
	c.DoubtfulDays = len(flagged)
	c.Questions = quality.Open(append(quality.Ask(g.Record), g.Questions...), g.Answers)
	if c.Steps = g.Steps; len(c.Steps) == 0 { // without neighbours
		c.Steps = quality.Homogeneity(g.Used())
	}
	e := climate.Recorded(g.Masked, g.Settings.Latitude, g.First, g.Last)
	for _, t := range thresholds {
		c.Frosts = append(c.Frosts, climate.DatesOf(e, climate.Frost(t), climate.WMO))
	}
	c.Lone = c.loneFrosts()
	c.Verdict = c.judge()
	return c
}

// LoneFrost is a frost date that rests on one reading which nothing beside it bears out.
type LoneFrost struct {
	Day       climate.Day
	Half      string // "last in spring" or "first in autumn"
	Threshold climate.Frost
	Tmin      float64
	Off       float64 // s.d. from its expectation
}

// loneFrosts looks at the readings that decide the frost dates. They are not doubted enough to
// be left out, but a season hangs on each.
func (c *Fitness) loneFrosts() (out []LoneFrost) {
	s := c.garden
	for _, d := range c.Frosts {
		for h, dates := range [][]float64{d.Spring, d.Autumn} {
			var days []climate.Day
			for i, v := range dates {
				if !math.IsNaN(v) && !math.IsInf(v, 0) {
					days = append(days, s.Calendar.Day(s.First+i, climate.SeasonDay(v)))
				}
			}
			for i, off := range quality.Unborne(s.Masked, days) {
				if off <= -quality.UnborneZ {
					tmin, _ := s.Masked.At(days[i])
					out = append(out, LoneFrost{days[i], [2]string{"last in spring", "first in autumn"}[h], d.Threshold, tmin, off})
				}
			}
		}
	}
	return out
}

// Gap is a run of days without a value.
type Gap struct {
	From, To climate.Day
	Element  string // tmin, tmax or both
}

func (g Gap) Days() int { return int(g.To-g.From) + 1 }

// MissingYear counts a calendar year's missing days within the record.
type MissingYear struct{ Year, Tmin, Tmax int }

// gapsOf returns the runs of missing days of a record, the longest first, and the years that
// have any.
func gapsOf(s climate.Series) (gaps []Gap, years []MissingYear) {
	var open [2]int // length of the run up to now
	names := [2]string{"tmin", "tmax"}
	end := func(e, i int) {
		if open[e] > 0 {
			gaps = append(gaps, Gap{s.First + climate.Day(i-open[e]), s.First + climate.Day(i-1), names[e]})
			open[e] = 0
		}
	}
	for i := range s.Tmin {
		missing := [2]bool{math.IsNaN(s.Tmin[i]), math.IsNaN(s.Tmax[i])}
		for e, m := range missing {
			if m {
				open[e]++
			} else {
				end(e, i)
			}
		}
		if missing[0] || missing[1] {
			y := (s.First + climate.Day(i)).Year()
			if len(years) == 0 || years[len(years)-1].Year != y {
				years = append(years, MissingYear{Year: y})
			}
			last := &years[len(years)-1]
			if missing[0] {
				last.Tmin++
			}
			if missing[1] {
				last.Tmax++
			}
		}
	}
	end(0, s.Len())
	end(1, s.Len())
	return byLength(gaps), years
}

// byLength merges gaps of both elements over the same days and puts the longest first.
func byLength(gaps []Gap) []Gap {
	slices.SortStableFunc(gaps, func(a, b Gap) int { return int(a.From - b.From) })
	var out []Gap
	for _, g := range gaps {
		if n := len(out); n > 0 && out[n-1].From == g.From && out[n-1].To == g.To {
			out[n-1].Element = "both"
			continue
		}
		out = append(out, g)
	}
	slices.SortStableFunc(out, func(a, b Gap) int { return b.Days() - a.Days() })
	return out
}

// Verdict is what it comes to.
type Verdict struct {
	Word    string // "fit", "fit with care", "fit for frosts only" or "not fit"
	Says    string
	Reasons []string
}

// warmSeasons counts the seasons in use with maxima on nine days in ten: what warmth needs.
func (c *Fitness) warmSeasons() (n int) {
	for season := c.garden.First; season <= c.garden.Last; season++ {
		known := 0
		for d := climate.SeasonDay(0); d < climate.YearDays; d++ {
			if _, x := c.garden.Masked.At(c.garden.Calendar.Day(season, d)); !math.IsNaN(x) {
				known++
			}
		}
		if known*10 >= climate.YearDays*9 {
			n++
		}
	}
	return n
}

// Limits of the verdict (our rules).
const (
	manyFlags  = 0.02 // share of days with a doubtful value that calls for care; published schemes flag 0.24 % of real data (Durre et al. 2010)
	fewSeasons = 10   // fewer call for care; common practice for a provisional normal
)

// judge says whether the record is fit to rely on.
func (c *Fitness) judge() Verdict {
	d := c.Frosts[0]
	n := len(d.Spring)
	spring, _ := Counted(d.Spring)
	autumn, _ := Counted(d.Autumn)
	counts := fmt.Sprintf("%d of %s count for the spring frosts, %d for the autumn ones", spring, words.Plural(n, "season"), autumn)
	if fewest := min(spring, autumn); fewest < climate.MinSeasons {
		return Verdict{"not fit", "not fit to rely on: " + counts,
			[]string{fmt.Sprintf("no chance is stated from fewer than %d seasons", climate.MinSeasons)}}
	}
	var why []string
	if fewest := min(spring, autumn); fewest < fewSeasons {
		why = append(why, fmt.Sprintf("%s are few", words.Plural(fewest, "season")))
	}
	if share := float64(c.DoubtfulDays) / float64(max(c.garden.Report.Days, 1)); share > manyFlags {
		why = append(why, fmt.Sprintf("%.1f %% of the days have a doubtful value", 100*share))
	}
	if n := c.questionsInUse(); n > 0 {
		why = append(why, words.Plural(n, "question")+" about days of it")
	}
	var moved []string
	for _, s := range c.Steps {
		if s.Kept() && s.Strongly && !quality.Moved(s, c.garden.Answers) { // of three measures one passes the 5 % limit too often
			moved = append(moved, s.Of)
		}
	}
	if len(moved) > 0 {
		why = append(why, "a clear step in "+words.List(moved))
	}
	if n := c.garden.Report.FaultCount; n*100 > c.garden.Report.Rows {
		why = append(why, fmt.Sprintf("%d of %d rows could not be read", n, c.garden.Report.Rows))
	}
	if warm := c.warmSeasons(); warm < climate.MinSeasons {
		why = slices.Insert(why, 0, fmt.Sprintf("maxima are complete in %s only, and warmth and ripening need them", words.Plural(warm, "season")))
		return Verdict{"fit for frosts only", "fit for frost dates only: " + counts, why}
	}
	if len(why) > 0 {
		return Verdict{"fit with care", "fit with care: " + counts, why}
	}
	return Verdict{"fit", "fit to rely on: " + counts, nil}
}

// questionsInUse counts the questions about days that the seasons in use rest on.
func (c *Fitness) questionsInUse() (n int) {
	from, to := c.garden.Calendar.Day(c.garden.First, climate.SpanFrom), c.garden.Calendar.Day(c.garden.Last, climate.SpanTo-1)
	for _, q := range c.Questions {
		if q.From <= to && q.To >= from {
			n++
		}
	}
	return n
}

// Sentence is the verdict's first line.
func (v Verdict) Sentence() string {
	if len(v.Reasons) == 0 {
		return v.Says + "."
	}
	but := "; but "
	if v.Word == "not fit" {
		but = ": "
	}
	return v.Says + but + strings.Join(v.Reasons, "; ") + "."
}
