package risk

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/crops"
)

// By hand: prior 0 ± 0.5 and a loss at a margin of 0 with s.d. 0.5 is a normal times a normal's distribution function, a skew
// normal with slope 1: mean 0.5 x root(2/pi) / root 2 = 0.2821, variance 0.25 (1 - 1/pi), so s.d. 0.4128.
func TestLearnColdByHand(t *testing.T) {
	c := testCrop()
	c.KillHardened = crops.Fact{Value: -1, Low: -2, High: 0}
	l := LearnCold(c, []Faced{{Spread: 0.5, Killed: true}})
	assert.InDelta(t, 0.2821, l.Shift, 1e-3)
	assert.InDelta(t, 0.4128, l.Spread, 1e-3)
	own := l.Of(c)
	assert.InDelta(t, -1+l.Shift, own.KillHardened.Value, 1e-12)
	assert.InDelta(t, c.SetBackHardened.Value+l.Shift, own.SetBackHardened.Value, 1e-12)
	assert.InDelta(t, l.Spread, killSpread(own), 1e-12)
	alive := LearnCold(c, []Faced{{Spread: 0.5}})
	assert.InDelta(t, -0.2821, alive.Shift, 1e-3, "a night lived through is its mirror")
	maybe := LearnCold(c, []Faced{{Spread: 0.5, Cover: 1.1}})
	assert.True(t, maybe.Shift < 0 && maybe.Shift > alive.Shift, "it may have been covered: %v", maybe.Shift)

	odd := LearnCold(c, []Faced{{Margin: 6, Spread: 0.5, Killed: true}, {Margin: -6, Spread: 0.5}, {Margin: 4, Spread: 0.5}})
	assert.Equal(t, []int{0, 1}, odd.Odd)
	assert.Zero(t, odd.Killed+odd.Lived, "and 4 °C above says nothing")
	assert.Equal(t, c.KillHardened, odd.Of(c).KillHardened)
	c.KillHardened = crops.Fact{Value: -1, Low: math.NaN(), High: math.NaN()}
	assert.Zero(t, LearnCold(c, []Faced{{Spread: 0.5, Killed: true}}), "no range, no doubt to learn from")
}

// Gardens made up, each with a killing temperature of its own; in each year a planting meets four nights about it until one
// kills it. Half the gardeners' nights are covered, and either all of that is written down, or none.
func TestLearnColdRecoversGardens(t *testing.T) {
	c, err := crops.Builtin().Find("courgette", "")
	require.NoError(t, err)
	prior := killSpread(c)
	rng := rand.New(rand.NewPCG(5, 9))
	const gardens, gain = 500, 1.1
	for _, written := range []bool{true, false} {
		var last float64
		for _, years := range []int{0, 2, 6} {
			var inside, off, miss float64
			for range gardens {
				own := prior * rng.NormFloat64()
				var nights []Faced
				for range years {
					for range 4 {
						n := Faced{Margin: 1.5 * rng.NormFloat64(), Spread: 0.8}
						covered := rng.IntN(2) == 0
						met := n.Margin + n.Spread*rng.NormFloat64()
						if covered {
							met += gain
						}
						switch {
						case !written:
							n.Cover = gain
						case covered:
							n.Margin += gain
						}
						n.Killed = met <= own
						nights = append(nights, n)
						if n.Killed {
							break
						}
					}
				}
				l := LearnCold(c, nights)
				if low, high := l.Range(); low <= own && own <= high {
					inside += 1. / gardens
				}
				off += (l.Shift - own) / gardens
				miss += math.Abs(l.Shift-own) / gardens
			}
			t.Logf("written %v, %d years: off %+.2f, mean miss %.2f °C, inside the range of 8 in 10: %.2f", written, years, off, miss, inside)
			assert.InDelta(t, 0.8, inside, 0.06)
			assert.InDelta(t, 0, off, 0.08)
			if years > 0 {
				assert.Less(t, miss, last)
			}
			last = miss
		}
	}
}
