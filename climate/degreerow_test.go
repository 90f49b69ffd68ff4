package climate

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Fill is Day, bit for bit, missing days and crossed ones among them.
func TestFillIsDay(t *testing.T) {
	temperature := rapid.Custom(func(t *rapid.T) float64 {
		if rapid.IntRange(0, 15).Draw(t, "missing") == 0 {
			return math.NaN()
		}
		return float64(rapid.IntRange(-200, 450).Draw(t, "tenths")) / 10 // so that limits are hit
	})
	rapid.Check(t, func(t *rapid.T) {
		g := DegreeDays{
			Base:   float64(rapid.IntRange(-20, 150).Draw(t, "base")) / 10,
			Upper:  float64(rapid.IntRange(200, 350).Draw(t, "upper")) / 10,
			Method: rapid.SampledFrom([]Method{SingleSine, SingleSine, SingleTriangle, Average, AverageClipped}).Draw(t, "method"),
			Limit:  rapid.SampledFrom([]UpperLimit{NoLimit, Horizontal, Intermediate, Vertical}).Draw(t, "limit"),
		}
		n := rapid.IntRange(0, 40).Draw(t, "n")
		tmin, tmax := rapid.SliceOfN(temperature, n, n).Draw(t, "tmin"), rapid.SliceOfN(temperature, n, n).Draw(t, "tmax")
		got := make([]float64, n)
		g.Fill(got, tmin, tmax)
		for i := range got {
			if want := g.Day(tmin[i], tmax[i], math.NaN()); math.Float64bits(got[i]) != math.Float64bits(want) && !(math.IsNaN(got[i]) && math.IsNaN(want)) {
				t.Fatalf("%v to %v: %v, wanted %v", tmin[i], tmax[i], got[i], want)
			}
		}
	})
}
