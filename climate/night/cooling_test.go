package night

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The two tables are printed in the documentation of an R package that cites the FAO
// book: 15 hours from sunset to sunrise, 33.7 °F two hours after sunset and a minimum
// of 22.2 °F; and 0.95 and -5.45 °C.
func TestSquareRootTables(t *testing.T) {
	f := []float64{30.51047, 29.18933, 28.17558, 27.32095, 26.56800, 25.88729, 25.26131, 24.67866, 24.13142, 23.61383, 23.12154, 22.65116, 22.2}
	c := []float64{-0.82504, -1.56029, -2.12446, -2.60008, -3.01911, -3.39794, -3.74632, -4.07057, -4.37512, -4.66317, -4.93714, -5.19892, -5.45}
	for i := range f {
		h := float64(i + 3)
		require.InDelta(t, h, Reaches(f[i], 33.7, 22.2, 15), 2e-5)
		require.InDelta(t, 22.2, SquareRootMin(33.7, f[i], h, 15), 3e-5)
		require.InDelta(t, h, Reaches(c[i], 0.95, -5.45, 15), 3e-5)
		require.InDelta(t, -5.45, SquareRootMin(0.95, c[i], h, 15), 3e-5)
	}
}

// The minimum comes back from any later reading of the published table.
func ExampleSquareRootMin() {
	fmt.Printf("%.2f\n", SquareRootMin(0.95, -3.39794, 8, 15))
	// Output: -5.45
}

func TestSquareRootMin(t *testing.T) {
	require.True(t, math.IsNaN(SquareRootMin(5, 4, 2.5, 10)), "too soon")
	require.True(t, math.IsNaN(SquareRootMin(5, 4, 10.5, 10)), "after sunrise")
	require.InDelta(t, 4, SquareRootMin(5, 4, 10, 10), 1e-9, "at sunrise it is the reading")
	require.Greater(t, SquareRootSD(3, 15), SquareRootSD(8, 15))
	// By hand: at sunrise the factor is 1, so sqrt(1.5^2+0.3^2).
	require.InDelta(t, 1.52971, SquareRootSD(15, 15), 1e-5)
}

func TestReaches(t *testing.T) {
	// Row i=4 of the second table: -1.56029 °C four hours after sunset.
	require.InDelta(t, 4, Reaches(-1.56029, 0.95, -5.45, 15), 1e-5)
	require.Equal(t, math.Inf(1), Reaches(-6, 0.95, -5.45, 15))
	require.InDelta(t, 15, Reaches(-5.45, 0.95, -5.45, 15), 1e-9)
	require.Equal(t, 2.0, Reaches(1, 0.95, -5.45, 15))
	require.Equal(t, math.Inf(1), Reaches(0, 3, math.NaN(), 15))
}
