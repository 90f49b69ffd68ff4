package chart

import (
	"math"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// Stage is what a planting is at.
type Stage int

// The stages, in the order in which they follow one another.
const (
	UnderCover Stage = iota
	Hardening
	Out
	Picking
)

// stages says how each looks: by place and height and filling besides colour.
var stages = [...]struct {
	name   string
	role   Role
	fill   filling
	height float64
}{
	UnderCover: {"under cover", Plum, hollow, 8},
	Hardening:  {"hardening off", Ochre, hatched, 8},
	Out:        {"out", Growth, filled, 11},
	Picking:    {"picking", Warmth, hatched, 16},
}

func (s Stage) String() string { return stages[s].name }

// Part is one stage of a planting.
type Part struct {
	Stage    Stage
	From, To climate.SeasonDay // To is the day after its last
	Low      float64           // the stage's start lies from Low to High with 9 chances in 10;
	High     float64           // NaN or equal: no range is drawn
}

// StripRow is one planting.
type StripRow struct {
	Name  string
	Note  string // such as the verdict, in words
	Parts []Part
	Frost []float64 // chance of a frost each night from the strip's From on; nil: not known
}

// Strip shows plantings through the season, one below another, each with the chance
// of frost at its spot above it.
type Strip struct {
	Title    string
	Desc     string
	Calendar climate.Calendar
	From, To climate.SeasonDay
	Rows     []StripRow
	Today    *climate.SeasonDay
}

// A row is a line of text, the frost rising from a ground line, and the planting's
// stages below that line, so that neither hides the other.
const (
	rowHeight   = 60
	frostHeight = 18
	stageHeight = 18
	todayHeight = 16
)

// SVG draws the strip.
func (s Strip) SVG(id string, width int) []byte {
	w := float64(width)
	entries := []entry{}
	for st := range stages {
		entries = append(entries, entry{name: stages[st].name})
	}
	highest := s.highestFrost()
	entries = append(entries, entry{name: "chance of frost in the night, to " + words.InTen(highest)}, entry{name: "first picking, 9 years in 10"})
	legend := layLegend(entries, w-8)
	top := 10 + legendLine*float64(len(legend))
	if s.Today != nil {
		top += todayHeight
	}
	bottom := top + rowHeight*float64(len(s.Rows))
	g := begin(id, s.Title, s.describe(), w, bottom+26)
	g.hatches(Ochre, Warmth)
	left, right := 8.0, w-8
	x := func(d float64) float64 {
		return left + (d-float64(s.From))/float64(s.To-s.From)*(right-left)
	}
	s.drawLegend(g, legend)
	for i, t := range dates(s.Calendar, s.From, s.To, right-left).ticks {
		if i > 0 {
			g.line(x(t.at), top, x(t.at), bottom+4, Grid, ` shape-rendering="crispEdges"`)
		}
		g.text((x(t.at)+x(t.to))/2, bottom+18, "middle", Muted, "", t.label)
	}
	for i, r := range s.Rows {
		s.drawRow(g, r, top+rowHeight*float64(i), left, right, x, highest)
	}
	if s.Today != nil && *s.Today >= s.From && *s.Today < s.To {
		t := x(float64(*s.Today))
		g.line(t, top-3, t, bottom, Ink, ` stroke-width="1.6" stroke-dasharray="4 2"`)
		g.text(min(max(t, left+20), right-20), top-6, "middle", Ink, "", "today")
	}
	return g.end()
}

// highestFrost is the chance at the full height of the frost's hills: that of the frostiest
// night shown, rounded up to a tenth.
func (s Strip) highestFrost() float64 {
	top := 0.1
	for _, r := range s.Rows {
		for _, f := range r.Frost[:min(len(r.Frost), max(int(s.To-s.From), 0))] {
			if f > top {
				top = f
			}
		}
	}
	return math.Ceil(top*10-1e-9) / 10
}

func (s Strip) drawRow(g *svg, r StripRow, top, left, right float64, x func(float64) float64, highest float64) {
	base := top + rowHeight - stageHeight - 2
	name := shorten(r.Name, (right-left)*0.6)
	g.text(left, top+17, "start", Ink, ` font-weight="600"`, name)
	room := right - left - textWidth(name)*1.08 - 16
	g.text(right, top+17, "end", Muted, "", shorten(r.Note, room))
	if r.Frost != nil {
		// Every third day is enough for an area two or three pixels a day wide.
		n := min(len(r.Frost), int(s.To-s.From))
		day := func(i int) int { return min(3*i, n-1) }
		px := func(i int) float64 { return x(float64(s.From) + float64(day(i)) + 0.5) }
		py := func(i int) float64 { return base - r.Frost[day(i)]/highest*frostHeight }
		k := (n + 4) / 3
		g.area(between(k, px, func(int) float64 { return base }, py), Frost, "0.22")
		g.stroke(path(k, px, py), Frost, 1.2)
	}
	g.line(left, base, right, base, Muted, ` shape-rendering="crispEdges"`)
	for _, p := range r.Parts {
		a, b := max(x(float64(p.From)), left), min(x(float64(p.To)), right)
		if b <= a {
			continue
		}
		look := stages[p.Stage]
		middle := base + stageHeight/2
		g.box(a, middle-look.height/2, b-a, look.height, look.role, look.fill)
		if lo, hi := p.Low, p.High; hi > lo && !math.IsInf(lo, 0) && !math.IsInf(hi, 0) {
			whisker(g, max(x(lo), left), min(x(hi), right), middle)
		}
	}
}

// whisker is a range with caps, over whatever is there.
func whisker(g *svg, a, b, y float64) {
	for _, over := range []struct {
		role  Role
		width string
	}{{Paper, "4"}, {Ink, "1.6"}} {
		d := path(2, func(i int) float64 { return []float64{a, b}[i] }, func(int) float64 { return y })
		for _, c := range []float64{a, b} {
			d = append(d, path(2, func(int) float64 { return c }, func(i int) float64 { return y + 8*float64(i) - 4 })...)
		}
		g.raw(`<path d="`)
		g.b = append(g.b, d...)
		g.raw(`"`).paint(0, over.role, false, true).raw(` stroke-width="` + over.width + "\"/>\n")
	}
}

func (s Strip) drawLegend(g *svg, rows [][]entry) {
	st := 0
	for i, row := range rows {
		x, y := 8.0, 14+legendLine*float64(i)
		for _, e := range row {
			switch {
			case st < len(stages):
				look := stages[st]
				h := min(look.height, 13)
				g.box(x, y-4-h/2, sampleWidth, h, look.role, look.fill)
			case st == len(stages)+1:
				whisker(g, x, x+sampleWidth, y-4)
			default:
				d := func(k int) float64 { return y - []float64{0, 8, 10, 3}[k] }
				px := func(k int) float64 { return x + sampleWidth/3*float64(k) }
				g.area(between(4, px, func(int) float64 { return y }, d), Frost, "0.22")
				g.stroke(path(4, px, d), Frost, 1.2)
			}
			st++
			g.text(x+sampleWidth+6, y, "start", Ink, "", e.name)
			x += sampleWidth + 8 + textWidth(e.name) + 16
		}
	}
}

// shorten cuts a text that would be wider than limit.
func shorten(t string, limit float64) string {
	r := []rune(t)
	if textWidth(t) <= limit {
		return t
	}
	n := int(limit/7.2) - 1
	if n < 1 {
		return ""
	}
	return strings.TrimSpace(string(r[:n])) + "…"
}

func (s Strip) describe() string {
	var b strings.Builder
	b.WriteString(s.Desc)
	for _, r := range s.Rows {
		b.WriteString(" " + r.Name + ":")
		sep := " "
		for _, p := range r.Parts {
			b.WriteString(sep + p.Stage.String() + " from " + s.Calendar.Words(p.From) + " to " + s.Calendar.Words(p.To-1))
			sep = ", "
		}
		if sep == " " {
			b.WriteString(" no dates")
		}
		b.WriteString(".")
	}
	return strings.TrimSpace(b.String())
}

// Data gives the stages of each planting, one a row.
func (s Strip) Data() table.Table {
	t := table.Table{Columns: []table.Column{{Name: "planting"}, {Name: "stage"}, {Name: "from"}, {Name: "to"}, {Name: "frost nights to expect", Align: table.Right}}}
	for _, r := range s.Rows {
		for _, p := range r.Parts {
			nights, known := 0.0, r.Frost != nil
			for d := p.From; d < p.To; d++ {
				if i := int(d - s.From); i >= 0 && i < len(r.Frost) && !math.IsNaN(r.Frost[i]) {
					nights += r.Frost[i]
				} else {
					known = false
				}
			}
			text := "not known"
			if known {
				text = number(math.Round(nights*10) / 10)
			}
			t.Add(table.Text(r.Name), table.Text(p.Stage.String()), table.Text(s.Calendar.Words(p.From)), table.Text(s.Calendar.Words(p.To-1)), table.Text(text))
		}
	}
	return t
}
