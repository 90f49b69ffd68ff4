package risk

import "frostward/climate"

// Counts are the seasons of one start, by what becomes of it.
type Counts struct {
	Known    int // could be played
	Survives int
	Ripens   int
	Succeeds int
}

// Count adds up the seasons of the field for the planting put out on each day of a window,
// both ends included, step days apart: what Play's fates come to, without writing them out.
func (s *Sweep) Count(w climate.Window, step int, dst []Counts) []Counts {
	dst = append(dst[:0], make([]Counts, max(0, (int(w.To-w.From)+step)/step))...)
	for i := range s.f.Ensemble.Seasons {
		s.begin(i, w.From)
		for k := range dst {
			sd := w.From + climate.SeasonDay(k*step)
			if s.within(sd) {
				ready, over, how := s.run(int(sd - climate.SpanFrom))
				if how == played {
					dst[k].add(s.survives(int(sd-climate.SpanFrom), ready, over), s.ripens(ready, over))
				}
				if how != oddStart {
					continue
				}
			}
			if f := s.loop(sd); f.Known {
				dst[k].add(!f.Lost, f.Ripens)
			}
		}
	}
	return dst
}

func (c *Counts) add(survives, ripens bool) {
	c.Known++
	if survives {
		c.Survives++
	}
	if ripens {
		c.Ripens++
		if survives {
			c.Succeeds++
		}
	}
}

// survives tells whether no deadly night comes before it is ready, the one that ends its
// season aside.
func (s *Sweep) survives(at, ready, over int) bool {
	k := s.killAfter(at)
	return k > ready || k >= over
}

func (s *Sweep) ripens(ready, over int) bool {
	return ready < never && onDay(ready)+s.worth(over) <= onDay(over)
}

// worth is how many days of picking make it worth its bed: one will do where it still stands
// when the span is over.
func (s *Sweep) worth(over int) float64 {
	if over == never {
		return 1
	}
	return s.life.worth
}
