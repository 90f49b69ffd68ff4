package main

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// writeOutlook prints the outlook: the table first, then what it means, planting by planting.
func (s *session) writeOutlook(asOf climate.Day, opt risk.OutlookOptions, out []looked) error {
	a := s.app
	if len(out) == 0 {
		fmt.Fprintf(a.out, "%s: nothing is in the ground on %s.\n", s.Settings.Name, words.Date(asOf))
		return nil
	}
	t := table.Table{
		Title: fmt.Sprintf("%s: outlook as of %s", s.Settings.Name, words.Date(asOf)),
		Columns: []table.Column{
			{Name: "planting", Wrap: true, MinWidth: 14},
			{Name: "in since", Key: "in_since", Drop: 2},
			{Name: "ready", Key: "ready"},
			{Name: "8 years in 10", Key: "ready_10_90"},
			{Name: "usual", Key: "usual", Drop: 1},
			{Name: "before frost", Key: "before_frost", Align: table.Right, Wrap: true, MinWidth: 6},
			{Name: "before short days", Key: "before_light_line", Align: table.Right, Wrap: true, MinWidth: 6},
			{Name: "give up", Key: "give_up"},
		},
	}
	if opt.HasBy {
		t.Columns = append(t.Columns, table.Column{Name: "by " + s.Calendar.Words(opt.By), Key: "by_date", Align: table.Right})
	}
	for _, l := range out {
		o := l.outlook
		cells := []table.Cell{table.Text(l.Label()), table.Text(s.Calendar.Words(l.Start)), table.Text(words.Day(s.Calendar, orNaN(o.Ready[1]))),
			table.Text(s.span(o.Ready)), table.Text(words.Day(s.Calendar, orNaN(o.Usual[1]))), share(o.Ripens), share(o.Light),
			table.Text(words.Day(s.Calendar, o.GiveUp))}
		if opt.HasBy {
			cells = append(cells, share(o.ByDate))
		}
		t.Add(cells...)
	}
	most := 0
	for _, l := range out {
		most = max(most, l.outlook.Ripens.Seasons)
	}
	t.Notes = append(t.Notes, fmt.Sprintf("shares of up to %s, without those whose nights would have killed what is alive; short days: too short to grow in; give up: if it is not ready by then.",
		words.Plural(most, "season")))
	if err := t.Write(a.out, a.tables()); err != nil {
		return err
	}
	s.drawOutlook(out)
	if a.format == table.TextFormat {
		for _, l := range out {
			fmt.Fprintln(a.out)
			a.explainOutlook(s, l)
		}
	}
	return nil
}

// span says the 10 and 90 % dates: "2 Jul to 14 Jul".
func (s *session) span(q [3]climate.Quantile) string {
	if !q[0].Known || math.IsInf(q[0].Value, 0) {
		return words.Dash
	}
	if math.IsInf(q[2].Value, 0) {
		return "from " + words.Day(s.Calendar, q[0].Value)
	}
	if math.Round(q[0].Value) == math.Round(q[2].Value) {
		return words.Day(s.Calendar, q[0].Value)
	}
	return words.Day(s.Calendar, q[0].Value) + " to " + words.Day(s.Calendar, q[2].Value)
}

// explainOutlook prints what the outlook says of one planting.
func (a *app) explainOutlook(s *session, l looked) {
	head := l.Label()
	if l.Name != "" && !strings.EqualFold(l.Name, l.Crop.Label()) {
		head += " (" + l.Crop.Label() + ")"
	}
	since := ", planned out on " + s.Calendar.Words(l.Start)
	if l.logged {
		since = ", out since " + s.Calendar.Words(l.Start)
	}
	a.paragraph(a.out, head+", "+l.Where.Name+since, 2)
	o := l.outlook
	a.labelled(a.out, "ready", s.readyWords(o))
	if !o.Ripens.Known {
		return
	}
	if !isReady(o) {
		a.labelled(a.out, "chances", s.chanceWords(l))
	}
	if w := s.giveUpWords(l); w != "" {
		a.labelled(a.out, "the bed", w)
	}
}

