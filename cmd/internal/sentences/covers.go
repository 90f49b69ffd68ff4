package sentences

import (
	"fmt"
	"strings"

	"frostward/cmd/internal/words"
	"frostward/risk"
)

// Covers says how often the covers that are owned would not do, and what one more is worth a year in
// the unit of the garden's costs.
func Covers(wants []risk.CoverWant, unit string) string {
	var out []string
	costs, saves := false, false
	for _, w := range wants {
		if !w.Most.Known {
			continue
		}
		amount := func(v float64) string {
			if w.Have.Metres > 0 {
				return fmt.Sprintf("%.3g m of %s", v, w.Cover)
			}
			return fmt.Sprintf("%.0f of %s", v, w.Cover)
		}
		if w.Most.Value < 0.05 && w.Short.Share == 0 {
			if w.Counted {
				out = append(out, fmt.Sprintf("%s: what is owned does in every year.", words.Capital(w.Cover)))
			}
			continue
		}
		said := fmt.Sprintf("On the worst night of 1 year in 10 the plan wants %s or more at once", amount(w.Most.Value))
		if !w.Counted {
			out = append(out, said+"; how many are owned is not in garden.yaml (pieces or metres).")
			continue
		}
		own := fmt.Sprintf("%v are owned", w.Have.Pieces)
		if w.Have.Pieces == 1 {
			own = "1 is owned"
		}
		if w.Have.Metres > 0 {
			own = fmt.Sprintf("%v m are owned", w.Have.Metres)
		}
		said += fmt.Sprintf("; %s, which would not do on some night in %s (%s %%).", own, words.InYears(w.Short.Share), words.Interval(w.Short))
		more := "One more"
		if w.Have.Metres > 0 {
			more = fmt.Sprintf("%.3g m more", w.More)
		}
		switch s := w.Saves; {
		case !s.Known:
			costs = true
		case w.Short.Share > 0:
			saves = true
			said += fmt.Sprintf(" %s would save about %.2g %s a year (%.2g to %.2g).", more, s.Mean, unit, s.Low, s.High)
		}
		out = append(out, said)
	}
	if len(out) == 0 {
		return ""
	}
	if costs {
		out = append(out, "What one more would be worth is not known: garden.yaml does not give all of cover, set_back and lost under costs.")
	}
	if saves {
		out = append(out, "Counted are nights before picking on which a cover does save something, shared out where it saves most; an evening on which it only may will ask for more.")
	}
	return strings.Join(out, " ")
}
