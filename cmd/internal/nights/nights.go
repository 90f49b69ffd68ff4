// Package nights works out the nights to come in a garden: for each, the minimum at each spot, and
// what to do about every planting that is out.
package nights

import (
	"math"
	"time"

	"frostward/climate"
	"frostward/climate/night"
	"frostward/climate/site"
	"frostward/cmd/internal/forecast"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/cmd/internal/opened"
	"frostward/risk"
)

// Given is what an evening is known by, beside the garden's files.
type Given struct {
	Spot     garden.Spot  // where the readings of the evening were taken
	Evening  risk.Evening // of the first night
	Forecast []forecast.Night
}

// Standing is a planting that is out, since when, and since when it has been picked, 0 where it has not.
type Standing struct {
	opened.Planned
	Since, Picked climate.Day
}

// Night is one night, and what to do about it.
type Night struct {
	Evening climate.Day // the day it begins on; it ends on the next
	Spots   []*Spot     // the spot of the readings first
	Out     []Planting
	Waiting []string // sown and not up yet, or where the night is not known

	garden *opened.Garden
}

// Spot is a spot with its night.
type Spot struct {
	garden.Spot
	In  risk.TonightIn
	Out risk.Tonight
}

// Planting is a planting that is out, with what to do about it.
type Planting struct {
	Standing
	At     *Spot
	Advice risk.Advice // with the covers shared out
	Wanted int         // the choice that would be best if there were enough of every cover
}

// Short says whether a cover that it would be worth having is needed more elsewhere.
func (p Planting) Short() bool { return p.Wanted != p.Advice.Best }

// InGround are the plantings that are out, of one spot where it is named.
func InGround(g *opened.Garden, spot string) ([]Standing, error) {
	states, err := g.States()
	if err != nil {
		return nil, err
	}
	var out []Standing
	for _, st := range states {
		if st.Phase == opened.InGround && (spot == "" || st.Where.Name == spot) {
			out = append(out, Standing{Planned: st.Planned, Since: st.Since, Picked: st.Picked})
		}
	}
	return out, nil
}

// Ahead returns the night to come and, after it, those that the forecast has, in their order.
func Ahead(g *opened.Garden, given Given, standing []Standing) ([]Night, error) {
	a := ahead{Garden: g, given: given, tonight: g.Today()}
	var err error
	if a.fields, err = g.Fields(); err != nil {
		return nil, err
	}
	now, _ := g.Calendar.Locate(a.tonight)
	a.since = now - 2 // by then all that stands has gone out
	if a.soFar, err = g.FieldsOf(climate.Recorded(g.Masked, g.Settings.Latitude, a.since, now)); err != nil {
		return nil, err
	}
	log, err := g.Log()
	if err != nil {
		return nil, err
	}
	a.log = log.Nights()
	if a.kept, err = g.Forecasts(); err != nil {
		return nil, err
	}
	out := []Night{a.night(a.tonight, standing)}
	for _, f := range given.Forecast {
		if f.Morning > a.tonight+1 {
			out = append(out, a.night(f.Morning-1, standing))
		}
	}
	return out, nil
}

// ahead is what all the nights are worked out from.
type ahead struct {
	*opened.Garden
	given   Given
	tonight climate.Day
	log     []journal.Entry
	kept    []forecast.Kept
	fields  *opened.Fields
	soFar   *opened.Fields // the seasons in which plantings that are out went out, as they came
	since   int            // the first of them
}

func (a *ahead) night(evening climate.Day, standing []Standing) Night {
	n := Night{Evening: evening, garden: a.Garden}
	a.at(&n, a.given.Spot)
	covers := a.RiskCovers()
	costs, _ := a.Settings.Costs.Assumed()
	for _, p := range standing {
		at := a.at(&n, p.Where)
		season, start := a.Calendar.Locate(p.Since)
		x, up := a.soFar.Field(p.Where, p.Crop, p.Raised).Certain().
			Exposed(season-a.since, p.At(start), a.SeasonDay(season, evening+1), p.Picked != 0)
		if !up || !at.Out.Known {
			n.Waiting = append(n.Waiting, p.Label())
			continue
		}
		x.Movable = p.Where.Pots
		advice := at.Out.Advise(x, covers, costs)
		n.Out = append(n.Out, Planting{p, at, advice, advice.Best})
	}
	n.share(a.Settings.Stock())
	return n
}

// share shares the covers that are owned out among the plantings.
func (n *Night) share(stock map[string]risk.Stock) {
	if len(stock) == 0 {
		return
	}
	advice, need := make([]risk.Advice, len(n.Out)), make([]risk.Need, len(n.Out))
	for i, p := range n.Out {
		advice[i], need[i] = p.Advice, risk.Need{Metres: p.Row.Metres}
	}
	risk.ShareCovers(advice, need, stock)
	for i := range n.Out {
		n.Out[i].Advice = advice[i]
	}
}

