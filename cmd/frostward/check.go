package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/climate/quality"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

func newCheck(a *app) *cobra.Command {
	var all bool
	c := &cobra.Command{
		Use:   "check",
		Short: "Whether the record is fit to rely on: what was read, gaps, doubtful values, seasons that count",
		Long: `check tells whether a record is fit to rely on, and why: what was read and what could not
be, the gaps, the values that are doubted and left out, the days that only the keeper
of the record can settle, whether a thermometer seems to have been moved, and which seasons
count for the spring and the autumn frosts.

A season's spring or autumn counts if the months in which this place's frosts have come are
complete: not 11 days missing in any, nor 5 in a row (WMO-No. 1203).

Doubtful values are flagged by published rules (Durre et al. 2010) and some of our own; they
are never changed, only left out. --format csv lists every finding, a line each.

Each question comes with its answer, yes or no, to give by --answer, or to keep in the
garden's garden.yaml with the day on which you knew:
  answers:
    - fahrenheit 1990-12-20 1991-01-28 yes 2026-11-28
The record is then read accordingly, by every command, and it is not asked again.

The exit status is 0 for a record that is fit, also with care, 3 for one that is not, and 4
for one that is fit for frost dates only, since its maxima are too few.`,
		Example: `  frostward check
  frostward check --history station.csv --all
  frostward check --history station.csv --format csv > findings.csv`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.check(all) },
	}
	c.Flags().BoolVar(&all, "all", false, "list every flag, gap and season left out")
	c.Flags().Float64SliceVar(&a.at, "at", []float64{0}, "frost threshold in `°C` for the seasons; may be given more than once")
	return c
}

// checked is what check finds.
type checked struct {
	s         *session
	all       bool
	gaps      []gap
	years     []yearGaps
	days      int // days with a doubtful value
	byRule    map[string][]quality.Flag
	questions []quality.Question
	steps     []quality.Step
	frosts    []climate.FrostDates // by threshold
	lone      []loneFrost
	verdict   verdict
}

// loneFrost is a frost date that rests on one reading which nothing beside it bears out.
type loneFrost struct {
	day       climate.Day
	half      string
	threshold climate.Frost
	tmin      float64
	off       float64 // s.d. from its expectation
}

// loneFrosts looks at the readings that decide the frost dates. They are not doubted enough to
// be left out, but a season hangs on each.
func (c *checked) loneFrosts() (out []loneFrost) {
	s := c.s
	for _, d := range c.frosts {
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
					out = append(out, loneFrost{days[i], [2]string{"last in spring", "first in autumn"}[h], d.Threshold, tmin, off})
				}
			}
		}
	}
	return out
}

// gap is a run of days without a value.
type gap struct {
	from, to climate.Day
	element  string
}

func (g gap) days() int { return int(g.to-g.from) + 1 }

// yearGaps counts a calendar year's missing days within the record.
type yearGaps struct{ year, tmin, tmax int }

func (a *app) check(all bool) error {
	for _, t := range a.at {
		if math.IsNaN(t) || math.IsInf(t, 0) {
			return usagef("--at %v; wanted a temperature in °C", t)
		}
	}
	s, err := a.open()
	if err != nil {
		return err
	}
	c := &checked{s: s, all: all, byRule: map[string][]quality.Flag{}}
	c.gaps, c.years = gapsOf(s.Record)
	flagged := map[climate.Day]bool{}
	for _, f := range s.Flags {
		flagged[f.Day] = true
		c.byRule[f.Rule] = append(c.byRule[f.Rule], f)
	}
	c.days = len(flagged)
	c.questions = quality.Open(append(quality.Ask(s.Record), s.Questions...), s.Answers)
	if c.steps = s.Steps; len(c.steps) == 0 { // without neighbours
		c.steps = quality.Homogeneity(s.Used())
	}
	e := climate.Recorded(s.Masked, s.Settings.Latitude, s.First, s.Last)
	for _, t := range a.at {
		c.frosts = append(c.frosts, climate.DatesOf(e, climate.Frost(t), climate.WMO))
	}
	c.lone = c.loneFrosts()
	c.verdict = c.judge()
	a.status = c.verdict.status()
	switch a.format {
	case table.JSON:
		return a.writeJSON(c.json())
	case table.CSV:
		return c.findings().Write(a.out, a.tables())
	}
	return c.write()
}

