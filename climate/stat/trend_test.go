package stat

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func steps(n int) []float64 {
	t := make([]float64, n)
	for i := range t {
		t[i] = float64(i)
	}
	return t
}

// Small and exact, without ties: the worked series of a public hydrology library that
// cites Hipel and McLeod 1994, which prints Z 0.35777087639996635, p 0.7205147871362552,
// Sen's slope 0.04; S and Var(S) by hand.
func ExampleMannKendall() {
	y := []float64{4.81, 4.17, 4.41, 3.59, 5.87, 3.83, 6.03, 4.89, 4.32, 4.69}
	tr, _ := MannKendall(steps(10), y, 0.90)
	fmt.Printf("S %d, Var %.0f, Z %.6f, p %.6f, slope %.4f\n", tr.S, tr.Var, tr.Z, tr.P, tr.Slope)
	// Output: S 5, Var 125, Z 0.357771, p 0.720515, slope 0.0400
}

// With ties: the 22 values transcribed from Gilbert 1987, p. 212, who prints Z = 3.1. The
// other figures were computed apart from this code from the same 22 values.
func TestMannKendallTies(t *testing.T) {
	y := []float64{20, 20, 20, 20, 15, 20, 20, 30, 27, 26, 23, 35, 25, 28, 70, 26, 24, 34, 32, 23, 50, 30}
	tr, ok := MannKendall(steps(22), y, 0.95)
	require.True(t, ok)
	assert.Equal(t, 111, tr.S)
	assert.InDelta(t, 1226.333, tr.Var, 0.001)
	assert.InDelta(t, 3.14115, tr.Z, 1e-5)
	assert.InDelta(t, 0.001683, tr.P, 1e-6)
	assert.InDelta(t, 0.6667, tr.Slope, 1e-4)
	assert.InDelta(t, 0.253, tr.Low, 5e-4)
	assert.InDelta(t, 1.140, tr.High, 5e-4)
}

func TestMannKendallEdges(t *testing.T) {
	_, ok := MannKendall(steps(2), []float64{1, 2}, .9)
	assert.False(t, ok, "two values are no trend")
	_, ok = MannKendall(steps(5), []float64{3, 3, 3, 3, 3}, .9)
	assert.False(t, ok, "all the same: the variance is 0")
	tr, ok := MannKendall(steps(6), []float64{1, 2, math.NaN(), 3, 4, inf}, .9)
	require.True(t, ok)
	assert.Equal(t, 5, tr.N)
	assert.Equal(t, 10, tr.S, "never is later than every date")
	assert.False(t, math.IsNaN(tr.Slope))
}

// Turning the series round turns the sign of everything; shifting it changes nothing.
func TestMannKendallLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.SliceOfN(rapid.Float64Range(-50, 50), 3, 40).Draw(t, "y")
		for i := range y {
			y[i] = math.Round(y[i]) // whole days, so that ties are common and shifts exact
		}
		back, shifted := make([]float64, len(y)), make([]float64, len(y))
		for i, v := range y {
			back[len(y)-1-i] = v
			shifted[i] = v + 7
		}
		a, okA := MannKendall(steps(len(y)), y, .9)
		b, okB := MannKendall(steps(len(y)), back, .9)
		c, _ := MannKendall(steps(len(y)), shifted, .9)
		if okA != okB || a.S != -b.S || math.Abs(a.Slope+b.Slope) > 1e-9 || math.Abs(a.Low+b.High) > 1e-9 {
			t.Fatalf("%+v turned round is %+v", a, b)
		}
		if a != c {
			t.Fatalf("%+v shifted is %+v", a, c)
		}
		if okA && (a.Low > a.Slope || a.Slope > a.High) {
			t.Fatalf("slope outside its interval: %+v", a)
		}
	})
}
