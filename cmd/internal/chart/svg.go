package chart

import (
	"html"
	"math"
	"strconv"
)

// svg writes one svg element. Colours are presentation attributes together with a class
// by which a page's style can replace them.
type svg struct {
	b  []byte
	id string
}

// begin opens the element. Title and description come first, as the names that
// aria-labelledby and aria-describedby look for.
func begin(id, title, desc string, w, h float64) *svg {
	s := &svg{id: id}
	s.raw(`<svg xmlns="http://www.w3.org/2000/svg" class="chart" role="img" viewBox="0 0 `).num(w).raw(" ").num(h)
	s.raw(`" width="`).num(w).raw(`" height="`).num(h)
	s.raw(`" font-family="system-ui, sans-serif" font-size="13" aria-labelledby="` + id + `-t" aria-describedby="` + id + `-d">`)
	s.raw(`<title id="` + id + `-t">`).esc(title).raw(`</title><desc id="` + id + `-d">`).esc(desc).raw("</desc>\n")
	s.raw(`<rect class="f-paper" fill="` + shades[Paper].light + `" width="`).num(w).raw(`" height="`).num(h).raw("\"/>\n")
	return s
}

func (s *svg) end() []byte { return append(s.b, "</svg>\n"...) }

func (s *svg) raw(t string) *svg { s.b = append(s.b, t...); return s }

func (s *svg) esc(t string) *svg { return s.raw(html.EscapeString(t)) }

// num writes a length with one decimal, which is a tenth of a pixel.
func (s *svg) num(v float64) *svg {
	s.b = appendNumber(s.b, v)
	return s
}

func appendNumber(b []byte, v float64) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		panic("chart: a length that is not a number")
	}
	v = math.Round(v*10) / 10
	if v == 0 {
		v = 0 // not -0
	}
	return strconv.AppendFloat(b, v, 'f', -1, 64)
}

func (s *svg) attr(name string, v float64) *svg {
	return s.raw(" " + name + `="`).num(v).raw(`"`)
}

// fill and stroke write the class and colour of a shape; each shape has one class
// attribute, so paint does both.
func (s *svg) paint(fill, stroke Role, filled, stroked bool) *svg {
	class, attrs := "", ""
	if filled {
		class += "f-" + shades[fill].name
		attrs += ` fill="` + shades[fill].light + `"`
	} else {
		attrs += ` fill="none"`
	}
	if stroked {
		if class != "" {
			class += " "
		}
		class += "s-" + shades[stroke].name
		attrs += ` stroke="` + shades[stroke].light + `"`
	}
	return s.raw(` class="` + class + `"` + attrs)
}

// line draws a straight line.
func (s *svg) line(x1, y1, x2, y2 float64, r Role, more string) {
	s.raw("<line").attr("x1", x1).attr("y1", y1).attr("x2", x2).attr("y2", y2).paint(0, r, false, true).raw(more).raw("/>\n")
}

// stroke draws a path as a line of a role, with its dash.
func (s *svg) stroke(d []byte, r Role, width float64) {
	if len(d) == 0 {
		return
	}
	s.raw(`<path d="`)
	s.b = append(s.b, d...)
	s.raw(`"`).paint(0, r, false, true).attr("stroke-width", width).raw(` stroke-linejoin="round"`)
	if dash := shades[r].dash; dash != "" {
		s.raw(` stroke-dasharray="` + dash + `"`)
	}
	s.raw("/>\n")
}

// area fills a path thinly with a role's colour.
func (s *svg) area(d []byte, r Role, opacity string) {
	if len(d) == 0 {
		return
	}
	s.raw(`<path d="`)
	s.b = append(s.b, d...)
	s.raw(`"`).paint(r, 0, true, false).raw(` fill-opacity="` + opacity + "\"/>\n")
}

// text writes a text; anchor is start, middle or end.
func (s *svg) text(x, y float64, anchor string, r Role, more, t string) {
	s.raw("<text").attr("x", x).attr("y", y).paint(r, 0, true, false)
	if anchor != "start" {
		s.raw(` text-anchor="` + anchor + `"`)
	}
	s.raw(more).raw(">").esc(t).raw("</text>\n")
}

// outlined writes a text with an edge of paper.
func (s *svg) outlined(x, y float64, anchor string, r Role, more, t string) {
	s.raw("<text").attr("x", x).attr("y", y).paint(r, Paper, true, true)
	s.raw(more + ` text-anchor="` + anchor + `">`).esc(t).raw("</text>\n")
}

// mark draws a role's mark. A hollow one is filled with paper.
func (s *svg) mark(x, y float64, r Role, hollow bool) {
	fill := r
	if hollow {
		fill = Paper
	}
	s.raw(`<path d="` + shades[r].mark + `" transform="translate(`).num(x).raw(" ").num(y).raw(`)"`)
	s.paint(fill, r, true, true).raw(` stroke-width="1.3"/>` + "\n")
}

// hatches defines the hatch of each role given, to be used with hatched.
func (s *svg) hatches(roles ...Role) {
	s.raw("<defs>")
	for _, r := range roles {
		s.raw(`<pattern id="` + s.id + "-h-" + shades[r].name + `" width="8" height="8" patternUnits="userSpaceOnUse"><path d="` + shades[r].hatch + `"`)
		s.paint(0, r, false, true).raw(` stroke-width="1.6"/></pattern>`)
	}
	s.raw("</defs>\n")
}

// box draws a rectangle: filled, tinted, hatched or hollow, always with an edge.
func (s *svg) box(x, y, w, h float64, r Role, f filling) {
	if f == hatched {
		s.raw("<rect").attr("x", x).attr("y", y).attr("width", w).attr("height", h).paint(Paper, 0, true, false).raw("/>")
		s.raw("<rect").attr("x", x).attr("y", y).attr("width", w).attr("height", h)
		s.raw(` class="s-` + shades[r].name + `" stroke="` + shades[r].light + `" fill="url(#` + s.id + "-h-" + shades[r].name + `)"`)
	} else {
		fill := r
		if f != filled {
			fill = Paper
		}
		if f == tinted {
			s.raw("<rect").attr("x", x).attr("y", y).attr("width", w).attr("height", h).paint(Paper, 0, true, false).raw("/>")
			s.raw("<rect").attr("x", x).attr("y", y).attr("width", w).attr("height", h).paint(r, r, true, true)
			s.raw(` fill-opacity="0.25" stroke-width="1.3"/>` + "\n")
			return
		}
		s.raw("<rect").attr("x", x).attr("y", y).attr("width", w).attr("height", h).paint(fill, r, true, true)
	}
	s.raw(` stroke-width="1.3"/>` + "\n")
}

type filling int

const (
	filled filling = iota
	tinted
	hatched
	hollow
)

// textWidth estimates the width of a text of 13 pixels: no font can be measured here,
// and sans-serif ones average a little over half their size a character.
func textWidth(t string) float64 { return 7.2 * float64(len([]rune(t))) }
