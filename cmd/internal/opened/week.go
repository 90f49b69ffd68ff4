package opened

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/journal"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// Task is something to do in the garden on a day.
type Task struct {
	Day      climate.Day
	What     string // sow under cover, harden off, plant out, sow, look for the first picking, clear
	Planting string
	Note     string // "" where there is nothing to add
}

// Sentence says the task without its day.
func (t Task) Sentence() string {
	s := strings.Replace(t.What, "%", t.Planting, 1)
	if t.Note != "" {
		s += " (" + t.Note + ")"
	}
	return s
}

// Deed is the diary's word for the task done; "" where it has none.
func (t Task) Deed() string {
	return map[string]string{"sow % under cover": journal.Sown, "sow %": journal.Sown, "plant out %": journal.PlantedOut,
		"look for the first %": journal.FirstPicked, "clear %": journal.Cleared}[t.What]
}

// coldNight is the chance of harm in a night of hardening off from which the plants are better taken in.
const coldNight = 0.1

// Tasks are what is to be done from today on, for some days, in their order: by the plan and by how its plantings stand,
// so what has been done or is over asks for nothing.
func (g *Garden) Tasks(days int) ([]Task, error) {
	states, err := g.States()
	if err != nil {
		return nil, err
	}
	plantings, assessed, err := g.AssessPlan()
	if err != nil {
		return nil, err
	}
	return g.TasksOf(states, plantings, assessed, days), nil
}

// TasksOf are the tasks of a plan that has been assessed.
func (g *Garden) TasksOf(states []State, plantings []Planned, assessed []risk.Assessment, days int) []Task {
	today := g.Today()
	var out []Task
	for i, st := range states {
		add := func(season int, on float64, what, note string) {
			if math.IsNaN(on) {
				return
			}
			if day := g.Calendar.Day(season, climate.SeasonDay(on)); day >= today && day < today+climate.Day(days) {
				out = append(out, Task{day, what, st.Name, note})
			}
		}
		now, _ := g.Calendar.Locate(today)
		if st.FallsBack() {
			for _, s := range reserveSteps(plantings[i]) {
				add(now, float64(s.on), s.what, s.note)
				add(now+1, float64(s.on), s.what, s.note)
			}
		}
		stages := StagesOf(plantings[i], assessed[i])
		// What the plan alone has begun today is still to be done.
		if due := st.Since == today && !st.Logged; due && st.Phase == InGround {
			st.Phase = UnderCover
		} else if due && st.Phase == UnderCover {
			st.Phase = NotYet
		}
		if st.Phase == InGround {
			season, start := g.Calendar.Locate(st.Since)
			stages = stages.Moved(float64(start - plantings[i].Start)) // it went out on another day than planned
			if st.Picked == 0 {
				add(season, stages.Pick, "look for the first %", "")
			}
			// What stands the winter is picked from its bed and not cleared, unless another waits for that.
			if st.Crop.Tender() || wanted(plantings, i) {
				add(season, stages.Free, "clear %", "its bed is usually free by now")
			}
			continue
		}
		for _, season := range []int{now, now + 1} { // what is sown before midwinter belongs to the next season
			if st.Phase != UnderCover {
				add(season, stages.Sow, "sow % under cover", "")
			}
			add(season, stages.Harden, "begin to harden off %", g.nightsIn(assessed[i].Hardening))
			what := "sow %"
			if st.Raised {
				what = "plant out %"
			}
			note := ""
			if b, ok := assessed[i].Better(); ok && assessed[i].Verdict.Fails() && g.CanMove(st, b.Day) {
				note = fmt.Sprintf("planned; %s would be better, it would succeed in %s", g.Calendar.Words(b.Day), words.InYears(b.Succeeds.Share))
			}
			add(season, stages.Out, what, note)
		}
	}
	slices.SortStableFunc(out, func(a, b Task) int { return cmp.Compare(a.Day, b.Day) })
	return out
}

// FallsBack says whether a planting's reserve, if it has one, may still be wanted.
func (st State) FallsBack() bool {
	return !st.Reserve.None() && (st.Phase != Over || strings.HasPrefix(st.What, journal.Lost))
}

// reserveStep is something to do for a planting's reserve.
type reserveStep struct {
	on         climate.SeasonDay
	what, note string
}

// reserveSteps are what a planting's reserve asks for.
func reserveSteps(p Planned) []reserveStep {
	r := p.Reserve
	switch {
	case !r.Again:
		return []reserveStep{{r.On, "plant out the spares of %", "in place of what frost has killed"}}
	case p.Raised:
		return []reserveStep{{p.At(r.On).Sow, "sow % under cover again", "for the second planting"}, {r.On, "plant out % again", ""}}
	}
	return []reserveStep{{r.On, "sow % again", ""}}
}

// wanted says whether another planting waits for the bed of one.
func wanted(plantings []Planned, i int) bool {
	for j := range plantings {
		if before, err := followed(plantings, j); err == nil && before == i {
			return true
		}
	}
	return false
}

// nightsIn names the nights of hardening off in which the plants are better taken in.
func (g *Garden) nightsIn(h risk.Hardening) string {
	var cold []string
	for _, n := range h.Nights {
		if n.Harm.Known && n.Harm.Share >= coldNight {
			cold = append(cold, g.Calendar.Words(n.Day))
		}
	}
	switch {
	case len(h.Nights) == 0 || len(cold) == 0:
		return ""
	case len(cold) == len(h.Nights):
		return "in every night"
	case len(cold) > 3:
		return fmt.Sprintf("in on cold nights, such as those to %s", words.List(cold[:3]))
	}
	return "in for the nights to " + words.List(cold)
}
