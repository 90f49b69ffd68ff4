package risk

import (
	"math"

	"frostward/climate"
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

// lift is what share of the gap between bed and screen a crop does not feel on a day of season i.
func (f *Field) lift(i int, sd climate.SeasonDay) float64 {
	c := &f.Crop
	grown := (float64(sd) - c.OutTo.Value) / tallAfter
	if !c.Height.Known() || !c.OutTo.Known() || grown <= 0 {
		return 0
	}
	s := &f.Ensemble.Seasons[i]
	own := s.Year
	if f.Ensemble.By == climate.ByWeather {
		own = s.World
	}
	at := max(bedCm, min(1, grown)*c.Height.Value/2)
	share := leaves*math.Log(at/bedCm)/math.Log(screenCm/bedCm) + min(1, grown)*liftSpread*f.gain.at(1<<20+own, climate.SpanFrom)
	return max(0, min(1, share))
}

// lifted are the nights of season i at a tall crop.
func (f *Field) lifted(i int) []float64 {
	s := f.Ensemble.Seasons[i]
	lows, air := s.Lows(), make([]float64, len(s.Tmin))
	screen, _ := s.Air()
	for d, low := range lows {
		air[d] = low
		if gap := max(0, screen[d]-low); gap != 0 { // none at the station
			air[d] += f.lift(i, climate.SpanFrom+climate.SeasonDay(d)) * gap
		}
	}
	return air
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
	return f.lift(i, sd) * gap / n
}
