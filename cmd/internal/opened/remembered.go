package opened

import (
	"math"
	"slices"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/risk"
)

// Remembered is a plan played through the seasons as they were: the station's record taken to each spot as it usually
// differs, with the nights that were read there, and the typical crop. It answers with years, not with chances.
type Remembered struct {
	Seasons  []int // by their years
	Outcomes [][]risk.Outcome
	fields   []*risk.Field
	free     [][]float64 // by planting and season, nil where it follows none
	plays    []risk.Planting
}

// Remember plays the plan's plantings through the recorded seasons.
func (g *Garden) Remember(plantings []Planned) (*Remembered, error) {
	follows, order, err := InOrder(plantings)
	if err != nil {
		return nil, err
	}
	e := climate.Recorded(g.Masked, g.Settings.Latitude, g.First, g.Last)
	f, err := g.FieldsOf(e)
	if err != nil {
		return nil, err
	}
	f.move = func(m site.Model) site.Model { return m.Expected() }
	n := len(plantings)
	out := &Remembered{Outcomes: make([][]risk.Outcome, n), fields: make([]*risk.Field, n), free: make([][]float64, n), plays: make([]risk.Planting, n)}
	for _, s := range e.Seasons {
		out.Seasons = append(out.Seasons, s.Year)
	}
	read := map[string]bool{}
	for _, i := range order {
		p := plantings[i]
		if !read[p.Where.Name] {
			read[p.Where.Name] = true
			for _, r := range f.Readings(p.Where) {
				for _, s := range f.At(p.Where).Seasons {
					if d := int(g.SeasonDay(s.Year, r.Day) - climate.SpanFrom); s.Night != nil && d >= 0 && d < climate.SpanLen {
						s.Night[d] = r.Tmin
					}
				}
			}
		}
		out.fields[i] = f.Field(p.Where, p.Crop, p.Raised).Certain()
		out.plays[i] = p.Planting
		out.plays[i].Cover.Spread, out.plays[i].Cover.Between = 0, 0
		if j := follows[i]; j >= 0 {
			out.free[i] = handOver(e, risk.Result{Planting: out.plays[j], Outcomes: out.Outcomes[j]}, p).On
		}
		out.Outcomes[i] = risk.ScoreAfter(out.fields[i], out.plays[i], out.free[i]).Outcomes
	}
	return out, nil
}

// Known counts the seasons in which a planting's outcome is known.
func (r *Remembered) Known(planting int) (n int) {
	for _, o := range r.Outcomes[planting] {
		if o.Known {
			n++
		}
	}
	return n
}

// Story is what mattered to a planting in a season of the record, which must be one of Seasons.
func (r *Remembered) Story(planting, year int) (risk.Outcome, []risk.Event) {
	i := slices.Index(r.Seasons, year)
	free := math.Inf(-1)
	if r.free[planting] != nil {
		free = r.free[planting][i]
	}
	return r.fields[planting].Story(i, r.plays[planting], free)
}

// Killed are the years, the latest first, in which a planting was killed before its first picking, with its outcomes.
func (r *Remembered) Killed(planting int) (years []int, outcomes []risk.Outcome) {
	return r.years(planting, func(o risk.Outcome) bool { return o.Lost })
}

// NotReady are the years, the latest first, in which a planting lived and was not ready in time.
func (r *Remembered) NotReady(planting int) []int {
	years, _ := r.years(planting, func(o risk.Outcome) bool { return !o.Lost && !o.Ripens })
	return years
}

func (r *Remembered) years(planting int, so func(risk.Outcome) bool) (years []int, outcomes []risk.Outcome) {
	for i, o := range slices.Backward(r.Outcomes[planting]) {
		if o.Known && so(o) {
			years, outcomes = append(years, r.Seasons[i]), append(outcomes, o)
		}
	}
	return years, outcomes
}
