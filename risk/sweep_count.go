package risk

import "frostward/climate"

// Counts are the seasons of one start, by what becomes of it.
type Counts struct {
	Known    int // could be played
	Survives int
	Ripens   int
	Succeeds int
}

// count adds up the seasons of the field for the planting put out on each day of a window,
// both ends included, step days apart: what Play's outcomes come to, without writing them out. succeeds, where it is
// not nil, has a row for each start, and is made to say in which seasons it does.
func (s *Sweep) count(w climate.Window, step int, dst []Counts, succeeds [][]climate.Answer) []Counts {
	dst = append(dst[:0], make([]Counts, max(0, (int(w.To-w.From)+step)/step))...)
	for i := range s.f.Ensemble.Seasons {
		s.begin(i, w.From)
		for k := range dst {
			if end := s.start(w.From + climate.SeasonDay(k*step)); end.known {
				dst[k].add(end.survives, end.ripens)
				if succeeds != nil {
					succeeds[k][i] = climate.AnswerOf(end.survives && end.ripens)
				}
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

// survives says of the start last run whether no deadly night comes before it is ready, the one that ends its
// season aside.
func (s *Sweep) survives(ready, over int) bool {
	k := s.firstKill()
	return k > ready || k >= over
}

func (s *Sweep) ripens(ready, over int) bool {
	return ready < never && onDay(ready)+s.life.worthBy(over) <= onDay(over)
}

// plain says of most starts, at the cost of two sums, that they survive, and whether they
// ripen: those that ripen even if they get nothing in their first fortnight, and the tender
// ones that would not were no day of it lost. The days worked out so far must do; else it is
// for run.
func (s *Sweep) plain(at int) (known, ripens bool) {
	young := at + chillDays + 1
	if !s.p.Raised || len(s.gaps) > 0 || young >= s.built || s.life.haulm == s.life.haulm {
		return false, false
	}
	kill, end := s.killAfter(at), s.endAfter(at)
	last := min(end, s.built, s.life.boltsOn()) - int(s.life.worth) // the last day on which ready is in time
	if last < young {
		return false, false
	}
	in := s.days[last+1].sum
	if in-s.days[young].sum >= s.life.need+nearly {
		return true, true
	}
	if end < kill || kill >= s.built || kill > s.life.boltsOn() || kill < midsummer || !s.life.tender {
		return false, false
	}
	for s.harmAt < len(s.harm) && int(s.harm[s.harmAt]) <= at {
		s.harmAt++
	}
	if s.harmAt > 0 && int(s.harm[s.harmAt-1])-1+int(s.life.delay) >= at {
		return false, false // days lost to nights before it was out are its own after all
	}
	return in-s.days[at].sum < s.life.need-nearly, false
}
