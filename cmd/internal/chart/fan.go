package chart

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/climate/stat"
	"frostward/cmd/internal/table"
)

// Fan shows how something adds up through a season: this one against all those past.
type Fan struct {
	Title    string
	Desc     string
	Calendar climate.Calendar
	From, To climate.SeasonDay
	YLabel   string      // such as "degree-days above 10 °C"
	Past     [][]float64 // a season each, from From on; NaN where not known
	This     []float64   // the season under way, as far as it has come; nil: none
	ThisName string      // such as "2026 so far"
}

// fanShares are the shares of seasons below the fan's lines.
var fanShares = []float64{0.1, 0.25, 0.5, 0.75, 0.9}

// lines returns, for each share, the value each day that the share of past seasons
// stays at or below.
func (c Fan) lines() [][]float64 {
	n := int(c.To - c.From)
	out := make([][]float64, len(fanShares))
	for k := range out {
		out[k] = make([]float64, n)
	}
	day := make([]float64, 0, len(c.Past))
	for i := range n {
		day = day[:0]
		for _, s := range c.Past {
			if i < len(s) && !math.IsNaN(s[i]) {
				day = append(day, s[i])
			}
		}
		for k, p := range fanShares {
			out[k][i] = math.NaN()
			if len(day) > 0 {
				out[k][i] = stat.Quantile(day, p)
			}
		}
	}
	return out
}

// SVG draws the fan.
func (c Fan) SVG(id string, width int) []byte {
	lines := c.lines()
	legend := []entry{
		{name: "middle season", role: Warmth, line: true},
		{name: "half of seasons; 8 in 10", role: Warmth, area: true},
		{name: "each past season", role: Muted, line: true, width: 0.6},
	}
	if len(c.This) > 0 {
		legend = append([]entry{{name: c.ThisName, role: Ink, line: true, width: 3}}, legend...)
	}
	_, high := span(append([][]float64{c.This}, c.Past...)...)
	x := func(pixels float64) axis { return dates(c.Calendar, c.From, c.To, pixels) }
	f := newFrame(id, c.Title, c.describe(lines), width, 200, legend, x, numbers(c.YLabel, 0, high), 0)
	// Every third day is enough for lines a pixel or two a day wide.
	thin := func(v []float64) []float64 {
		var out []float64
		for i := 0; i < len(v); i += 3 {
			out = append(out, v[min(i, len(v)-1)])
		}
		return append(out, v[max(len(v)-1, 0):]...)
	}
	px := func(n int) func(int) float64 {
		return func(i int) float64 { return f.x(float64(c.From) + float64(min(3*i, n-1))) }
	}
	y := func(v []float64) func(int) float64 { return func(i int) float64 { return f.y(v[i]) } }
	line := func(v []float64, r Role, width float64) {
		n, t := len(v), thin(v)
		f.stroke(path(len(t), px(n), y(t)), r, width)
	}
	band := func(low, high []float64) {
		n, lo, hi := len(low), thin(low), thin(high)
		f.band(len(lo), px(n), y(lo), y(hi), Warmth)
	}
	f.clipped(func() {
		f.raw("<g opacity=\"0.55\">\n")
		for _, s := range c.Past {
			line(s, Muted, 0.5)
		}
		f.raw("</g>\n")
		band(lines[0], lines[4])
		band(lines[1], lines[3])
		line(lines[2], Warmth, 2)
		line(c.This, Ink, 3)
	})
	return f.end()
}

func (c Fan) describe(lines [][]float64) string {
	d := c.Desc
	last := len(lines[0]) - 1
	if last >= 0 && !math.IsNaN(lines[2][last]) {
		d += fmt.Sprintf(" By %s the middle of %d past seasons has %s, and 8 in 10 have from %s to %s.",
			c.Calendar.Words(c.To-1), len(c.Past), whole(lines[2][last]), whole(lines[0][last]), whole(lines[4][last]))
	}
	if i := len(c.This) - 1; i >= 0 && i <= last && !math.IsNaN(c.This[i]) {
		d += fmt.Sprintf(" %s: %s by %s, where the middle season has %s.", c.ThisName, whole(c.This[i]), c.Calendar.Words(c.From+climate.SeasonDay(i)), whole(lines[2][i]))
	}
	return strings.TrimSpace(d)
}

func whole(v float64) string {
	if math.IsNaN(v) {
		return "not known"
	}
	return number(math.Round(v))
}

// Data gives the fan at the start of each month and on the last day.
func (c Fan) Data() table.Table {
	t := table.Table{Columns: []table.Column{{Name: "date"}}}
	for _, name := range []string{"1 season in 10 below", "1 in 4 below", "middle", "3 in 4 below", "9 in 10 below"} {
		t.Columns = append(t.Columns, table.Column{Name: name, Align: table.Right})
	}
	if len(c.This) > 0 {
		t.Columns = append(t.Columns, table.Column{Name: c.ThisName, Align: table.Right})
	}
	lines := c.lines()
	for i := range lines[0] {
		d := c.From + climate.SeasonDay(i)
		if _, md := c.Calendar.MonthDay(d); md != 1 && i != len(lines[0])-1 && i != len(c.This)-1 {
			continue
		}
		row := table.Row(c.Calendar.Words(d))
		for _, l := range lines {
			row = append(row, table.Text(whole(l[i])))
		}
		if len(c.This) > 0 {
			text := ""
			if i < len(c.This) {
				text = whole(c.This[i])
			}
			row = append(row, table.Text(text))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
