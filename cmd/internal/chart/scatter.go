package chart

import (
	"math"
	"strings"

	"frostward/cmd/internal/table"
)

// Points is one kind of reading.
type Points struct {
	Name string
	Role Role
	X, Y []float64
}

// Fitted is a line through points, with the range that most of them keep to.
type Fitted struct {
	Name      string
	Role      Role
	X, Y      []float64
	Low, High []float64 // nil: none
}

// Scatter shows readings against what they are explained by, and the fitted line.
type Scatter struct {
	Title  string
	Desc   string
	XLabel string
	YLabel string
	Points []Points
	Lines  []Fitted
}

// SVG draws the chart.
func (c Scatter) SVG(id string, width int) []byte {
	var legend []entry
	var xs, ys [][]float64
	for _, p := range c.Points {
		legend = append(legend, entry{name: p.Name, role: p.Role, mark: true, hollow: true})
		xs, ys = append(xs, p.X), append(ys, p.Y)
	}
	for _, l := range c.Lines {
		legend = append(legend, entry{name: l.Name, role: l.Role, line: true, area: l.Low != nil})
		xs, ys = append(xs, l.X), append(ys, l.Y, l.Low, l.High)
	}
	low, high := span(xs...)
	x := func(float64) axis { return numbers(c.XLabel, low, high) }
	low0, high0 := span(ys...)
	f := newFrame(id, c.Title, c.Desc, width, 230, legend, x, numbers(c.YLabel, low0, high0), 0)
	f.clipped(func() {
		for _, l := range c.Lines {
			px := func(i int) float64 { return f.x(l.X[i]) }
			if l.Low != nil {
				f.band(len(l.X), px, func(i int) float64 { return f.y(l.Low[i]) }, func(i int) float64 { return f.y(l.High[i]) }, l.Role)
			}
		}
		for _, p := range c.Points {
			for i := range p.X {
				if !math.IsNaN(p.X[i]) && !math.IsNaN(p.Y[i]) {
					f.mark(f.x(p.X[i]), f.y(p.Y[i]), p.Role, true)
				}
			}
		}
		for _, l := range c.Lines {
			f.stroke(path(len(l.X), func(i int) float64 { return f.x(l.X[i]) }, func(i int) float64 { return f.y(l.Y[i]) }), l.Role, 2.4)
		}
		if f.yAxis.from < 0 && f.yAxis.to > 0 {
			f.line(f.left, f.y(0), f.right, f.y(0), Muted, ` shape-rendering="crispEdges"`)
		}
	})
	return f.end()
}

// Data gives the fitted lines at a few places, and how many readings there are.
func (c Scatter) Data() table.Table {
	t := table.Table{Columns: []table.Column{{Name: "line"}, {Name: c.XLabel, Align: table.Right}, {Name: c.YLabel, Align: table.Right}, {Name: "most nights from", Align: table.Right}, {Name: "to", Align: table.Right}}}
	for _, l := range c.Lines {
		step := max(1, (len(l.X)-1)/4)
		for i := 0; i < len(l.X); i += step {
			row := table.Row(l.Name, number(l.X[i]), number(round1(l.Y[i])), "", "")
			if l.Low != nil {
				row[3].Text, row[4].Text = number(round1(l.Low[i])), number(round1(l.High[i]))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	var counts []string
	for _, p := range c.Points {
		counts = append(counts, p.Name+": "+number(float64(len(p.X))))
	}
	if len(counts) > 0 {
		t.Notes = append(t.Notes, "Readings: "+strings.Join(counts, "; ")+".")
	}
	return t
}

func round1(v float64) float64 { return math.Round(v*10) / 10 }
