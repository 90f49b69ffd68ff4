package main

import (
	"fmt"
	"math"
	"strconv"

	"frostward/climate"
	"frostward/climate/stat"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk/replay"
)

// wanted leaves the ways that --by does not ask for out.
func (s *session) wanted(scores []replay.Score) []replay.Score {
	if s.app.by == "" {
		return scores
	}
	var out []replay.Score
	for _, x := range scores {
		if x.By.String() == s.app.by {
			out = append(out, x)
		}
	}
	return out
}

// skillMean is the mean ratio to the curve of 30 seasons.
type skillMean struct {
	by          climate.By
	training    int
	frosts, all float64
}

// skillMeans are the means by way and training, in the order of the scores.
func (s *session) skillMeans(scores []replay.Score) []skillMean {
	var out []skillMean
	seen := map[skillMean]bool{}
	for _, x := range s.wanted(scores) {
		k := skillMean{by: x.By, training: x.Training}
		if !seen[k] {
			seen[k] = true
			k.frosts, k.all = replay.MeanRatios(scores, x.By, x.Training)
			out = append(out, k)
		}
	}
	return out
}

// writeSkill prints the answer, a line for each event and number of training seasons, and
// whether the chances came true.
func (s *session) writeSkill(scores []replay.Score) error {
	a := s.app
	if a.format == table.CSV { // one table to a file
		return s.skillCSV(scores).Write(a.out, a.tables())
	}
	a.paragraph(a.out, sentences.Skill(scores), 0)
	fmt.Fprintln(a.out)
	if err := s.skillTable(scores).Write(a.out, a.tables()); err != nil {
		return err
	}
	fmt.Fprintln(a.out)
	return s.reliabilityTable(scores).Write(a.out, a.tables())
}

// skillTable has a line for each event and number of training seasons, with the ways side by
// side; the spread columns are of one way.
func (s *session) skillTable(scores []replay.Score) table.Table {
	shown := s.shownWay(scores)
	t := table.Table{Columns: []table.Column{
		{Name: "event", Wrap: true, MinWidth: 16}, {Name: "learnt from", Align: table.Right, Wrap: true, MinWidth: 6},
		{Name: "scored", Align: table.Right, Drop: 3},
	}}
	for _, by := range replay.Ways {
		if s.app.by == "" || by == shown {
			t.Columns = append(t.Columns, table.Column{Name: by.String(), Align: table.Right})
		}
	}
	for _, c := range []table.Column{{Name: "interval"}, {Name: "CRPS", Align: table.Right}, {Name: "in 80 %", Align: table.Right, Drop: 1}, {Name: "PIT", Drop: 2}} {
		c.Name = shown.String() + ": " + c.Name
		c.Wrap, c.MinWidth = true, 9
		t.Columns = append(t.Columns, c)
	}
	pen := chart.Pen{ASCII: s.app.ascii}
	last := ""
	for i, x := range scores {
		if x.By != shown {
			continue
		}
		event := sentences.Event(s.app.unit(), x.Event)
		if event == last {
			event = ""
		} else {
			last = event
		}
		row := []table.Cell{table.Text(event), table.Text(trainingName(x.Training)), table.Textf("%d", x.Seasons)}
		for _, by := range replay.Ways {
			if s.app.by == "" || by == shown {
				row = append(row, ratioCell(sibling(scores, i, by)))
			}
		}
		interval := table.Textf("%.2f-%.2f", x.Ratio.Low, x.Ratio.High)
		if math.IsNaN(x.Ratio.Value) {
			interval = table.Text(words.Dash)
		}
		row = append(row, interval, table.Text(s.words().CRPS(x)),
			table.Textf("%.0f %%", 100*x.Within80), table.Text(pen.Spark(x.PIT, 0, 0.25)))
		t.Add(row...)
	}
	t.Notes = []string{
		"record, curve, weather: mean CRPS over that of a normal curve fitted to the 30 seasons before; below 1 is better. The interval is of 90 %.",
		"CRPS: by how much a forecast missed, its spread counted; for a single date it would be the error in days (d).",
		"in 80 %: share of seasons that fell between the dates with chances 1 and 9 in 10; 80 % is right.",
		"PIT: where the seasons fell in their forecasts, from early to late; level is right, high ends are too sure.",
		"A season without the event counts as having it at midwinter. A forecast for a season uses only days before it began.",
	}
	return t
}

