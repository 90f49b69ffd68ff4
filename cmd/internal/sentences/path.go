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

// Path is a planting's way from seed to free bed, in dates.
func (w In) Path(g *opened.Garden, p opened.Planned, x risk.Assessment) string {
	r := x.Result
	var steps []string
	add := func(format string, args ...any) { steps = append(steps, fmt.Sprintf(format, args...)) }
	under := ""
	if c := r.Planting.Cover.Name; c != "" {
		under = " under " + c
	}
	if p.Raised {
		add("sow under cover %s", w.Calendar.Words(p.Sow))
		if h := x.Hardening; len(h.Nights) > 0 {
			add("harden off from %s (%s)", w.Calendar.Words(h.From), g.HardensAt())
		}
		add("plant out %s%s", w.Calendar.Words(p.Start), under)
	} else {
		add("sow in place %s%s", w.Calendar.Words(p.Start), under)
		if !math.IsNaN(r.UpOn) && !math.IsInf(r.UpOn, 0) {
			add("up about %s", w.Calendar.Words(climate.SeasonDay(r.UpOn)))
		}
	}
	pick, free := w.Picking(r), x.Cleared()
	if pick == words.Dash { // it fails in half the years or more
		if well, freed := r.WhenItSucceeds(); !math.IsNaN(well) {
			add("where it succeeds pick from about %s and have the bed free about %s", words.Day(w.Calendar, well), words.Day(w.Calendar, freed))
		}
		return strings.Join(steps, ", ") + "."
	}
	add("pick from about %s", pick)
	if free.Known && !math.IsInf(free.Value, 0) {
		add("bed free about %s", words.Day(w.Calendar, free.Value))
	}
	return strings.Join(steps, ", ") + "."
}

// Changes says which plantings to move, and which no day makes sound.
func (w In) Changes(assessed []risk.Assessment, aim float64) string {
	var move, none []string
	for i := range assessed {
		x := &assessed[i]
		label := x.Result.Planting.Label()
		switch b, ok := x.Better(); {
		case !x.Verdict.Fails():
		case ok && b.Succeeds.Share >= x.Aim:
			move = append(move, fmt.Sprintf("%s to %s (%.0f %%)", label, w.Calendar.Words(b.Day), 100*b.Succeeds.Share))
		case ok:
			none = append(none, fmt.Sprintf("%s (best %s, %.0f %%)", label, w.Calendar.Words(b.Day), 100*b.Succeeds.Share))
		default:
			none = append(none, label)
		}
	}
	var said []string
	if len(move) > 0 {
		said = append(said, "move "+words.List(move)+".")
	}
	if len(none) > 0 {
		said = append(said, fmt.Sprintf("No day reaches %.0f %% for %s.", 100*aim, words.List(none)))
	}
	if len(said) == 0 {
		said = append(said, "nothing.")
	}
	return "To change: " + strings.Join(said, " ")
}

// Explained is what the plan says of one planting: the verdict, its path from seed to free
// bed, the hardening off, and why it scores as it does.
func (w In) Explained(g *opened.Garden, p opened.Planned, x risk.Assessment, lately string) (title string, out []Line) {
	say := func(label, text string) { out = append(out, Line{label, text}) }
	r := x.Result
	head := p.Label()
	if p.Name != "" && !strings.EqualFold(p.Name, p.Crop.Label()) {
		head += " (" + p.Crop.Label() + ")"
	}
	if p.Row.Variety != "" {
		head += ", " + p.Row.Variety
	}
	outcome := "not known whether it succeeds"
	if r.Succeeds.Known {
		outcome = fmt.Sprintf("succeeds in %s (%s %%)", words.InYears(r.Succeeds.Share), words.Interval(r.Succeeds))
	}
	title = fmt.Sprintf("%s, %s: %s, %s", head, p.Where.Name, x.Verdict, outcome)
	say("path", w.Path(g, p, x))
	if len(x.Hardening.Nights) > 0 {
		say("hardening", w.Hardening(x.Hardening)+w.HardeningNights(x.Hardening))
	}
	if !x.Reserved.None() {
		c := g.Settings.Costs
		say("reserve", w.Reserved(&x, c.OfReserve(x.Reserved.Reserve), c.Lost, c.Unit))
	}
	say("why", strings.Join(w.Reasons(&x), " "))
	if lately != "" {
		say("years", lately)
	}
	if p.Row.Own != "" {
		say("own", p.Row.Own)
	}
	return title, out
}
