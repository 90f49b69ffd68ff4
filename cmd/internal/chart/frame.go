package chart

// frame is a picture with two axes, a legend above, and a plot area that cuts off what
// would run over its edges.
type frame struct {
	*svg
	left, right, top, bottom float64 // of the plot area
	xAxis, yAxis             axis
}

// entry is one line of a legend: a sample and its name.
type entry struct {
	name   string
	role   Role
	line   bool                       // a piece of line
	area   bool                       // a piece of band
	mark   bool                       // a mark
	hollow bool                       // the mark is hollow
	width  float64                    // of the line; 0: 2
	sample func(s *svg, x, y float64) // draws another sample
}

const (
	sampleWidth = 30
	legendLine  = 20
)

// newFrame draws the legend, the grid and the axes. xAxis is made once the width of the
// plot area is known. The caller draws inside it and then calls close.
func newFrame(id, title, desc string, width int, height float64, legend []entry, xAxis func(pixels float64) axis, yAxis axis, below float64) *frame {
	w := float64(width)
	f := &frame{left: 12, right: w - 14, yAxis: yAxis}
	for _, t := range yAxis.ticks {
		f.left = max(f.left, 12+textWidth(t.label))
	}
	rows := layLegend(legend, w-8)
	f.top = 10 + legendLine*float64(len(rows))
	if yAxis.label != "" {
		f.top += 26
	}
	f.bottom = f.top + height
	f.xAxis = xAxis(f.right - f.left)
	if n := len(f.xAxis.ticks); n > 0 && f.xAxis.ticks[n-1].to == f.xAxis.to {
		f.right = min(f.right, w-4-textWidth(f.xAxis.ticks[n-1].label)/2)
	}
	total := f.bottom + below + 24
	if f.xAxis.label != "" {
		total += 18
	}
	f.svg = begin(id, title, desc, w, total)
	f.raw(`<clipPath id="`+id+`-c"><rect`).attr("x", f.left).attr("y", f.top).attr("width", f.right-f.left).attr("height", height).raw("/></clipPath>\n")
	f.drawLegend(4, rows)
	f.drawAxes(below)
	return f
}

func (f *frame) x(v float64) float64 {
	return f.left + (v-f.xAxis.from)/(f.xAxis.to-f.xAxis.from)*(f.right-f.left)
}

func (f *frame) y(v float64) float64 {
	return f.bottom - (v-f.yAxis.from)/(f.yAxis.to-f.yAxis.from)*(f.bottom-f.top)
}

// clipped draws within the plot area.
func (f *frame) clipped(draw func()) {
	f.raw(`<g clip-path="url(#` + f.id + "-c)\">\n")
	draw()
	f.raw("</g>\n")
}

func (f *frame) drawAxes(below float64) {
	if f.yAxis.label != "" {
		f.text(4, f.top-13, "start", Muted, "", f.yAxis.label)
	}
	for _, t := range f.yAxis.ticks {
		y := f.y(t.at)
		more := ` shape-rendering="crispEdges"`
		if t.faint {
			more += ` stroke-dasharray="1 4"`
		}
		f.line(f.left, y, f.right, y, Grid, more)
		f.text(f.left-5, y+4, "end", Muted, "", t.label)
	}
	for i, t := range f.xAxis.ticks {
		if x := f.x(t.at); i > 0 || t.to == t.at {
			f.line(x, f.top, x, f.bottom+below+4, Grid, ` shape-rendering="crispEdges"`)
		}
		f.text((f.x(t.at)+f.x(t.to))/2, f.bottom+below+17, "middle", Muted, "", t.label)
	}
	f.line(f.left, f.bottom, f.right, f.bottom, Ink, ` shape-rendering="crispEdges"`)
	if f.xAxis.label != "" {
		f.text((f.left+f.right)/2, f.bottom+below+35, "middle", Muted, "", f.xAxis.label)
	}
}

// layLegend breaks a legend into rows no wider than limit.
func layLegend(entries []entry, limit float64) [][]entry {
	var rows [][]entry
	used := limit + 1
	for _, e := range entries {
		w := sampleWidth + 8 + textWidth(e.name) + 16
		if used+w > limit && used > 0 {
			rows, used = append(rows, nil), 0
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], e)
		used += w
	}
	return rows
}

func (f *svg) drawLegend(left float64, rows [][]entry) {
	for i, row := range rows {
		x, y := left, 14+legendLine*float64(i)
		for _, e := range row {
			if e.area {
				f.band(2, func(k int) float64 { return x + sampleWidth*float64(k) }, func(int) float64 { return y + 2 }, func(int) float64 { return y - 10 }, e.role)
			}
			if e.sample != nil {
				e.sample(f, x, y)
			}
			if e.line {
				w := e.width
				if w == 0 {
					w = 2
				}
				at := func(k int) float64 { return x + sampleWidth*float64(k) }
				f.stroke(path(2, at, func(int) float64 { return y - 4 }), e.role, w)
			}
			if e.mark {
				f.mark(x+sampleWidth/2, y-4, e.role, e.hollow)
			}
			f.text(x+sampleWidth+6, y, "start", Ink, "", e.name)
			x += sampleWidth + 8 + textWidth(e.name) + 16
		}
	}
}

// band fills the area between two lines thinly, so that the grid and other bands show
// through, and draws its edges, so that it is seen without the colour.
func (s *svg) band(n int, x, low, high func(int) float64, r Role) {
	s.area(between(n, x, low, high), r, "0.22")
	for _, edge := range []func(int) float64{low, high} {
		if d := path(n, x, edge); len(d) > 0 {
			s.raw(`<path d="`)
			s.b = append(s.b, d...)
			s.raw(`"`).paint(0, r, false, true).raw(` stroke-width="0.8"/>` + "\n")
		}
	}
}

// shade tints a box and draws its sides.
func (s *svg) shade(x1, y1, x2, y2 float64) {
	s.raw("<rect").attr("x", x1).attr("y", y1).attr("width", max(x2-x1, 1)).attr("height", y2-y1).paint(Growth, 0, true, false).raw(` fill-opacity="0.16"/>` + "\n")
	for _, x := range []float64{x1, x2} {
		s.line(x, y1, x, y2, Growth, ` stroke-width="1.2"`)
	}
}

// planned draws the mark of the planned day: a large lozenge that stands out from any line.
func (s *svg) planned(x, y float64) {
	s.raw(`<path d="M0 -8L8 0L0 8L-8 0z" transform="translate(`).num(x).raw(" ").num(y).raw(`)"`)
	s.paint(Ink, Paper, true, true).raw(` stroke-width="2"/>` + "\n")
}

// flag marks a value of x with an upright line and a name; level keeps the names of
// neighbours apart.
func (f *frame) flag(g Flag, level int) {
	x := f.x(g.X)
	if x < f.left || x > f.right {
		return
	}
	f.line(x, f.top, x, f.bottom, Ink, ` stroke-width="1.3" stroke-dasharray="4 2"`)
	anchor, at := "start", x+5
	if x+8+textWidth(g.Name) > f.right {
		anchor, at = "end", x-5
	}
	f.outlined(at, f.bottom-24-17*float64(level), anchor, Ink, ` stroke-width="4" paint-order="stroke"`, g.Name)
}

// Flag is a value of x worth pointing at, such as the planned date.
type Flag struct {
	X    float64
	Name string
}
