// Package sample makes invented figures for the tests of charts and pages. Nothing in
// it is a record of any place, and the program does not use it.
package sample

import (
	"math"
	"math/rand/v2"

	"frostward/climate"
	"frostward/cmd/internal/chart"
)

func random() *rand.Rand { return rand.New(rand.NewPCG(8, 2026)) }

// bell is the standard normal distribution function.
func bell(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

func days(from, to climate.SeasonDay, step int) []float64 {
	var out []float64
	for d := from; d <= to; d += climate.SeasonDay(step) {
		out = append(out, float64(d))
	}
	return out
}

func each(xs []float64, f func(float64) float64) []float64 {
	out := make([]float64, len(xs))
	for i, x := range xs {
		out[i] = f(x)
	}
	return out
}

// Curves are the chances of a spring frost yet to come at two spots.
func Curves() chart.Curves {
	rng := random()
	c := chart.Curves{
		Title: "Chance that a frost is still to come", Desc: "Invented figures.",
		From: 59, To: 181, YLabel: "a frost on this date or later in",
		Flags: []chart.Flag{{X: 143, Name: "planned"}},
	}
	for _, s := range []struct {
		name string
		role chart.Role
		mean float64
	}{{"open bed", chart.Frost, 136}, {"patio by the wall", chart.Ochre, 112}} {
		x := days(59, 181, 1)
		v := chart.Curve{Name: s.name, Role: s.role, X: x}
		v.Chance = each(x, func(d float64) float64 { return 1 - bell((d-s.mean)/11) })
		v.Low = each(x, func(d float64) float64 { return 1 - bell((d-s.mean+4)/11) })
		v.High = each(x, func(d float64) float64 { return 1 - bell((d-s.mean-4)/11) })
		for range 32 {
			v.Marks = append(v.Marks, math.Round(s.mean+11*rng.NormFloat64()))
		}
		v.Marks[3] = math.Inf(-1)
		c.Curves = append(c.Curves, v)
	}
	return c
}

// Window is the chance of success by plant-out date.
func Window() chart.Curves {
	x := days(90, 212, 1)
	survive := each(x, func(d float64) float64 { return bell((d - 131) / 10) })
	ripen := each(x, func(d float64) float64 { return 1 - bell((d-176)/13) })
	both := make([]float64, len(x))
	low, high := make([]float64, len(x)), make([]float64, len(x))
	for i := range x {
		both[i] = max(0, survive[i]+ripen[i]-1)
		low[i], high[i] = max(0, both[i]-0.1), min(1, both[i]+0.07)
	}
	return chart.Curves{
		Title: "Courgettes in the open bed, by plant-out date", Desc: "Invented figures.",
		From: 90, To: 212, YLabel: "seasons in which it happens",
		Curves: []chart.Curve{
			{Name: "survive", Role: chart.Frost, X: x, Chance: survive},
			{Name: "ripen", Role: chart.Warmth, X: x, Chance: ripen},
			{Name: "both", Role: chart.Growth, X: x, Chance: both, Low: low, High: high},
		},
		Flags:   []chart.Flag{{X: 141, Name: "earliest 22 May"}, {X: 149, Name: "best 30 May"}},
		Sound:   &chart.Span{From: 141, To: 166, Name: "sound 22 May to 16 Jun"},
		Planned: &chart.Flag{X: 128, Name: "planned 9 May"},
	}
}

// Season is a plan of four plantings at two spots.
func Season() chart.Season {
	frost := func(spring, autumn float64) []float64 {
		return each(days(31, 333, 1), func(d float64) float64 {
			return 0.9 * (1 - bell((d-spring)/22) + bell((d-autumn)/22))
		})
	}
	today := climate.SeasonDay(125)
	nan := math.NaN()
	return chart.Season{
		Title: "The plan through the season", Desc: "Invented figures.", From: 31, To: 334, Today: &today, TodayIs: "6 May",
		Groups: []chart.Group{
			{Name: "open bed", Frost: frost(115, 285), Rows: []chart.Row{
				{Name: "courgettes", Note: "likely: 9 in 10", Parts: []chart.Part{
					{Stage: chart.UnderCover, From: 100, To: 131, Low: nan}, {Stage: chart.Hardening, From: 131, To: 143, Low: nan},
					{Stage: chart.Out, From: 143, To: 198}, {Stage: chart.Picking, From: 198, To: 274, Low: 190, High: 211}}},
				{Name: "sweet corn, early", Note: "doubtful: 5 in 10", Parts: []chart.Part{
					{Stage: chart.UnderCover, From: 105, To: 130}, {Stage: chart.Hardening, From: 130, To: 140},
					{Stage: chart.Out, From: 140, To: 241}, {Stage: chart.Picking, From: 241, To: 258, Low: 228, High: 266}}},
				{Name: `<script>alert("beans")</script> & a name too long for its line`, Note: "not known: the record has 3 seasons", Follow: true, Parts: []chart.Part{
					{Stage: chart.Out, From: 262, To: 330}}},
			}},
			{Name: "patio by the wall", Frost: frost(90, 305), Rows: []chart.Row{
				{Name: "broad beans", Note: "likely: 9 in 10", Parts: []chart.Part{
					{Stage: chart.Out, From: 62, To: 170}, {Stage: chart.Picking, From: 170, To: 200, Low: 164, High: 178}}},
			}},
		},
	}
}

// Fan is warmth adding up.
func Fan() chart.Fan {
	rng := random()
	c := chart.Fan{
		Title: "Warmth so far this season", Desc: "Invented figures.", From: 59, To: 305,
		YLabel: "degree-days above 10 °C", ThisName: "2026 so far",
	}
	season := func(n int) []float64 {
		sum, out := 0.0, make([]float64, n)
		level := 0.85 + 0.3*rng.Float64()
		for i := range out {
			d := float64(c.From) + float64(i)
			sum += max(0, level*7.5*math.Sin((d-75)/200*math.Pi)+2.2*rng.NormFloat64())
			out[i] = sum
		}
		return out
	}
	for range 30 {
		c.Past = append(c.Past, season(int(c.To-c.From)))
	}
	c.This = season(85)
	return c
}

// Scatter is how a bed differs from the station.
func Scatter() chart.Scatter {
	rng := random()
	c := chart.Scatter{
		Title: "The open bed against the station", Desc: "Invented figures. On clear nights the bed is 3 °C colder.",
		XLabel: "the day's range at the station, °C", YLabel: "bed minus station, °C",
	}
	for _, g := range []struct {
		name string
		role chart.Role
	}{{"spring mornings", chart.Growth}, {"autumn mornings", chart.Plum}} {
		p := chart.Points{Name: g.name, Role: g.role}
		for range 16 {
			x := 3 + 15*rng.Float64()
			p.X, p.Y = append(p.X, x), append(p.Y, 0.4-0.24*x+0.7*rng.NormFloat64())
		}
		c.Points = append(c.Points, p)
	}
	x := []float64{2, 7, 12, 18}
	line := func(off float64) []float64 { return each(x, func(v float64) float64 { return 0.4 - 0.24*v + off }) }
	c.Lines = []chart.Fitted{{Name: "fitted; 9 nights in 10", Role: chart.Frost, X: x, Y: line(0), Low: line(-1.2), High: line(1.2)}}
	return c
}

// Reliability is a record of chances stated and what came of them.
func Reliability() chart.Reliability {
	c := chart.Reliability{Title: "Stated and seen", Desc: "Invented figures.", Name: "last spring frost before a date"}
	for i, seen := range []float64{0.04, 0.14, 0.33, 0.36, 0.52, 0.7, 0.79, 0.9, 0.97} {
		s := 0.05 + 0.1125*float64(i)
		c.Bins = append(c.Bins, chart.Bin{Stated: s, Seen: seen, Low: max(0, seen-0.08), High: min(1, seen+0.07), Count: 40 + 7*i})
	}
	return c
}

// Years are 22 plantings in 12 years, so that they take two blocks.
func Years() chart.Years {
	rng := random()
	c := chart.Years{Title: "The plan in the years of the record", Desc: "Invented figures."}
	for i := range 22 {
		c.Names = append(c.Names, []string{"courgettes", "runner beans", "sweet corn of a long name that is cut"}[i%3])
		seen := make([]chart.Outcome, 12)
		for j := range seen {
			seen[j] = chart.Outcome(rng.IntN(4))
		}
		c.Seen = append(c.Seen, seen)
	}
	for j := range 12 {
		c.Years = append(c.Years, 2011+j)
	}
	return c
}
