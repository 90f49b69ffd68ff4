package risk

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

func seasonsOf(n int) climate.Ensemble {
	e := climate.Ensemble{Rests: n}
	for i := range n {
		s := climate.NewSeason(2001 + i)
		e.Seasons = append(e.Seasons, s)
	}
	return e
}

// row is a planting's outcomes, season by season: y it succeeds, n it does not, ? not known.
func row(s string) (out []Outcome) {
	for _, c := range s {
		o := Outcome{Known: c != '?', Ripens: c == 'y'}
		out = append(out, o)
	}
	return out
}

// Counted by hand on ten seasons.
func TestTogetherByHand(t *testing.T) {
	e := seasonsOf(10)
	a, b, c := row("yynnyyyyyy"), row("ynnnyyyyyn"), row("yyyyyynyyy")
	got := TogetherOf(e, [][]Outcome{a, b, c})
	assert.Equal(t, 0.5, got.Every.Share, "seasons 1, 5, 6, 8 and 9")
	assert.Equal(t, 0.5, got.NineInTen.Share, "of three, nine in ten is all three")
	assert.Equal(t, [2]int{0, 1}, got.Pair)
	assert.Equal(t, 0.2, got.PairFails.Share, "seasons 3 and 4; multiplied, 0.2 and 0.4 would make 0.08")
	assert.Equal(t, 0.8, EitherSucceeds(e, a, b).Share, "b succeeds in none that a does not")
	assert.Equal(t, 1.0, EitherSucceeds(e, a, c).Share)

	some := EitherSucceeds(e, row("y?nnyyyyy?"), row("??nnyyyyyy"))
	assert.Equal(t, 3, some.LeftOut, "seasons 1, 2 and 10: what is not known of one could as well have failed beside a failure")
	assert.InDelta(t, 5.0/7, some.Share, 1e-12)
}

// A pair is never worse than its better half, nor better than the two chances added, and every
// further planting makes "every one" rarer.
func TestTogetherLaws(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for range 200 {
		n := 5 + rng.IntN(20)
		e := seasonsOf(n)
		var rows [][]Outcome
		for range 2 + rng.IntN(4) {
			r := make([]Outcome, n)
			for i := range r {
				r[i] = Outcome{Known: true, Ripens: rng.IntN(3) > 0}
			}
			rows = append(rows, r)
		}
		share := func(r []Outcome) float64 { return EitherSucceeds(e, r).Share }
		pair := EitherSucceeds(e, rows[0], rows[1]).Share
		require.GreaterOrEqual(t, pair, max(share(rows[0]), share(rows[1]))-1e-12)
		require.LessOrEqual(t, pair, share(rows[0])+share(rows[1])+1e-12)
		all := TogetherOf(e, rows)
		fewer := TogetherOf(e, rows[:len(rows)-1])
		require.LessOrEqual(t, all.Every.Share, fewer.Every.Share+1e-12)
		require.GreaterOrEqual(t, all.NineInTen.Share, all.Every.Share)
		require.GreaterOrEqual(t, all.PairFails.Share, fewer.PairFails.Share)
	}
}
