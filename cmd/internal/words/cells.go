package words

import (
	"fmt"
	"math"
	"strconv"

	"frostward/climate"
	"frostward/cmd/internal/table"
	"frostward/risk"
)

// Share is a chance in a table: per cent, with the whole number in CSV as a share.
func Share(c climate.Chance) table.Cell {
	if !c.Known {
		return table.Cell{Text: "not known", Tone: table.Quiet}
	}
	return table.Cell{Text: fmt.Sprintf("%.0f %%", 100*c.Share), Data: fmt.Sprintf("%.3f", c.Share)}
}

// IntervalCell is a chance's interval in a table.
func IntervalCell(c climate.Chance) table.Cell {
	if !c.Known {
		return table.Text(Dash)
	}
	return table.Text(Interval(c) + " %")
}

// Picking is the likely first picking: the median over the seasons, where at least half
// succeed.
func (w In) Picking(r risk.Result) string {
	if q := r.Harvest[1]; q.Known {
		return Day(w.Calendar, q.Value)
	}
	return Dash
}

// Nights are the cold nights of a season: the median, and those of 9 seasons in 10.
func Nights(r risk.Result) table.Cell {
	m, n := r.ColdNights[0], r.ColdNights[1]
	if !m.Known {
		return table.Text(Dash)
	}
	return table.Textf("%.0f-%.0f", m.Value, n.Value)
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
	return table.Cell{Text: text, Data: strconv.FormatFloat(math.Round(celsius*100)/100, 'f', -1, 64)}
}
