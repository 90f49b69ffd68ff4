package climate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestVapourPublished(t *testing.T) {
	es := SaturationVapourPressure
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
		{"pressure at 1800 m", AirPressure(1800), 81.8, 0.05, "FAO-56 example 2"},
		{"gamma at 1800 m", 0.000665 * AirPressure(1800), 0.054, 0.0005, "FAO-56 example 2"},
		{"psychrometer", VapourPressureWetBulb(25.6, 19.5, 0.000662*87.9), 1.91, 0.005, "FAO-56 example 4"},
		{"humidity 82 % at 18, 54 % at 25", (es(18)*0.82 + es(25)*0.54) / 2, 1.70, 0.005, "FAO-56 example 5"},
		{"es(14.8)", es(14.8), 1.68, 0.005, "FAO-56 example 20"},
		{"wet bulb", WetBulb(20, 50), 13.7, 0.05, "Stull 2011, the example in the text (from memory)"},
		{"wet bulb, humid and cool", WetBulb(5, 60), 1.530, 0.0005, "Stull 2011 eq. 1 computed apart from this code"},
		{"wet bulb, warm", WetBulb(30, 50), 22.297, 0.0005, "Stull 2011 eq. 1 computed apart from this code"},
	} {
		assert.InDelta(t, c.want, c.got, c.tol, "%s: %s", c.name, c.from)
	}
}

func TestDewPoint(t *testing.T) {
	for tc := -25.0; tc <= 45; tc += 2.5 {
		for h := 1.0; h <= 100; h += 3 {
			d := DewPoint(tc, h)
			require.LessOrEqual(t, d, tc+1e-9)
			require.InDelta(t, h, RelativeHumidity(tc, d), 1e-9, "round trip")
			// The FAO's printed inverse (chapter 3, from memory) is within 0.1 °C over this range.
			ea := SaturationVapourPressure(d)
			fao := (116.91 + 237.3*math.Log(ea)) / (16.78 - math.Log(ea))
			require.InDelta(t, fao, d, 0.1)
			if h >= 5 && h <= 99 && tc >= -20 && (tc >= 0 || h >= 40) {
				w := WetBulb(tc, h)
				require.True(t, w < tc+1 && w > d-1, "the wet bulb lies between dew point and air, to Stull's error: %v %v", tc, h)
			}
		}
		require.InDelta(t, tc, DewPoint(tc, 100), 1e-9)
	}
	assert.Equal(t, DewPoint(10, 100), DewPoint(10, 100.5), "rounding of an instrument")
	for _, h := range []float64{0, -3, 101.5, math.NaN()} {
		assert.True(t, math.IsNaN(DewPoint(10, h)), "%v", h)
	}
	assert.True(t, math.IsNaN(WetBulb(10, 4)) && math.IsNaN(WetBulb(51, 50)) && math.IsNaN(WetBulb(10, math.NaN())))
	assert.True(t, math.IsNaN(DewPoint(math.NaN(), 50)))
}
