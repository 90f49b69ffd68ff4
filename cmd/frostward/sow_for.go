package main

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// dated are the sowings for a fixed date: those that do as well as aimed for, and the surest.
type dated struct {
	date  climate.SeasonDay
	all   []risk.Standing
	first int // the first and last that meet the aim, -1: none
	last  int
	best  int
}

// longestWait is how long before a date a sowing for it is looked for, in days.
const longestWait = 340

// fixedDate tells when to sow to have the crop on a day.
func (w *sowing) fixedDate(text string) error {
	date, err := w.s.Calendar.Parse(text)
	if err != nil {
		return usage(fmt.Errorf("--for: %w", err))
	}
	got := w.findFor(date)
	a := w.s.app
	if a.format == table.JSON {
		return a.writeJSON(w.datedJSON(got))
	}
	if a.format == table.TextFormat {
		a.paragraph(a.out, w.datedWords(got), 0)
		fmt.Fprintln(a.out)
	}
	t := table.Table{Columns: []table.Column{
		{Name: "sow"}, {Name: "plant out", Key: "plant_out"}, {Name: "ready by then", Key: "ready", Align: table.Right},
		{Name: "ready and good", Key: "good", Align: table.Right}, {Name: "90 % interval", Key: "interval", Drop: 1}, {Name: "chance", Key: "bar", Drop: 2}, {Name: "", Key: "mark"},
	}}
	if !w.p.Raised {
		t.Columns = append(t.Columns[:1:1], t.Columns[2:]...)
	}
	for i, x := range got.all {
		mark := ""
		switch i {
		case got.best:
			mark = "surest"
		case got.first:
			mark = "first"
		case got.last:
			mark = "last"
		default:
			if a.format == table.TextFormat && (i%7 != 0 || !x.Good.Known || x.Good.Share < 0.05) {
				continue
			}
		}
		cells := []table.Cell{table.Text(w.day(w.sown(x.Planting)))}
		if w.p.Raised {
			cells = append(cells, table.Text(w.day(x.Planting.Start)))
		}
		t.Add(append(cells, share(x.Ready), share(x.Good), intervalOf(x.Good), table.Cell{Text: a.bar(x.Good), Data: words.Dash}, table.Text(mark))...)
	}
	return t.Write(a.out, a.tables())
}

func (w *sowing) findFor(date climate.SeasonDay) dated {
	// A day that lies before the customary time, or hardly after it, is that of the next year.
	if float64(date) < orElse(w.p.Crop.OutFrom, 0)+21 {
		date += climate.YearDays
	}
	from := max(date-longestWait, climate.SpanFrom+30)
	got := dated{date: date, first: -1, last: -1, best: -1,
		all: risk.StandingOn(w.field, w.p, climate.Window{From: from, To: date - 7}, 1, date)}
	for i, x := range got.all {
		if !x.Good.Known || x.Good.Share == 0 {
			continue
		}
		if got.best < 0 || x.Good.Share > got.all[got.best].Good.Share {
			got.best = i
		}
		if x.Good.Share >= w.aim {
			if got.first < 0 {
				got.first = i
			}
			got.last = i
		}
	}
	if got.best >= 0 { // of days as sure, the middle one
		end := got.best
		for end+1 < len(got.all) && got.all[end+1].Good.Share == got.all[got.best].Good.Share {
			end++
		}
		got.best = (got.best + end) / 2
	}
	return got
}

func (w *sowing) datedWords(got dated) string {
	head := fmt.Sprintf("%s for %s", w.head(), w.day(got.date))
	if len(got.all) > 0 && !got.all[len(got.all)/2].Good.Known {
		return head + ": not known; too few seasons can be played through."
	}
	if got.best < 0 {
		return head + ": no sowing has it ready and good on that day in any season."
	}
	how := func(i int) string {
		p := got.all[i].Planting
		if p.Raised {
			return fmt.Sprintf("%s (out %s)", w.day(p.Sow), w.day(p.Start))
		}
		return w.day(p.Start)
	}
	best := got.all[got.best].Good
	surest := fmt.Sprintf("The surest is %s: ready and still good on the day in %s (%s %%).", how(got.best), words.InYears(best.Share), words.Interval(best))
	if got.first < 0 {
		return fmt.Sprintf("%s: no sowing has it ready and good in at least %.0f %% of the years. %s", head, 100*w.aim, surest)
	}
	verb := "sow under cover"
	if !w.p.Raised {
		verb = "sow in place"
	}
	return fmt.Sprintf("%s: %s from %s to %s to have it in at least %.0f %% of the years. %s", head, verb, how(got.first), how(got.last), 100*w.aim, surest)
}
