package quality_test

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"frostward/climate"
	"frostward/climate/quality"
)

// windows40 cuts a record into records of 40 calendar years, five years apart.
func windows40(s climate.Series) (out []climate.Series) {
	for y := s.First.Year() + 1; ; y += 5 {
		w := s.Between(climate.NewDay(y, 1, 1), climate.NewDay(y+39, 12, 31))
		if w.Len() < 40*365-31 {
			return out
		}
		out = append(out, w)
	}
}

// move adds a step to one element, or both, from a day on.
func move(s climate.Series, e quality.Element, from int, by float64) climate.Series {
	s = s.Clone()
	for i := from; i < s.Len(); i++ {
		if e != quality.Tmax {
			s.Tmin[i] += by
		}
		if e != quality.Tmin {
			s.Tmax[i] += by
		}
	}
	return s
}

// reports says whether a step within three years of a day is reported in any measure.
func reports(s climate.Series, from int) bool {
	for _, step := range quality.Homogeneity(s) {
		if step.Kept() && math.Abs(float64(step.Date-s.First)-float64(from)) <= 3*365 {
			return true
		}
	}
	return false
}

// TestMovedThermometer plants steps in the records that ship; under the build tag long, in the
// shared ones too.
func TestMovedThermometer(t *testing.T) { moveAll(t, cleanOf(t, shipped), []float64{1, 2}, 4) }

// moveAll plants steps of some sizes, at places from the sixth to the thirty-fifth year of
// 40-year records, in the minima, the maxima or both, and counts how often they are reported at
// their place. Steps that the unplanted records have are left in: real records have them.
func moveAll(t *testing.T, records map[string]climate.Series, sizes []float64, times int) {
	var all []climate.Series
	for _, name := range slices.Sorted(maps.Keys(records)) {
		all = append(all, windows40(records[name])...)
	}
	plain := 0
	for _, s := range all {
		for _, step := range quality.Homogeneity(s) {
			if step.Kept() {
				plain++
				break
			}
		}
	}
	t.Logf("%d records of 40 years; %d report a step with none planted", len(all), plain)
	rng := rand.New(rand.NewPCG(40, 86))
	for _, size := range sizes {
		found, n := [3]int{}, 0
		for _, s := range all {
			for range times {
				from := (5 + rng.IntN(30)) * 365
				sign := float64(2*rng.IntN(2) - 1)
				n++
				for e := range found {
					if reports(move(s, quality.Element(e), from, sign*size), from) {
						found[e]++
					}
				}
			}
		}
		total := share(found[0]+found[1]+found[2], 3*n)
		t.Logf("a step of %.1f °C: reported in the minima alone %.0f %%, the maxima alone %.0f %%, both %.0f %%; %.0f %% of all %d",
			size, share(found[0], n), share(found[1], n), share(found[2], n), total, 3*n)
		if size == 2 {
			assert.GreaterOrEqual(t, total, 80.0)
		}
	}
}
