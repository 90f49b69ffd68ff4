package risk

import "sort"

// tell counts the starts by the stretch.
func (b *bulk) tell(from, to int, e ending) {
	bolts := b.life.boltsOn()
	goal := b.kept(max(e.last, from)+1) - b.need
	// The first start that is not sure to be ready if it gets nothing in its first weeks.
	at := from + sort.Search(max(0, min(to, e.last-ChillDays-1)+1-from), func(k int) bool {
		return b.kept(from+k+ChillDays+1) > goal-nearly
	})
	b.count(from, at-1, e, true)
	// The first that cannot be if it gets all of them. A hardy one lost before it is ready may
	// yet be so later.
	hardy := !b.life.tender && e.end < bolts
	least := goal
	if hardy {
		least = b.kept(b.to) - b.need
	}
	late := at + sort.Search(to+1-at, func(k int) bool { return b.kept(at+k) > least+nearly })
	at, late = b.chillyOnes(at, late, e, goal)
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

// chillyOnes counts starts, of those from one day up to another, not included, that are sure to
// be ready in time if they get no more in their first weeks than the days after nights that are
// not chilly, and nothing on their own day. It returns the first that is not, and the first that
// would not be if its own day were as warm as can be, nights before it was out aside.
func (b *bulk) chillyOnes(from, to int, e ending, goal float64) (sure, late int) {
	n := min(to, e.last-ChillDays) - from
	if n <= 0 {
		return from, to
	}
	b.chilledBetween(from+1, from+n+ChillDays) // all of them are laid out
	lacks := func(more float64) func(k int) bool {
		return func(k int) bool {
			s := from + k + 1
			return b.kept(s)+b.chilledBetween(s, s+ChillDays) > goal+more
		}
	}
	sure, late = from+sort.Search(n, lacks(-nearly)), to
	if b.life.tender {
		if k := sort.Search(n, lacks(b.sums.most()+nearly)); k < n {
			late = from + k
		}
	}
	for _, d := range b.common.gaps { // their warmth is not that of the day before
		if from <= int(d) && int(d) < sure {
			b.count(from, int(d)-1, e, true)
			b.leave(int(d), int(d))
			from = int(d) + 1
		}
	}
	b.count(from, sure-1, e, true)
	return sure, late
}
