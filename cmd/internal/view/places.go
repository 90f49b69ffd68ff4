package view

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/climate/stat"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// frostRoles keep two places apart: more curves with their bands would hide one another.
var frostRoles = []chart.Role{chart.Frost, chart.Ochre}

// frostPlaces are the garden's first spot and the station.
func (v *Garden) frostPlaces() []garden.Spot {
	station, _ := v.Settings.Spot(garden.StationSpot)
	if len(v.Settings.Spots) == 0 {
		return []garden.Spot{station}
	}
	return []garden.Spot{v.Settings.Spots[0], station}
}

// frostSection has the chances of frosts to come in spring and past in autumn.
func (v *Garden) frostSection() page.Section {
	var spring, autumn []chart.Curve
	var s page.Section
	for i, spot := range v.frostPlaces() {
		e := v.Plays.At(spot)
		d := climate.DatesOf(e, 0, climate.WMO)
		// The marks are seasons as recorded, also where the chances are of resampled ones.
		counted := d
		if e.By == climate.ByWeather {
			counted = climate.DatesOf(v.Plays.Move(climate.Recorded(v.Masked, v.Settings.Latitude, v.First, v.Last), spot), 0, climate.WMO)
		}
		late := e.Quantile(climate.Earliest(d.Spring), 0.5)
		tenth := e.Quantile(climate.Earliest(d.Spring), 0.9)
		if i == 0 && late.Known {
			s.Lead = fmt.Sprintf("At the spot \"%s\" the last frost of spring comes by %s in half the years, and after %s in 1 year in 10.",
				spot.Name, words.Day(v.Calendar, late.Value), words.Day(v.Calendar, tenth.Value))
		}
		spring = append(spring, frostCurve(e, spot.Name, frostRoles[i], d.Spring, counted.Spring, true))
		autumn = append(autumn, frostCurve(e, spot.Name, frostRoles[i], d.Autumn, counted.Autumn, false))
	}
	for _, half := range []struct {
		curves         []chart.Curve
		caption, label string
	}{
		{spring, "A frost still to come in spring", "a frost on this day or later in"},
		{autumn, "A frost already come in autumn", "a frost on this day or before in"},
	} {
		from, to, ok := frostSpan(half.curves)
		if !ok {
			s.Notes = append(s.Notes, half.caption+": not known, or no season has one.")
			continue
		}
		s.Figures = append(s.Figures, page.Figure{Caption: half.caption, Chart: chart.Curves{
			Title: half.caption, Desc: "By date, at each place, with its 90 % interval.", Calendar: v.Calendar,
			From: from, To: to, YLabel: half.label, Curves: half.curves}})
	}
	s.Notes = append(s.Notes, "A frost is a night at or below "+v.Units.Degrees(0)+" at the place. Each mark is one season of the record, at the share that counting them gives; a season without a frost has none. Lines go by the way to chances named above.")
	return s
}

// frostCurve counts, for each day, the seasons with a frost on it or later (in autumn,
// before); the recorded dates are its marks.
func frostCurve(e climate.Ensemble, name string, role chart.Role, dates, recorded []float64, spring bool) chart.Curve {
	c := chart.Curve{Name: name, Role: role}
	low, high := math.Inf(1), math.Inf(-1)
	for _, d := range dates {
		if !math.IsNaN(d) && !math.IsInf(d, 0) {
			low, high = min(low, d), max(high, d)
		}
	}
	if low > high {
		return c
	}
	out := make([]climate.Answer, len(dates))
	for x := low - 4; x <= high+4; x += 2 {
		for i, d := range dates {
			switch {
			case math.IsNaN(d):
				out[i] = climate.NotKnown
			case spring:
				out[i] = climate.AnswerOf(!math.IsInf(d, 0) && d >= x)
			default:
				out[i] = climate.AnswerOf(d <= x)
			}
		}
		ch := e.Chance(out)
		c.X = append(c.X, x)
		c.Chance = append(c.Chance, words.Of(ch, ch.Share))
		c.Low, c.High = append(c.Low, words.Of(ch, ch.Low)), append(c.High, words.Of(ch, ch.High))
	}
	for _, d := range recorded {
		if spring && math.IsInf(d, 1) {
			d = math.Inf(-1) // earlier than all
		}
		if !math.IsNaN(d) {
			c.Marks = append(c.Marks, d)
		}
	}
	return c
}

