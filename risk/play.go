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

	// ChillDays is how long after planting out a night at or below the chilling limit
	// stops growth for a day: until the roots have taken (common practice, no source).
	ChillDays = 14

	// WorthPicking is the least picking, in days, that makes a crop worth its bed, or all
	// of its picking time where that is shorter (our rule).
	WorthPicking = 14

	// DefaultSetBackDays is the growth lost to a night of damage where the catalogue gives
	// none (our assumption).
	DefaultSetBackDays = 7

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

// Play plays a planting through season i, day by day, and tells its fate. The planting
// must pass Check and be of the field's crop and way of raising.
//
// The minimum of a day is that of the night before it, so the first night a planting
// meets is that of the day after it goes out. A killing frost in spring does not end the
// game: the planting is lost, and is played on as if it had been saved but set back, so
// that whether it would have ripened is known for every season.
func (f *Field) Play(i int, p Planting) Fate {
	s := f.Ensemble.Seasons[i]
	nights, warmth := s.Lows(), f.warmth[i]
	c := p.Crop
	fate := Fate{Known: true, KilledOn: climate.Never, SetBackOn: climate.Never, EmergedOn: climate.Never,
		ReadyOn: climate.Never, EndsOn: climate.Never}

	need := f.need
	var germination germinating
	up := p.Raised // above ground
	if !p.Raised {
		germination = germinating{c: c, soil: f.soil[i]}
	}
	picking := orElse(c.PickingDays.Value, WorthPicking)
	worth := min(picking, WorthPicking)
	delay := int(orElse(c.SetBackDays.Value, DefaultSetBackDays))
	tender := c.Tender()

	var sum, sumAnyLight float64 // warmth so far, and what it would be without the light limit
	var last float64             // warmth of the last measured day, for gaps
	var missing, run int
	checkedUntil := p.Start - 1 // growth is lost up to this day
	readyAnyLight := climate.Never
	emerged := p.Start

	for sd := p.Start; sd < climate.SpanTo; sd++ {
		d := int(sd - climate.SpanFrom)

		// The night.
		if night := nights[d]; sd > p.Start && up {
			setBack, kill := c.SetBackHardened.Value, c.KillHardened.Value
			if !p.Raised && sd-emerged < SeedlingDays {
				setBack, kill = orElse(c.SetBackSeedling.Value, setBack), orElse(c.KillSeedling.Value, kill)
			}
			ready := sd > climate.SeasonDay(min(fate.ReadyOn, float64(climate.SpanTo)))
			if !ready && (night <= setBack || night <= kill) {
				fate.ColdNights++
			}
			if p.Cover.Name != "" {
				night += p.Cover.Gain + p.Cover.Spread*f.gain.at(i, sd)
			}
			switch {
			case night <= kill && (ready || tender && sd >= climate.Midsummer):
				fate.EndsOn = float64(sd)
			case night <= kill:
				if !fate.Lost {
					fate.Lost, fate.KilledOn = true, float64(sd)
				}
				checkedUntil = max(checkedUntil, sd-1+climate.SeasonDay(delay))
			case night <= setBack && !ready:
				if fate.SetBacks == 0 {
					fate.SetBackOn = float64(sd)
				}
				fate.SetBacks++
				checkedUntil = max(checkedUntil, sd-1+climate.SeasonDay(delay))
			}
			if p.Raised && sd-p.Start <= ChillDays && night <= c.Chill.Value {
				fate.Chilled++
				checkedUntil = max(checkedUntil, sd)
			}
			if fate.EndsOn != climate.Never || float64(sd) >= fate.ReadyOn+picking {
				fate.EndsOn = min(fate.EndsOn, float64(sd))
				break
			}
		}

		// The day.
		warm := warmth[d]
		if math.IsNaN(warm) || math.IsNaN(nights[d]) {
			missing++
			run++
			if run >= gapInARow || missing >= gapInAll {
				if float64(sd) >= fate.ReadyOn+worth {
					fate.EndsOn = float64(sd) // the record ends while it is being picked
					break
				}
				return Fate{Why: "days missing in the record"}
			}
			if math.IsNaN(warm) {
				warm = last
			}
		} else {
			run = 0
			last = warm
		}
		if !p.Raised {
			if !germination.day(d) {
				continue // the soil is still too cold for the seed to start
			}
			if !up && germination.done() {
				up, emerged, fate.EmergedOn = true, sd+1, float64(sd)
			}
		}
		if sd <= checkedUntil {
			warm = 0
		}
		sumAnyLight += warm
		if !f.dim[d] {
			sum += warm
		}
		if sum >= need && fate.ReadyOn == climate.Never {
			fate.ReadyOn = float64(sd)
		}
		if sumAnyLight >= need && readyAnyLight == climate.Never {
			readyAnyLight = float64(sd)
		}
	}
	fate.EndsOn = min(fate.EndsOn, float64(climate.SpanTo))
	fate.Ripens = fate.ReadyOn+worth <= fate.EndsOn
	fate.Light = !fate.Ripens && readyAnyLight+worth <= fate.EndsOn
	return fate
}

// orElse returns v, or another value where v is NaN.
func orElse(v, other float64) float64 {
	if math.IsNaN(v) {
		return other
	}
	return v
}
