package stat

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// R 4.2.2: prop.test(k, n, conf.level = .9, correct = FALSE)$conf.int, which is Wilson's.
func TestWilson(t *testing.T) {
	for _, c := range wilsonCases {
		low, high := Wilson(c.k, c.n, .9)
		assert.InDelta(t, c.low, low, 1e-7, "%d of %d", c.k, c.n)
		assert.InDelta(t, c.high, high, 1e-7, "%d of %d", c.k, c.n)
	}
	low, high := Wilson(0, 0, .9)
	assert.Equal(t, [2]float64{0, 1}, [2]float64{low, high})
}

// When every world has the same share but for chance, the seasons of record are worth
// more than when the worlds differ; and the interval never claims more than the bounds.
func TestWorlds(t *testing.T) {
	same, apart := Worlds{Record: 20}, Worlds{Record: 20}
	for i := range 25 {
		same.Yes, same.Of = append(same.Yes, 9+i%3), append(same.Of, 20)
		apart.Yes, apart.Of = append(apart.Yes, 20*(i%2)), append(apart.Of, 20)
	}
	assert.InDelta(t, 0.5, same.share(), 0.01)
	assert.Greater(t, same.EffectiveSeasons(), apart.EffectiveSeasons())
	assert.LessOrEqual(t, same.EffectiveSeasons(), worthHigh(20)*20)
	assert.InDelta(t, worthLow*20, apart.EffectiveSeasons(), 1e-9)
	low, high := Worlds{Yes: []int{0, 0}, Of: []int{20, 20}, Record: 20}.Interval(.9)
	assert.Zero(t, low)
	assert.Greater(t, high, 0.05)
}

var wilsonCases = []struct {
	k, n      int
	low, high float64
}{
	{0, 10, 0.000000000, 0.212941970},
	{1, 10, 0.022634909, 0.347718667},
	{5, 10, 0.269271821, 0.730728179},
	{10, 10, 0.787058030, 1.000000000},
	{37, 45, 0.711082901, 0.896812910},
}
