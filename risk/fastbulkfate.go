package risk

import (
	"sort"

	"frostward/climate"
)

// fate works out the fate in season i of a start on day at, of those that season has counted.
// It gives up (false) on those that do not ripen, whose reasons the day loop tells, and where
// season did.
func (b *bulk) fate(i, at int) (Fate, bool) {
	b.laid = b.all[i]
	young := at + ChillDays
	if b.to <= young+1 {
		return Fate{}, false
	}
	k, before := 0, -1 // its first bad night, and the last day lost to those before
	for ; k < len(b.bad) && int(b.bad[k]) <= at; k++ {
		before = int(b.bad[k]) - 1 + int(b.life.delay)
	}
	lit, ok := b.young(at, before)
	if !ok {
		return Fate{}, false
	}
	target := b.need - lit + b.kept[young+1]
	ready := young + 1 + sort.Search(b.to-young-1, func(d int) bool { return b.kept[young+2+d] >= target })
	if ready >= b.to || b.kept[ready+1]-target < nearly || target-b.kept[ready] < nearly {
		return Fate{}, false
	}
	f := Fate{Known: true, KilledOn: climate.Never, SetBackOn: climate.Never, EmergedOn: climate.Never, ReadyOn: onDay(ready)}
	for ; k < len(b.bad) && int(b.bad[k]) <= ready; k++ {
		d := int(b.bad[k])
		f.ColdNights++
		switch {
		case !(b.nights[d] <= b.life.kill):
			if f.SetBacks == 0 {
				f.SetBackOn = onDay(d)
			}
			f.SetBacks++
		case b.life.tender && d >= midsummer:
			return Fate{}, false // its end
		case !f.Lost:
			f.Lost, f.KilledOn = true, onDay(d)
		}
	}
	for _, low := range b.nights[at+1 : young+1] {
		if low <= b.life.chill {
			f.Chilled++
		}
	}
	// It is picked until a night kills it, or it is picked out, or it runs to seed.
	over := min(ready+b.picked, int(b.life.bolts-climate.SpanFrom))
	for d := ready + 1; d < over; d++ {
		if b.nights[d] <= b.life.kill {
			over = d
		}
	}
	if over > b.to && !b.whole(i, over) {
		return Fate{}, false
	}
	worth := b.life.worth
	if over == never { // where the span is over, one day of picking will do
		worth = 1
	}
	f.EndsOn = onDay(over)
	f.Ripens = f.ReadyOn+worth <= f.EndsOn
	return f, f.Ripens
}
