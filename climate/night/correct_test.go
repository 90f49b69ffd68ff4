package night

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A method believed to overdo its departures is drawn toward the usual from the first night, and
// nights on which it did not overdo them win it back.
func TestOverdone(t *testing.T) {
	b := Belief{Bias: 0.8, Slope: 0.12, Spread: 2, Worth: 10, Overdone: 0.4}
	tmin, _, _ := Correct(nil, b).Apply(-5, 5)
	require.InDelta(t, 5-0.6*10, tmin, 1e-9)
	var past []Past
	for i := range 400 {
		x := float64(i%21) - 10
		past = append(past, Past{Said: 5 + x, Came: 5 + x, Usual: 5})
	}
	tmin, _, _ = Correct(past, b).Apply(-5, 5)
	require.InDelta(t, -5, tmin, 0.3)
}
