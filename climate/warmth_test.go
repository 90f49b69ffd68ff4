package climate

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFillSum(t *testing.T) {
	n := math.NaN()
	f := Fill{Run: 3, Share: 0.5}
	tests := []struct {
		name     string
		f        Fill
		daily    []float64
		from, to int
		want     Warmth
	}{
		{"complete", f, []float64{1, 2, 3, 4}, 1, 2, Warmth{5, 2, 0, 0}},
		{"one day", f, []float64{1, n, 3, 4}, 0, 3, Warmth{10, 4, 1, 0}},
		{"a run of three takes the mean of its neighbours", f, []float64{2, n, n, n, 4, 5, 5, 5}, 0, 7, Warmth{2 + 9 + 4 + 15, 8, 3, 0}},
		{"a run of four is too long", f, []float64{2, n, n, n, n, 4, 5, 5, 5, 5}, 0, 9, Warmth{n, 10, 0, 4}},
		{"a run is measured whole even if the window cuts it", f, []float64{2, n, n, n, n, 4, 5, 5, 5, 5}, 3, 9, Warmth{n, 7, 0, 2}},
		{"neighbours may lie outside the window", f, []float64{2, n, n, 4, 1, 1}, 2, 5, Warmth{3 + 4 + 2, 4, 1, 0}},
		{"a share of exactly the limit passes", Fill{3, 0.25}, []float64{1, n, 3, 4}, 0, 3, Warmth{10, 4, 1, 0}},
		{"above it fails", Fill{3, 0.24}, []float64{1, n, 3, 4}, 0, 3, Warmth{n, 4, 1, 0}},
		{"nothing before", f, []float64{n, 2, 3}, 0, 2, Warmth{n, 3, 0, 1}},
		{"nothing after", f, []float64{1, 2, n}, 0, 2, Warmth{n, 3, 0, 1}},
		{"outside the record", f, []float64{1, 2, 3}, -2, 5, Warmth{n, 8, 0, 5}},
		{"wholly after it", f, []float64{1, 2, 3}, 7, 9, Warmth{n, 3, 0, 3}},
		{"wholly before it", f, []float64{1, 2, 3}, -9, -8, Warmth{n, 2, 0, 2}},
		{"no days", f, []float64{1, 2, 3}, 2, 1, Warmth{0, 0, 0, 0}},
		{"none may be filled", Fill{}, []float64{1, n, 3, 4}, 0, 3, Warmth{n, 4, 0, 1}},
	}
	for _, c := range tests {
		got := c.f.Sum(c.daily, c.from, c.to)
		if math.IsNaN(c.want.Sum) {
			assert.False(t, got.Known(), c.name)
			got.Sum, c.want.Sum = 0, 0
		}
		assert.Equal(t, c.want, got, c.name)
	}
}

func TestFilledAgreesWithSum(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 3))
	for i := 0; i < 500; i++ {
		daily := make([]float64, 60)
		for j := range daily {
			daily[j] = rnd.Float64() * 10
			if rnd.Float64() < 0.15 {
				daily[j] = math.NaN()
			}
		}
		from := rnd.IntN(50)
		to := from + rnd.IntN(10)
		full := Fill{Run: 2, Share: 1}
		want := 0.0
		for _, v := range full.Filled(daily)[from : to+1] {
			want += v
		}
		got := full.Sum(daily, from, to)
		require.Equal(t, math.IsNaN(want), !got.Known())
		if got.Known() {
			require.InDelta(t, want, got.Sum, 1e-9)
		}
	}
}

func TestDegreeDaysOfSeasons(t *testing.T) {
	rec := flat(NewDay(1995, 1, 1), NewDay(2006, 12, 31), 10, 20)
	g := DegreeDays{Base: 10}
	w := Window{120, 272}
	e := Recorded(rec, 50, 1996, 2005)
	for _, s := range e.DegreeDays(g, w, FillShort) {
		assert.InDelta(t, 5*153, s.Sum, 1e-9)
		assert.Equal(t, 153, s.Days)
	}
	q := e.Quantile(Sums(e.DegreeDays(g, w, FillShort)), 0.5)
	assert.True(t, q.Known)
	assert.InDelta(t, 765, q.Value, 1e-9)
	assert.Equal(t, 10, q.Seasons)
	// A season with a long gap is left out and counted.
	for d := NewDay(2000, time.June, 1); d < NewDay(2000, time.June, 6); d++ {
		rec.Tmax[d-rec.First] = math.NaN()
	}
	q = e.Quantile(Sums(Recorded(rec, 50, 1996, 2005).DegreeDays(g, w, FillShort)), 0.5)
	assert.Equal(t, 9, q.Seasons)
	assert.Equal(t, 1, q.LeftOut)
}

func TestDoubleMethodsNeedTomorrow(t *testing.T) {
	g := DegreeDays{Base: 5, Method: DoubleSine}
	d := g.Days([]float64{4, 6, 8}, []float64{14, 16, 18})
	assert.InDelta(t, g.Day(4, 14, 6), d[0], 1e-12)
	assert.True(t, math.IsNaN(d[2]))
}
