package risk

import (
	"math"
	"slices"
	"sort"

	"frostward/climate"
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
	life life
	sums *litSums
	need float64 // in the sums' measure
	harm float64 // no night above it does harm
	far  bool    // the season before was not settled by its autumn

	picking int // days, in whole nights

	laid // the season looked at

	seasons []climate.Season
	all     []laid // every season, for the fates of the day chosen
	steps   []step
	odd     []int
}

// set makes ready for a planting of a field, on sums that lack the division by the light at
// home, and for so many starts.
func (b *bulk) set(f *Field, p *Planting, sums *litSums, home float64, starts int) {
	b.seasons, b.sums, b.need, b.far = f.Ensemble.Seasons, sums, f.need*home, false
	b.life = f.newLife(0, p)
	b.harm, b.picking = higher(b.life.setBack, b.life.kill), int(math.Ceil(b.life.picking))
	b.steps = slices.Grow(b.steps[:0], starts+1)[:starts+1]
	clear(b.steps)
	for len(b.all) < len(b.seasons) {
		b.all = append(b.all, laid{memory: make([]float64, climate.SpanLen+1)})
	}
	for i := range b.all {
		b.all[i].to = 0
	}
}

// season counts the starts of season i from one day to another, both included, and returns
// those it cannot tell of, in rising order.
func (b *bulk) season(i, from, to int) []int {
	b.odd, b.laid = b.odd[:0], b.all[i]
	b.nights = b.seasons[i].Lows()
	bolts := b.life.boltsOn()
	out := to + ChillDays + 2 // the last start's first weeks are over
	if out > bolts || b.life.worth <= 0 || b.life.tender && to >= midsummer {
		return b.leave(from, to)
	}
	e := b.ending(from, to)
	// Most seasons are settled by their autumn. Else the sums go as far as they may be asked
	// for: beyond the end of a hardy planting, which may ripen after the frost it was lost to.
	near, known := min(out+150, e.end), bolts
	if b.life.tender {
		known = max(e.end, out)
	}
	ready := near - WorthPicking
	early := e.lost < near && near < known && ready >= out
	settled := func() bool { return b.kept[ready]-b.kept[out-1] >= b.need+nearly }
	if early && !b.far && b.lay(i, near) && settled() {
		b.count(b.lostForSure(from, to, e), to, e, true)
		return b.odd
	}
	if !b.lay(i, known) {
		return b.leave(from, to)
	}
	b.far = early && !settled()
	b.tell(b.lostForSure(from, to, e), to, e)
	return b.odd
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
	for d := before; d > from; d-- {
		if b.nights[d] <= b.life.kill {
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

// tell counts the starts by the stretch.
func (b *bulk) tell(from, to int, e ending) {
	bolts := b.life.boltsOn()
	goal := b.kept[max(e.last, from)+1] - b.need
	// The first start that is not sure to be ready if it gets nothing in its first weeks.
	at := from + sort.Search(max(0, min(to, e.last-ChillDays-1)+1-from), func(k int) bool {
		return b.kept[from+k+ChillDays+1] > goal-nearly
	})
	b.count(from, at-1, e, true)
	// The first that cannot be if it gets all of them. A hardy one lost before it is ready may
	// yet be so later.
	hardy := !b.life.tender && e.end < bolts
	least := goal
	if hardy {
		least = b.kept[bolts] - b.need
	}
	late := at + sort.Search(to+1-at, func(k int) bool { return b.kept[at+k] > least+nearly })
	over, k := -1, 0 // the last day lost to nights before a start
	for at <= to {
		for ; k < len(b.bad) && int(b.bad[k]) <= at; k++ {
			over = int(b.bad[k]) - 1 + int(b.life.delay)
		}
		if at >= late && at > over { // and so are all up to the next bad night
			until := to
			if k < len(b.bad) {
				until = min(until, int(b.bad[k])-1)
			}
			if hardy {
				b.add(at, until, false, false)
			} else {
				b.count(at, until, e, false)
			}
			at = until + 1
			continue
		}
		if hardy {
			b.hardy(at, over, e)
		} else if ripens, ok := b.one(at, over, goal); ok {
			b.count(at, at, e, ripens)
		} else {
			b.leave(at, at)
		}
		at++
	}
}

// leave leaves starts for the sweep.
func (b *bulk) leave(from, to int) []int {
	for at := from; at <= to; at++ {
		b.odd = append(b.odd, at)
	}
	return b.odd
}
