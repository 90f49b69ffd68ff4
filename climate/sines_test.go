package climate

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// Sums over days laid out are Day's, whatever the day: wholly above or below, standing still,
// with its values the wrong way round, touching the base or the limit.
func TestSumIsDay(t *testing.T) {
	rng := rand.New(rand.NewPCG(61, 1))
	tenth := func(low, high float64) float64 { return float64(int(10*(low+rng.Float64()*(high-low)))) / 10 }
	var tmin, tmax, weight []float64
	for range 5000 {
		low := tenth(-30, 30)
		range_ := tenth(-3, 25)
		if rng.IntN(5) == 0 {
			range_ = 0
		}
		tmin, tmax, weight = append(tmin, low), append(tmax, low+range_), append(weight, rng.Float64())
	}
	var s Sines
	s.Lay(0, tmin[:200], tmax[:200])
	s.Lay(200, tmin[200:], tmax[200:])
	for _, g := range []DegreeDays{{Base: 0}, {Base: 7.2, Upper: 32, Limit: Horizontal}, {Base: 4.4, Upper: 20, Limit: Horizontal}, {Base: 10, Upper: 10.1, Limit: Horizontal}} {
		sum := make([]float64, len(tmin)+1)
		g.Sum(sum, &s, weight, 0, 100)
		g.Sum(sum, &s, weight, 100, len(tmin))
		total := 0.0
		for d := range tmin {
			total += weight[d] * g.Day(tmin[d], tmax[d], 0)
			require.InDelta(t, total, sum[d+1], 1e-9, "%+v: day %d, %g to %g", g, d, tmin[d], tmax[d])
		}
	}
	require.Panics(t, func() { DegreeDays{Method: Average}.Sum(make([]float64, 2), &s, weight, 0, 1) })
}

// Sums above a base over days laid out, beside rows of Day's degree-days.
func BenchmarkSum(b *testing.B) {
	rng := rand.New(rand.NewPCG(62, 1))
	const n = 20000
	tmin, tmax, weight, sum := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n+1)
	for d := range tmin {
		tmin[d] = 4 + 5*rng.NormFloat64()
		tmax[d], weight[d] = tmin[d]+12*rng.Float64(), 1
	}
	g := DegreeDays{Base: 7.2, Upper: 32, Limit: Horizontal}
	var s Sines
	for name, f := range map[string]func(){
		"lay":  func() { s.Lay(0, tmin, tmax) },
		"sum":  func() { g.Sum(sum, &s, weight, 0, n) },
		"fill": func() { g.Fill(sum[:n], tmin, tmax) },
	} {
		b.Run(name, func(b *testing.B) {
			s.Lay(0, tmin, tmax)
			for b.Loop() {
				f()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/n, "ns/day")
		})
	}
}
