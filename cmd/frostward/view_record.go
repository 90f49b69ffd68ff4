package main

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
)

// recordSection says what was read and what of it counts.
func (v *viewing) recordSection() page.Section {
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
	s := page.Section{Tables: []table.Table{t}, Notes: v.waysWords()[1:]}
	d := climate.DatesOf(climate.Recorded(v.Masked, v.Settings.Latitude, v.First, v.Last), 0, climate.WMO)
	spring, _ := counted(d.Spring)
	autumn, _ := counted(d.Autumn)
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
