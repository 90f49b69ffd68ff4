package stat

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Wilks 1995, Statistical Methods in the Atmospheric Sciences, table 7.3, p. 246: twelve
// issued values, how often each was issued, and how often the event then came. The parts
// were computed from that table apart from this code.
func ExampleBrier() {
	y := []float64{0, .05, .1, .2, .3, .4, .5, .6, .7, .8, .9, 1}
	o := []float64{.006, .019, .059, .150, .277, .377, .511, .587, .723, .779, .934, .933}
	p := []float64{.4112, .0671, .1833, .0986, .0616, .0366, .0303, .0275, .0245, .0220, .0170, .0203}
	groups := make([]Issued, len(y))
	for i := range y {
		groups[i] = Issued{Chance: y[i], N: p[i], Came: p[i] * o[i]}
	}
	b := murphy(groups)
	fmt.Printf("base rate %.6f, reliability %.6f, resolution %.6f, uncertainty %.6f, score %.6f, skill %.4f\n",
		b.BaseRate, b.Reliability, b.Resolution, b.Uncertainty, b.Score, b.Skill())
	// Output: base rate 0.161503, reliability 0.000828, resolution 0.062787, uncertainty 0.135420, score 0.073461, skill 0.4575
}

func TestBrierIsTheMeanSquareAndTheSumOfItsParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 60).Draw(t, "n")
		chance, came := make([]float64, n), make([]bool, n)
		var mean float64
		for i := range chance {
			chance[i] = float64(rapid.IntRange(0, 10).Draw(t, "p")) / 10
			came[i] = rapid.Bool().Draw(t, "came")
			d := chance[i]
			if came[i] {
				d--
			}
			mean += d * d / float64(n)
		}
		b := NewBrier(chance, came)
		if d := b.Score - mean; d > 1e-12 || d < -1e-12 || b.N != n {
			t.Fatalf("score %v, mean square %v", b.Score, mean)
		}
		if d := b.Score - (b.Reliability - b.Resolution + b.Uncertainty); d > 1e-12 || d < -1e-12 {
			t.Fatalf("%+v does not add up", b)
		}
	})
}

func TestReliabilityTable(t *testing.T) {
	got := ReliabilityTable([]float64{0, .05, .5, .55, 1, 1}, []bool{false, true, true, false, true, true}, 10)
	assert.Equal(t, []Issued{{.025, 2, 1}, {.525, 2, 1}, {1, 2, 2}}, got)
}
