package main

import (
	"fmt"

	"frostward/climate/stat"
	"frostward/cmd/internal/table"
	"frostward/risk/replay"
)

// reliabilityTable pools the yes-or-no questions of all events: of what was said to come with
// a chance, how much came. It is for the way asked for, or the best, learning from as many
// seasons as was allowed.
func (s *session) reliabilityTable(scores []replay.Score) table.Table {
	by := s.shownWay(scores)
	most := scores[len(scores)-1].Training
	for _, x := range scores {
		if x.Training == replay.All || most != replay.All && x.Training > most {
			most = x.Training
		}
	}
	var chance []float64
	var came []bool
	for _, x := range scores {
		if x.By == by && x.Training == most {
			chance = append(chance, x.Chances...)
			came = append(came, x.Came...)
		}
	}
	t := table.Table{
		Title: fmt.Sprintf("Did the chances come true? By %s, learnt from %s; all events, each asked about on 5 days", by, trainingWords(most)),
		Columns: []table.Column{{Name: "chance said", Key: "chance", Align: table.Right}, {Name: "came", Align: table.Right},
			{Name: "90 % interval", Key: "interval"}, {Name: "questions", Align: table.Right}},
	}
	for _, r := range stat.ReliabilityTable(chance, came, 10) {
		low, high := stat.Wilson(int(r.Came), int(r.N), 0.9)
		t.Add(table.Textf("%.0f %%", 100*r.Chance), table.Textf("%.0f %%", 100*r.Came/r.N),
			table.Textf("%.0f-%.0f %%", 100*low, 100*high), table.Textf("%.0f", r.N))
	}
	b := stat.NewBrier(chance, came)
	t.Notes = []string{
		fmt.Sprintf("Brier score %.4f = reliability %.4f - resolution %.4f + uncertainty %.4f; skill over the base rate %.2f.",
			b.Score, b.Reliability, b.Resolution, b.Uncertainty, b.Skill()),
		"The questions of a season hang together, so the intervals are somewhat narrow.",
	}
	return t
}
