package quality

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// byRule counts the flags of one rule.
func byRule(flags []Flag, rule string) (out []Flag) {
	for _, f := range flags {
		if f.Rule == rule {
			out = append(out, f)
		}
	}
	return out
}

// Both values of a swapped day go, also where the published rule would blame one alone: here
// the night after is colder than either, so that nothing but the day itself speaks.
func TestSwappedTakesBoth(t *testing.T) {
	s := clean(20)
	n := 0
	for i := 700; i < s.Len(); i += 97 {
		if s.Tmax[i]-s.Tmin[i] > 3 {
			s.Tmin[i], s.Tmax[i] = s.Tmax[i], s.Tmin[i]
			n++
		}
	}
	flags := byRule(Check(s), "swapped")
	assert.GreaterOrEqual(t, len(flags), n-1, "of %d", n)
	for _, f := range flags {
		assert.Equal(t, Both, f.Element)
	}
	assert.Empty(t, Ask(s), "single days are no question")

	s = clean(20)
	for i := 3000; i < 3040; i++ {
		s.Tmin[i], s.Tmax[i] = s.Tmax[i], s.Tmin[i]
	}
	qs := Ask(s)
	require.Len(t, qs, 1, "and are not asked about as another unit")
	assert.Equal(t, "swapped", qs[0].Kind)
	assert.Equal(t, s.First+3000, qs[0].From)
	assert.Equal(t, s.First+3039, qs[0].To)
}

// A run in another unit is flagged whole and asked about, with its ends and the unit, in
// winter too, when °F are too few degrees off for the outlier rule.
func TestOtherUnitsAreNamed(t *testing.T) {
	cold := func() climate.Series { // a winter of -12 °C by night, with a wide spread
		s := clean(20)
		for i := range s.Tmin {
			s.Tmin[i], s.Tmax[i] = 2*s.Tmin[i]-18, 2*s.Tmax[i]-18
		}
		return s
	}
	require.Empty(t, byRule(Check(cold()), "misread days"))
	from := int(climate.NewDay(1990, 12, 20) - cold().First)
	for _, c := range []struct {
		unit  int // index into ways
		days  int
		plant func(v float64) float64
	}{{0, 40, climate.Fahrenheit}, {1, 40, func(v float64) float64 { return 10 * v }}, {2, 60, climate.Celsius}, {3, 120, func(v float64) float64 { return v / 10 }}} {
		s := cold()
		if c.unit == 2 { // °C taken for °F shows where it is not so cold
			s = clean(20)
		}
		for i := from; i < from+c.days; i++ {
			s.Tmin[i], s.Tmax[i] = c.plant(s.Tmin[i]), c.plant(s.Tmax[i])
		}
		name := ways[c.unit].name
		qs := Ask(s)
		require.Len(t, qs, 1, name)
		assert.Equal(t, "units", qs[0].Kind)
		assert.Contains(t, qs[0].Why, name)
		assert.Equal(t, ways[c.unit].ask, qs[0].Ask)
		assert.True(t, qs[0].Masked)
		assert.InDelta(t, float64(s.First)+float64(from), float64(qs[0].From), 3, name)
		assert.InDelta(t, float64(s.First)+float64(from+c.days-1), float64(qs[0].To), 3, name)
		flags := Check(s)
		assert.GreaterOrEqual(t, len(byRule(flags, "misread days"))+len(byRule(flags, "world bounds")), 2*c.days-8, name)
		assert.NotEmpty(t, byRule(flags, "misread days"), name)
	}
}

// A lost sign in winter is asked about: in a run, and when the whole record has lost it.
func TestLostSignIsAskedAbout(t *testing.T) {
	s := clean(20)
	for i := range s.Tmin { // winters of about -5 °C by night
		s.Tmin[i] -= 3.5
	}
	require.Empty(t, Ask(s))
	whole := s.Clone()
	for i := range whole.Tmin {
		whole.Tmin[i] = math.Abs(whole.Tmin[i])
	}
	var signs []Question
	for _, q := range Ask(whole) {
		if q.Kind == "sign" && q.Element == Tmin {
			signs = append(signs, q)
		}
	}
	require.Len(t, signs, 1)
	assert.Equal(t, whole.First, signs[0].From)

	from := int(climate.NewDay(1990, 11, 20) - s.First)
	for i := from; i < from+110; i++ {
		s.Tmin[i] = math.Abs(s.Tmin[i])
	}
	qs := Ask(s)
	require.NotEmpty(t, qs)
	assert.Equal(t, "has the minus sign been lost?", qs[0].Ask)
	assert.Less(t, qs[0].From, climate.NewDay(1990, 12, 20))
	assert.Greater(t, qs[0].To, climate.NewDay(1991, 2, 10))
}

// The evidence of a run climbs, ends at its peak, and starts anew after a fall.
func TestSegments(t *testing.T) {
	x := []float64{-1, 3, 3, math.NaN(), 3, -2, -9, 1, 4, 4, -1}
	assert.Equal(t, []segment{{1, 4, 9}, {7, 9, 9}}, segments(x, 8, 5, 0))
	assert.Equal(t, []segment{{1, 9, 18}}, segments(x, 8, 5, 3), "those close to each other together")
	assert.Empty(t, segments(x, 10, 20, 0))
	assert.Equal(t, []segment{{1, 4, 9}}, segments(x[:6], 8, 5, 0), "up to the record's end")
	assert.Empty(t, segments(nil, 1, 1, 0))
}
