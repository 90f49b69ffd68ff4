package risk

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
)

// A story is the outcome that Play counts, night by night: as many set-backs and chilled nights, the same days of coming
// up, loss, first picking and end, in order.
func TestStoryIsTheOutcome(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := testCrop()
		raised := rapid.Bool().Draw(t, "raised")
		f := field(c, raised, someSeason(t))
		p := Planting{Crop: c, Raised: raised, Start: climate.SeasonDay(rapid.IntRange(40, 260).Draw(t, "start"))}
		if rapid.Bool().Draw(t, "covered") {
			p.Cover = Fleece
		}
		free := float64(rapid.IntRange(0, 200).Draw(t, "free"))
		o, events := f.Story(0, p, free)
		require.Equal(t, f.playAfter(0, p, free), o)
		n, last := map[EventKind]int{}, Event{Day: -1000}
		for _, e := range events {
			require.GreaterOrEqual(t, e.Day, last.Day)
			n[e.Kind]++
			last = e
		}
		if o.Lost {
			require.Equal(t, Killed, last.Kind)
			require.Equal(t, o.KilledOn, last.Day)
			return
		}
		require.Equal(t, o.SetBacks, n[SetBack])
		require.LessOrEqual(t, n[Chilled], o.Chilled, "a night that sets it back is said to be that")
		require.Equal(t, o.EndsOn, last.Day)
		require.Equal(t, o.Ripens, last.Kind == FrostEnds || last.Kind == PickedOut)
		require.Equal(t, o.ReadyOn < o.EndsOn, n[Ready] == 1)
	})
}
