package opened

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
)

// Heat is how hot a sheltered spot becomes in the week after a day, aired as growers do.
type Heat struct {
	Spot    garden.Spot
	Hot     float64 // share of the days, in the seasons recorded, that pass hotFor at the plants, by a thermometer in the sun
	Mean    float64 // share whose mean passes meanHot there
	Seasons int
}

// Heat that harms tomatoes in flower, °C at the plants: they set no fruit at 32 by day and 26 by night in one
// variety, much less in another (Sato et al. 2000, as a citing paper has it), and the set falls as the daily mean goes
// from 25 to 29 (Peet et al. 1997). A maximum alone warns too often: the polytunnel of site.DayGain passed 32 on 36 of 90 days of a
// summer, and a mean of 25 on 3.
const (
	hotFor    = 32
	meanHot   = 25
	dayMeanSD = 1.1 // °C: of a day's mean about its curve, in that tunnel
)

// Heat looks at the week after a day at a spot; ok is false under the open sky.
func (s *Spots) Heat(spot garden.Spot, from climate.Day) (h Heat, ok bool) {
	g, m := s.g, s.Model(spot)
	if !g.prior(spot).Roofed() || !(m.Day > 0) {
		return h, false
	}
	ra := g.Calendar.ExtraterrestrialRadiations(g.Settings.Latitude)
	_, today := g.Calendar.Locate(from)
	var days float64
	for y := g.First; y <= g.Last; y++ {
		known := false
		for k := range 7 {
			sd := today + 1 + climate.SeasonDay(k)
			tmin, tmax := g.Masked.At(g.Calendar.Day(y, sd))
			if math.IsNaN(tmin + tmax) {
				continue
			}
			mean, sdev := m.Heat(tmin, tmax, ra[sd.Fold()])
			h.Hot += distuv.UnitNormal.Survival((hotFor - mean) / sdev)
			gain := m.Day * site.DayGain(tmin, tmax, ra[sd.Fold()])
			h.Mean += distuv.UnitNormal.Survival((meanHot - (tmin+tmax)/2 - gain) / math.Hypot(dayMeanSD, gain*m.DaySD))
			days, known = days+1, true
		}
		if known {
			h.Seasons++
		}
	}
	if days == 0 {
		return h, false
	}
	h.Spot, h.Hot, h.Mean = spot, h.Hot/days, h.Mean/days
	return h, true
}
