package stat

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Six seasons cannot be surer than 77 %, however often what is made of them has the event: by hand, 9 seasons
// of 9 have a Wilson interval from 9/(9+1.645^2) = 0.769. A long record is bounded by three times its length.
func TestFewSeasonsAreNotSure(t *testing.T) {
	w := Worlds{Record: 6}
	for range 25 {
		w.Yes, w.Of = append(w.Yes, 16), append(w.Of, 16)
	}
	low, high := w.Interval(0.9)
	assert.InDelta(t, 0.769, low, 0.002)
	assert.InDelta(t, 1, high, 1e-9)
	w.Record = 40
	assert.LessOrEqual(t, w.EffectiveSeasons(), 120.0)
}
