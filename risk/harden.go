package risk

import (
	"math"

	"frostward/climate"
)

// Hardening is the hardening off of a raised planting, night by night: what would happen if
// the plants were left out on every night of it.
type Hardening struct {
	From   climate.SeasonDay // the first day they stand out
	Out    climate.SeasonDay // the day they are planted
	Nights []HardeningNight
	Any    climate.Chance      // at least one of its nights would set them back
	Inside [2]climate.Quantile // nights to bring them in: the median, and in 9 seasons of 10
}

// HardeningNight is one night of it.
type HardeningNight struct {
	Day   climate.SeasonDay // the day on which the night ends
	Limit float64           // °C: the lowest that a plant so far hardened may see
	Harm  climate.Chance    // it is at or below the limit
}

// Harden scores the hardening off of a raised planting over an ensemble at the spot where the
// plants stand, for the crop's days of it. There are no nights where the catalogue has no days.
//
// The limit falls in a straight line from the seedling's set-back temperature on the first
// night to the hardened plant's on the last. Cold hardens quickly: spinach gained 2 to 4 °C
// in one day at 5/2 °C and most of its gain within three ("Freezing tolerance and rapid cold
// acclimation of spinach"), so for hardy crops a line over a week or more is on the safe side;
// tender crops gain next to nothing, and for them the catalogue's two limits lie close together.
func Harden(e climate.Ensemble, p Planting) Hardening {
	n := 0
	if p.Raised && p.Crop.HardeningDays.Known() {
		n = int(p.Crop.HardeningDays.Value)
	}
	h := Hardening{From: p.Start - climate.SeasonDay(n), Out: p.Start}
	if h.From < climate.SpanFrom || n == 0 {
		h.From = h.Out
		return h
	}
	old := p.Crop.SetBackHardened.Value
	young := max(old, orElse(p.Crop.SetBackSeedling.Value, old))
	any := make([]climate.Answer, len(e.Seasons))
	cold := make([]float64, len(e.Seasons))
	for k := range n {
		night := HardeningNight{Day: h.From + climate.SeasonDay(k+1), Limit: old}
		if n > 1 {
			night.Limit = young + (old-young)*float64(k)/float64(n-1)
		}
		harm := make([]climate.Answer, len(e.Seasons))
		for i, s := range e.Seasons {
			low := s.Lows()[night.Day-climate.SpanFrom]
			if math.IsNaN(low) {
				cold[i] = math.NaN()
				continue
			}
			harm[i] = climate.AnswerOf(low <= night.Limit)
			if harm[i] == climate.Yes {
				cold[i]++
			}
		}
		night.Harm = e.Chance(harm)
		h.Nights = append(h.Nights, night)
	}
	for i, c := range cold {
		if !math.IsNaN(c) {
			any[i] = climate.AnswerOf(c > 0)
		}
	}
	h.Any = e.Chance(any)
	h.Inside = [2]climate.Quantile{e.Quantile(cold, 0.5), e.Quantile(cold, 0.9)}
	return h
}

// Worst is the index of the night that most often does harm, the earliest of those as bad; -1
// where no night is known.
func (h Hardening) Worst() int {
	worst := -1
	for i, n := range h.Nights {
		if n.Harm.Known && (worst < 0 || n.Harm.Share > h.Nights[worst].Harm.Share) {
			worst = i
		}
	}
	return worst
}
