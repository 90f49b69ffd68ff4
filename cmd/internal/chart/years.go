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
	var at [len(outcomes)][][2]float64
	for k := range c.Years {
		j := len(c.Years) - 1 - k
		middle := y + yearHeight*(float64(k)+0.5)
		s.text(yearsLeft-6, middle+4.5, "end", Muted, "", fmt.Sprint(c.Years[j]))
		if c.Years[j]%5 == 0 { // to find one's way by
			s.line(yearsLeft-2, middle+yearHeight/2, right, middle+yearHeight/2, Grid, ` shape-rendering="crispEdges"`)
		}
		for i := from; i < to; i++ {
			o := c.Seen[i][j]
			at[o] = append(at[o], [2]float64{yearsLeft + column*(float64(i-from)+0.5), middle})
		}
	}
	for o := range at {
		s.outcomes(at[o], Outcome(o))
	}
}

// marks are the outcomes' shapes, from the middle of each: a dash, a small full point, an open triangle, a large cross.
var marks = [...]struct {
	path    string
	role    Role
	full    bool
	strokes float64
}{
	Unknown: {"m-2 0h4", Muted, false, 1.2},
	Ripe:    {"m-2.5 0a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0 -5 0z", Growth, true, 1},
	Late:    {"m0 -5l5 9h-10z", Ink, false, 1.5},
	Killed:  {"m-5 -5l10 10m-10 0l10 -10", Warmth, false, 2.6},
}

// outcomes draws all marks of an outcome as one path: a thousand of them would be slow to show.
func (s *svg) outcomes(at [][2]float64, o Outcome) {
	if len(at) == 0 {
		return
	}
	s.raw(`<path d="`)
	for _, p := range at {
		s.raw("M").num(p[0]).raw(" ").num(p[1]).raw(marks[o].path)
	}
	s.raw(`"`).paint(marks[o].role, marks[o].role, marks[o].full, true).attr("stroke-width", marks[o].strokes).raw("/>\n")
}

func (c Years) entries() (out []entry) {
	for _, o := range []Outcome{Ripe, Late, Killed, Unknown} {
		out = append(out, entry{name: outcomes[o], sample: func(s *svg, x, y float64) { s.outcomes([][2]float64{{x + sampleWidth/2, y - 4}}, o) }})
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
