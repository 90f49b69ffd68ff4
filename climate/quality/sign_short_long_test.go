//go:build long

package quality

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestShortSignLossesEverywhere says how many of the losses of some days, at any time of the year,
// with some frosts in them, are asked about: where most values are below naught even ten days are
// mostly enough.
func TestShortSignLossesEverywhere(t *testing.T) {
	records := seven(t)
	for _, c := range []struct{ days, frosts, least int }{{10, 5, 50}, {10, 10, 70}, {30, 5, 70}, {30, 10, 85}, {60, 5, 85}, {60, 10, 95}} {
		n, asked := 0, 0
		for _, name := range slices.Sorted(maps.Keys(records)) {
			s, rng := records[name], rand.New(rand.NewPCG(uint64(c.days), 11))
			for tries := 0; tries < 20; {
				w := winter{s: s.Clone(), from: rng.IntN(s.Len() - c.days), days: c.days}
				for i := w.from; i < w.from+w.days; i++ {
					if s.Tmin[i] < 0 {
						w.below++
					}
					w.s.Tmin[i] = math.Abs(s.Tmin[i])
				}
				if w.below < c.frosts || measured(s, w.from, w.days)*10 < w.days*9 {
					continue
				}
				tries++
				n++
				if covered, _ := w.covered(Ask(w.s)); covered > 0 {
					asked++
				}
			}
		}
		t.Logf("%d days with %d frosts or more: %d of %d asked about", c.days, c.frosts, asked, n)
		assert.GreaterOrEqual(t, 100*asked, c.least*n)
	}
}
