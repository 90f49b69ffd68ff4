package risk

import (
	"math"
	"slices"
)

// bulk counts a planting's starts by the stretch. In most seasons the early ones ripen however
// little they get in their first fortnight, the late ones would not if no day of it were lost,
// and the few between are told by a fortnight's nights and two sums. Where a season turns from
// one to the other is found by halving, so that a season costs what its bad nights do and not
// what its starts do. It is for plants raised under cover that go out bare; what it cannot
// tell it leaves for the sweep, and where rounding could matter it does not tell.
//
// The zero bulk is ready for set.
type bulk struct {
	used bool // for the planting last counted
	life life
	sums *litSums
	need float64 // in the sums' measure
	harm float64 // no night above it does harm

	picking int // days, in whole nights

	common    *common
	badNights *badNights
	laid      // the season looked at

	laidTo []int16 // how far each season was laid out
	steps  []step
	odd    []leftStart
}

// leftStart is a start in a season that is left for the sweep.
type leftStart struct{ season, at int16 }

// set makes ready for a planting of a field in so many seasons, on sums that lack the division by
// the light at home, and for so many starts. A season is to be taken up by common before it is
// counted.
func (b *bulk) set(f *Field, p *Planting, c *common, sums *litSums, home float64, starts int) {
	b.common, b.sums, b.need = c, sums, f.need*home
	b.life = f.newLife(0, p)
	b.harm, b.picking = higher(b.life.setBack, b.life.kill), int(math.Ceil(b.life.picking))
	b.steps = slices.Grow(b.steps[:0], starts+1)[:starts+1]
	clear(b.steps)
	n := len(f.Ensemble.Seasons)
	b.laidTo, b.odd = slices.Grow(b.laidTo[:0], n)[:n], b.odd[:0]
	clear(b.laidTo)
	b.badNights = c.badNightsOf(b.harm)
}

// season counts the starts of the season taken up, from one day to another, both included; those
// it cannot tell of it adds to odd, in rising order.
func (b *bulk) season(from, to int) {
	b.to = 0
	defer func() { b.laidTo[b.common.i] = int16(b.to) }()
	bolts := b.life.boltsOn()
	out := to + ChillDays + 2 // the last start's first weeks are over
	if out > bolts || b.life.worth <= 0 || b.life.tender && to >= midsummer {
		b.leave(from, to)
		return
	}
	e := b.ending(from, to)
	known := bolts
	if b.life.tender {
		known = max(e.end, out)
	}
	if !b.layFor(out, known, e) {
		b.to = 0 // so that fate leaves it, too
		b.leave(from, to)
		return
	}
	first := b.lostForSure(from, to, e)
	if b.to <= e.last {
		b.count(first, to, e, true)
		return
	}
	b.tell(first, to, e)
}

// layFor lays the season out as far as its starts may ask for: to the end of a tender planting,
// and of a hardy one beyond it, as it may ripen after the frost it was lost to. Mostly less will
// do: up to a day by which the last start, whose first weeks are over at out, is sure to be ready.
func (b *bulk) layFor(out, known int, e ending) bool {
	for to := min(out+90, e.end); to < known; to += 60 {
		ready := to - WorthPicking // days missing while it is picked matter, too
		if ready < out || to <= e.lost {
			continue
		}
		if !b.lay(to) {
			return false
		}
		if b.kept(ready)-b.kept(out-1) >= b.need+nearly {
			return true
		}
	}
	return b.lay(known)
}

// ending is how a season ends for a planting.
type ending struct {
	end  int // the night it is over, or the day it runs to seed
	last int // the last day on which ready is in time
	lost int // the last night that kills before that; starts before it are lost, and played on as if saved
}

// ending looks through the nights for it.
func (b *bulk) ending(from, to int) ending {
	first, before := to+1, to
	if b.life.tender {
		first, before = midsummer, midsummer-1
	}
	e := ending{end: b.killed(first, b.life.boltsOn()), last: never - 1, lost: from}
	if e.end < never { // where the span is over, one day of picking will do
		e.last = int(float64(e.end) - b.life.worth)
	}
	k, _ := slices.BinarySearch(b.common.cold, int16(before+1))
	for k--; k >= 0 && int(b.common.cold[k]) > from; k-- {
		if d := int(b.common.cold[k]); b.common.nights[d] <= b.life.kill {
			e.lost = d
			break
		}
	}
	return e
}

// lostForSure leaves the starts before the night that kills them which might be ready by then, and
// returns the first of the others.
func (b *bulk) lostForSure(from, to int, e ending) int {
	if e.lost > from && b.sum[e.lost+1]-b.sum[from] >= b.need-nearly {
		first := min(e.lost, to+1)
		b.leave(from, first-1)
		return first
	}
	return from
}

// leave leaves starts for the sweep.
func (b *bulk) leave(from, to int) {
	for at := from; at <= to; at++ {
		b.odd = append(b.odd, leftStart{int16(b.common.i), int16(at)})
	}
}
