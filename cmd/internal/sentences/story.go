package sentences

import (
	"fmt"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// LastFailed says in which years a planting last failed, and how: the years that a grower remembers.
func (w In) LastFailed(past *opened.Remembered, planting int) string {
	killed, how := past.Killed(planting)
	unripe := past.NotReady(planting)
	var said []string
	if len(killed) > 0 {
		t := fmt.Sprintf("Last killed in %d, in the night to %s", killed[0], w.Calendar.Words(how[0].KilledOn))
		if len(killed) > 1 {
			t += fmt.Sprintf("; before that in %d", killed[1])
		}
		said = append(said, fmt.Sprintf("%s (%s of %d).", t, words.Plural(len(killed), "year"), past.Known(planting)))
	}
	if len(unripe) > 0 {
		t := fmt.Sprintf("Last not ready in time in %d", unripe[0])
		if len(unripe) > 1 {
			t += fmt.Sprintf("; before that in %d", unripe[1])
		}
		said = append(said, fmt.Sprintf("%s (%s of %d).", t, words.Plural(len(unripe), "year"), past.Known(planting)))
	}
	return strings.Join(said, " ")
}

// Outcome says what became of a planting in a season.
func Outcome(o risk.Outcome) string {
	switch {
	case !o.Known:
		return "not known: " + NotPlayed(o.Why)
	case o.Lost:
		return "killed before picking"
	case !o.Ripens:
		return "not ready in time"
	}
	return "succeeds"
}

// Happened says an event of a season.
func Happened(e risk.Event) string {
	if e.Kind == risk.PickedOut && e.Day >= climate.SpanTo {
		return "still standing as the season's record ends"
	}
	return map[risk.EventKind]string{risk.Starts: "starts: planted out, or sown in place", risk.CameUp: "up", risk.Chilled: "a cold night checks it",
		risk.SetBack: "the night sets it back", risk.Killed: "the night kills it", risk.Ready: "first picking", risk.FrostEnds: "the night ends its picking",
		risk.PickedOut: "picking is over, the bed free", risk.NotInTime: "over without a picking worth its bed"}[e.Kind]
}
