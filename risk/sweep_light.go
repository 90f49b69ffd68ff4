package risk

import "frostward/climate"

// anyLight has a sweep's running sums of growth in full light. Only plantings that do not
// ripen ask for them, to tell whether light is why, so they are kept apart.
type anyLight struct {
	built, lost, harmAt int
	last                float64
	sum, young, all     [climate.SpanLen + 1]float64 // as in before, and with none lost
}

func (a *anyLight) begin(at int) {
	a.built, a.lost, a.harmAt, a.last = at, at-1, 0, 0
	a.sum[at], a.young[at], a.all[at] = 0, 0, 0
}

// extend follows the sweep's own days.
func (a *anyLight) extend(s *Sweep) {
	sum, young := a.sum[a.built], a.young[a.built]
	for d := a.built; d < s.built; d++ {
		full := a.last
		if worth := s.worth[d]; worth == worth {
			full = s.f.growth.inFullLight(s.i, d, worth)
			if s.nights[d] == s.nights[d] {
				a.last = full
			}
		}
		if a.harmAt < len(s.harm) && int(s.harm[a.harmAt]) == d {
			a.harmAt++
			a.lost = d - 1 + int(s.life.delay)
		}
		if d > a.lost {
			sum += full
			if s.days[d+1].tally-s.days[d].tally < chillNight {
				young += full
			}
		}
		a.sum[d+1], a.young[d+1], a.all[d+1] = sum, young, a.all[d]+full
	}
	a.built = s.built
}

// readyAnyLight returns the day the planting put out on day at would be ready in any light,
// never if that is not before the end; false where it is too close to call.
func (s *Sweep) readyAnyLight(at, end int) (day int, ok bool) {
	a := &s.any
	a.extend(s)
	young, full := s.bed.young, 0.0
	if s.p.Raised {
		young = at + chillDays
		_, full, ok = s.given(at, young)
		full += a.young[young+1] - a.young[at]
	} else {
		full, ok = s.bed.grown(a.all[:], s.life.delay), true
	}
	target := s.life.need - full + a.sum[young+1]
	if !ok || full > s.life.need-nearly {
		return never, false
	}
	end = min(end, s.built)
	if end <= young+1 {
		return never, true
	}
	day = min(max(young+1, s.readyAny), end)
	for day > young+1 && a.sum[day] >= target {
		day--
	}
	for day < end && a.sum[day+1] < target {
		day++
	}
	if target-a.sum[day] < nearly {
		return never, false
	}
	if day == end {
		return never, true
	}
	s.readyAny = day
	return day, a.sum[day+1]-target > nearly
}
