package nights

import (
	"fmt"
	"math"
	"strings"
	"time"

	"frostward/climate"
	"frostward/climate/night"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// atRisk is the chance of harm from which a planting that is to be left is listed.
const atRisk = 0.05

// AheadTable has a column for each evening of the forecast, and a line for each spot and for each
// planting at risk on any of them.
func (n Night) AheadTable(later []Night, u words.Units) table.Table {
	t := table.Table{Title: "The nights ahead: chance of harm to bare plants, * where covering or carrying in is worth it",
		Columns: []table.Column{{Name: "night to", Wrap: true, MinWidth: 12}}}
	all := append([]Night{n}, later...)
	said := []table.Cell{table.Text("forecast, " + u.Unit())}
	var spots, rows [][]table.Cell
	for _, sp := range n.Spots {
		spots = append(spots, []table.Cell{table.Text(fmt.Sprintf("%s, %s", sp.Name, u.Unit()))})
	}
	risky := make([]bool, len(n.Out))
	for i := range n.Out {
		rows = append(rows, []table.Cell{table.Text(n.Out[i].Label())})
	}
	left := 0
	for k, at := range all {
		_, sd := n.garden.Calendar.Locate(at.Evening + 1)
		t.Columns = append(t.Columns, table.Column{Name: n.garden.Calendar.Words(sd), Key: (at.Evening + 1).String(), Align: table.Right, Drop: max(0, k-2)})
		said = append(said, u.Cell(at.Spots[0].In.Forecast))
		for i, sp := range n.Spots {
			cell := table.Text("")
			for _, other := range at.Spots {
				if other.Name == sp.Name && other.Out.Known {
					cell = u.Cell(other.Out.Tmin)
				}
			}
			spots[i] = append(spots[i], cell)
		}
		for i := range n.Out {
			cell := table.Text("")
			for _, p := range at.Out {
				if p.Row == n.Out[i].Row {
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
func aheadCell(p Planting) table.Cell {
	c := p.Advice.Choices[0].Damaged
	cell := words.Percent(c.Share)
	if p.Advice.Do().Action != risk.Leave {
		cell.Text, cell.Tone = "* "+cell.Text, table.Bad
	}
	return cell
}

// MethodTable shows each method's number at each spot.
func (n Night) MethodTable(sun climate.SunTimes, u words.Units) table.Table {
	out := table.Table{
		Title: "Why: the night's minimum",
		Columns: []table.Column{
			{Name: "spot", Wrap: true, MinWidth: 8}, {Name: "method", Wrap: true, MinWidth: 16}, {Name: "says", Unit: u.Unit(), Align: table.Right}, {Name: "for", Drop: 1},
			{Name: "so here", Unit: u.Unit(), Align: table.Right}, {Name: "±", Unit: u.Unit(), Key: "sd_c", Align: table.Right},
			{Name: "weight", Align: table.Right}, {Name: "nights logged", Align: table.Right, Wrap: true, MinWidth: 6, Drop: 2},
		},
	}
	for _, t := range n.Spots {
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
			out.Add(table.Text(t.Name), table.Text(sentences.Method(m.Kind)), u.Cell(m.Said), table.Text(where), u.Cell(m.Tmin), table.Textf("%.1f", u.Difference(m.SD)),
				table.Textf("%.0f %%", 100*m.Weight), table.Textf("%d", m.Nights))
		}
		if said > 1 {
			out.Add(table.Text(t.Name), table.Text("together"), table.Text(""), table.Text(""), u.Cell(t.Out.Tmin), table.Textf("%.1f", u.Difference(t.Out.SD)), table.Text(""), table.Text(""))
		}
		low, high := t.Out.Interval()
		out.Notes = append(out.Notes, fmt.Sprintf("%s: in 9 nights of 10 between %s and %s %s.", t.Name, u.Cell(low).Text, u.Cell(high).Text, u.Unit()))
		if w := n.reaches(t, sun, u); w != "" {
			out.Notes = append(out.Notes, w)
		}
	}
	return out
}

// reaches says when a limit is likely to be reached, where the evening's cooling is known.
func (n Night) reaches(t *Spot, sun climate.SunTimes, u words.Units) string {
	if math.IsNaN(t.In.Reading) || math.IsNaN(sun.Set) || sun.Set == 0 {
		return ""
	}
	limit := math.Inf(-1)
	for _, p := range n.Out {
		if p.At == t {
			limit = max(limit, p.Advice.Exposed.SetBack)
		}
	}
	h := night.Reaches(limit, t.In.Reading, t.Out.Tmin, t.In.Length)
	if math.IsInf(h, 1) {
		return ""
	}
	return fmt.Sprintf("If it cools as on a clear night, %s is reached about %s.", u.Degrees(math.Round(limit*10)/10), clock(n.Evening, sun.Set+h))
}

// Why says what the numbers rest on, what would sharpen them, and the usual cautions.
func (n Night) Why(sun, next climate.SunTimes, hot []string, u words.Units) (out []sentences.Line) {
	say := func(label, text string) { out = append(out, sentences.Line{Label: label, Text: text}) }
	c, assumed := n.garden.Settings.Costs.Assumed()
	from := "costs in garden.yaml"
	if assumed {
		from = "assumed, where garden.yaml does not give them under costs"
	}
	work := fmt.Sprintf("a cover costs %.1f %s, a planting set back %.1f, one killed %.1f (%s).", c.Cover, n.garden.Settings.Costs.Unit, c.SetBack, c.Lost, from)
	say("costs", work)
	if len(n.garden.Covers()) > 0 {
		var g []string
		for _, c := range n.garden.Covers() {
			g = append(g, fmt.Sprintf("%s %+.1f ± %.1f %s", c.Name, u.Difference(c.Gain), u.Difference(c.Spread), u.Unit()))
		}
		say("covers", "gain of the night's minimum, which can be nothing or less: "+strings.Join(g, ", ")+".")
	}
	if len(n.Waiting) > 0 {
		say("left out", words.List(n.Waiting)+": not up yet, or the night is not known there.")
	}
	if math.IsNaN(n.Spots[0].In.Tmax) {
		say("to do", "the record does not have the day's maximum, which separates clear nights from dull ones: --max gives it.")
	}
	label := "no say"
	for _, m := range n.Spots[0].Out.Methods {
		if m.Lack != risk.LacksNothing {
			say(label, sentences.Method(m.Kind)+": "+sentences.NoSay(m)+".")
			label = ""
		}
	}
	if !math.IsNaN(sun.Set) && sun.Set != 0 {
		say("sun", fmt.Sprintf("sets %s, rises %s; two hours after sunset, the time for readings, is %s.",
			clock(n.Evening, sun.Set), clock(n.Evening+1, next.Rise), clock(n.Evening, sun.Set+2)))
	}
	for _, w := range hot {
		say("by day", w)
	}
	for _, p := range n.Out {
		if p.Advice.Do().Action != risk.Leave {
			say("caution", "Cover before dark. No flame, burner or unguarded heater under fleece, in a frame, tunnel or closed greenhouse: "+
				"they burn and they poison the air. Leave ladders and glass until daylight. Where a weather service warns or a local rule says otherwise, that goes first.")
			break
		}
	}
	return out
}

// clock is an instant, in hours from 0 h UTC of a day, on the computer's clock.
func clock(d climate.Day, hours float64) string {
	return time.Unix(int64(d)*86400+int64(math.Round(hours*60))*60, 0).In(time.Local).Format("15:04 MST")
}
