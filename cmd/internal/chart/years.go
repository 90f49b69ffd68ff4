package chart

import (
	"fmt"
	"strings"

	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// Outcome is what became of a planting in a year; the zero value is not known.
type Outcome int

// The outcomes.
const (
	Unknown Outcome = iota
	Ripe
	Late
	Killed
)

var outcomes = [...]string{Unknown: "not known", Ripe: "ripe", Late: "late", Killed: "killed"}

// Years shows what became of each planting in each year of the record: years down, plantings across.
type Years struct {
	Title, Desc string
	Names       []string
	Years       []int
	Seen        [][]Outcome // by planting and year
}

// Sizes: of a row, of the years' column, and of the widest and the narrowest column of a planting.
const (
	yearHeight    = 15
	yearsLeft     = 40
	widestColumn  = 34
	narrowestWide = 17
)

// SVG draws the years, the latest on top; many plantings stand in several blocks, one under another.
func (c Years) SVG(id string, width int) []byte {
	w := float64(width)
	most := int((w - yearsLeft - 8) / narrowestWide)
	blocks := max(1, (len(c.Names)+most-1)/most)
	each := max(1, (len(c.Names)+blocks-1)/blocks)
	column := min((w-yearsLeft-8)/float64(each), widestColumn)
	longest := 0.0
	for _, n := range c.Names {
		longest = max(longest, textWidth(shorten(n, 170)))
	}
	legend := layLegend(c.entries(), w-8)
	top := 14 + legendLine*float64(len(legend))
	block := longest + 8 + yearHeight*float64(len(c.Years)) + 14
	s := begin(id, c.Title, c.describe(), w, top+block*float64(blocks))
	s.drawLegend(4, legend)
	for b := range blocks {
		from, to := min(b*each, len(c.Names)), min((b+1)*each, len(c.Names))
		c.block(s, from, to, column, top+block*float64(b)+longest+8)
	}
	return s.end()
}

// block draws the plantings from one to before another, the first row of years below y.
func (c Years) block(s *svg, from, to int, column, y float64) {
	right := yearsLeft + column*float64(to-from)
	for i := from; i < to; i++ {
		s.raw(`<g transform="translate(`).num(yearsLeft + column*(float64(i-from)+0.5) + 4.5).raw(" ").num(y - 6).raw(`) rotate(-90)">`)
		s.text(0, 0, "start", Ink, "", shorten(c.Names[i], 170))
		s.raw("</g>\n")
	}
	for k := range c.Years {
		j := len(c.Years) - 1 - k
		middle := y + yearHeight*(float64(k)+0.5)
		s.text(yearsLeft-6, middle+4.5, "end", Muted, "", fmt.Sprint(c.Years[j]))
		if c.Years[j]%5 == 0 { // to find one's way by
			s.line(yearsLeft-2, middle+yearHeight/2, right, middle+yearHeight/2, Grid, ` shape-rendering="crispEdges"`)
		}
		for i := from; i < to; i++ {
			s.outcome(yearsLeft+column*(float64(i-from)+0.5), middle, c.Seen[i][j])
		}
	}
}

// outcome draws an outcome's mark: a small full point, an open triangle, a large cross, a dash.
func (s *svg) outcome(x, y float64, o Outcome) {
	look := [...]struct {
		path    string
		role    Role
		full    bool
		strokes float64
	}{
		Unknown: {"M-2 0H2", Muted, false, 1.2},
		Ripe:    {"M-2.5 0a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0 -5 0z", Growth, true, 1},
		Late:    {"M0 -5L5 4L-5 4z", Ink, false, 1.5},
		Killed:  {"M-5 -5L5 5M-5 5L5 -5", Warmth, false, 2.6},
	}[o]
	s.raw(`<path d="` + look.path + `" transform="translate(`).num(x).raw(" ").num(y).raw(`)"`)
	s.paint(look.role, look.role, look.full, true).attr("stroke-width", look.strokes).raw("/>\n")
}

func (c Years) entries() (out []entry) {
	for _, o := range []Outcome{Ripe, Late, Killed, Unknown} {
		out = append(out, entry{name: outcomes[o], sample: func(s *svg, x, y float64) { s.outcome(x+sampleWidth/2, y-4, o) }})
	}
	return out
}

func (c Years) describe() string {
	var b strings.Builder
	b.WriteString(c.Desc)
	for i, n := range c.Names {
		fmt.Fprintf(&b, " %s: ripe in %d of %d.", n, len(c.in(i, Ripe)), len(c.Years)-len(c.in(i, Unknown)))
	}
	return strings.TrimSpace(b.String())
}

// in are the years, the latest first, of an outcome.
func (c Years) in(planting int, o Outcome) (years []string) {
	for j := len(c.Years) - 1; j >= 0; j-- {
		if c.Seen[planting][j] == o {
			years = append(years, fmt.Sprint(c.Years[j]))
		}
	}
	return years
}

// Data gives the years of each outcome, one planting a row; of the ripe and the unknown how many.
func (c Years) Data() table.Table {
	t := table.Table{Columns: []table.Column{{Name: "planting"}, {Name: "years known", Align: table.Right}, {Name: "ripe in", Align: table.Right},
		{Name: "late in"}, {Name: "killed in"}}}
	for i, n := range c.Names {
		cells := table.Row(n, fmt.Sprint(len(c.Years)-len(c.in(i, Unknown))), fmt.Sprint(len(c.in(i, Ripe))))
		for _, o := range []Outcome{Late, Killed} {
			years, text := c.in(i, o), words.Dash
			if len(years) > 0 {
				text = fmt.Sprintf("%d: %s", len(years), strings.Join(years, ", "))
			}
			cells = append(cells, table.Text(text))
		}
		t.Rows = append(t.Rows, cells)
	}
	return t
}
