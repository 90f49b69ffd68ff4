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

// stages says how each looks: by height, and while it is still to come by filling, besides
// colour. What has been is filled.
var stages = [...]struct {
	name   string
	role   Role
	fill   filling
	height float64
}{
	UnderCover: {"under cover", Plum, hollow, 5},
	Hardening:  {"hardening off", Ochre, hatched, 8},
	Out:        {"out", Growth, tinted, 11},
	Picking:    {"picking", Warmth, hatched, 15},
}

func (s Stage) String() string { return stages[s].name }

// Part is one stage of a planting.
type Part struct {
	Stage    Stage
	From, To climate.SeasonDay // To is the day after its last
	Low      float64           // the stage's start lies from Low to High with 8 chances in 10;
	High     float64           // NaN or equal: no range is drawn
}

// Row is one planting.
type Row struct {
	Name   string
	Note   string // such as the verdict, in words
	Parts  []Part
	Follow bool // it takes over the bed of the row above
}

// Group is the plantings of one spot.
type Group struct {
	Name  string
	Frost []float64 // chance of a frost each night from the season's From on; nil: not known
	Rows  []Row
}

// Season shows plantings through the season, spot by spot, each spot's under the chance of
// frost there.
type Season struct {
	Title    string
	Desc     string
	Calendar climate.Calendar
	From, To climate.SeasonDay
	Groups   []Group
	Today    *climate.SeasonDay
	TodayIs  string // its date in words

	skipped climate.SeasonDay // days before From that a narrow picture leaves out
}

// Sizes of a group's head and of a row. On a wide picture names stand in a column of their
// own; on a narrow one, above.
const (
	frostHeight = 24
	monthsLine  = 17
	nameColumn  = 225
	narrowDays  = 215 // days in view on a narrow picture: seven months
)

// sheet is the picture being drawn.
type sheet struct {
	*svg
	Season
	wide              bool
	left, right       float64 // of the days
	rowHeight, toBar  float64 // toBar: from a row's top to the middle of its bar
	highest           float64 // chance of frost at the full height of the ridge
	x                 func(day float64) float64
	lastEnd, lastBase float64  // where the row above left its bed
	texts             []func() // written last, over today's line
}

// view is the days that a picture has room for.
func (s Season) view(width int) Season {
	if width >= Wide || s.To-s.From <= narrowDays {
		return s
	}
	from := s.From
	if s.Today != nil {
		_, day := s.Calendar.MonthDay(*s.Today)
		from = max(from, *s.Today-climate.SeasonDay(day)+1-30) // the month before
	}
	s.skipped = max(min(from, s.To-narrowDays)-s.From, 0)
	s.From += s.skipped
	s.To = s.From + narrowDays
	return s
}

// SVG draws the season.
func (s Season) SVG(id string, width int) []byte {
	s = s.view(width)
	w := float64(width)
	p := sheet{Season: s, wide: width >= Wide, left: 8, right: w - 8, rowHeight: 50, toBar: 29, highest: s.highestFrost()}
	if p.wide {
		p.left, p.rowHeight, p.toBar = nameColumn, 38, 13
	}
	p.x = func(d float64) float64 {
		return p.left + (d-float64(s.From))/float64(s.To-s.From)*(p.right-p.left)
	}
	legend := layLegend(p.entries(), w-8)
	top := 10 + legendLine*float64(len(legend))
	y := top
	if s.Today != nil {
		y += monthsLine
	}
	height := y + monthsLine + 8
	for _, g := range s.Groups {
		height += p.headHeight() + p.rowHeight*float64(len(g.Rows))
	}
	p.svg = begin(id, s.Title, s.describe(), w, height)
	p.hatches(Ochre, Warmth)
	p.drawLegend(8, legend)
	for _, g := range s.Groups {
		p.group(g, y)
		y += p.headHeight() + p.rowHeight*float64(len(g.Rows))
	}
	p.months(y+4, y)
	if s.Today != nil && *s.Today >= s.From && *s.Today < s.To {
		t := p.x(float64(*s.Today))
		label := strings.TrimSpace("today " + s.TodayIs)
		half := textWidth(label) / 2
		p.line(t, top+monthsLine-2, t, y, Ink, ` stroke-width="1.8" stroke-dasharray="5 2"`)
		p.text(min(max(t, p.left+half), p.right-half), top+monthsLine-6, "middle", Ink, ` font-weight="600"`, label)
	}
	for _, write := range p.texts {
		write()
	}
	return p.end()
}

// write puts off a text until the lines are drawn, and keeps them off it.
func (p *sheet) write(x, y float64, anchor string, r Role, more, t string) {
	more += ` stroke-width="4" paint-order="stroke"`
	p.texts = append(p.texts, func() { p.outlined(x, y, anchor, r, more, t) })
}

func (p *sheet) headHeight() float64 {
	if p.wide {
		return monthsLine + frostHeight + 12
	}
	return 2*monthsLine + frostHeight + 12
}

