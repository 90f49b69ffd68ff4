package chart

import (
	"math"
	"slices"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// Curve is a chance that changes with the date.
type Curve struct {
	Name   string
	Role   Role
	X      []float64 // season days, increasing
	Chance []float64 // as long as X; NaN where not known
	Low    []float64 // of the interval, as long as X; nil: none
	High   []float64
	Marks  []float64 // counted seasons: the season day of each, in any order
}

// Curves shows chances by date: of a frost yet to come, or of a planting set out on
// each date. Its marks are counted seasons, at the share that counting gives.
type Curves struct {
	Title    string
	Desc     string // a sentence or two on what is to be seen
	Calendar climate.Calendar
	From, To climate.SeasonDay
	YLabel   string
	Curves   []Curve
	Flags    []Flag
	Sound    *Span // days shaded
	Planned  *Flag // a mark on the last curve, over all lines
}

// Span is the days from one to another.
type Span struct {
	From, To float64
	Name     string
}

// SVG draws the chart.
func (c Curves) SVG(id string, width int) []byte {
	var legend []entry
	for _, v := range c.Curves {
		legend = append(legend, entry{name: v.Name, role: v.Role, line: true, area: v.Low != nil, mark: len(v.Marks) > 0, hollow: true})
	}
	if c.Sound != nil {
		legend = append(legend, entry{name: c.Sound.Name, sample: func(s *svg, x, y float64) { s.shade(x, y-11, x+sampleWidth, y+3) }})
	}
	if c.Planned != nil {
		legend = append(legend, entry{name: c.Planned.Name, sample: func(s *svg, x, y float64) { s.planned(x+sampleWidth/2, y-4) }})
	}
	x := func(pixels float64) axis { return dates(c.Calendar, c.From, c.To, pixels) }
	f := newFrame(id, c.Title, c.describe(), width, 190, legend, x, chances(c.YLabel), 0)
	f.clipped(func() {
		if c.Sound != nil {
			f.shade(f.x(c.Sound.From-0.5), f.top, f.x(c.Sound.To+0.5), f.bottom)
		}
		for _, v := range c.Curves {
			x := func(i int) float64 { return f.x(v.X[i]) }
			if v.Low != nil {
				f.band(len(v.X), x, func(i int) float64 { return f.y(v.Low[i]) }, func(i int) float64 { return f.y(v.High[i]) }, v.Role)
			}
		}
		for _, v := range c.Curves {
			f.stroke(path(len(v.X), func(i int) float64 { return f.x(v.X[i]) }, func(i int) float64 { return f.y(v.Chance[i]) }), v.Role, 2)
			for i, d := range slices.Sorted(slices.Values(v.Marks)) {
				if math.IsInf(d, 0) {
					continue // a season without; it keeps its place in the count
				}
				f.mark(f.x(d), f.y(v.counted(i)), v.Role, true)
			}
		}
	})
	for i, g := range c.Flags {
		f.flag(g, i)
	}
	if p := c.Planned; p != nil && p.X >= float64(c.From) && p.X <= float64(c.To) {
		y := f.bottom
		if n := len(c.Curves); n > 0 {
			if v := at(c.Curves[n-1].X, c.Curves[n-1].Chance, p.X); !math.IsNaN(v) {
				y = f.y(v)
			}
		}
		f.planned(f.x(p.X), y)
	}
	return f.end()
}

// counted is the share at which the i-th earliest mark stands, (i+1/2)/n (Hazen's
// plotting position), turned round where the curve falls.
func (v Curve) counted(i int) float64 {
	p := (float64(i) + 0.5) / float64(len(v.Marks))
	if v.falls() {
		return 1 - p
	}
	return p
}

func (v Curve) falls() bool {
	first, last := math.NaN(), math.NaN()
	for _, y := range v.Chance {
		if !math.IsNaN(y) {
			if math.IsNaN(first) {
				first = y
			}
			last = y
		}
	}
	return last < first
}

// describe says in words what the lines show at the start of each month and at flags.
func (c Curves) describe() string {
	var b strings.Builder
	b.WriteString(c.Desc)
	for _, v := range c.Curves {
		b.WriteString(" " + v.Name + ":")
		sep := " "
		for _, d := range c.stops() {
			if y := at(v.X, v.Chance, d); !math.IsNaN(y) {
				b.WriteString(sep + c.Calendar.Words(climate.SeasonDay(d)) + " " + words.InTen(y))
				sep = ", "
			}
		}
		if sep == " " {
			b.WriteString(" not known")
		}
		b.WriteString(".")
	}
	if c.Sound != nil {
		b.WriteString(" " + c.Sound.Name + ".")
	}
	for _, g := range c.Flags {
		b.WriteString(" " + g.Name + ".")
	}
	if c.Planned != nil {
		b.WriteString(" " + c.Planned.Name + ".")
	}
	return strings.TrimSpace(b.String())
}

// stops are the dates that description and table have: the 1st and 15th of months.
func (c Curves) stops() []float64 {
	var out []float64
	for d := c.From; d <= c.To; d++ {
		if _, day := c.Calendar.MonthDay(d); day == 1 || day == 15 {
			out = append(out, float64(d))
		}
	}
	return out
}

// at reads a line at x, straight between its points; NaN outside.
func at(xs, ys []float64, x float64) float64 {
	i, found := slices.BinarySearch(xs, x)
	if found {
		return ys[i]
	}
	if i == 0 || i == len(xs) {
		return math.NaN()
	}
	t := (x - xs[i-1]) / (xs[i] - xs[i-1])
	return ys[i-1] + t*(ys[i]-ys[i-1])
}

// Data gives the curves at the 1st and 15th of each month.
func (c Curves) Data() table.Table {
	t := table.Table{Columns: []table.Column{{Name: "date"}}}
	for _, v := range c.Curves {
		t.Columns = append(t.Columns, table.Column{Name: v.Name, Align: table.Right})
	}
	for _, d := range c.stops() {
		row := table.Row(c.Calendar.Words(climate.SeasonDay(d)))
		known := false
		for _, v := range c.Curves {
			y := at(v.X, v.Chance, d)
			known = known || !math.IsNaN(y)
			text := words.InTen(y)
			if v.Low != nil && !math.IsNaN(y) {
				text += " (" + percent(at(v.X, v.Low, d)) + " to " + percent(at(v.X, v.High, d)) + " %)"
			}
			row = append(row, table.Text(text))
		}
		if known {
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

func percent(share float64) string { return number(math.Round(share * 100)) }
