package risk

import (
	"math"

	"frostward/climate"
)

// What the day loop assumes beside the catalogue.
const (
	// SeedlingDays is how long a sowing in place counts as a seedling after it has come
	// up (common practice, no source).
	SeedlingDays = 21

	// chillDays is how long after planting out a night at or below the chilling limit
	// stops growth for a day: until the roots have taken (common practice, no source).
	chillDays = 14

	// WorthPicking is the least picking, in days, that makes a crop worth its bed, or all
	// of its picking time where that is shorter (our rule).
	WorthPicking = 14

	// defaultSetBackDays is the growth lost to a night of damage where the catalogue gives
	// none (our assumption).
	defaultSetBackDays = 7

	// DefaultEmergenceDays is the time to come up, in soil warm enough, where the catalogue
	// has no thermal time (common practice, no source).
	DefaultEmergenceDays = 10
)

// gaps in the record that a planting can be played across: up to 4 days in a row, and
// 10 in its life, as the WMO's rule for a month.
const (
	gapInARow = 5
	gapInAll  = 11
)

// Play plays a planting through season i, day by day, and returns its outcome. The planting
// must pass Check and be of the field's crop and way of raising.
//
// The minimum of a day is that of the night before it, so the first night a planting
// meets is that of the day after it goes out. A killing frost in spring does not end the
// game: the planting is lost, and is played on as if it had been saved but set back, so
// that whether it would have ripened is known for every season.
func (f *Field) Play(i int, p Planting) Outcome { return f.play(i, p, p.Start, p.Start) }

// play is Play with the planting's cover in place from a day on, of a planting that is known to stand on the day
// aliveOn: what its nights up to then would have killed was saved, and is set back.
func (f *Field) play(i int, p Planting, coveredFrom, aliveOn climate.SeasonDay) Outcome {
	l := f.pass(i, &p, coveredFrom, aliveOn, f.bolts, false)
	o, worth := l.outcome, l.worthAtEnd()
	if !o.Known {
		return o
	}
	if o.Ripens = o.ReadyOn+worth <= o.EndsOn; !o.Ripens && f.wantsLight() {
		lit := f.pass(i, &p, coveredFrom, aliveOn, f.bolts, true)
		o.Light = lit.outcome.Known && lit.outcome.ReadyOn+worth <= o.EndsOn
	}
	return o
}

// pass takes a planting through its days, up to one not included; in full light, as if every day had the light of an
// early summer, which says whether light is what it fails for.
func (f *Field) pass(i int, p *Planting, coveredFrom, aliveOn, until climate.SeasonDay, fullLight bool) life {
	l := f.newLife(i, p)
	l.aliveOn = aliveOn
	// Most are over within the year, so the warmth of the days after it is not asked for yet.
	first := max(0, int(p.Start-climate.SpanFrom))
	known := min(first+200, climate.SpanLen)
	nights, days := f.nights(i), f.growth.row(i, first, known)
	if p.Raised {
		nights = f.met(i, p.Start)
	}
	for sd := p.Start; sd < until; sd++ {
		d := int(sd - climate.SpanFrom)
		if d >= known {
			known = min(known+100, climate.SpanLen)
			f.growth.row(i, first, known)
		}
		low := nights.at(d)
		if sd > p.Start && l.up {
			gain := 0.0
			if p.Cover.Name != "" && sd >= coveredFrom {
				gain = f.coverGain(i, sd, p.Cover)
			}
			if l.night(sd, low, gain) {
				break
			}
		}
		worth := days[d]
		if fullLight {
			worth = f.growth.inFullLight(i, d, worth)
		}
		worth, whole := l.measured(worth, low)
		if !whole {
			if sd < l.outcome.ReadyOn+l.worth {
				l.outcome = Outcome{} // days are missing
				return l
			}
			l.outcome.EndsOn = sd // the record ends while it is being picked
			break
		}
		was := l.up
		if p.Raised || l.seed(sd, d) {
			if !fullLight {
				worth *= f.line[d]
			}
			l.grow(sd, worth)
		}
		if l.up && !was {
			nights = f.met(i, sd)
		}
	}
	if l.outcome.EndsOn == climate.NeverDay {
		l.outcome.EndsOn = l.bolts
	}
	return l
}

// wantsLight says whether the crop's growth hangs on light.
func (f *Field) wantsLight() bool {
	return f.growth.key.response.Light > 0 || f.Crop.LightHours.Known()
}

// life is where a planting stands as its days pass.
type life struct {
	raised  bool
	start   climate.SeasonDay
	aliveOn climate.SeasonDay // it is known to stand on this day
	outcome Outcome

	setBack, kill           float64           // of a hardened plant, °C
	setBackYoung, killYoung float64           // of a seedling, °C
	chill                   float64           // checks a plant newly out, °C; NaN where nothing does
	picking, worth          climate.SeasonDay // days of picking, begun ones whole, and how many of them are worth the bed
	delay                   climate.SeasonDay
	tender                  bool
	seedling                climate.SeasonDay // a sowing is a seedling up to this day
	up                      bool              // above ground
	germination             germinating
	checkedUntil            climate.SeasonDay // growth is lost up to this day
	need                    float64
	killReady               float64           // of what is picked, once ready, °C
	haulm                   float64           // from midsummer on, kills the tops of what grows again before it, °C; NaN for others
	notBefore               climate.SeasonDay // it is ready no earlier
	sum                     float64           // growth so far
	bolts                   climate.SeasonDay
	last                    float64 // growth of the last measured day, for gaps
	missing, missingInARow  int
}

