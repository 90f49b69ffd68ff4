package climate

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func ensembleOf(by By, n, rests, perWorld int) Ensemble {
	e := Ensemble{By: by, Rests: rests, Seasons: make([]Season, n)}
	for i := range e.Seasons {
		e.Seasons[i].World = i / perWorld
	}
	return e
}

func TestQuantileOverRecord(t *testing.T) {
	e := ensembleOf(ByRecord, 11, 11, 1)
	v := []float64{5, 3, 8, 1, math.NaN(), 9, 2, 7, 4, 6, 10}
	q := e.Quantile(v, 0.5)
	require.True(t, q.Known)
	assert.Equal(t, 5.5, q.Value)
	assert.Equal(t, 10, q.Seasons)
	assert.Equal(t, 1, q.LeftOut)
	assert.Less(t, q.Low, 5.5)
	assert.Greater(t, q.High, 5.5)

	_, free := e.Quantile(make([]float64, 11), 0.5), Never
	v = []float64{5, 3, 8, 1, free, free, free, free, free, free, free}
	q = e.Quantile(v, 0.5)
	assert.Equal(t, Never, q.Value, "most seasons never freeze")
	assert.Equal(t, Never, q.High)
	q = e.Quantile(Earliest(v), 0.5)
	assert.Equal(t, math.Inf(-1), q.Value)
	assert.False(t, e.Quantile([]float64{1, 2, 3, 4, math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN()}, 0.5).Known,
		"four seasons are too few")
}

// The interval of a generated ensemble follows the spread between worlds: when all worlds
// agree it is narrow, when they differ it is wide.
func TestQuantileOverWorlds(t *testing.T) {
	same := ensembleOf(ByWeather, 500, 20, 20)
	a, b := make([]float64, 500), make([]float64, 500)
	for i := range a {
		a[i] = float64(i % 20)
		b[i] = float64(i%20)/4 + 5*float64(i/20%5)
	}
	qa, qb := same.Quantile(a, 0.5), same.Quantile(b, 0.5)
	require.True(t, qa.Known && qb.Known)
	assert.Equal(t, 20, qa.Seasons)
	assert.Equal(t, 9.5, qa.Value)
	// The width of the interval as a share of the range of the values.
	assert.Less(t, 2*(qa.High-qa.Low)/20, (qb.High-qb.Low)/10)
}

func TestChanceOverWorlds(t *testing.T) {
	e := ensembleOf(ByWeather, 500, 20, 20)
	o := make([]Answer, 500)
	for i := range o {
		o[i] = AnswerOf(i%20 < 5)
	}
	c := e.Chance(o)
	require.True(t, c.Known)
	assert.Equal(t, 0.25, c.Share)
	assert.Less(t, c.Low, 0.25)
	assert.Greater(t, c.High, 0.25)
	for i := range o {
		o[i] = No
	}
	c = e.Chance(o)
	assert.Zero(t, c.Share)
	assert.Zero(t, c.Low)
	assert.Greater(t, c.High, 0.03, "never seen is not impossible")
}

// Counting days gives what sorting does.
func TestSortDays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		odd := rapid.SampledFrom([]float64{0.5, 2000, math.Copysign(0, -1), 3}).Draw(t, "odd")
		s := rapid.SliceOfN(rapid.SampledFrom([]float64{-153, -1, 0, 1, 7, 7, 300, 577, math.Inf(1), math.Inf(-1), odd}), 0, 300).Draw(t, "days")
		want := slices.Clone(s)
		slices.Sort(want)
		sortDays(s)
		for i := range s {
			if s[i] != want[i] {
				t.Fatalf("%v, wanted %v", s, want)
			}
		}
	})
}
