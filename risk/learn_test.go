package risk

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/crops"
)

// By hand: prior s.d. root(0.12² - 0.07²) = 0.0975, one date 10 % above, seen the same day:
// weight 1/0.00950 + 1/0.0049, factor exp(ln 1.1 x 204.1/(105.3+204.1)), s.d. 1/root 309.4.
func TestLearnByHand(t *testing.T) {
	c := litCrop()
	c.GrowthPlanted = crops.Fact{Value: 200, Low: 200 * math.Exp(-tenth*0.12), High: 200 * math.Exp(tenth*0.12)}
	require.InDelta(t, 0.12, sumSpread(c, true), 1e-9)
	l := Learn([]Seen{{Sum: 220, Usual: 200, Spread: 0.12, Rate: 5, Look: 1}})
	assert.InDelta(t, math.Exp(math.Log(1.1)*204.08/(105.26+204.08)), l.Factor, 1e-4)
	assert.InDelta(t, 1/math.Sqrt(309.34), l.Spread, 1e-4)
	assert.Equal(t, 1, l.Years)
	own := l.Of(c)
	assert.InDelta(t, 200*l.Factor, own.GrowthPlanted.Value, 1e-9)
	assert.Less(t, sumSpread(own, true), 0.12)
	assert.Greater(t, sumSpread(own, true), yearToYear)

	// Half as much is another sowing or thinnings: asked about, not averaged in.
	l = Learn([]Seen{{Sum: 100, Usual: 200, Spread: 0.12, Rate: 5, Look: 1}, {Sum: math.NaN(), Look: 1}})
	assert.Equal(t, []int{0, 1}, l.Odd)
	assert.Equal(t, 1.0, l.Factor)
	assert.Equal(t, c.GrowthPlanted, l.Of(c).GrowthPlanted, "nothing learned, nothing changed")
}

// Gardens made up, each with a sum of its own and years about it, that look every three days: what
// is said comes true as often as it says, and own dates bring it nearer.
func TestLearnRecoversGardens(t *testing.T) {
	c, err := crops.Builtin().Find("French bean", "dwarf")
	require.NoError(t, err)
	e := southernEngland(30)
	f := NewField(e, c, false, 1)
	p := Planting{Crop: c, Start: on(time.May, 20)}
	rng := rand.New(rand.NewPCG(7, 1))
	total := sumSpread(c, false)
	prior := math.Sqrt(total*total - yearToYear*yearToYear)
	sumTo := func(i int, need float64) (day float64) { // from coming up
		g := *f.Certain()
		g.need = need
		return float64(min(g.Play(i, p).ReadyOn, climate.SpanTo))
	}
	const gardens = 300
	for _, years := range []int{0, 1, 3} {
		var miss, inside, wide float64
		for range gardens {
			own := f.need * math.Exp(prior*rng.NormFloat64())
			var dates []Seen
			at := rng.Perm(len(e.Seasons))
			for _, i := range at[:years] {
				day := sumTo(i, own*math.Exp(yearToYear*rng.NormFloat64()))
				look := float64(rng.IntN(3))
				if seen, ok := f.SeenOn(i, p, climate.SeasonDay(day+look), 3); ok {
					dates = append(dates, seen)
				}
			}
			l := Learn(append(dates, Seen{Sum: math.NaN(), Spread: total})) // the last is odd: it is there for the spread alone
			i := at[years]
			came := sumTo(i, own*math.Exp(yearToYear*rng.NormFloat64()))
			spread := math.Hypot(l.Spread, yearToYear)
			miss += min(40, math.Abs(sumTo(i, f.need*l.Factor)-came)) / gardens // beans not ready before winter count as 40 days
			within := func(z float64) bool {
				return sumTo(i, f.need*l.Factor*math.Exp(-z*spread)) <= came && came <= sumTo(i, f.need*l.Factor*math.Exp(z*spread))
			}
			if within(tenth) {
				inside += 1. / gardens
			}
			if within(1.645) {
				wide += 1. / gardens
			}
		}
		t.Logf("%d own dates: mean miss %.1f days, inside the range of 8 in 10: %.2f, of 9 in 10: %.2f", years, miss, inside, wide)
		assert.InDelta(t, 0.82, inside, 0.07, "%d", years)
		assert.InDelta(t, 0.91, wide, 0.05, "%d", years)
		if years == 3 {
			assert.Less(t, miss, 5.5)
		}
	}
}
