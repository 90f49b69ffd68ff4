package risk

import "frostward/climate"

// fate works out the fate in season i, which is to be taken up, of a start on day at, of those
// that season has counted. It gives up (false) on those that do not ripen, whose reasons the day
// loop tells, and where season did.
func (b *bulk) fate(i, at int) (Fate, bool) {
	young := at + ChillDays
	if int(b.laidTo[i]) <= young+1 {
		return Fate{}, false
	}
	b.look()
	// As far as the season before asks for, and if need be as far as it was counted.
	to := min(int(b.laidTo[i]), max(b.lastReady, young)+20)
	if !b.lay(to) {
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
	ready, sure := b.ready(young, lit, b.to)
	if ready >= b.to && b.to < int(b.laidTo[i]) && b.lay(int(b.laidTo[i])) {
		ready, sure = b.ready(young, lit, b.to)
	}
	if ready >= b.to || !sure {
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
	over := b.picked(ready)
	if over > b.to && !b.common.enough(over) {
		return Fate{}, false
	}
	f.EndsOn = onDay(over)
	f.Ripens = f.ReadyOn+b.life.worthBy(over) <= f.EndsOn
	return f, f.Ripens
}