// months writes the months' names below y and draws their lines down to bottom.
func (p *sheet) months(y, bottom float64) {
	for i, t := range dates(p.Calendar, p.From, p.To, p.right-p.left).ticks {
		if i > 0 && bottom > y {
			p.line(p.x(t.at), y, p.x(t.at), bottom, Grid, ` shape-rendering="crispEdges"`)
		}
		p.text((p.x(t.at)+p.x(t.to))/2, y+13, "middle", Muted, "", t.label)
	}
}

// group draws a spot: its name, the months, the frost, and its plantings.
func (p *sheet) group(g Group, y float64) {
	p.lastEnd = math.NaN()
	head := p.headHeight()
	bottom := y + head + p.rowHeight*float64(len(g.Rows))
	p.line(8, y+1, p.right, y+1, Muted, ` shape-rendering="crispEdges"`)
	p.write(8, y+15, "start", Ink, ` font-weight="700"`, shorten(g.Name, nameColumn-24))
	if !p.wide {
		y += monthsLine
	}
	p.months(y+2, bottom)
	base := y + monthsLine + frostHeight + 4
	if g.Frost != nil {
		// Every third day is enough for an area two or three pixels a day wide.
		frost := g.Frost[min(int(p.skipped), len(g.Frost)):]
		n := min(len(frost), int(p.To-p.From))
		day := func(i int) int { return min(3*i, n-1) }
		px := func(i int) float64 { return p.x(float64(p.From) + float64(day(i)) + 0.5) }
		py := func(i int) float64 { return base - frost[day(i)]/p.highest*frostHeight }
		k := (n + 4) / 3
		p.area(between(k, px, func(int) float64 { return base }, py), Frost, "0.22")
		p.stroke(path(k, px, py), Frost, 1.2)
	}
	p.line(p.left, base, p.right, base, Muted, ` shape-rendering="crispEdges"`)
	y += monthsLine + frostHeight + 12
	for _, r := range g.Rows {
		p.row(r, y)
		y += p.rowHeight
	}
}

func (p *sheet) row(r Row, top float64) {
	if p.wide {
		p.write(8, top+13, "start", Ink, ` font-weight="600"`, shorten(r.Name, nameColumn-24))
		p.write(8, top+28, "start", Muted, "", shorten(r.Note, nameColumn-24))
	} else {
		note := shorten(r.Note, (p.right-p.left)*0.62)
		p.write(p.left, top+15, "start", Ink, ` font-weight="600"`, shorten(r.Name, p.right-p.left-textWidth(note)-10))
		p.write(p.right, top+15, "end", Muted, "", note)
	}
	middle := top + p.toBar
	if n := len(r.Parts); n > 0 {
		start, end := float64(r.Parts[0].From), float64(r.Parts[n-1].To)
		for _, part := range r.Parts {
			if part.Stage == Out {
				start = float64(part.From) // when it needs the bed
			}
		}
		if r.Follow && !math.IsNaN(p.lastEnd) {
			p.handover(p.lastEnd, p.lastBase, start, middle)
		}
		p.lastEnd, p.lastBase = end, middle
		p.beyond(float64(r.Parts[0].From), end, middle)
	}
	for _, part := range r.Parts {
		from, to := part.From, part.To
		if s := p.Today; s != nil && from < *s && to > *s {
			p.stage(part.Stage, float64(from), float64(*s), middle)
			from = *s
		}
		p.stage(part.Stage, float64(from), float64(to), middle)
	}
	for _, part := range r.Parts {
		lo, hi, from := part.Low, part.High, float64(part.From)
		if hi > lo && !math.IsInf(lo, 0) && !math.IsInf(hi, 0) && hi > float64(p.From) && lo < float64(p.To) {
			p.spread(max(p.x(lo), p.left), p.x(from), min(p.x(hi), p.right), middle+14)
		}
	}
}

// stage draws part of a bar, which is all past or all to come.
func (p *sheet) stage(s Stage, from, to, middle float64) {
	a, b := max(p.x(from), p.left), min(p.x(to), p.right)
	if b <= a {
		return
	}
	look := stages[s]
	fill := look.fill
	if p.Today != nil && to <= float64(*p.Today) {
		fill = filled
	}
	p.box(a, middle-look.height/2, b-a, look.height, look.role, fill)
}

// beyond points to what lies outside the days in view.
func (p *sheet) beyond(from, to, y float64) {
	arrow := func(x, dx float64) {
		p.stroke(path(3, func(i int) float64 { return x + []float64{0, dx, 0}[i] }, func(i int) float64 { return y + []float64{-5, 0, 5}[i] }), Ink, 1.6)
	}
	if from < float64(p.From) {
		arrow(p.left-1, -5)
	}
	if to > float64(p.To) {
		arrow(p.right+1, 5)
	}
}

// handover leads from where one planting leaves a bed to where the next needs it.
func (p *sheet) handover(from, y1, to, y2 float64) {
	a, b := min(max(p.x(from), p.left), p.right), min(max(p.x(to), p.left), p.right)
	p.elbow([]float64{a, a, b, b}, []float64{y1, y1 + 17, y1 + 17, y2})
}

