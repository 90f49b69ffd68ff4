package night

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// bookNights are the ten nights of Snyder & de Melo-Abreu 2005 (FAO Frost Protection
// vol. 1, ch. 5), as the documentation of an R package transcribes them.
func bookNights() []Radiation {
	t0 := []float64{3.2, 0.8, 0.2, 2.6, 4.4, 5.2, 2.7, 1.2, 4.5, 5.6}
	td := []float64{-4.2, -8.8, -6.5, -6.2, -6.1, 2.6, -0.7, -1.7, -1.2, 0.1}
	tn := []float64{-3.1, -5.0, -6.3, -5.4, -4.0, -2.5, -4.8, -5.0, -4.4, -3.3}
	var out []Radiation
	for i := range t0 {
		out = append(out, Radiation{t0[i], td[i], tn[i]})
	}
	return out
}

// The book's ten nights, and a new one with 10 °C and a dew point of 2 °C: the
// documentation prints -0.7409219.
func ExampleFitFAO() {
	f, err := FitFAO(bookNights())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.7f\n", f.Tmin(10, 2))
	// Output: -0.7409219
}

func TestFAO(t *testing.T) {
	f, err := FitFAO(bookNights())
	require.NoError(t, err)
	// Computed from the ten nights in another language: coefficients to six figures.
	require.InDelta(t, 0.502812, f.B, 1e-6)
	require.InDelta(t, 0.0264716, f.B2, 1e-6)
	require.InDelta(t, -5.821987, f.A, 1e-6)
	require.InDelta(t, 0.631, f.RMSE, 5e-4)
	want := []float64{-4.32, -5.65, -5.89, -4.68, -3.77, -3.14, -4.48, -5.26, -3.59, -3.00}
	for i, n := range bookNights() {
		require.InDelta(t, want[i], f.Tmin(n.Evening, n.DewPoint), 0.005)
	}
	// One regression on both would give 0.447298 for the temperature.
	require.NotEqual(t, 0.447, float64(int(f.B*1000))/1000)
	far, _ := f.SD(10)
	near, open := f.SD(3)
	require.Greater(t, far, near, "an evening unlike those fitted")
	require.Greater(t, near, f.RMSE)
	require.Less(t, open, near)
}

func TestFAONeedsNights(t *testing.T) {
	_, err := FitFAO(bookNights()[:9])
	require.ErrorContains(t, err, "9 clear, still nights with evening reading, dew point and minimum; wanted 10")
	same := bookNights()
	for i := range same {
		same[i].Evening = 3
	}
	_, err = FitFAO(same)
	require.ErrorContains(t, err, "evening temperatures are all alike")
}
