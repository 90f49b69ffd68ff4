package generator

import (
	"math"

	"frostward/climate"
)

// spanHalves is how many half-years a season's span touches, from that in which it begins.
const spanHalves = 6

// passage is the part of a half-year over which a swing passes into the next, either side of
// the day on which the half ends.
const passage = 1. / 6

// mix says which half-year's swing a day of the span has, and how much of the next one's.
type mix struct {
	half int
	next float64
}

func newMixes() (out [climate.SpanLen]mix) {
	for i := range out {
		// Half-years from the one before the season's first day, in which the span begins.
		x := float64(int(climate.SpanFrom)+i+year-half) / half
		end := math.Round(x)
		if d := x - end; end >= 1 && math.Abs(d) < passage {
			out[i] = mix{int(end) - 1, 0.5 + d/(2*passage)}
		} else {
			out[i] = mix{int(x), 0}
		}
	}
	return out
}

var mixes = newMixes()

// swing adds to a season's residuals, from a day on, the swings of successive half-years of
// record beginning in a year drawn for the world. Over the first rise days they come in by
// degrees: where days before are known, their state already carries what is to be seen of
// this year's swing.
func (m *Model) swing(w *world, s climate.Season, from, rise int) {
	if m.swings.scale == 0 {
		return
	}
	var off [2][spanHalves + 1]float64
	start := 2*w.year() - 1
	for k := range spanHalves {
		if h, ok := m.swings.pick(w, start+k); ok {
			for v := range 2 {
				off[v][k] = m.swings.scale * m.swings.off[v][h]
			}
		}
	}
	for v, t := range [2][]float64{s.Tmin, s.Tmax} {
		o := &off[v]
		for i := from; i < len(t); i++ {
			x := mixes[i]
			add := o[x.half] + x.next*(o[x.half+1]-o[x.half])
			if i-from < rise {
				add *= float64(i-from) / float64(rise)
			}
			t[i] += add
		}
	}
}

// pick returns half-year h of record, or where that is not known another of the same half,
// drawn for the world.
func (s *swings) pick(w *world, h int) (int, bool) {
	for range 20 {
		if h >= 0 && h < len(s.known) && s.known[h] {
			return h, true
		}
		h = 2*w.year() + (h+2)%2
	}
	return 0, false
}
