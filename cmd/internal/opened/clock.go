package opened

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/words"
)

// Today is the day that everything is asked on: Options.AsOf, else the machine's date; the built-in garden, and a
// record looked at without a garden, live on the day after their record ends.
func (g *Garden) Today() climate.Day {
	switch {
	case g.Options.AsOf != "":
		return g.asOf
	case g.Invented:
		return g.Record.Last() + 1
	}
	return g.Options.Today
}

// readAsOf reads Options.AsOf.
func (g *Garden) readAsOf() (err error) {
	if g.Options.AsOf == "" {
		return nil
	}
	if g.asOf, err = climate.ReadDay(g.Options.AsOf); err != nil {
		return UsageError{fmt.Errorf("--as-of: %w", err)}
	}
	return nil
}

// cutToToday forgets what came after Options.AsOf: a past day is replayed as it was known then.
func (g *Garden) cutToToday() error {
	if g.Options.AsOf == "" {
		return nil
	}
	if g.asOf < g.Record.First {
		return fmt.Errorf("%s: has the days %v to %v; --as-of %v is before them", g.RecordName, g.Record.First, g.Record.Last(), g.asOf)
	}
	g.Record = g.Record.Between(g.Record.First, min(g.asOf, g.Record.Last()))
	return nil
}

// behind is how many days before today the record lacks.
func (g *Garden) behind() int { return max(0, int(g.Today()-g.Record.Last())-1) }

// BehindWords says what it costs that the record ends before today; "" where it does not.
func (g *Garden) BehindWords() string {
	n := g.behind()
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%s ends on %s: the %s to today are taken as they come in other years, so what this season's warmth and cold have done since is not known",
		g.RecordName, words.Date(g.Record.Last()), words.Plural(n, "day"))
}

// PlanningFor is the season whose work lies ahead on a day: the one it is in, or from
// October on (in the south from April) the next.
func (g *Garden) PlanningFor(d climate.Day) int {
	season, sd := g.Calendar.Locate(d)
	if sd >= workEnds {
		season++
	}
	return season
}

// workEnds is the season day from which on nothing is sown or planted out any more in a
// cool climate but overwintering crops: 1 October (common practice, no source).
const workEnds climate.SeasonDay = 273
