package risk

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// A crop of 180 cm is judged at 90 cm once grown: of a gap of 3 °C between a bed at 10 cm and a screen at 150 cm it is
// spared half of ln 9 / ln 15 = 0.81, by hand; a young one nothing, and under a roof, where the air is the spot's own, nothing either.
func TestTallCrops(t *testing.T) {
	corn := testCrop()
	corn.Height, corn.OutTo = fact(180), fact(165)
	e := climate.Ensemble{}
	for y := range 400 {
		s := climate.NewSeason(1600 + y)
		s.Night = make([]float64, len(s.Tmin))
		for d := range s.Tmin {
			s.Tmin[d], s.Tmax[d], s.Night[d] = 2, 14, -1
		}
		e.Seasons = append(e.Seasons, s)
	}
	f := NewField(e, corn, true, 1)
	at := func(sd climate.SeasonDay) (mean float64) {
		for i := range e.Seasons {
			n := f.nights(i)
			mean += n.at(int(sd-climate.SpanFrom)) / float64(len(e.Seasons))
		}
		return mean
	}
	require.InDelta(t, -1, at(140), 1e-9)
	require.InDelta(t, -1+1.5*math.Log(9)/math.Log(15), at(240), 0.12)
	require.Greater(t, at(240), at(190))
	require.InDelta(t, 3*f.lift[240-climate.SpanFrom].in(f.stand(7)), f.liftOn(7, 240), 1e-9)

	for i := range e.Seasons {
		e.Seasons[i].AirMin, e.Seasons[i].AirMax = e.Seasons[i].Night, e.Seasons[i].Tmax
	}
	f = NewField(e, corn, true, 1)
	require.InDelta(t, -1, at(240), 1e-9)
}
