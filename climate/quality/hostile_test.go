package quality

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"frostward/climate"
)

// Whatever a record holds, the checks come to an end, doubt only what is there, and masking
// takes away just that.
func TestAnyRecord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 900).Draw(t, "days")
		s := climate.NewSeries(climate.Day(rapid.IntRange(-90000, 90000).Draw(t, "first")), n)
		value := rapid.SampledFrom([]float64{math.NaN(), 0, 0, 1, -17.8, 4.5, 30, 57.7, 57.8, -89.4, 300, -1e300, 1e300, math.Inf(1)})
		fixed := rapid.Float64Range(-40, 40).Draw(t, "level")
		rough := rapid.Float64Range(0, 10).Draw(t, "rough")
		for i := range n {
			s.Tmin[i] = fixed + rough*math.Sin(float64(i*i))
			s.Tmax[i] = fixed + rough*math.Sin(float64(i*i*i+1))
		}
		for range rapid.IntRange(0, 60).Draw(t, "odd") {
			if n > 0 {
				i := rapid.IntRange(0, n-1).Draw(t, "at")
				s.Tmin[i], s.Tmax[i] = value.Draw(t, "tmin"), value.Draw(t, "tmax")
			}
		}
		flags := Check(s)
		taken := map[place]bool{}
		for _, f := range flags {
			i := int(f.Day - s.First)
			for _, e := range []Element{Tmin, Tmax} {
				if f.Element == e || f.Element == Both {
					v := [2][]float64{s.Tmin, s.Tmax}[e][i] // panics outside the record
					if math.IsNaN(v) && f.Element != Both {
						t.Fatalf("a missing value is doubted: %v", f)
					}
					taken[place{i, e}] = true
				}
			}
		}
		m := Mask(s, flags)
		for i := range n {
			for e, pair := range [2][2]float64{{s.Tmin[i], m.Tmin[i]}, {s.Tmax[i], m.Tmax[i]}} {
				if taken[place{i, Element(e)}] != math.IsNaN(pair[1]) && !math.IsNaN(pair[0]) {
					t.Fatalf("day %d: %v became %v", i, pair[0], pair[1])
				}
			}
		}
		for _, q := range Ask(s) {
			if q.From > q.To || q.From < s.First || q.To > s.Last() {
				t.Fatalf("a question outside the record: %v", q)
			}
		}
		Homogeneity(s)
	})
}

// Masking is to be the end of it: what is left of a faulty record is hardly doubted again.
func TestSecondLookFindsLittle(t *testing.T) {
	s := clean(30)
	for i := 500; i < s.Len(); i += 700 {
		s.Tmin[i] -= 20
	}
	first := Check(s)
	assert.GreaterOrEqual(t, len(first), 14)
	assert.Empty(t, Check(Mask(s, first)))
}