// frostSpan is the days that the curves need.
func frostSpan(curves []chart.Curve) (from, to climate.SeasonDay, ok bool) {
	for _, c := range curves {
		if len(c.X) == 0 || math.IsNaN(c.Chance[0]) {
			continue
		}
		a, b := climate.SeasonDay(c.X[0]), climate.SeasonDay(c.X[len(c.X)-1])
		if !ok {
			from, to, ok = a, b, true
		}
		from, to = min(from, a), max(to, b)
	}
	return from, to, ok
}

// spotSection shows how each spot's nights differ from the station's, with the readings
// that say so.
func (v *Garden) spotSection() page.Section {
	var s page.Section
	readings := page.Folded{Line: "The readings behind it"}
	t := table.Table{Title: "Colder (-) or warmer (+) than the station, " + v.Units.Unit(), Columns: []table.Column{{Name: "spot"},
		{Name: "clear nights", Align: table.Right}, {Name: "overcast or windy", Align: table.Right}, {Name: "mornings logged", Align: table.Right}}}
	for _, spot := range v.Settings.Spots {
		prior, _ := site.PriorOf(spot.Kind)
		if prior.Station {
			s.Notes = append(s.Notes, fmt.Sprintf("%s: taken to be as cold as the station.", words.Capital(spot.Name)))
			continue
		}
		c, sum := v.spotChart(spot)
		readings.Figures = append(readings.Figures, page.Figure{Caption: spot.Name, Chart: c})
		t.Add(table.Text(spot.Name), table.Textf("%+.1f", v.Units.Difference(sum.Clear.Mean)), table.Textf("%+.1f", v.Units.Difference(sum.Dull.Mean)), table.Textf("%d", sum.Used))
		if s.Lead == "" {
			s.Lead = words.Capital(sentences.Spot(v.Units, spot.Name, sum)) + "."
		}
	}
	if len(t.Rows) > 0 {
		s.Tables, s.Folded = []table.Table{t}, []page.Folded{readings}
		s.Notes = append(s.Notes, "The wider the range of the day, the clearer and stiller the night as a rule, and the further a low spot falls below the station.")
	} else {
		s.NotKnown = "the garden names no spots of its own"
	}
	return s
}

// spotChart is a spot's readings less the station's minimum, by the night's range, and what
// is made of them.
func (v *Garden) spotChart(spot garden.Spot) (chart.Scatter, site.Summary) {
	m, sum := v.Plays.Fit(spot)
	u := v.Units
	c := chart.Scatter{
		Title: spot.Name + " against the station", Desc: words.Capital(sentences.Spot(v.Units, "this spot", sum)) + ".",
		XLabel: "range of the night, " + v.Units.Unit(), YLabel: "spot less station, " + v.Units.Unit(),
	}
	names := [2]string{"winter and spring mornings", "summer and autumn mornings"}
	roles := [2]chart.Role{chart.Growth, chart.Plum}
	var groups [2]chart.Points
	for _, r := range v.Plays.Readings(spot) {
		n := site.NightOf(v.Masked, v.Calendar, r.Day)
		if math.IsNaN(n.Range()) || math.IsNaN(r.Tmin) {
			continue
		}
		half := 0
		if n.Day >= climate.Midsummer-30 {
			half = 1
		}
		groups[half].X = append(groups[half].X, u.Difference(n.Range()))
		groups[half].Y = append(groups[half].Y, u.Difference(r.Tmin-n.Tmin))
	}
	for i, g := range groups {
		if len(g.X) > 0 {
			g.Name, g.Role = names[i], roles[i]
			c.Points = append(c.Points, g)
		}
	}
	c.Lines = []chart.Fitted{spotLine(m, len(c.Points) > 0, u)}
	return c, sum
}

