package risk

import "frostward/climate"

// fate works out the fate, in the season taken up, of a start on day at, of those that season has
// counted. It does not look into Light, and gives up (false) where season did.
func (b *bulk) fate(at int) (Fate, bool) {
	young, laid := at+ChillDays, int(b.laidTo[b.common.i])
	if laid <= young+1 {
		return Fate{}, false
	}
	// As far as the season before asks for, and if need be as far as it was counted.
	if !b.lay(min(laid, max(b.lastReady, young)+20)) {
		return Fate{}, false
	}
	before := -1 // the last day lost to nights before it
	for _, d := range b.bad {
		if int(d) > at {
			break
		}
		before = int(d) - 1 + int(b.life.delay)
	}
	lit, ok := b.young(at, before)
	if !ok {
		return Fate{}, false
	}
	ready, sure := b.ready(young, lit, b.to)
	if ready >= b.to && b.to < laid && b.lay(laid) {
		ready, sure = b.ready(young, lit, b.to)
	}
	if !sure {
		return Fate{}, false
	}
	over := b.life.boltsOn()
	if b.life.tender {
		over = b.killed(max(at+1, midsummer), over)
	}
	if ready >= min(over, b.to) {
		ready = never
	} else {
		over = b.picked(ready)
	}
	if over > b.to && !b.common.enough(over) {
		return Fate{}, false
	}
	f := b.nightsOf(at, min(ready, over, b.life.boltsOn()-1))
	f.EndsOn = onDay(over)
	if ready < never {
		f.ReadyOn = onDay(ready)
		f.Ripens = f.ReadyOn+b.life.worthBy(over) <= f.EndsOn
	}
	return f, true
}

// nightsOf is what becomes of a start in the nights after it, up to one.
func (b *bulk) nightsOf(at, last int) Fate {
	f := Fate{Known: true, KilledOn: climate.Never, SetBackOn: climate.Never, EmergedOn: climate.Never, ReadyOn: climate.Never}
	for _, h := range b.badNights.upTo(b.common, last+1) {
		d := int(h)
		if d <= at {
			continue
		}
		f.ColdNights++
		switch {
		case !(b.common.nights[d] <= b.life.kill):
			if f.SetBacks == 0 {
				f.SetBackOn = onDay(d)
			}
			f.SetBacks++
		case b.life.tender && d >= midsummer: // its end
		case !f.Lost:
			f.Lost, f.KilledOn = true, onDay(d)
		}
	}
	for _, low := range b.common.nights[at+1 : min(at+ChillDays, last)+1] {
		if low <= b.life.chill {
			f.Chilled++
		}
	}
	return f
}
