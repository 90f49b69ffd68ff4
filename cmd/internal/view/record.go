package view

import (
	"fmt"
	"runtime"

	"frostward/climate"
	"frostward/climate/stat"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk/replay"
)

// recordSection says what was read and what of it counts.
func (v *Garden) recordSection() page.Section {
	r := v.Report
	t := table.Table{Columns: []table.Column{{Name: "of the record"}, {Name: "days", Align: table.Right}}}
	doubtful := map[climate.Day]bool{}
	for _, f := range v.Flags {
		doubtful[f.Day] = true
	}
	for _, line := range []struct {
		what string
		n    int
	}{
		{"from the first to the last", v.Record.Len()},
		{"with at least one temperature", r.Days},
		{"without a minimum", r.MissingTmin},
		{"without a maximum", r.MissingTmax},
		{"with a doubtful value, which is left out", len(doubtful)},
		{"that could not be read", r.FaultCount},
	} {
		t.Add(table.Text(line.what), table.Text(fmt.Sprint(line.n)))
	}
	s := page.Section{Tables: []table.Table{t}, Notes: v.Ways[1:]}
	d := climate.DatesOf(climate.Recorded(v.Masked, v.Settings.Latitude, v.First, v.Last), 0, climate.WMO)
	spring, _ := opened.Counted(d.Spring)
	autumn, _ := opened.Counted(d.Autumn)
	s.Lead = fmt.Sprintf("Of the seasons %d to %d the springs of %d and the autumns of %d are complete enough to count.", v.First, v.Last, spring, autumn)
	if len(d.LeftOut) > 0 {
		o := table.Table{Title: "Left out", Columns: []table.Column{{Name: "season"}, {Name: "half"}, {Name: "why"}}}
		const few = 8
		for i, l := range d.LeftOut {
			if i == few {
				o.Notes = append(o.Notes, fmt.Sprintf("And %d more; \"frostward check\" lists them.", len(d.LeftOut)-few))
				break
			}
			o.Add(table.Text(fmt.Sprint(l.Season)), table.Text(l.Half), table.Text(l.Why))
		}
		s.Tables = append(s.Tables, o)
	}
	return s
}

// skillSection replays the record for the frosts that the page shows, as they are shown
// here. It hangs on the record alone, so the garden as looked at before may have it already.
func (v *Garden) skillSection() page.Section {
	if b := v.Before; b != nil && v.SameRecord(b.Garden) {
		v.skill = b.skill
	}
	if v.skill == nil {
		s := v.replayed()
		v.skill = &s
	}
	return *v.skill
}

func (v *Garden) replayed() page.Section {
	by := v.Plays.Base.By
	h := replay.Hindcast{Record: v.Used(), Latitude: v.Settings.Latitude, Events: []replay.Event{replay.LastSpringFrost(0), replay.FirstAutumnFrost(0)},
		Training: []int{replay.All}, Ways: []climate.By{by}, Seed: v.Options.Seed, Worlds: opened.Worlds, PerWorld: opened.SeasonsInWorld, Workers: runtime.GOMAXPROCS(0)}
	scores := h.Run()
	if len(scores) == 0 {
		return page.Section{NotKnown: fmt.Sprintf("a season is scored when %d others came before it, and the record has too few", replay.Reference)}
	}
	t := table.Table{Title: "Replayed as if each season were still to come", Columns: []table.Column{
		{Name: "station's"}, {Name: "mean miss", Unit: "days", Align: table.Right}, {Name: "against the usual curve", Align: table.Right},
		{Name: "within 90 %", Align: table.Right}, {Name: "seasons scored", Align: table.Right}}}
	s := page.Section{}
	for _, sc := range scores {
		name := sentences.Event(v.Units, sc.Event)
		t.Add(table.Text(name), table.Textf("%.1f", sc.CRPS), table.Textf("%.2f (%.2f-%.2f)", sc.Ratio.Value, sc.Ratio.Low, sc.Ratio.High),
			table.Textf("%.0f %%", 100*sc.Within90), table.Textf("%d", sc.Seasons))
		s.Figures = append(s.Figures, page.Figure{Caption: words.Capital(name) + ": stated and seen", Chart: reliability(name, sc.Table)})
	}
	t.Notes = []string{"The miss is the CRPS: by how many days a forecast missed, its spread counted. Against the usual curve, a normal one on the 30 seasons before: below 1 is better."}
	s.Tables = []table.Table{t}
	s.Lead = fmt.Sprintf("Had each of the last %s been foretold from the seasons before it, its date would have lain within the 90 %% stated in %.0f %%.",
		words.Plural(scores[0].Seasons, "season"), 100*scores[0].Within90)
	return s
}

// reliability draws the chances stated on given days and what came of them.
func reliability(name string, issued []stat.Issued) chart.Reliability {
	c := chart.Reliability{Title: words.Capital(name) + ": chances stated and what came", Name: name,
		Desc: "Yes-or-no questions on the date, asked of each season replayed."}
	for _, b := range issued {
		if b.N <= 0 {
			continue
		}
		seen := b.Came / b.N
		low, high := stat.WilsonShare(seen, b.N, climate.Level)
		c.Bins = append(c.Bins, chart.Bin{Stated: b.Chance, Seen: seen, Low: low, High: high, Count: int(b.N + 0.5)})
	}
	return c
}
