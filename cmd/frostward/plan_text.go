package main

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// explain prints what the plan says of one planting: the verdict, its path from seed to free
// bed, the hardening off, and why it scores as it does.
func (a *app) explain(s *session, p opened.Planned, x risk.Assessment, lately string) {
	r := x.Result
	head := p.Label()
	if p.Name != "" && !strings.EqualFold(p.Name, p.Crop.Label()) {
		head += " (" + p.Crop.Label() + ")"
	}
	if p.Row.Variety != "" {
		head += ", " + p.Row.Variety
	}
	outcome := "not known whether it succeeds"
	if r.Succeeds.Known {
		outcome = fmt.Sprintf("succeeds in %s (%s %%)", words.InYears(r.Succeeds.Share), words.Interval(r.Succeeds))
	}
	a.paragraph(a.out, fmt.Sprintf("%s, %s: %s, %s", head, p.Where.Name, x.Verdict, outcome), 2)
	a.labelled(a.out, "path", s.path(p, x))
	if len(x.Hardening.Nights) > 0 {
		a.labelled(a.out, "hardening", s.words().Hardening(x.Hardening)+s.strip(x.Hardening))
	}
	if !x.Reserved.None() {
		c := s.Settings.Costs
		a.labelled(a.out, "reserve", s.words().Reserved(&x, c.OfReserve(x.Reserved.Reserve), c.Lost, c.Unit))
	}
	a.labelled(a.out, "why", strings.Join(s.words().Reasons(&x), " "))
	if lately != "" {
		a.labelled(a.out, "years", lately)
	}
	if p.Row.Own != "" {
		a.labelled(a.out, "own", p.Row.Own)
	}
}

// path is a planting's way from seed to free bed, in dates.
func (s *session) path(p opened.Planned, x risk.Assessment) string {
	r := x.Result
	var steps []string
	add := func(format string, args ...any) { steps = append(steps, fmt.Sprintf(format, args...)) }
	under := ""
	if c := r.Planting.Cover.Name; c != "" {
		under = " under " + c
	}
	if p.Raised {
		add("sow under cover %s", s.Calendar.Words(p.Sow))
		if h := x.Hardening; len(h.Nights) > 0 {
			add("harden off from %s (%s)", s.Calendar.Words(h.From), s.hardensAt())
		}
		add("plant out %s%s", s.Calendar.Words(p.Start), under)
	} else {
		add("sow in place %s%s", s.Calendar.Words(p.Start), under)
		if !math.IsNaN(r.UpOn) && !math.IsInf(r.UpOn, 0) {
			add("up about %s", s.Calendar.Words(climate.SeasonDay(r.UpOn)))
		}
	}
	pick, free := s.picking(r), x.Cleared()
	if pick == words.Dash { // it fails in half the years or more
		if well, freed := r.WhenItSucceeds(); !math.IsNaN(well) {
			add("where it succeeds pick from about %s and have the bed free about %s", words.Day(s.Calendar, well), words.Day(s.Calendar, freed))
		}
		return strings.Join(steps, ", ") + "."
	}
	add("pick from about %s", pick)
	if free.Known && !math.IsInf(free.Value, 0) {
		add("bed free about %s", words.Day(s.Calendar, free.Value))
	}
	return strings.Join(steps, ", ") + "."
}

// strip is the chance of harm of each night of hardening off.
func (s *session) strip(h risk.Hardening) string {
	if h.Any.Share < 0.1 {
		return ""
	}
	var n []string
	for _, x := range h.Nights {
		n = append(n, fmt.Sprintf("%.0f", 100*x.Harm.Share))
	}
	return fmt.Sprintf(" Night by night from %s: %s %%.", s.Calendar.Words(h.Nights[0].Day), strings.Join(n, " "))
}

// writeCautions prints what must be said once of crops that can hurt.
func (s *session) writeCautions(plantings []opened.Planned) {
	seen := map[string]bool{}
	for _, p := range plantings {
		c := p.Crop.Caution
		if c == "" || seen[c] {
			continue
		}
		if len(seen) == 0 {
			fmt.Fprintln(s.app.out)
		}
		seen[c] = true
		s.app.paragraph(s.app.out, "Caution, "+p.Crop.Title+": "+c, 2)
	}
}

// reserveRow is the table's line for a planting with its reserve.
func (s *session) reserveRow(x *risk.Assessment) []table.Cell {
	r := x.Reserved.Pair
	reserve := s.words().ReserveName(x.Reserved.Reserve)
	return []table.Cell{table.Data("+ "+reserve, x.Result.Planting.Label(), reserve), s.dayCell(float64(x.Reserved.On)),
		share(r.Survives), share(r.Ripens), beside(r.Succeeds, s.Settings.Aim), narrowInterval(r.Succeeds), s.words().PickingCell(r), coldNights(r),
		verdictCell(x.Reserved.Verdict), table.Text(words.Dash)}
}
