package quality

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// What check asks is answered with the words that it gives: yes reads the record as it was before
// the fault, no leaves it as it stands, and neither is asked again.
func TestAnswersSettle(t *testing.T) {
	cold := clean(20)
	for i := range cold.Tmin {
		cold.Tmin[i] -= 3.5
	}
	from, days := int(climate.NewDay(1990, 12, 1)-cold.First), 100
	each := func(f func(v float64) float64) func(s climate.Series) {
		return func(s climate.Series) {
			for i := from; i < from+days; i++ {
				s.Tmin[i], s.Tmax[i] = f(s.Tmin[i]), f(s.Tmax[i])
			}
		}
	}
	for _, c := range []struct {
		about string
		plant func(s climate.Series)
		back  bool // yes brings the values back
	}{
		{"fahrenheit", each(climate.Fahrenheit), true},
		{"tenths", each(func(v float64) float64 { return 10 * v }), true},
		{"divided", each(func(v float64) float64 { return v / 10 }), true},
		{"swapped", func(s climate.Series) {
			for i := from; i < from+days; i++ {
				s.Tmin[i], s.Tmax[i] = s.Tmax[i], s.Tmin[i]
			}
		}, true},
		{"no-signs:tmin", func(s climate.Series) {
			for i := from; i < from+days; i++ {
				s.Tmin[i] = math.Abs(s.Tmin[i])
			}
		}, false},
		{"late", func(s climate.Series) { copy(s.Tmax[from:from+700], cold.Tmax[from-1:]) }, true},
		{"copy", func(s climate.Series) { copyDays(s, from+200, from, 31) }, false},
	} {
		s := cold.Clone()
		c.plant(s)
		qs := Ask(s)
		require.NotEmpty(t, qs, c.about)
		for _, word := range []string{"yes", "no"} {
			var answers []Answer
			for _, q := range qs {
				assert.Equal(t, c.about, q.About)
				a, err := ParseAnswer(fmt.Sprintf("%s %v %v %s 2026-11-28", q.About, q.From, q.To, word))
				require.NoError(t, err)
				answers = append(answers, a)
			}
			read := Answered(s, answers)
			assert.Empty(t, Open(Ask(read), answers), "%s: %s", c.about, word)
			flags := Settled(Check(read), answers)
			for i := from + 5; i < from+25; i++ {
				switch {
				case word == "no" && inWorld(s.Tmin[i]):
					assert.Equal(t, s.Tmin[i], Mask(read, flags).Tmin[i], "%s: %s", c.about, word)
				case word == "no":
				case c.back:
					require.InDelta(t, cold.Tmin[i], read.Tmin[i], 0.01, "%s: %s", c.about, word)
					require.InDelta(t, cold.Tmax[i], read.Tmax[i], 0.01, "%s: %s", c.about, word)
				default:
					assert.True(t, math.IsNaN(Mask(read, flags).Tmin[i]), "%s: %s", c.about, word)
				}
			}
		}
	}
	moved, err := ParseAnswer("moved 1990-05-01 1990-05-01 yes")
	require.NoError(t, err)
	assert.Equal(t, moved.From, Answered(cold, []Answer{moved}).First)
	assert.True(t, Moved(Step{Date: moved.From + 300}, []Answer{moved}))
	for _, bad := range []string{"", "kelvin 1990-01-01 1990-01-02 yes", "tenths 1990-01-01 1990-13-02 yes", "tenths 1990-01-02 1990-01-01 yes",
		"tenths 1990-01-01 1990-01-02 perhaps", "tenths:snow 1990-01-01 1990-01-02 no", "tenths 1990-01-01 1990-01-02 no then", "tenths 1990-01-01 yes"} {
		_, err := ParseAnswer(bad)
		assert.Error(t, err, bad)
	}
}
