package risk

import (
	"math"

	"frostward/climate"
)

// Event is something that mattered to a planting on a day of a season.
type Event struct {
	Kind EventKind
	Day  climate.SeasonDay // of a night, the day on which it ends
	Low  float64           // °C at the plants, its cover's gain counted; NaN where no night is spoken of
}

// EventKind is what happened.
type EventKind int

// Events, in the order in which a season may have them.
const (
	Starts    EventKind = iota // planted out, or sown in place
	CameUp                     // of a sowing
	Chilled                    // a night checks it, newly out
	SetBack                    // a night sets it back
	Killed                     // a night kills it before picking
	Ready                      // first picking
	FrostEnds                  // a night ends the picking
	PickedOut                  // its picking is over
	NotInTime                  // it leaves the bed without a picking worth it
)

// Story is what mattered to a planting in season i, in order, up to its loss or its end: what Play counts, day by day.
// free is the day from which its bed is free. There are no events where the outcome is not known.
func (f *Field) Story(i int, p Planting, free float64) (Outcome, []Event) {
	o := f.playAfter(i, p, free)
	start := p.Start
	if free > float64(start) {
		start = climate.SeasonDay(math.Ceil(min(free, float64(climate.SpanTo))))
	}
	if !o.Known || start >= climate.SpanTo {
		return o, nil
	}
	nan := math.NaN()
	p = p.At(start)
	out := []Event{{Starts, start, nan}}
	l := f.newLife(i, &p) // taken through its nights again, with its days of coming up and of picking known
	l.outcome.ReadyOn = o.ReadyOn
	nights := f.met(i, o.upOn(p))
	for sd := start + 1; sd <= o.EndsOn && sd < climate.SpanTo; sd++ {
		if sd == o.ReadyOn+1 {
			out = append(out, Event{Ready, o.ReadyOn, nan})
		}
		if !l.up {
			if sd > o.EmergedOn { // it met its first night on the day after
				l.up, l.seedling = true, o.EmergedOn+1+SeedlingDays
				out = append(out, Event{CameUp, o.EmergedOn, nan})
			} else {
				continue
			}
		}
		gain := 0.0
		if p.Cover.Name != "" {
			gain = f.coverGain(i, sd, p.Cover)
		}
		low := nights.at(int(sd - climate.SpanFrom))
		was := l.outcome
		over := l.night(sd, low, gain)
		switch now := l.outcome; {
		case now.Lost:
			return o, append(out, Event{Killed, sd, low + gain})
		case now.EndsOn == sd && low+gain <= max(l.kill, l.killReady):
			return o, append(out, ending(o, Event{FrostEnds, sd, low + gain}))
		case now.SetBacks > was.SetBacks:
			out = append(out, Event{SetBack, sd, low + gain})
		case now.Chilled > was.Chilled:
			out = append(out, Event{Chilled, sd, low + gain})
		}
		if over {
			break
		}
	}
	return o, append(out, ending(o, Event{PickedOut, o.EndsOn, nan}))
}

// ending is how a season that was not cut short ends: as e has it, or without a picking worth the bed.
func ending(o Outcome, e Event) Event {
	if !o.Ripens {
		e.Kind = NotInTime
	}
	return e
}
