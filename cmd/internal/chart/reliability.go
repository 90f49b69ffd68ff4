package chart

import (
	"fmt"
	"math"
	"strings"

	"frostward/cmd/internal/table"
)

// Bin is the occasions on which about the same chance was stated.
type Bin struct {
	Stated    float64 // their mean stated chance
	Seen      float64 // the share in which it happened
	Low, High float64 // interval of Seen
	Count     int
}

// Reliability shows whether what was given a chance of 7 in 10 came about 7 times in
// 10: then the marks stand on the slanting line.
type Reliability struct {
	Title string
	Desc  string
	Name  string // what was foretold
	Bins  []Bin
}

// SVG draws the diagram.
func (c Reliability) SVG(id string, width int) []byte {
	side := chances("it happened in")
	legend := []entry{{name: c.Name + ", with its range", role: Frost, mark: true}, {name: "as stated", role: Muted, line: true, width: 1}}
	x := func(float64) axis {
		a := chances("chance stated beforehand")
		for i := range a.ticks {
			if a.ticks[i].at == 0.1 || a.ticks[i].at == 0.9 {
				a.ticks[i].label = "" // would run into its neighbour
			}
		}
		return a
	}
	f := newFrame(id, c.Title, c.describe(), width, 230, legend, x, side, 0)
	f.clipped(func() {
		f.line(f.x(0), f.y(0), f.x(1), f.y(1), Muted, "")
		for _, b := range c.Bins {
			x := f.x(b.Stated)
			f.line(x, f.y(b.Low), x, f.y(b.High), Frost, ` stroke-width="1.6"`)
			for _, e := range []float64{b.Low, b.High} {
				f.line(x-4, f.y(e), x+4, f.y(e), Frost, ` stroke-width="1.6"`)
			}
		}
	})
	for _, b := range c.Bins {
		f.mark(f.x(b.Stated), f.y(b.Seen), Frost, false)
	}
	return f.end()
}

func (c Reliability) describe() string {
	var parts []string
	for _, b := range c.Bins {
		parts = append(parts, fmt.Sprintf("stated %s %%, happened %s %% of %d", percent(b.Stated), percent(b.Seen), b.Count))
	}
	if len(parts) == 0 {
		return strings.TrimSpace(c.Desc + " Nothing to show.")
	}
	return strings.TrimSpace(c.Desc + " " + c.Name + ": " + strings.Join(parts, "; ") + ".")
}

// Data gives the bins.
func (c Reliability) Data() table.Table {
	t := table.Table{Columns: []table.Column{{Name: "stated", Unit: "%", Align: table.Right}, {Name: "happened", Unit: "%", Align: table.Right}, {Name: "from", Unit: "%", Align: table.Right}, {Name: "to", Unit: "%", Align: table.Right}, {Name: "occasions", Align: table.Right}}}
	for _, b := range c.Bins {
		row := table.Row(percent(b.Stated), percent(b.Seen), percent(b.Low), percent(b.High), number(float64(b.Count)))
		if math.IsNaN(b.Seen) {
			row = table.Row(percent(b.Stated), "not known", "", "", "0")
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