// isReady tells whether it was ready on the last known day, in 9 years in 10 of what its spot's
// nights may have been.
func isReady(o risk.Outlook) bool {
	return o.Ready[2].Known && o.Ready[2].Value <= float64(o.AsOf)
}

func (s *session) readyWords(o risk.Outlook) string {
	ready := o.Ready[1]
	switch {
	case !ready.Known:
		return fmt.Sprintf("Not known: only %d of the seasons before can be played through, and at least %d are needed.", o.Ripens.Seasons, climate.MinSeasons)
	case math.IsInf(ready.Value, 0):
		return "Not in most years."
	case isReady(o):
		text := fmt.Sprintf("Since about %s.", words.Day(s.Calendar, ready.Value))
		if free := o.FreeOn()[1]; free.Known && free.Value > float64(o.AsOf) && !math.IsInf(free.Value, 0) {
			text += fmt.Sprintf(" Picking goes on until about %s.", words.Day(s.Calendar, free.Value))
		}
		return text
	}
	text := fmt.Sprintf("About %s", words.Day(s.Calendar, ready.Value))
	if o.Ready[0].Value != o.Ready[2].Value && !math.IsInf(o.Ready[2].Value, 0) {
		text += fmt.Sprintf(" (%s in 8 years in 10)", s.span(o.Ready))
	}
	if math.IsInf(o.Ready[2].Value, 0) {
		text += ", if at all"
	}
	if usual := o.Usual[1]; usual.Known && !math.IsInf(usual.Value, 0) {
		switch late := math.Round(ready.Value) - math.Round(usual.Value); {
		case late > 0:
			text += fmt.Sprintf(", %s later than usual", words.Plural(int(late), "day"))
		case late < 0:
			text += fmt.Sprintf(", %s earlier than usual", words.Plural(int(-late), "day"))
		default:
			text += ", as usual"
		}
	}
	return text + "."
}

// chanceWords says what may still go wrong, and what a cover in autumn adds.
func (s *session) chanceWords(l looked) string {
	o := l.outlook
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	add("Ready before frost kills it: %s.", words.Percent(o.Ripens))
	if o.Worth.Share < o.Ripens.Share-0.005 {
		add("In time for a picking worth the bed: %s.", words.Percent(o.Worth))
	}
	if !o.NoLine && o.Light.Known && o.Light.Share < o.Ripens.Share {
		add("Before the short days, from about %s, in which little grows: %s.", s.Calendar.Words(o.LightLine), words.Percent(o.Light))
	}
	if o.ByDate.Known {
		add("By %s: %s.", s.Calendar.Words(o.Date), words.Percent(o.ByDate))
	}
	cover := s.OtherCover().Name
	switch gain := o.Covered.Share - o.Ripens.Share; {
	case l.Cover.Name != "" || !o.Covered.Known:
	case gain >= 0.01:
		add("Under %s from autumn on: %s.", cover, words.Percent(o.Covered))
	case o.CoverSaves >= 1:
		add("%s in autumn would add about %s of picking.", words.Capital(cover), words.Plural(int(o.CoverSaves+0.5), "day"))
	}
	return strings.Join(out, " ")
}

// giveUpWords says when to give the bed to something else, and who waits for it.
func (s *session) giveUpWords(l looked) string {
	o := l.outlook
	var out []string
	switch {
	case math.IsInf(o.GiveUp, 1):
	case o.GiveUp <= float64(o.AsOf):
		out = append(out, "Give it up: hardly a season is left in which it is worth waiting for.")
	default:
		out = append(out, fmt.Sprintf("If it is not ready by %s, give it up.", words.Day(s.Calendar, o.GiveUp)))
	}
	if n := l.next; n != nil && n.InTime.Known && !(n.Free[1].Value <= float64(o.AsOf)) {
		text := fmt.Sprintf("%s wants the bed on %s: free by then in %s", words.Capital(n.Label()), s.Calendar.Words(n.Start), words.InYears(n.InTime.Share))
		if free := n.Free[1]; free.Known && !math.IsInf(free.Value, 0) {
			text += fmt.Sprintf(", most likely on %s", words.Day(s.Calendar, free.Value))
		}
		out = append(out, text+".")
	}
	return strings.Join(out, " ")
}
