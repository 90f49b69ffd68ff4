package quality_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/quality"
)

// windows40 cuts a record into records of 40 calendar years, five years apart.
func windows40(s climate.Series) (out []climate.Series) {
	for y := s.First.Year(); ; y += 5 {
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

// reports tells whether a step within three years of a day is reported in any measure.
func reports(s climate.Series, from int) bool {
	for _, step := range quality.Homogeneity(s) {
		if step.Kept() && math.Abs(float64(step.Date-s.First)-float64(from)) <= 3*365 {
			return true
		}
	}
	return false
}

// TestMovedThermometer plants a step at a place from the sixth to the thirty-fifth year of
// 40-year records, in the minima, the maxima or both, and counts how often it is reported at
// its place. Steps that the unplanted records have are left in: real records have them.
func TestMovedThermometer(t *testing.T) {
	var all []climate.Series
	for name, s := range cleanOf(t, shipped) {
		w := windows40(s)
		require.NotEmpty(t, w, name)
		all = append(all, w...)
	}
	for _, s := range cleanOf(t, shared) {
		all = append(all, windows40(s)...)
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
	for _, size := range []float64{1, 1.5, 2, 3} {
		found, n := [3]int{}, 0
		for _, s := range all {
			for range 3 {
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

// TestFalseSteps counts the steps that are reported in unchanged records: yearly values
// without memory, with the memory common for yearly temperatures (0.2), and with a warming.
func TestFalseSteps(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	for _, c := range []struct {
		name          string
		memory, slope float64 // lag-one correlation; °C a year
		most          float64 // allowed, %
	}{{"no memory", 0, 0, 6}, {"memory of 0.2", 0.2, 0, 14}, {"warming of 0.3 °C a decade", 0, 0.03, 16}} {
		const many = 600
		kept := 0
		for range many {
			s := climate.NewSeries(climate.NewDay(1980, 1, 1), int(climate.NewDay(2020, 1, 1)-climate.NewDay(1980, 1, 1)))
			year, level := 0, 0.0
			for i := range s.Tmin {
				if y := (s.First + climate.Day(i)).Year(); y != year {
					year = y
					level = c.memory*level + 0.6*rng.NormFloat64()*math.Sqrt(1-c.memory*c.memory)
				}
				if i%7 != 0 { // one day in seven is enough for a yearly mean
					s.Tmin[i] = level + c.slope*float64(year-1980)
					continue
				}
				s.Tmin[i] = level + c.slope*float64(year-1980) + 0.1*rng.NormFloat64()
			}
			copy(s.Tmax, s.Tmin)
			for _, step := range quality.Homogeneity(s) {
				if step.Of == "tmin" && step.Kept() {
					kept++
				}
			}
		}
		t.Logf("%s: %.1f %% of 40-year records report a step that is not there", c.name, share(kept, many))
		assert.LessOrEqual(t, share(kept, many), c.most)
	}
}