// gapsOf returns the runs of missing days of a record, the longest first, and the years that
// have any.
func gapsOf(s climate.Series) (gaps []gap, years []yearGaps) {
	var open [2]int // length of the run up to now
	names := [2]string{"tmin", "tmax"}
	end := func(e, i int) {
		if open[e] > 0 {
			gaps = append(gaps, gap{s.First + climate.Day(i-open[e]), s.First + climate.Day(i-1), names[e]})
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
			if len(years) == 0 || years[len(years)-1].year != y {
				years = append(years, yearGaps{year: y})
			}
			last := &years[len(years)-1]
			if missing[0] {
				last.tmin++
			}
			if missing[1] {
				last.tmax++
			}
		}
	}
	end(0, s.Len())
	end(1, s.Len())
	return byLength(gaps), years
}

// verdict is what it comes to.
type verdict struct {
	word    string // "fit", "fit with care", "fit for frosts only" or "not fit"
	says    string
	reasons []string
}

// status is the exit status that says the same.
func (v verdict) status() int {
	switch v.word {
	case "not fit":
		return exitUnfit
	case "fit for frosts only":
		return exitFrosts
	}
	return exitDone
}

// warmSeasons counts the seasons in use with maxima on nine days in ten: what warmth needs.
func (c *checked) warmSeasons() (n int) {
	for season := c.s.First; season <= c.s.Last; season++ {
		known := 0
		for d := climate.SeasonDay(0); d < climate.YearDays; d++ {
			if _, x := c.s.Masked.At(c.s.Calendar.Day(season, d)); !math.IsNaN(x) {
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
func (c *checked) judge() verdict {
	d := c.frosts[0]
	n := len(d.Spring)
	spring, _ := opened.Counted(d.Spring)
	autumn, _ := opened.Counted(d.Autumn)
	counts := fmt.Sprintf("%d of %s count for the spring frosts, %d for the autumn ones", spring, words.Plural(n, "season"), autumn)
	if fewest := min(spring, autumn); fewest < climate.MinSeasons {
		return verdict{"not fit", "not fit to rely on: " + counts,
			[]string{fmt.Sprintf("no chance is stated from fewer than %d seasons", climate.MinSeasons)}}
	}
	var why []string
	if fewest := min(spring, autumn); fewest < fewSeasons {
		why = append(why, fmt.Sprintf("%s are few", words.Plural(fewest, "season")))
	}
	if share := float64(c.days) / float64(max(c.s.Report.Days, 1)); share > manyFlags {
		why = append(why, fmt.Sprintf("%.1f %% of the days have a doubtful value", 100*share))
	}
	if n := c.questionsInUse(); n > 0 {
		why = append(why, words.Plural(n, "question")+" about days of it")
	}
	var moved []string
	for _, s := range c.steps {
		if s.Kept() && s.Strongly && !quality.Moved(s, c.s.Answers) { // of three measures one passes the 5 % limit too often
			moved = append(moved, s.Of)
		}
	}
	if len(moved) > 0 {
		why = append(why, "a clear step in "+words.List(moved))
	}
	if n := c.s.Report.FaultCount; n*100 > c.s.Report.Rows {
		why = append(why, fmt.Sprintf("%d of %d rows could not be read", n, c.s.Report.Rows))
	}
	if warm := c.warmSeasons(); warm < climate.MinSeasons {
		why = slices.Insert(why, 0, fmt.Sprintf("maxima are complete in %s only, and warmth and ripening need them", words.Plural(warm, "season")))
		return verdict{"fit for frosts only", "fit for frost dates only: " + counts, why}
	}
	if len(why) > 0 {
		return verdict{"fit with care", "fit with care: " + counts, why}
	}
	return verdict{"fit", "fit to rely on: " + counts, nil}
}

// questionsInUse counts the questions about days that the seasons in use rest on.
func (c *checked) questionsInUse() (n int) {
	from, to := c.s.Calendar.Day(c.s.First, climate.SpanFrom), c.s.Calendar.Day(c.s.Last, climate.SpanTo-1)
	for _, q := range c.questions {
		if q.From <= to && q.To >= from {
			n++
		}
	}
	return n
}

// sentence is the verdict's first line.
func (v verdict) sentence() string {
	if len(v.reasons) == 0 {
		return v.says + "."
	}
	but := "; but "
	if v.word == "not fit" {
		but = ": "
	}
	return v.says + but + strings.Join(v.reasons, "; ") + "."
}