// spotLine is the expected difference by the range, on a night of 2 °C at the equinox, and
// where 9 nights in 10 lie.
func spotLine(m site.Model, fitted bool, u words.Units) chart.Fitted {
	l := chart.Fitted{Name: "usual for such a spot; 9 nights in 10", Role: chart.Frost}
	if fitted {
		l.Name = "fitted; 9 nights in 10"
	}
	const z = 1.645 // 90 % of a normal distribution lie within
	for r := 0.0; r <= 18; r += 2 {
		n := site.Night{Tmin: 2, Before: 2 + r, After: 2 + r, Day: 91}
		mean, sd := u.Difference(m.Mean(n)-n.Tmin), u.Difference(m.SD(n))
		l.X, l.Y = append(l.X, u.Difference(r)), append(l.Y, mean)
		l.Low, l.High = append(l.Low, mean-z*sd), append(l.High, mean+z*sd)
	}
	return l
}

// The days over which the page adds up warmth: from March to October, and the same
// half-year and more in the south.
const fanFrom, fanTo climate.SeasonDay = 59, 304

// warmthSection is this season's degree-days against all past ones.
func (v *Garden) warmthSection() page.Section {
	sum := climate.DegreeDays{Base: 10, Upper: math.NaN()}
	u := v.Units
	base := u.Degrees(sum.Base)
	seasons := climate.Recorded(v.Masked, v.Settings.Latitude, v.First, v.Last)
	fan := chart.Fan{Title: "Degree-days", Desc: "Degree-days above " + base + ", added up from the start of March, in the station's screen.", Calendar: v.Calendar,
		From: fanFrom, To: fanTo, YLabel: "degree-days above " + base, ThisName: fmt.Sprintf("%d so far", v.Season)}
	now, last := v.Calendar.Locate(v.Record.Last())
	for _, s := range seasons.Seasons {
		total := running(sum, s, u.Difference(1))
		if s.Year == now && last < fanTo {
			if n := int(last-fanFrom) + 1; n > 0 {
				fan.This = total[:n]
			}
			continue
		}
		if !math.IsNaN(total[len(total)-1]) {
			fan.Past = append(fan.Past, total)
		}
	}
	fan.ThisName = fmt.Sprintf("%d so far", now)
	if len(fan.Past) < climate.MinSeasons {
		return page.Section{NotKnown: fmt.Sprintf("the record has %s complete enough to add up, and at least %d are needed", words.Plural(len(fan.Past), "season"), climate.MinSeasons)}
	}
	s := page.Section{Lead: warmthWords(fan), Figures: []page.Figure{{Caption: "Degree-days above " + base + " from the start of March", Chart: fan}}}
	s.Notes = append(s.Notes, fmt.Sprintf("In the station's screen, by the single sine; %d past seasons. Gaps of up to three days take the mean of their neighbours.", len(fan.Past)))
	return s
}

// running is the sum to each day of the fan in a unit of so many °C-days; NaN from where too
// much is missing.
func running(sum climate.DegreeDays, s climate.Season, scale float64) []float64 {
	daily := climate.FillShort.Filled(sum.Days(s.Tmin, s.Tmax))
	out := make([]float64, fanTo-fanFrom)
	total := 0.0
	for i := range out {
		total += scale * daily[int(fanFrom-climate.SpanFrom)+i]
		out[i] = total
	}
	return out
}

// warmthWords says where this season stands among the past.
func warmthWords(f chart.Fan) string {
	n := len(f.This)
	if n == 0 || math.IsNaN(f.This[n-1]) {
		return ""
	}
	var then []float64
	below := 0
	for _, p := range f.Past {
		then = append(then, p[n-1])
		if p[n-1] < f.This[n-1] {
			below++
		}
	}
	return fmt.Sprintf("By %s this season has %.0f degree-days, where the middle of %d past seasons had %.0f; %d of them had less.",
		f.Calendar.Words(f.From+climate.SeasonDay(n-1)), f.This[n-1], len(then), stat.Quantile(then, 0.5), below)
}
