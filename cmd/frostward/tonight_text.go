package main

import (
	"fmt"
	"math"
	"strings"
	"time"

	"frostward/climate"
	"frostward/climate/night"
	"frostward/cmd/internal/nights"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// write prints the night: what to do in one line, the plantings, and why.
func (v *evening) write(o tonightOptions) error {
	a := v.app
	text := a.format == table.TextFormat
	if text {
		a.paragraph(a.out, v.Headline(v.app.unit()), 2)
		fmt.Fprintln(a.out)
	}
	if err := v.Table(a.unit()).Write(a.out, a.tables()); err != nil || !text {
		return err
	}
	if len(v.later) > 0 {
		fmt.Fprintln(a.out)
		if err := v.aheadTable().Write(a.out, a.tables()); err != nil {
			return err
		}
	}
	fmt.Fprintln(a.out)
	if err := v.methodTable().Write(a.out, a.tables()); err != nil {
		return err
	}
	fmt.Fprintln(a.out)
	v.why()
	return nil
}

// atRisk is the chance of harm from which a planting that is to be left is listed.
const atRisk = 0.05

// aheadTable has a column for each evening of the forecast, and a line for each spot and for each
// planting at risk on any of them.
func (v *evening) aheadTable() table.Table {
	a := v.app
	t := table.Table{Title: "The nights ahead: chance of harm to bare plants, * where covering or carrying in is worth it",
		Columns: []table.Column{{Name: "night to", Wrap: true, MinWidth: 12}}}
	all := append([]nights.Night{v.Night}, v.later...)
	said := []table.Cell{table.Text("forecast, " + a.unit().Unit())}
	var spots, rows [][]table.Cell
	for _, sp := range v.Spots {
		spots = append(spots, []table.Cell{table.Text(fmt.Sprintf("%s, %s", sp.Name, a.unit().Unit()))})
	}
	risky := make([]bool, len(v.Out))
	for i := range v.Out {
		rows = append(rows, []table.Cell{table.Text(v.Out[i].Label())})
	}
	left := 0
	for k, n := range all {
		_, sd := v.Calendar.Locate(n.Evening + 1)
		t.Columns = append(t.Columns, table.Column{Name: v.Calendar.Words(sd), Key: (n.Evening + 1).String(), Align: table.Right, Drop: max(0, k-2)})
		said = append(said, a.unit().Cell(n.Spots[0].In.Forecast))
		for i, sp := range v.Spots {
			cell := table.Text("")
			for _, other := range n.Spots {
				if other.Name == sp.Name && other.Out.Known {
					cell = a.unit().Cell(other.Out.Tmin)
				}
			}
			spots[i] = append(spots[i], cell)
		}
		for i := range v.Out {
			cell := table.Text("")
			for _, p := range n.Out {
				if p.Row == v.Out[i].Row {
					cell = aheadCell(p)
					risky[i] = risky[i] || cell.Tone == table.Bad || p.Advice.Choices[0].Damaged.Share >= atRisk
				}
			}
			rows[i] = append(rows[i], cell)
		}
	}
	t.Rows = append([][]table.Cell{said}, spots...)
	for i, r := range rows {
		if risky[i] {
			t.Rows = append(t.Rows, r)
		} else {
			left++
		}
	}
	if left > 0 {
		t.Notes = append(t.Notes, fmt.Sprintf("%s out %s at less than %.0f %% risk on all these nights.", words.Plural(left, "other planting"), map[bool]string{true: "is", false: "are"}[left == 1], 100*atRisk))
	}
	return t
}

// aheadCell is the chance of harm to a bare planting on a night, marked where something is worth doing.
func aheadCell(p nights.Planting) table.Cell {
	c := p.Advice.Choices[0].Damaged
	cell := words.Percent(c.Share)
	if p.Advice.Do().Action != risk.Leave {
		cell.Text, cell.Tone = "* "+cell.Text, table.Bad
	}
	return cell
}

// methodTable shows each method's number at each spot.
func (v *evening) methodTable() table.Table {
	a := v.app
	out := table.Table{
		Title: "Why: the night's minimum",
		Columns: []table.Column{
			{Name: "spot", Wrap: true, MinWidth: 8}, {Name: "method", Wrap: true, MinWidth: 16}, {Name: "says", Unit: a.unit().Unit(), Align: table.Right}, {Name: "for", Drop: 1},
			{Name: "so here", Unit: a.unit().Unit(), Align: table.Right}, {Name: "±", Unit: a.unit().Unit(), Key: "sd_c", Align: table.Right},
			{Name: "weight", Align: table.Right}, {Name: "nights logged", Align: table.Right, Wrap: true, MinWidth: 6, Drop: 2},
		},
	}
	for _, t := range v.Spots {
		if !t.Out.Known {
			out.Notes = append(out.Notes, t.Name+": not known.")
			continue
		}
		said := 0
		for _, m := range t.Out.Methods {
			if m.Lack != risk.LacksNothing {
				continue
			}
			said++
			where := "spot"
			if m.Station {
				where = "station"
			}
			out.Add(table.Text(t.Name), table.Text(sentences.Method(m.Kind)), a.unit().Cell(m.Said), table.Text(where), a.unit().Cell(m.Tmin), table.Textf("%.1f", a.unit().Difference(m.SD)),
				table.Textf("%.0f %%", 100*m.Weight), table.Textf("%d", m.Nights))
		}
		if said > 1 {
			out.Add(table.Text(t.Name), table.Text("together"), table.Text(""), table.Text(""), a.unit().Cell(t.Out.Tmin), table.Textf("%.1f", a.unit().Difference(t.Out.SD)), table.Text(""), table.Text(""))
		}
		low, high := t.Out.Interval()
		out.Notes = append(out.Notes, fmt.Sprintf("%s: in 9 nights of 10 between %s and %s %s.", t.Name, a.unit().Cell(low).Text, a.unit().Cell(high).Text, a.unit().Unit()))
		if w := v.spotWords(t); w != "" {
			out.Notes = append(out.Notes, w)
		}
	}
	return out
}

// spotWords says when a limit is likely to be reached, where the evening's cooling is known.
func (v *evening) spotWords(t *nights.Spot) string {
	if math.IsNaN(t.In.Reading) || math.IsNaN(v.sun.Set) || v.sun.Set == 0 {
		return ""
	}
	limit := math.Inf(-1)
	for _, p := range v.Out {
		if p.At == t {
			limit = max(limit, p.Advice.Exposed.SetBack)
		}
	}
	h := night.Reaches(limit, t.In.Reading, t.Out.Tmin, t.In.Length)
	if math.IsInf(h, 1) {
		return ""
	}
	return fmt.Sprintf("If it cools as on a clear night, %s is reached about %s.", v.app.unit().Degrees(math.Round(limit*10)/10), clock(v.Evening, v.sun.Set+h))
}

// why says what the numbers rest on, what would sharpen them, and the usual cautions.
func (v *evening) why() {
	a := v.app
	c, assumed := v.Settings.Costs.Assumed()
	from := "costs in garden.yaml"
	if assumed {
		from = "assumed, where garden.yaml does not give them under costs"
	}
	work := fmt.Sprintf("a cover costs %.1f %s, a planting set back %.1f, one killed %.1f (%s).", c.Cover, v.Settings.Costs.Unit, c.SetBack, c.Lost, from)
	a.labelled(a.out, "costs", work)
	if len(v.Covers()) > 0 {
		var g []string
		for _, c := range v.Covers() {
			g = append(g, fmt.Sprintf("%s %+.1f ± %.1f %s", c.Name, a.unit().Difference(c.Gain), a.unit().Difference(c.Spread), a.unit().Unit()))
		}
		a.labelled(a.out, "covers", "gain of the night's minimum, which can be nothing or less: "+strings.Join(g, ", ")+".")
	}
	if len(v.Waiting) > 0 {
		a.labelled(a.out, "left out", words.List(v.Waiting)+": not up yet, or the night is not known there.")
	}
	if math.IsNaN(v.Spots[0].In.Tmax) {
		a.labelled(a.out, "to do", "the record does not have the day's maximum, which tells clear nights from dull ones: --max gives it.")
	}
	label := "no say"
	for _, m := range v.Spots[0].Out.Methods {
		if m.Lack != risk.LacksNothing {
			a.labelled(a.out, label, sentences.Method(m.Kind)+": "+sentences.NoSay(m)+".")
			label = ""
		}
	}
	if !math.IsNaN(v.sun.Set) && v.sun.Set != 0 {
		a.labelled(a.out, "sun", fmt.Sprintf("sets %s, rises %s; two hours after sunset, the time for readings, is %s.",
			clock(v.Evening, v.sun.Set), clock(v.Evening+1, v.next.Rise), clock(v.Evening, v.sun.Set+2)))
	}
	for _, w := range v.session.hot(v.Evening) {
		a.labelled(a.out, "by day", w)
	}
	for _, p := range v.Out {
		if p.Advice.Do().Action != risk.Leave {
			a.labelled(a.out, "caution", "Cover before dark. No flame, burner or unguarded heater under fleece, in a frame, tunnel or closed greenhouse: "+
				"they burn and they poison the air. Leave ladders and glass until daylight. Where a weather service warns or a local rule says otherwise, that goes first.")
			return
		}
	}
}

// clock is an instant, in hours from 0 h UTC of a day, on the computer's clock.
func clock(d climate.Day, hours float64) string {
	return time.Unix(int64(d)*86400+int64(math.Round(hours*60))*60, 0).In(time.Local).Format("15:04 MST")
}
