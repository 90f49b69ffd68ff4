package risk

import (
	"math"

	"frostward/climate"
)

// seedbed has what a sweep needs of sowings: a seed waits for the soil, comes up when it has
// had its warmth there, and is a softer seedling for some weeks. Where it starts and where it
// comes up are found on running sums as readiness is; the seedling's weeks are played night by
// night, as each start has its own.
type seedbed struct {
	built, first, up int // days up to; where the last seed started, and came up
	last             float64
	full             [climate.SpanLen + 1]float64 // growth, none lost
	risen            [climate.SpanLen + 1]float64 // of the way to coming up

	// Of the sowing last looked at.
	hardened, young int   // its last night as a seedling, and the last day that one of those can cost it
	harm            []int // nights up to then that did harm
	killed          int   // the first of them that killed it; never
}

func (b *seedbed) begin(at int) {
	b.built, b.first, b.up, b.last = at, at, at, 0
	b.full[at], b.risen[at] = 0, 0
}

// extend follows the sweep's own days.
func (b *seedbed) extend(s *Sweep) {
	c, soil := s.life.germination.c, s.life.germination.soil
	full, risen := b.full[b.built], b.risen[b.built]
	for d := b.built; d < s.built; d++ {
		warm := s.worth[d]
		if warm != warm {
			warm = b.last
		} else if low := s.nights.at(d); low == low {
			b.last = warm
		}
		full += warm * s.line[d]
		switch t := soil[d]; {
		case t != t: // not known: it neither starts nor stops the seed
		case c.EmergenceSum.Known():
			risen += c.EmergenceRate(t)
		default:
			risen++ // days, for which emergence says how many it takes
		}
		b.full[d+1], b.risen[d+1] = full, risen
	}
	b.built = s.built
}

// sown looks at a sowing on day at, up to the last day that a night of its seedling weeks can
// cost it: the warmth it has by then. It gives up (false) where the day loop must decide.
func (s *Sweep) sown(at int) (lit float64, young int, ok bool) {
	b, l := &s.bed, &s.life
	soil, least := l.germination.soil, l.germination.c.GerminationMin
	g := max(b.first, at)
	for g < never && least.Known() && !(soil[g] >= least.Value) {
		g++
	}
	b.first = g
	reach := SeedlingDays + int(l.delay) + 2
	end := min(s.life.boltsOn(), never) - reach
	way := 1.0
	if !l.germination.c.EmergenceSum.Known() {
		way = defaultEmergence - 0.5 // days are whole
	}
	u := max(b.up, g)
	for ; u < end; u++ {
		if u+1 >= b.built {
			s.extend(u + reach)
			b.extend(s)
		}
		if b.risen[u+1]-b.risen[g] >= way {
			break
		}
	}
	b.up = u
	const hair = 1e-9 // parts of the way are rounded to far less
	if u >= end || b.risen[u+1]-b.risen[g]-way < hair || u > g && way-(b.risen[u]-b.risen[g]) < hair {
		return 0, 0, false
	}
	if math.IsNaN(s.worth[u+1]) || math.IsNaN(s.nights.at(u+1)) || s.f.softFrom(s.i, onDay(u)) {
		return 0, 0, false // not measured, and perhaps no day before it to take its growth from; or it hardens from here on
	}
	b.hardened, b.harm = u+SeedlingDays, b.harm[:0]
	b.young = b.hardened
	s.extend(b.hardened + int(l.delay) + 2)
	b.extend(s)
	b.killed = never
	for d := u + 1; d <= b.young; d++ {
		harm := (s.days[d+1].tally - s.days[d].tally).of(badNight) > 0
		if d <= b.hardened {
			hardy := harm
			var deadly bool
			if harm, deadly = s.seedlingNight(d); deadly && l.tender && d >= midsummer {
				return 0, 0, false // that is its end
			}
			if harm || hardy { // lost to it, or held lost by the running sums
				b.young = max(b.young, d-1+int(l.delay))
			}
		}
		if harm {
			b.harm = append(b.harm, d)
		}
	}
	return b.grown(l.delay), b.young, true
}

// grown is the growth of the sowing last looked at, from the day after it is up to the end of its young
// days, without those lost to nights that did harm.
func (b *seedbed) grown(delay climate.SeasonDay) (total float64) {
	from := b.up + 1
	for _, night := range b.harm {
		total += b.full[max(from, night)] - b.full[from]
		from = min(max(from, night+int(delay)), b.young+1)
	}
	return total + b.full[b.young+1] - b.full[from]
}

// defaultEmergence is how many days the day loop's sum of equal parts takes to come to 1: one
// more than there are parts where these add up to a hair less.
var defaultEmergence = func() float64 {
	n := 0
	for sum := 0.0; sum < 1; n++ {
		sum += 1. / DefaultEmergenceDays
	}
	return float64(n)
}()

// seedlingNight says of a night of a seedling whether it does harm, and kills.
func (s *Sweep) seedlingNight(d int) (harm, deadly bool) {
	b, l := &s.bed, &s.life
	low := s.nights.at(d)
	if s.cover {
		low += s.f.coverGain(s.i, climate.SpanFrom+climate.SeasonDay(d), s.p.Cover)
	}
	if low <= l.killYoung {
		b.killed = min(b.killed, d)
		return true, true
	}
	return low <= l.setBackYoung, false
}