func (f *Field) newLife(i int, p *Planting) life {
	c := &f.Crop
	l := life{raised: p.Raised, start: p.Start, chill: c.Chill.Value, up: p.Raised, checkedUntil: p.Start - 1, bolts: f.bolts,
		need: f.needIn(i), setBack: c.SetBackHardened.Value + f.coldIn(i), kill: c.KillHardened.Value + f.coldIn(i),
		picking: climate.SeasonDay(math.Ceil(orElse(c.PickingDays.Value, WorthPicking))), tender: c.Tender(),
		delay: climate.SeasonDay(orElse(c.SetBackDays.Value, defaultSetBackDays)), outcome: begun()}
	l.setBackYoung, l.killYoung = orElse(c.SetBackSeedling.Value+f.coldIn(i), l.setBack), orElse(c.KillSeedling.Value+f.coldIn(i), l.kill)
	l.worth = min(l.picking, WorthPicking)
	l.haulm = math.NaN()
	if c.RegrowsTo.Known() {
		l.haulm, l.tender = l.kill, true
		l.setBack, l.setBackYoung = higher(l.setBack, l.kill), higher(l.setBackYoung, l.killYoung)
		l.kill, l.killYoung = c.RegrowsTo.Value, c.RegrowsTo.Value
	}
	l.killReady = max(l.kill, orElse(c.KillReady.Value+f.coldIn(i), l.kill))
	l.notBefore = p.Start
	if f.waits(p.Start) {
		l.notBefore = f.notBefore[i]
	}
	if !p.Raised {
		l.germination = germinating{c: c, soil: f.soil.whole(i)}
	}
	return l
}

// night takes the planting through a night, its cover adding gain to the minimum, and says
// whether it is over: killed at the end of its season, or picked out.
func (l *life) night(sd climate.SeasonDay, low, gain float64) bool {
	setBack, kill := l.stands(sd)
	f := &l.outcome
	ready := sd > f.ReadyOn
	if !ready && (low <= setBack || low <= kill) {
		f.ColdNights++
	}
	low += gain
	if low <= kill && sd <= l.aliveOn {
		low = math.Nextafter(kill, climate.Never) // it did not kill
	}
	switch {
	case low <= kill && (ready || l.tender && sd >= climate.Midsummer):
		f.EndsOn = sd
	case low <= kill:
		if !f.Lost {
			f.Lost, f.KilledOn = true, sd
		}
		l.checkedUntil = max(l.checkedUntil, sd-1+l.delay)
	case low <= setBack && !ready:
		if f.SetBacks == 0 {
			f.SetBackOn = sd
		}
		f.SetBacks++
		l.checkedUntil = max(l.checkedUntil, sd-1+l.delay)
	}
	if l.raised && sd-l.start <= chillDays && low <= l.chill {
		f.Chilled++
		l.checkedUntil = max(l.checkedUntil, sd)
	}
	if sd >= f.ReadyOn+l.picking {
		f.EndsOn = min(f.EndsOn, sd)
	}
	return f.EndsOn != climate.NeverDay
}

// stands is what sets the planting back and kills it in the night that ends on a day.
func (l *life) stands(sd climate.SeasonDay) (setBack, kill float64) {
	switch {
	case sd > l.outcome.ReadyOn:
		return l.setBack, l.killReady
	case l.haulm == l.haulm && sd >= climate.Midsummer: // it would be too late to grow again
		return l.setBack, l.haulm
	case !l.raised && sd < l.seedling:
		return l.setBackYoung, l.killYoung
	}
	return l.setBack, l.kill
}

// measured returns the day's growth, that of the day before where it is missing, and whether
// the record is whole enough to play on.
func (l *life) measured(worth, low float64) (float64, bool) {
	if !math.IsNaN(worth) && !math.IsNaN(low) {
		l.missingInARow, l.last = 0, worth
		return worth, true
	}
	l.missing++
	l.missingInARow++
	return orElse(worth, l.last), l.missingInARow < gapInARow && l.missing < gapInAll
}

// seed passes a day in the soil and says whether the plant had come up before it: from then
// on it grows.
func (l *life) seed(sd climate.SeasonDay, d int) bool {
	if l.up {
		return true
	}
	if l.germination.day(d) && l.germination.done() {
		l.up, l.outcome.EmergedOn = true, sd
		l.seedling = sd + 1 + SeedlingDays
	}
	return false
}

// grow adds a day's growth.
func (l *life) grow(sd climate.SeasonDay, worth float64) {
	if sd <= l.checkedUntil {
		return
	}
	l.sum += worth
	if l.sum >= l.need && sd >= l.notBefore && l.outcome.ReadyOn == climate.NeverDay {
		l.outcome.ReadyOn = sd
	}
}

// worthAtEnd is how many days of picking make it worth its bed: one will do where it still stands
// when the span is over, since what is picked after is not seen.
func (l *life) worthAtEnd() climate.SeasonDay {
	if l.outcome.EndsOn == climate.SpanTo {
		return 1
	}
	return l.worth
}

// midsummer is climate.Midsummer as an index into a season's days.
const midsummer = int(climate.Midsummer - climate.SpanFrom)

// orElse returns v, or another value where v is NaN.
func orElse(v, other float64) float64 {
	if math.IsNaN(v) {
		return other
	}
	return v
}