// elbow is a dotted line through four points.
func (p *sheet) elbow(xs, ys []float64) {
	p.raw(`<path d="`)
	p.b = append(p.b, path(4, func(i int) float64 { return xs[i] }, func(i int) float64 { return ys[i] })...)
	p.raw(`"`).paint(0, Ink, false, true).raw(` stroke-width="1.2" stroke-dasharray="2 2"/>` + "\n")
}

// spread is a range with caps, and its middle as a lozenge.
func (p *sheet) spread(a, middle, b, y float64) {
	d := path(2, func(i int) float64 { return []float64{a, b}[i] }, func(int) float64 { return y })
	for _, c := range []float64{a, b} {
		d = append(d, path(2, func(int) float64 { return c }, func(i int) float64 { return y + 6*float64(i) - 3 })...)
	}
	p.raw(`<path d="`)
	p.b = append(p.b, d...)
	p.raw(`"`).paint(0, Ink, false, true).raw(` stroke-width="1.3"/>` + "\n")
	if middle >= a && middle <= b {
		p.raw(`<path d="M0 -4L4 0L0 4L-4 0z" transform="translate(`).num(middle).raw(" ").num(y).raw(`)"`)
		p.paint(Ink, Paper, true, true).raw(` stroke-width="1"/>` + "\n")
	}
}

// highestFrost is the chance at the full height of the ridges: that of the frostiest night
// shown, rounded up to a tenth.
func (s Season) highestFrost() float64 {
	top := 0.1
	for _, g := range s.Groups {
		for _, f := range g.Frost {
			if f > top {
				top = f
			}
		}
	}
	return math.Ceil(top*10-1e-9) / 10
}

// entries are the legend's, each drawn by its sample.
func (p *sheet) entries() []entry {
	var out []entry
	for _, look := range stages {
		out = append(out, entry{name: look.name, sample: func(_ *svg, x, y float64) {
			h := min(look.height, 13)
			p.box(x, y-4-h/2, sampleWidth, h, look.role, look.fill)
		}})
	}
	out = append(out, entry{name: "chance of frost in the night, to " + words.InTen(p.highest), sample: func(_ *svg, x, y float64) {
		d := func(k int) float64 { return y - []float64{0, 8, 10, 3}[k] }
		px := func(k int) float64 { return x + sampleWidth/3*float64(k) }
		p.area(between(4, px, func(int) float64 { return y }, d), Frost, "0.22")
		p.stroke(path(4, px, d), Frost, 1.2)
	}}, entry{name: "first picking, 8 years in 10", sample: func(_ *svg, x, y float64) { p.spread(x, x+sampleWidth/2, x+sampleWidth, y-4) }})
	if p.Today != nil {
		out = append(out, entry{name: "filled: has been", sample: func(_ *svg, x, y float64) {
			p.box(x, y-9.5, sampleWidth/2, 11, Growth, filled)
			p.box(x+sampleWidth/2, y-9.5, sampleWidth/2, 11, Growth, tinted)
		}})
	}
	for _, g := range p.Groups {
		for _, r := range g.Rows {
			if r.Follow {
				return append(out, entry{name: "the bed passes on", sample: func(_ *svg, x, y float64) {
					p.elbow([]float64{x, x, x + sampleWidth, x + sampleWidth}, []float64{y - 10, y - 4, y - 4, y + 2})
				}})
			}
		}
	}
	return out
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

func (s Season) describe() string {
	var b strings.Builder
	b.WriteString(s.Desc)
	for _, g := range s.Groups {
		b.WriteString(" " + g.Name + ".")
		for _, r := range g.Rows {
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
	}
	return strings.TrimSpace(b.String())
}

// Data gives the stages of each planting, one planting a row.
func (s Season) Data() table.Table {
	t := table.Table{Columns: []table.Column{{Name: "planting"}, {Name: "spot"}}}
	for _, st := range stages {
		t.Columns = append(t.Columns, table.Column{Name: st.name})
	}
	t.Columns = append(t.Columns, table.Column{Name: "first picking, 8 years in 10"}, table.Column{Name: "frost nights to expect while out", Align: table.Right})
	for _, g := range s.Groups {
		for _, r := range g.Rows {
			row := table.Row(r.Name, g.Name, "-", "-", "-", "-", "-", "-")
			for _, p := range r.Parts {
				row[2+p.Stage] = table.Text(s.Calendar.Words(p.From) + " to " + s.Calendar.Words(p.To-1))
				if p.High > p.Low {
					row[6] = table.Text(s.Calendar.Words(climate.SeasonDay(p.Low)) + " to " + s.Calendar.Words(climate.SeasonDay(p.High)))
				}
				if p.Stage == Out {
					row[7] = table.Text(frostNights(g.Frost, p.From-s.From, p.To-s.From))
				}
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// frostNights is the frosts to expect between two nights of a row of chances.
func frostNights(chances []float64, from, to climate.SeasonDay) string {
	if from < 0 || int(to) > len(chances) {
		return "not known"
	}
	nights := 0.0
	for _, c := range chances[from:to] {
		nights += c
	}
	if math.IsNaN(nights) {
		return "not known"
	}
	return number(math.Round(nights*10) / 10)
}