// at is a night at a spot.
func (a *ahead) at(n *Night, sp garden.Spot) *Spot {
	for _, t := range n.Spots {
		if t.Name == sp.Name {
			return t
		}
	}
	e := risk.NewEvening()
	if n.Evening == a.tonight {
		e = a.given.Evening
		if len(n.Spots) > 0 { // the readings are of the first; the air's moisture is everywhere the same
			e.Reading, e.Later, e.LaterHours = math.NaN(), math.NaN(), math.NaN()
		}
	}
	for _, f := range a.given.Forecast {
		if f.Morning == n.Evening+1 {
			fill(&e.Forecast, f.Tmin)
		}
	}
	ensemble := a.fields.At(sp)
	_, morning := a.Calendar.Locate(n.Evening + 1)
	lead := int(n.Evening - a.tonight)
	t, model := &Spot{Spot: sp}, a.fields.Model(sp)
	t.In = risk.TonightIn{Evening: a.complete(e, n.Evening, sp.Name), Day: morning, Spot: model, Lead: lead,
		Usual: risk.UsualAt(ensemble, morning), Past: a.past(sp.Name, model, ensemble, lead)}
	t.Out = risk.Foresee(t.In)
	n.Spots = append(n.Spots, t)
	return t
}

// complete fills in, where it is not given, what the log has of the morning, the day's maximum
// from the record, and the length of the night.
func (a *ahead) complete(e risk.Evening, evening climate.Day, spot string) risk.Evening {
	for _, n := range a.log {
		if n.Day == evening+1 && n.Spot == spot {
			fill(&e.Reading, n.Evening)
			fill(&e.DewPoint, DewPoint(n))
		}
	}
	a.shared(&e, evening+1)
	_, tmax := a.Masked.At(evening)
	fill(&e.Tmax, tmax)
	fill(&e.Length, a.length(evening))
	return e
}

// shared fills in what the log has of a morning at any spot that holds for all: the
// forecast, the sky and the wind.
func (a *ahead) shared(e *risk.Evening, morning climate.Day) {
	for _, n := range a.log {
		if n.Day != morning {
			continue
		}
		fill(&e.Forecast, n.Forecast)
		if e.Cloud == night.CloudUnknown {
			e.Cloud = n.Cloud
		}
		if e.Wind == night.WindUnknown {
			e.Wind = n.Wind
		}
	}
}

// fill sets a number that is not known.
func fill(to *float64, from float64) {
	if math.IsNaN(*to) {
		*to = from
	}
}

// DewPoint is that of a line of the log, from the humidity where only that is known.
func DewPoint(e journal.Entry) float64 {
	if math.IsNaN(e.DewPoint) && !math.IsNaN(e.Humidity) {
		return climate.DewPoint(e.Evening, e.Humidity)
	}
	return e.DewPoint
}

// length is the hours from sunset to the next sunrise.
func (a *ahead) length(evening climate.Day) float64 {
	y, m, d := evening.Date()
	return 24 - climate.SunriseToSunset(a.Settings.Latitude, time.Date(y, m, d, 0, 0, 0, 0, time.UTC).YearDay())
}

// past is the log of a spot up to the evening, as the methods learn from it: with the forecasts
// that were as many days ahead.
func (a *ahead) past(spot string, model site.Model, e climate.Ensemble, lead int) []risk.PastNight {
	var out []risk.PastNight
	usual := map[climate.SeasonDay]risk.Usual{}
	for _, n := range a.log {
		if n.Spot != spot || n.Day > a.tonight || n.Covered != "" || math.IsNaN(n.Tmin) || model.Rejects(site.NightOf(a.Masked, a.Calendar, n.Day), n.Tmin) {
			continue
		}
		_, sd := a.Calendar.Locate(n.Day)
		if _, ok := usual[sd]; !ok {
			usual[sd] = risk.UsualAt(e, sd)
		}
		p := risk.PastNight{Evening: risk.NewEvening(), Day: sd, Came: n.Tmin, Usual: usual[sd]}
		p.Reading, p.DewPoint = n.Evening, DewPoint(n)
		if lead == 0 {
			a.shared(&p.Evening, n.Day)
		}
		fill(&p.Forecast, forecast.Issued(a.kept, n.Day, lead))
		if lead == 0 {
			_, p.Tmax = a.Masked.At(n.Day - 1)
		}
		p.Length = a.length(n.Day - 1)
		out = append(out, p)
	}
	return out
}
