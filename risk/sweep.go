package risk

import (
	"math"

	"frostward/climate"
)

// Sweep says how a planting ends from every starting day of a window, in one pass over each
// season: whether it survives, and whether it ripens, as Play does. Tests hold it to the day loop.
//
// The day loop takes about half a microsecond a start, nearly all of it on days that are the
// same for all starts. A sweep works those days out once: running sums of growth,
// running counts of nights by what they do, and lists of the few nights that do
// harm. A start's outcome is then some subtractions and a step or two along the sums, as one
// start is ready within days of the next. What differs between starts are their first days
// only, since a night before a planting is out costs it nothing; those are set right one by
// one.
//
// Differences of running sums round otherwise than sums from a start on. Where a sum comes
// closer to what the crop needs than rounding allows, and in the few cases not provided
// for, the start is played by the day loop.
//
// The zero Sweep is ready for Set. It keeps 50 KB for reuse and is for one goroutine.
type Sweep struct {
	f     *Field
	p     Planting
	life  life
	cover bool
	worst float64 // no night above it harms the plant uncovered

	i           int
	nights      nights
	worth, line []float64 // a day's growth, and the part of it that the growers' line lets count
	built       int       // days worked out: up to this one, not included
	last        float64   // growth of the last measured day, for gaps
	lost        int       // growth is lost to a night up to this day

	days [climate.SpanLen + 1]before

	harm  []int16 // nights that kill or set back, and of them
	kills []int16
	ends  []int16 // nights that end it once it is ready
	tops  []int16 // nights that kill the tops of what grows again
	gaps  []int16 // days not measured

	// Where the last start was found, which is where the next one is looked for.
	harmAt, gapAt, runAt, ready int

	out int // the night after which the start last run is a hardened plant
	bed seedbed
}

// before is what has passed before a day: all that a start needs of it in 24 bytes, side by
// side, so that it is one line of memory.
type before struct {
	sum   float64 // growth of days not lost to frost
	young float64 // the same, with days after a chilly night lost as well
	tally tally
}

// tally counts nights in three fields of 16 bits, so that one subtraction counts them all.
type tally uint64

const (
	killNight  tally = 1 << (16 * iota) // kills
	badNight                            // kills or sets back
	chillNight                          // chills
)

func (t tally) of(kind tally) int { return int(t / kind & 0xffff) }

// set makes ready for a planting of a field's crop, as it is raised and under its cover.
func (s *Sweep) set(f *Field, p Planting) {
	s.f, s.p = f, p
	s.cover = p.Cover.Name != ""
	s.line = f.line
}

// start says how one start in the season begun ends; starts must come in rising order.
func (s *Sweep) start(sd climate.SeasonDay) finish {
	if !s.within(sd) {
		return s.loop(sd)
	}
	at := int(sd - climate.SpanFrom)
	if known, ripens := s.plain(at); known {
		return finish{true, true, ripens}
	}
	ready, over, how := s.run(at)
	switch how {
	case oddStart:
		return s.loop(sd)
	case gappy:
		return finish{}
	}
	return finish{true, s.survives(ready, over), s.ripens(ready, over)}
}

// within says whether a start is one that the sums are for; one beyond the span is the
// caller's fault, which the day loop reports in its own way.
func (s *Sweep) within(sd climate.SeasonDay) bool {
	return sd >= climate.SpanFrom && sd+chillDays+2 < climate.SpanTo && s.life.worth > 0 && !s.f.waits(sd) &&
		!(s.p.Raised && s.f.softFrom(s.i, sd))
}

// loop plays one start by the day loop.
func (s *Sweep) loop(sd climate.SeasonDay) finish {
	return finishOf(s.f.Play(s.i, s.p.At(sd)))
}

// begin makes ready for a season from a first start on.
func (s *Sweep) begin(i int, from climate.SeasonDay) {
	s.i, s.nights, s.worth = i, s.f.nights(i), s.f.growth.all[i]
	s.life = s.f.newLife(i, &s.p)
	s.worst = higher(s.life.setBack, s.life.kill)
	at := min(max(0, int(from-climate.SpanFrom)), climate.SpanLen)
	s.built, s.last, s.lost = at, 0, at-1
	s.days[at] = before{}
	s.harm, s.kills, s.ends, s.tops, s.gaps = s.harm[:0], s.kills[:0], s.ends[:0], s.tops[:0], s.gaps[:0]
	s.harmAt, s.gapAt, s.runAt, s.ready = 0, 0, 0, at
	s.bed.begin(at)
}

// extend adds days up to one, not included, and some more.
func (s *Sweep) extend(to int) {
	if to <= s.built {
		return
	}
	to = min(to+30, climate.SpanLen)
	s.f.growth.row(s.i, s.built, to)
	worst, kill, end, chill, cover := s.worst, s.life.kill, s.life.killReady, s.life.chill, s.cover
	b, lost, last := s.days[s.built], s.lost, s.last
	worth, line, days := s.worth[:to], s.line[:to], s.days[1:][:to]
	for d := s.built; d < to; d++ {
		low, warm := s.nights.at(d), worth[d]
		if low != low || warm != warm { // NaN: not measured
			s.gaps = append(s.gaps, int16(d))
			if warm != warm {
				warm = last
			}
		} else {
			last = warm
		}
		if cover {
			low += s.f.coverGain(s.i, climate.SpanFrom+climate.SeasonDay(d), s.p.Cover)
		}
		if low <= worst { // few are
			s.harm = append(s.harm, int16(d))
			b.tally += badNight
			if low <= kill {
				s.kills = append(s.kills, int16(d))
				b.tally += killNight
			}
			if low <= s.life.haulm {
				s.tops = append(s.tops, int16(d))
			}
			lost = d - 1 + int(s.life.delay)
		}
		if low <= end {
			s.ends = append(s.ends, int16(d))
		}
		// In a cool place every other night of spring is a chilly one, which no processor can
		// foretell: so without a branch, what does not count is masked to 0.
		var counts, chilly uint64
		if d > lost {
			counts = ^uint64(0)
		}
		if low <= chill {
			chilly = 1
		}
		lit := math.Float64bits(warm*line[d]) & counts
		b.sum += math.Float64frombits(lit)
		b.young += math.Float64frombits(lit & (chilly - 1))
		b.tally += tally(chilly) * chillNight
		days[d] = b
	}
	s.built, s.lost, s.last = to, lost, last
}

// higher is the higher of two limits of which either may be unknown.
func higher(a, b float64) float64 { return max(orElse(a, b), orElse(b, a)) }
