package climate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestVapourPublished(t *testing.T) {
	es := saturationVapourPressure
	for _, c := range []struct {
		name      string
		got, want float64
		tol       float64
		from      string
	}{
		{"es(20)", es(20), 2.338, 0.0005, "FAO-56 table 2.3"},
		{"es(25)", es(25), 3.168, 0.0005, "FAO-56 table 2.3"},
		{"es(30)", es(30), 4.243, 0.0005, "FAO-56 table 2.3"},
		{"mean es of 15 and 24.5", (es(15) + es(24.5)) / 2, 2.39, 0.005, "FAO-56 example 3"},
		{"humidity 82 % at 18, 54 % at 25", (es(18)*0.82 + es(25)*0.54) / 2, 1.70, 0.005, "FAO-56 example 5"},
		{"es(14.8)", es(14.8), 1.68, 0.005, "FAO-56 example 20"},
	} {
		assert.InDelta(t, c.want, c.got, c.tol, "%s: %s", c.name, c.from)
	}
}

func TestDewPoint(t *testing.T) {
	es := saturationVapourPressure
	for tc := -25.0; tc <= 45; tc += 2.5 {
		for h := 1.0; h <= 100; h += 3 {
			d := DewPoint(tc, h)
			require.LessOrEqual(t, d, tc+1e-9)
			require.InDelta(t, h, 100*es(d)/es(tc), 1e-9, "round trip")
			// The FAO's printed inverse (chapter 3, from memory) is within 0.1 °C over this range.
			ea := saturationVapourPressure(d)
			fao := (116.91 + 237.3*math.Log(ea)) / (16.78 - math.Log(ea))
			require.InDelta(t, fao, d, 0.1)
		}
		require.InDelta(t, tc, DewPoint(tc, 100), 1e-9)
	}
	assert.Equal(t, DewPoint(10, 100), DewPoint(10, 100.5), "rounding of an instrument")
	for _, h := range []float64{0, -3, 101.5, math.NaN()} {
		assert.True(t, math.IsNaN(DewPoint(10, h)), "%v", h)
	}
	assert.True(t, math.IsNaN(DewPoint(math.NaN(), 50)))
}
