package risk

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// The boundaries of the verdict, on both sides: a chance equal to the aim meets it.
func TestGrade(t *testing.T) {
	const aim = 0.8
	below := math.Nextafter(aim, 0)
	for _, c := range []struct {
		low, share float64
		want       Verdict
	}{
		{aim, 0.9, Sound},
		{below, 0.9, Likely},
		{0.5, aim, Likely},
		{0.5, below, Failing},
		{0, 0, Failing},
		{1, 1, Sound},
	} {
		assert.Equal(t, c.want, grade(climate.Chance{Known: true, Low: c.low, Share: c.share, High: 1}, aim), "%v", c)
	}
	assert.Equal(t, NotKnown, grade(climate.Chance{Low: 1, Share: 1}, aim))
	for v, fails := range map[Verdict]bool{NotKnown: false, Sound: false, Likely: false, TooEarly: true, TooLate: true, Poor: true, Failing: true} {
		assert.Equal(t, fails, v.Fails(), v.String())
	}
}

func TestKindOfFailing(t *testing.T) {
	assert.Equal(t, TooEarly, kindOfFailing(150, 151, true), "a later day does better")
	assert.Equal(t, TooLate, kindOfFailing(150, 149, true), "an earlier day does better")
	assert.Equal(t, Poor, kindOfFailing(150, 0, false))
}

// Each verdict of a planting that fails, from the weather: warm seasons with one killing frost
// in spring, or one that ends them in autumn.
func TestAssessNamesTheFailing(t *testing.T) {
	c := custom() // ready 40 days after planting out at a mean of 15 °C, killed at 0 °C
	seasons := func(frosts ...climate.SeasonDay) *Field {
		var all []climate.Season
		for range 8 {
			s := even(10, 20)
			for _, sd := range frosts {
				set(s, sd, -1)
			}
			all = append(all, s)
		}
		return field(c, true, all...)
	}
	assess := func(f *Field, p Planting) *Assessment {
		a := Assess(f, p, Cover{}, 0.6)
		return &a
	}
	late := seasons(on(time.May, 20))
	a := assess(late, out(c, on(time.May, 10)))
	assert.Equal(t, TooEarly, a.Verdict)
	b, ok := a.Better()
	require.True(t, ok)
	assert.Greater(t, b.Day, on(time.May, 10))

	early := seasons(on(time.September, 1))
	a = assess(early, out(c, on(time.July, 20)))
	assert.Equal(t, TooLate, a.Verdict)
	b, ok = a.Better()
	require.True(t, ok)
	assert.Less(t, b.Day, on(time.July, 20))

	both := seasons(on(time.June, 30), on(time.July, 30), on(time.August, 30), on(time.May, 30))
	a = assess(both, out(c, on(time.June, 10)))
	assert.Equal(t, Poor, a.Verdict)
	assert.Equal(t, NoBetterDay, a.Reasons()[len(a.Reasons())-1].Kind)

	a = assess(seasons(), out(c, on(time.June, 10)))
	assert.Equal(t, Sound, a.Verdict)
	assert.Empty(t, a.Reasons())
}