// shownWay is the way asked for, or the best.
func (s *session) shownWay(scores []replay.Score) climate.By {
	if own := s.wanted(scores); s.app.by != "" && len(own) > 0 {
		return own[0].By
	}
	return replay.BestWay(scores)
}

// sibling is the score of the same event and training by another way, nil where there is none.
func sibling(scores []replay.Score, i int, by climate.By) *replay.Score {
	for j := range scores {
		if o := &scores[j]; o.By == by && o.Training == scores[i].Training && o.Event.Same(scores[i].Event) {
			return o
		}
	}
	return nil
}

func ratioCell(x *replay.Score) table.Cell {
	if x == nil || math.IsNaN(x.Ratio.Value) {
		return table.Cell{Text: "not known", Tone: table.Quiet}
	}
	return table.Cell{Text: fmt.Sprintf("%.2f", x.Ratio.Value), Tone: ratioTone(x.Ratio)}
}

func trainingName(training int) string {
	if training == replay.All {
		return "all"
	}
	return strconv.Itoa(training)
}

// ratioTone marks a ratio whose interval leaves no doubt.
func ratioTone(r replay.Ratio) table.Tone {
	switch {
	case r.High < 1:
		return table.Good
	case r.Low > 1:
		return table.Doubtful
	}
	return table.Plain
}

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
		Title: fmt.Sprintf("Did the chances come true? By %s, learnt from %s; all events, each asked about on 5 days", by, sentences.Training(most)),
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

// skillCSV is the table for programs: a line for each score.
func (s *session) skillCSV(scores []replay.Score) table.Table {
	t := table.Table{}
	for _, k := range []string{"event", "threshold_c", "by", "training", "seasons_scored", "unit", "crps", "ratio_to_curve_30",
		"ratio_low", "ratio_high", "bias", "covered_80", "covered_90", "brier", "brier_reliability", "brier_resolution", "brier_uncertainty"} {
		t.Columns = append(t.Columns, table.Column{Name: k, Key: k})
	}
	pit := table.Column{Name: "pit", Keys: []string{}}
	for i := range scores[0].PIT {
		pit.Keys = append(pit.Keys, fmt.Sprintf("pit_%d", i+1))
	}
	t.Columns = append(t.Columns, pit)
	for _, x := range s.wanted(scores) {
		unit := "degree_days"
		if x.Event.Dates {
			unit = "days"
		}
		t.Add(table.Text(x.Event.Name), words.Number(x.Event.Threshold, -1), table.Text(x.By.String()), table.Text(trainingName(x.Training)),
			table.Textf("%d", x.Seasons), table.Text(unit), words.Number(x.CRPS, 4), words.Number(x.Ratio.Value, 4),
			words.Number(x.Ratio.Low, 4), words.Number(x.Ratio.High, 4), words.Number(x.Bias, 2),
			words.Number(x.Within80, 3), words.Number(x.Within90, 3), words.Number(x.Brier.Score, 5),
			words.Number(x.Brier.Reliability, 5), words.Number(x.Brier.Resolution, 5), words.Number(x.Brier.Uncertainty, 5), pitCell(x.PIT))
	}
	return t
}

// pitCell has where the seasons fell in their forecasts, a column a tenth.
func pitCell(pit []float64) table.Cell {
	var data []string
	for _, v := range pit {
		data = append(data, words.NumberData(v, 3))
	}
	return table.Data("", data...)
}
