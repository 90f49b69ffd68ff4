package main

import (
	"fmt"
	"strings"

	"frostward/risk"
)

// explain prints a paragraph on a planting: what it is, and why it scores as it does.
func (a *app) explain(s *session, p planned, x risk.Assessment) {
	r := x.Result
	head := p.Label()
	if p.Name != "" && !strings.EqualFold(p.Name, p.Crop.Label()) {
		head += " (" + p.Crop.Label() + ")"
	}
	how := "sown in place " + s.calendar.Words(r.Planting.Start)
	if p.Raised {
		how = fmt.Sprintf("sown under cover %s, out %s", s.calendar.Words(p.Sow), s.calendar.Words(r.Planting.Start))
	}
	if c := r.Planting.Cover.Name; c != "" {
		how += " under " + c
	}
	outcome := "not known whether it succeeds."
	if r.Succeeds.Known {
		outcome = fmt.Sprintf("succeeds in %s (%.0f-%.0f %%)", risk.InYears(r.Succeeds.Share), 100*r.Succeeds.Low, 100*r.Succeeds.High)
		if pick := s.picking(r); pick != dash {
			outcome += ", first picking about " + pick
		}
		outcome += "."
	}
	text := fmt.Sprintf("%s, %s, %s: %s. %s %s", head, p.spot.Name, how, x.Verdict, capital(outcome), strings.Join(x.Reasons(s.calendar), " "))
	a.paragraph(a.out, text, 2)
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// writeCautions prints what must be said once of crops that can hurt.
func (s *session) writeCautions(plantings []planned) {
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
