package risk

import (
	"math"

	"frostward/climate"
	"frostward/crops"
)

// A tall crop is judged at half of its height: what freezes below that is lost, and the rest ripens on (a judgement).
// On clear nights the air warms with the logarithm of the height above the ground, up to a screen's
// (Geiger, The Climate near the Ground, from memory). But leaves high up face the sky and are 0.5 to 2 °C colder than
// the air about them (Snyder & de Melo-Abreu 2005, FAO, from memory), as a thermometer low in a bed is too: so of the
// 2 °C or so that height would spare, half is counted. Stands and nights differ: the spread is a judgement.
const (
	bedCm      = 10.0
	screenCm   = 150.0
	leaves     = 0.5
	liftSpread = 0.2
	tallAfter  = 60 // days from the last customary day for going out, over which it grows to its height
)

// lift is what share of the gap between bed and screen a crop does not feel on a day: usually, and the standard
// deviation among stands.
type lift struct{ usual, spread float64 }

func (l lift) in(stand float64) float64 { return max(0, min(1, l.usual+l.spread*stand)) }

// liftsOf are a crop's on the days of the span.
func liftsOf(c *crops.Crop) *[climate.SpanLen]lift {
	var out [climate.SpanLen]lift
	for d := range out {
		grown := (float64(onDay(d)) - c.OutTo.Value) / tallAfter
		if c.OutTo.Known() && grown > 0 {
			at := max(bedCm, min(1, grown)*c.Height.Value/2)
			out[d] = lift{leaves * math.Log(at/bedCm) / math.Log(screenCm/bedCm), min(1, grown) * liftSpread}
		}
	}
	return &out
}

// stand is how the stand of season i differs from the usual one, in standard deviations.
func (f *Field) stand(i int) float64 {
	s := &f.Ensemble.Seasons[i]
	own := s.Year
	if f.Ensemble.By == climate.ByWeather {
		own = s.World
	}
	return f.gain.at(1<<20+own, climate.SpanFrom)
}

// liftOn is by how much a tall crop is usually warmer than its bed on a cold night about a day of season i, °C.
func (f *Field) liftOn(i int, sd climate.SeasonDay) float64 {
	var gap, n float64
	for _, s := range f.Ensemble.Seasons {
		lows := s.Lows()
		screen, _ := s.Air()
		for d := max(0, int(sd-climate.SpanFrom)-7); d < min(len(lows), int(sd-climate.SpanFrom)+8); d++ {
			if g := screen[d] - lows[d]; lows[d] < 4 && g == g {
				gap, n = gap+max(0, g), n+1
			}
		}
	}
	if n == 0 {
		return 0
	}
	return f.lift[sd-climate.SpanFrom].in(f.stand(i)) * gap / n
}
