package words

import (
	"fmt"
	"math"
	"strconv"

	"frostward/climate"
	"frostward/cmd/internal/table"
	"frostward/risk"
)

// Unknown is a cell of what is not known.
var Unknown = table.Cell{Text: "not known", Tone: table.Quiet}

// Percent is a share in a table: per cent, in CSV the share.
func Percent(share float64) table.Cell {
	if math.IsNaN(share) {
		return Unknown
	}
	return table.Data(fmt.Sprintf("%.0f %%", 100*share), ShareData(share))
}

// Share is a chance in a table.
func Share(c climate.Chance) table.Cell { return Percent(Of(c, c.Share)) }

// ShareData is a share in CSV, "" where it is not known.
func ShareData(share float64) string { return NumberData(share, 3) }

// NumberData is a number in CSV, "" where it is not known or without end.
func NumberData(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// Number is a number in a table with as many decimals, and in CSV.
func Number(v float64, decimals int) table.Cell {
	if s := NumberData(v, decimals); s != "" {
		return table.Text(s)
	}
	return Unknown
}

// IntervalCell is a chance's interval in a table, its ends in CSV.
func IntervalCell(c climate.Chance) table.Cell {
	if !c.Known {
		return table.Text(Dash)
	}
	return table.Data(Interval(c)+" %", ShareData(c.Low), ShareData(c.High))
}

// Ends are the headings in CSV of an interval of a column.
func Ends(key string) []string { return []string{key + "_low", key + "_high"} }

// DayCell is a day of the season in a table, MM-DD in CSV.
func (w In) DayCell(v float64) table.Cell { return table.Data(Day(w.Calendar, v), w.DayData(v)) }

// DayData is a day of the season in CSV, "" where there is none.
func (w In) DayData(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return w.Calendar.Format(climate.SeasonDay(math.Round(v)))
}

// SpanCell is the 10 and 90 % dates in a table.
func (w In) SpanCell(q [3]climate.Quantile) table.Cell {
	return table.Data(w.Span(q), w.DayData(OrNaN(q[0])), w.DayData(OrNaN(q[2])))
}

// Picking is the likely first picking: the median over the seasons, where at least half
// succeed.
func (w In) Picking(r risk.Result) string {
	if q := r.Harvest[1]; q.Known {
		return Day(w.Calendar, q.Value)
	}
	return Dash
}

// PickingCell is Picking in a table.
func (w In) PickingCell(r risk.Result) table.Cell {
	return table.Data(w.Picking(r), w.DayData(OrNaN(r.Harvest[1])))
}

// Nights are the cold nights of a season: the median, and those of 9 seasons in 10.
func Nights(r risk.Result) table.Cell {
	m, n := r.ColdNights[0], r.ColdNights[1]
	if !m.Known {
		return table.Text(Dash)
	}
	return table.Data(fmt.Sprintf("%.0f-%.0f", m.Value, n.Value), NumberData(m.Value, 0), NumberData(n.Value, 0))
}

// Tone is how a verdict is marked.
func Tone(v risk.Verdict) table.Tone {
	switch v {
	case risk.Sound:
		return table.Good
	case risk.Likely:
		return table.Doubtful
	case risk.NotKnown:
		return table.Quiet
	}
	return table.Bad
}

// OrNaN is a date, NaN where it is not known.
func OrNaN(q climate.Quantile) float64 {
	if !q.Known {
		return math.NaN()
	}
	return q.Value
}

// Beside is a share next to the verdict that compares it with the aim.
func Beside(c climate.Chance, aim float64) table.Cell {
	cell := Share(c)
	if c.Known {
		cell.Text = met(c, aim)
	}
	return cell
}

// Of is a share of a chance, NaN when it is not known.
func Of(c climate.Chance, share float64) float64 {
	if !c.Known {
		return math.NaN()
	}
	return share
}

// Cell is a temperature in a table whose heading has the unit.
func (u Units) Cell(celsius float64) table.Cell {
	if math.IsNaN(celsius) {
		return table.Text("")
	}
	text := strconv.FormatFloat(math.Round(u.Value(celsius)*10)/10+0, 'f', 1, 64)
	return table.Data(text, strconv.FormatFloat(math.Round(celsius*100)/100, 'f', -1, 64))
}

// Span says the 10 and 90 % dates: "2 Jul to 14 Jul".
func (w In) Span(q [3]climate.Quantile) string {
	if !q[0].Known || math.IsInf(q[0].Value, 0) {
		return Dash
	}
	if math.IsInf(q[2].Value, 0) {
		return "from " + Day(w.Calendar, q[0].Value)
	}
	if math.Round(q[0].Value) == math.Round(q[2].Value) {
		return Day(w.Calendar, q[0].Value)
	}
	return Day(w.Calendar, q[0].Value) + " to " + Day(w.Calendar, q[2].Value)
}
