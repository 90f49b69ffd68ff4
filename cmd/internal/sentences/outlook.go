package sentences

import (
	"fmt"
	"math"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// Ready says when a planting in the ground will be ready.
func (w In) Ready(o risk.Outlook) string {
	ready := o.Ready[1]
	switch {
	case !ready.Known:
		return fmt.Sprintf("Not known: only %d of the seasons before can be played through, and at least %d are needed.", o.Ripens.Seasons, climate.MinSeasons)
	case math.IsInf(ready.Value, 0):
		return "Not in most years."
	case o.IsReady():
		text := fmt.Sprintf("Since about %s.", words.Day(w.Calendar, ready.Value))
		if free := o.FreeOn()[1]; free.Known && free.Value > float64(o.AsOf) && !math.IsInf(free.Value, 0) {
			text += fmt.Sprintf(" Picking goes on until about %s.", words.Day(w.Calendar, free.Value))
		}
		return text
	}
	text := fmt.Sprintf("About %s", words.Day(w.Calendar, ready.Value))
	if o.Ready[0].Value != o.Ready[2].Value && !math.IsInf(o.Ready[2].Value, 0) {
		text += fmt.Sprintf(" (%s in 8 years in 10)", w.Span(o.Ready))
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

// OutlookChances says what may still go wrong, and what a cover in autumn adds.
func (w In) OutlookChances(o risk.Outlook, cover string) string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	add("Ready before frost kills it: %s.", words.WithInterval(o.Ripens))
	if o.Worth.Share < o.Ripens.Share-0.005 {
		add("In time for a picking worth the bed: %s.", words.WithInterval(o.Worth))
	}
	if !o.NoLine && o.Light.Known && o.Light.Share < o.Ripens.Share {
		add("Before the short days, from about %s, in which little grows: %s.", w.day(o.LightLine), words.WithInterval(o.Light))
	}
	if o.ByDate.Known {
		add("By %s: %s.", w.day(o.Date), words.WithInterval(o.ByDate))
	}
	switch gain := o.Covered.Share - o.Ripens.Share; {
	case o.Planting.Cover.Name != "" || !o.Covered.Known:
	case gain >= 0.01:
		add("Under %s from autumn on: %s.", cover, words.WithInterval(o.Covered))
	case o.CoverSaves >= 1:
		add("%s in autumn would add about %s of picking.", words.Capital(cover), words.Plural(int(o.CoverSaves+0.5), "day"))
	}
	return strings.Join(out, " ")
}

// GiveUp says when to give the bed to something else, and who waits for it.
func (w In) GiveUp(o risk.Outlook, next string, h risk.Handover, start climate.SeasonDay) string {
	var out []string
	switch {
	case math.IsInf(o.GiveUp, 1):
	case o.GiveUp <= float64(o.AsOf):
		out = append(out, "Give it up: hardly a season is left in which it is worth waiting for.")
	default:
		out = append(out, fmt.Sprintf("If it is not ready by %s, give it up.", words.Day(w.Calendar, o.GiveUp)))
	}
	if h.InTime.Known && !(h.Free[1].Value <= float64(o.AsOf)) {
		text := fmt.Sprintf("%s wants the bed on %s: free by then in %s", words.Capital(next), w.day(start), words.InYears(h.InTime.Share))
		if free := h.Free[1]; free.Known && !math.IsInf(free.Value, 0) {
			text += fmt.Sprintf(", most likely on %s", words.Day(w.Calendar, free.Value))
		}
		out = append(out, text+".")
	}
	return strings.Join(out, " ")
}

// LookedOut is what the outlook says of one planting.
func (w In) LookedOut(g *opened.Garden, l opened.LookedOut) (title string, out []Line) {
	say := func(label, text string) { out = append(out, Line{label, text}) }
	head := l.Label()
	if l.Name != "" && !strings.EqualFold(l.Name, l.Crop.Label()) {
		head += " (" + l.Crop.Label() + ")"
	}
	since := ", planned out on " + w.Calendar.Words(l.Start)
	switch {
	case l.Logged:
		since = ", out since " + w.Calendar.Words(l.Start)
	case l.Waited:
		since = ", out once its bed was free, about " + w.Calendar.Words(l.Start)
	}
	title = head + ", " + l.Where.Name + since
	o := l.Outlook
	say("ready", w.Ready(o))
	if !o.Ripens.Known {
		return title, out
	}
	if !o.IsReady() {
		say("chances", w.OutlookChances(o, g.OtherCover().Name))
	}
	var next opened.NextInBed
	if l.Next != nil {
		next = *l.Next
	}
	if bed := w.GiveUp(o, next.Label(), next.Handover, next.Start); bed != "" {
		say("the bed", bed)
	}
	return title, out
}
