package chart

import (
	"math"
	"strings"

	"frostward/climate"
)

// Pen draws pictures of characters for a terminal, all lines of one picture equally
// aligned and no wider than asked.
type Pen struct{ ASCII bool }

// levels go from least to most; where ASCII has no blocks, more ink means more.
var levels = [2][]rune{[]rune("▁▂▃▄▅▆▇█"), []rune("_.:-=+*#")}

func (p Pen) pick(fine, plain rune) rune {
	if p.ASCII {
		return plain
	}
	return fine
}

// Spark draws one character a value, from low to high. A missing value is a space.
func (p Pen) Spark(values []float64, low, high float64) string {
	l := levels[0]
	if p.ASCII {
		l = levels[1]
	}
	out := make([]rune, len(values))
	for i, v := range values {
		if math.IsNaN(v) {
			out[i] = ' '
			continue
		}
		k := 0
		if high > low {
			k = int((v - low) / (high - low) * float64(len(l)))
		}
		out[i] = l[min(max(k, 0), len(l)-1)]
	}
	return string(out)
}

// Scale is the axis under a terminal picture: season days when it has Months, numbers
// otherwise.
type Scale struct {
	From, To float64
	Months   bool
	Calendar climate.Calendar
}

func (s Scale) column(v float64, width int) int {
	return int(math.Round((v - s.From) / (s.To - s.From) * float64(width-1)))
}

// line writes the axis: a tick at each month or round number, with its name.
func (p Pen) line(s Scale, width int) string {
	row := blank(width)
	var ticks []tick
	if s.Months {
		ticks = dates(s.Calendar, climate.SeasonDay(s.From), climate.SeasonDay(s.To), 1e6).ticks
	} else {
		ticks = numbers("", s.From, s.To).ticks
	}
	next := 0
	for _, t := range ticks {
		label := t.label
		at := s.column(t.at, width)
		if s.Months {
			label = string(p.pick('│', '|')) + label
		} else {
			at -= len(label) / 2
		}
		at = max(at, 0)
		if s.Months && s.column(t.to, width)-at < len([]rune(label)) {
			continue // too little of the month is seen
		}
		if t.at < s.From || t.at > s.To || at < next || at+len([]rune(label)) > width {
			continue
		}
		copy(row[at:], []rune(label))
		next = at + len([]rune(label)) + 1
	}
	return strings.TrimRight(string(row), " ")
}

func blank(n int) []rune { return []rune(strings.Repeat(" ", n)) }

// MonthBar draws shares, one a day from s.From on, as a bar over an axis of months:
// two lines. Each character shows the mean of its days.
func (p Pen) MonthBar(shares []float64, s Scale, width int) []string {
	cols := make([]float64, width)
	for c := range cols {
		i := c * len(shares) / width
		j := max((c+1)*len(shares)/width, i+1)
		sum, n := 0.0, 0
		for _, v := range shares[min(i, len(shares)):min(j, len(shares))] {
			if !math.IsNaN(v) {
				sum += v
				n++
			}
		}
		cols[c] = math.NaN()
		if n > 0 {
			cols[c] = sum / float64(n)
		}
	}
	return []string{strings.TrimRight(p.Spark(cols, 0, 1), " "), p.line(s, width)}
}

// Five are the values that 1, 2.5, 5, 7.5 and 9 seasons in 10 stay at or below, or the
// like. Those that do not exist are infinite or NaN.
type Five struct{ Low, Quarter, Middle, ThreeQuarters, High float64 }

// Box draws a whisker from Low to High, a block over the middle half and a stroke at
// the middle. What lies beyond the scale is drawn at its edge as an arrow.
func (p Pen) Box(f Five, s Scale, width int) string {
	row := blank(width)
	fill := func(from, to float64, r rune) {
		if !(from <= s.To && to >= s.From) {
			return
		}
		a, b := s.column(max(from, s.From), width), s.column(min(to, s.To), width)
		for c := max(a, 0); c <= min(b, width-1); c++ {
			row[c] = r
		}
	}
	put := func(v float64, r, before, after rune) {
		switch {
		case math.IsNaN(v):
		case v < s.From:
			row[0] = before
		case v > s.To:
			row[width-1] = after
		default:
			row[s.column(v, width)] = r
		}
	}
	fill(f.Low, f.High, p.pick('─', '-'))
	put(f.Low, p.pick('├', '|'), '<', '>')
	put(f.High, p.pick('┤', '|'), '<', '>')
	fill(f.Quarter, f.ThreeQuarters, p.pick('█', '='))
	put(f.Middle, p.pick('┃', '#'), '<', '>')
	return strings.TrimRight(string(row), " ")
}

// Lane is one line of a picture of several boxes.
type Lane struct {
	Label string
	Five  Five
	Mark  float64 // a value to point out, such as this season's; NaN: none
}

// Lanes draws boxes one below another over one axis. A spread of dates makes a strip;
// dates down the side and amounts along the axis make a fan.
func (p Pen) Lanes(lanes []Lane, s Scale, width int) []string {
	label := 0
	for _, l := range lanes {
		label = max(label, len([]rune(l.Label)))
	}
	plot := max(width-label-2, 10)
	var out []string
	for _, l := range lanes {
		row := blank(plot)
		copy(row, []rune(p.Box(l.Five, s, plot)))
		if !math.IsNaN(l.Mark) && l.Mark >= s.From && l.Mark <= s.To {
			row[s.column(l.Mark, plot)] = p.pick('◆', 'o')
		}
		pad := strings.Repeat(" ", label-len([]rune(l.Label))+2)
		out = append(out, strings.TrimRight(l.Label+pad+string(row), " "))
	}
	return append(out, strings.Repeat(" ", label+2)+p.line(s, plot))
}
