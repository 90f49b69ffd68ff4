package replay

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// A made-up forecast errs by as much as stated, and not by the more the warmer the day was.
func TestMadeUpForecast(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	e := climate.Ensemble{}
	draw := func() (tx, tn float64) {
		tx = 15 + 4*rng.NormFloat64()
		return tx, 5 + 0.6*(tx-15) + 3*rng.NormFloat64()
	}
	for range 40 {
		s := climate.NewSeason(2001)
		for d := 1; d < climate.SpanLen; d++ {
			s.Tmax[d-1], s.Tmin[d] = draw()
		}
		e.Seasons = append(e.Seasons, s)
	}
	m := newMadeUp(e, 1.8, rng)
	var n, e2, sx, sxx, sxe, se float64
	for range 20000 {
		tx, tn := draw()
		err := tn - m.forecast(120, tn, tx)
		n, e2, se, sx, sxx, sxe = n+1, e2+err*err, se+err, sx+tx, sxx+tx*tx, sxe+tx*err
	}
	require.InDelta(t, 1.8, math.Sqrt(e2/n), 0.05)
	require.InDelta(t, 0, (sxe-sx*se/n)/(sxx-sx*sx/n), 0.02, "°C for each °C of the maximum")
	require.InDelta(t, 0, se/n, 0.2)

	// Where the date alone says more than the stated error, or nothing is known, the error is all there is.
	none := newMadeUp(climate.Ensemble{}, 0, rng)
	require.Equal(t, 3.0, none.forecast(120, 3, 20))
}

// Forecasts that err by a constant at one place are corrected as they are met, and another place
// learns nothing from it.
func TestScoreIssued(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 2))
	var nights []Issued
	for _, place := range []string{"a", "b"} {
		for range 300 {
			came := 4 * rng.NormFloat64()
			nights = append(nights, Issued{Place: place, Said: came + 2 + rng.NormFloat64(), Came: came})
		}
	}
	s := ScoreIssued(nights, 0)
	require.Equal(t, 600, s.Nights)
	require.InDelta(t, 300, s.Damage, 40)
	require.InDelta(t, 1.05, s.Error, 0.1, "1 °C, and what it takes to learn the 2 °C")
	require.Greater(t, s.Brier.Skill(), 0.5)
	require.InDelta(t, s.Brier.Uncertainty, s.Usual.Score, 1e-9)
}
