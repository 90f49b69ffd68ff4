package main

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// classes compares the variety classes of a crop at one spot, each from its own best day.
type classes struct {
	name  string
	aim   float64
	found []classResult
}

type classResult struct {
	planting risk.Planting
	best     risk.Result // of its best day
	known    bool
	need     float64 // degree-days to first picking
}

// compareClasses tries every class of a crop; nil where it has fewer than two.
func (s *session) compareClasses(name string, o whenOptions, fs *opened.Fields, aim float64) (*classes, error) {
	cat, err := s.Catalogue()
	if err != nil {
		return nil, err
	}
	all := cat.Classes(name)
	if len(all) < 2 {
		return nil, nil
	}
	out := &classes{name: name, aim: aim}
	for _, class := range all {
		p, spot, w, err := s.whenPlanting(name, class, o)
		if err != nil {
			continue // a class that is not raised so
		}
		tried := risk.Try(fs.Field(spot, p.Crop, p.Raised), p, w, o.step, aim)
		r := classResult{planting: p, need: orElse(p.Crop.WarmthSown, math.NaN())}
		if p.Raised {
			r.need = orElse(p.Crop.WarmthPlanted, math.NaN())
		}
		if tried.Best >= 0 {
			r.best, r.known = tried.Results[tried.Best], true
		}
		out.found = append(out.found, r)
	}
	sort.SliceStable(out.found, func(i, j int) bool { return out.found[i].need < out.found[j].need })
	return out, nil
}

// write prints the comparison.
func (c *classes) write(s *session) error {
	a := s.app
	fmt.Fprintln(a.out)
	a.paragraph(a.out, c.words(), 0)
	fmt.Fprintln(a.out)
	t := table.Table{Columns: []table.Column{
		{Name: "class"}, {Name: "best day", Key: "best"}, {Name: "ripens", Align: table.Right}, {Name: "both", Key: "succeeds", Align: table.Right},
		{Name: "90 % interval", Key: "interval"}, {Name: "picking", Key: "first_picking"},
	}}
	for _, r := range c.found {
		if !r.known {
			t.Add(table.Row(r.planting.Crop.Class, words.Dash, "not known", "not known", words.Dash, words.Dash)...)
			continue
		}
		t.Add(table.Text(r.planting.Crop.Class), table.Text(s.Calendar.Words(r.best.Planting.Start)), share(r.best.Ripens), share(r.best.Succeeds),
			intervalOf(r.best.Succeeds), table.Text(s.picking(r.best)))
	}
	return t.Write(a.out, a.tables())
}

// words says which classes do as well as aimed for, and what each earlier one buys.
func (c *classes) words() string {
	var good []string
	var buys []string
	for i, r := range c.found {
		if !r.known {
			continue
		}
		if r.best.Succeeds.Share >= c.aim {
			good = append(good, r.planting.Crop.Class)
		}
		if i+1 < len(c.found) && c.found[i+1].known && sameSeason(r.planting, c.found[i+1].planting) {
			buys = append(buys, bought(r, c.found[i+1]))
		}
	}
	text := "Classes, each from its best day: "
	switch len(good) {
	case 0:
		text += fmt.Sprintf("none succeeds in at least %.0f years in 10.", 10*c.aim)
	case 1:
		text += fmt.Sprintf("only %s succeeds in at least %.0f years in 10.", good[0], 10*c.aim)
	default:
		text += fmt.Sprintf("%s succeed in at least %.0f years in 10.", words.List(good), 10*c.aim)
	}
	return strings.Join(append([]string{text}, buys...), " ")
}

// sameSeason tells whether two classes are grown at the same time of the year, so that one is
// the earlier choice for the other.
func sameSeason(a, b risk.Planting) bool {
	return a.Crop.OutFrom.Value == b.Crop.OutFrom.Value && a.Crop.OutTo.Value == b.Crop.OutTo.Value
}

// bought says what an earlier class buys over the next later one.
func bought(early, late classResult) string {
	e, l := early.best, late.best
	text := fmt.Sprintf("%s rather than %s: succeeds in %s, not in %s", words.Capital(early.planting.Crop.Class), late.planting.Crop.Class,
		words.InYears(e.Succeeds.Share), words.InYears(l.Succeeds.Share))
	if words.InYears(e.Succeeds.Share) == words.InYears(l.Succeeds.Share) {
		text = fmt.Sprintf("%s rather than %s: no surer", words.Capital(early.planting.Crop.Class), late.planting.Crop.Class)
	}
	if d := medianOf(l) - medianOf(e); !math.IsNaN(d) && d >= 1 {
		text += fmt.Sprintf(", picked %s sooner", words.Plural(int(math.Round(d)), "day"))
	}
	return text + "."
}

func medianOf(r risk.Result) float64 {
	if q := r.Harvest[1]; q.Known && !math.IsInf(q.Value, 0) {
		return q.Value
	}
	return math.NaN()
}

// classJSON is a class from its best day.
type classJSON struct {
	Class    string     `json:"class"`
	Best     *string    `json:"best"`
	Ripens   shareJSON  `json:"ripens"`
	Succeeds shareJSON  `json:"succeeds"`
	Harvest  []pickJSON `json:"harvest"`
}

func (c *classes) json(s *session) []classJSON {
	out := []classJSON{}
	if c == nil {
		return out
	}
	for _, r := range c.found {
		j := classJSON{Class: r.planting.Crop.Class, Ripens: jsonOf(r.best.Ripens), Succeeds: jsonOf(r.best.Succeeds), Harvest: []pickJSON{}}
		if r.known {
			j.Best = isoDay(s.Calendar, float64(r.best.Planting.Start))
			j.Harvest = s.picksJSON(r.best)
		}
		out = append(out, j)
	}
	return out
}
