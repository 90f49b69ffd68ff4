package main

import (
	"fmt"

	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

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

// explain prints what the plan says of one planting: the verdict, its path from seed to free
// bed, the hardening off, and why it scores as it does.
func (a *app) explain(s *session, p opened.Planned, x risk.Assessment, lately string) {
	head, why := s.words().Explained(s.Garden, p, x, lately)
	a.paragraph(a.out, head, 2)
	a.lines(why)
}
