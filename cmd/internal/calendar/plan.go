package calendar

import (
	"fmt"
	"math"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/words"
)

// Events are the plan's dates in one season. What has been done or is over by the states of today asks for nothing more,
// and a planting that went out on another day than planned has its picking as much earlier or later.
func Events(g *opened.Garden, w sentences.In, season int) ([]Event, error) {
	plantings, assessed, err := g.AssessPlan()
	if err != nil {
		return nil, err
	}
	states, err := g.States()
	if err != nil {
		return nil, err
	}
	var out []Event
	fields, err := g.Fields()
	if err != nil {
		return nil, err
	}
	seen := map[string]int{} // two plantings of the same label are kept apart by their order
	for i, p := range plantings {
		label := p.Label()
		seen[label]++
		id := fmt.Sprintf("%s %d", label, seen[label])
		x := assessed[i]
		add := func(work string, from, to float64, title, text string) {
			if math.IsNaN(from) || math.IsNaN(to) {
				return
			}
			out = append(out, Event{
				UID:   uid(g.Settings.Name, id, work, season),
				First: g.Calendar.Day(season, climate.SeasonDay(from)), Last: g.Calendar.Day(season, climate.SeasonDay(to)),
				Title: title, Text: text, Place: p.Where.Name, Category: work,
			})
		}
		at, st := opened.StagesOf(p, x), states[i]
		if st.FallsBack() {
			title := "Plant out the spares of " + label + ", where frost has killed the first"
			switch {
			case p.Reserve.Again && p.Raised:
				title = "Plant out " + label + " again"
			case p.Reserve.Again:
				title = "Sow " + label + " again"
			}
			c, on := g.Settings.Costs, float64(p.Reserve.On)
			add("reserve", on, on, title, w.Reserved(&x, c.OfReserve(p.Reserve), c.Lost, c.Unit))
		}
		if in, _ := g.Calendar.Locate(st.End); st.Phase == opened.Over && in >= season {
			continue
		}
		if in, start := g.Calendar.Locate(st.Since); in == season && st.Since != 0 {
			switch st.Phase {
			case opened.UnderCover:
				at.Sow = float64(start)
			case opened.InGround:
				at = at.Moved(float64(start - p.Start))
				if st.Picked != 0 {
					at.Pick = math.NaN()
				}
			}
		}
		outcome := "How often it succeeds is not known."
		if c := x.Result.Succeeds; c.Known {
			outcome = fmt.Sprintf("It survives and ripens in %s (%s, 90 %% interval %s %%, %s).",
				words.InYears(c.Share), x.Verdict, words.Interval(c), words.Plural(c.Seasons, "season"))
		}
		add("sow", at.Sow, at.Sow, "Sow "+label+" under cover", outcome)
		add("harden off", at.Harden, at.Out-1, "Harden off "+label, w.Hardening(x.Hardening))
		if p.Raised {
			add("plant out", at.Out, at.Out, "Plant out "+label, outcome)
		} else {
			add("sow", at.Out, at.Out, "Sow "+label, outcome)
		}
		for k, days := range coldSpells(fields.Field(p.Where, p.Crop, p.Raised).Judged(), p, at) {
			text := fmt.Sprintf("On more than 1 night in %.0f at this time of the year it is %s or colder at the spot, which sets the bare plants back.", 1/watchShare, w.Tenths(harmAt(p)))
			add([2]string{"watch in spring", "watch in autumn"}[k], days[0], days[1], "Nights that may want a cover: "+label, text)
		}
		add("pick", at.Pick, at.Pick, "First "+label+" about now", pickWords(g.Calendar, at))
		add("free", at.Free, at.Free, "Bed free after "+label, "The median over the seasons of record.")
	}
	return out, nil
}

func pickWords(c climate.Calendar, at opened.Stages) string {
	t := "The median over the seasons of record."
	if !math.IsNaN(at.Early) {
		t += fmt.Sprintf(" In 1 season in 10 it is ready by %s", words.Day(c, at.Early))
		if !math.IsNaN(at.Late) {
			t += fmt.Sprintf(", in 9 in 10 by %s", words.Day(c, at.Late))
		}
		t += "."
	}
	return t
}

// watchShare is how usual a harmful night must be for its days to be worth watching.
const watchShare = 0.05

// coldSpells are the first and last day in spring and in autumn on which a planting is out and
// nights that set it back are more usual than watchShare; NaN where there are none.
func coldSpells(e climate.Ensemble, p opened.Planned, g opened.Stages) [2][2]float64 {
	nan := math.NaN()
	w := [2][2]float64{{nan, nan}, {nan, nan}}
	end := opened.FirstKnown(g.Free, g.EndsWithoutOne)
	shares := e.NightShares(climate.Frost(harmAt(p)), 3)
	for d := p.Start; !math.IsNaN(end) && float64(d) < min(end, float64(climate.SpanTo)); d++ {
		if d < climate.SpanFrom || !(shares[d-climate.SpanFrom] >= watchShare) {
			continue
		}
		half := 0
		if d >= climate.Midsummer {
			half = 1
		}
		if math.IsNaN(w[half][0]) {
			w[half][0] = float64(d)
		}
		w[half][1] = float64(d)
	}
	return w
}

// harmAt is the temperature that sets a hardened plant back, or kills it where only that is
// known.
func harmAt(p opened.Planned) float64 {
	if f := p.Crop.SetBackHardened; f.Known() {
		return f.Value
	}
	return p.Crop.KillHardened.Value
}
