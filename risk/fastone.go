package risk

import "slices"

// hardy counts one start of a planting that may ripen after the night it was lost to.
func (b *bulk) hardy(at, over int, e ending) {
	lit, ok := b.young(at, over)
	ready, sure := b.ready(at+ChillDays, lit, b.to)
	switch {
	case !ok || !sure:
		b.leave(at, at)
	case ready < e.end:
		b.count(at, at, e, ready <= e.last)
	default:
		end := b.picked(ready)
		b.add(at, at, false, ready < b.to && float64(ready)+b.life.worthBy(end) <= float64(end))
	}
}

// ready returns the day by whose end a start is ready that had so much on a day of its first
// weeks, their last; the end where it is not before that. It is false where rounding could
// matter.
func (b *bulk) ready(young int, lit float64, end int) (day int, sure bool) {
	target := b.need - lit + b.kept(young+1)
	// One start is ready within days of the last.
	for day = min(max(young+1, b.lastReady), end); day > young+1 && b.kept(day) >= target; {
		day--
	}
	for day < end && b.kept(day+1) < target {
		day++
	}
	b.lastReady = day
	return day, (day >= end || b.kept(day+1)-target >= nearly) && target-b.kept(min(day, end)) >= nearly
}

// picked returns the end of a planting that is ready on a day: a night kills it, or it is picked
// out, or it runs to seed.
func (b *bulk) picked(ready int) int {
	return b.killed(ready+1, min(ready+b.picking, b.life.boltsOn()))
}

// killed returns the first deadly night from one day up to another, or the latter.
func (b *bulk) killed(from, to int) int {
	k, _ := slices.BinarySearch(b.common.cold, int16(from))
	for _, d := range b.common.cold[k:] {
		if int(d) >= to {
			break
		}
		if b.common.nights[d] <= b.life.kill {
			return int(d)
		}
	}
	return to
}

// one tells of one start whether it is ready in time, by its own first weeks.
func (b *bulk) one(at, over int, goal float64) (ripens, ok bool) {
	lit, ok := b.young(at, over)
	if !ok {
		return false, false
	}
	switch more := lit - b.kept(at+ChillDays+1) + goal; {
	case more >= nearly:
		return true, true
	case more <= -nearly:
		return false, true
	}
	return false, false
}

// young returns what a start has by the end of its first weeks, where nights before it cost
// days up to over. It is false where it is ready within them, and where that cannot be told.
func (b *bulk) young(at, over int) (lit float64, ok bool) {
	young := at + ChillDays
	if over > young || slices.Contains(b.common.gaps, int16(at)) {
		return 0, false
	}
	lit = b.sum[at+1] - b.sum[at] // its own night was before it was out
	lit += b.kept(young+1) - b.kept(at+1) - b.chilledBetween(at+1, young+1)
	// Days that nights before it was out cost others are its own after all, up to its own first
	// bad night.
	for d := at + 1; d <= over && !(b.common.nights[d] <= b.harm); d++ {
		if !(b.common.nights[d] <= b.life.chill) {
			lit += b.sum[d+1] - b.sum[d]
		}
	}
	return lit, lit < b.need-nearly
}
