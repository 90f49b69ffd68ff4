package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/deliver"
	"frostward/cmd/internal/forecast"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk/replay"
)

// spotsFrom says where the gardens of --spots lie.
type spotsFrom struct {
	km, rise   float64
	kind       string
	neighbours []string
}

// prior is what is usual for the kind and the place.
func (w spotsFrom) prior() (site.Prior, error) {
	p, ok := site.PriorOf(w.kind)
	switch p = p.At(site.Place{Km: w.km, Rise: w.rise}); {
	case !ok:
		return p, usagef("--kind %q; wanted one of %s", w.kind, garden.Kinds())
	case !(w.km >= 0 && w.km <= 500):
		return p, usagef("--distance %v; wanted 0 to 500 km", w.km)
	case !(math.Abs(w.rise) <= 3000):
		return p, usagef("--rise %v; wanted -3000 to 3000 m", w.rise)
	case p.Identity():
		return p, usagef("--kind station at the station itself has nothing to learn; --distance or --rise says where the garden is")
	}
	return p, nil
}

// spotTrial is the trial with the place, the kind and the neighbours put in.
func (a *app) spotTrial(w spotsFrom) (t replay.SpotTrial, err error) {
	t = replay.DefaultSpotTrial(climate.Calendar{})
	t.Seed = a.seed
	if t.Prior, err = w.prior(); err != nil {
		return t, err
	}
	for _, n := range w.neighbours {
		file, place := n, t.Prior.Place
		if f := strings.Split(n, ","); len(f) == 3 {
			km, err1 := typedNumber(f[1])
			rise, err2 := typedNumber(f[2])
			if err1 != nil || err2 != nil || !(km >= 0) {
				return t, usagef("--neighbour %q; wanted a file, its distance in km and the garden's height less its own in m, such as other.csv,14,-30", n)
			}
			file, place = f[0], site.Place{Km: km, Rise: rise}
		}
		r, err := opened.ReadTwoHeights(a.choice(), file, "")
		if err != nil {
			return t, err
		}
		t.Others = append(t.Others, site.Station{Record: r.Station, Place: place})
	}
	return t, nil
}

// skillSpots scores what a garden log is worth on records at two heights.
func (a *app) skillSpots(files []string, column string, where spotsFrom) error {
	var names []string
	var scores []replay.SpotSkill
	t, err := a.spotTrial(where)
	if err != nil {
		return err
	}
	for _, file := range files {
		r, err := opened.ReadTwoHeights(a.choice(), file, column)
		if err != nil {
			return err
		}
		t.Calendar = climate.CalendarAt(r.Latitude)
		sc := t.Score(r.Station, r.Spot)
		if len(sc.Scores) == 0 {
			a.notef("%s: has %s with both heights complete from midwinter to midsummer; wanted %d", file, words.Plural(sc.Seasons, "season"), climate.MinSeasons+1)
			continue
		}
		names, scores = append(names, r.Name), append(scores, sc)
	}
	if len(scores) == 0 {
		return fmt.Errorf("no record has enough seasons at both heights to score")
	}
	if a.format == table.JSON {
		return a.writeJSON(spotSkillJSON(names, scores))
	}
	return a.writeSpotSkill(names, scores)
}

// pooled is the mean score of a way over records, each counting alike.
func pooled(scores []replay.SpotSkill, way int) replay.SpotScore {
	out := scores[0].Scores[way]
	out.CRPS, out.Ratio, out.Bias, out.Covered = 0, 0, 0, 0
	n := float64(len(scores))
	for _, s := range scores {
		x := s.Scores[way]
		out.CRPS, out.Ratio, out.Bias, out.Covered = out.CRPS+x.CRPS/n, out.Ratio+x.Ratio/n, out.Bias+x.Bias/n, out.Covered+x.Covered/n
	}
	return out
}

func (a *app) writeSpotSkill(names []string, scores []replay.SpotSkill) error {
	seasons := 0
	for _, s := range scores {
		seasons += s.Seasons
	}
	t := table.Table{
		Title: fmt.Sprintf("Last spring frost at plant height: %s, %s", words.Plural(len(scores), "record"), words.Plural(seasons, "season")),
		Columns: []table.Column{{Name: "from", Wrap: true, MinWidth: 20}, {Name: "CRPS", Unit: "days", Align: table.Right}, {Name: "times the spot's own", Key: "ratio", Align: table.Right, Wrap: true, MinWidth: 9}, {Name: "too late by", Unit: "days", Key: "bias_days", Align: table.Right},
			{Name: "inside 90 % interval", Key: "covered", Align: table.Right, Wrap: true, MinWidth: 10}},
	}
	for i := range scores[0].Scores {
		x := pooled(scores, i)
		t.Add(table.Text(sentences.SpotWay(x)), table.Textf("%.2f", x.CRPS), table.Textf("%.3f", x.Ratio), table.Textf("%+.1f", x.Bias), words.Percent(x.Covered))
	}
	t.Notes = []string{"each season is left out in turn and dated from the station's others and a log kept in another; means over records."}
	if err := t.Write(a.out, a.tables()); err != nil || len(scores) == 1 || a.format != table.TextFormat {
		return err
	}
	fmt.Fprintln(a.out)
	each := table.Table{Title: "CRPS by record, days", Columns: []table.Column{{Name: "record"}, {Name: "seasons", Align: table.Right}}}
	for _, x := range scores[0].Scores {
		name := sentences.SpotWay(x)
		switch {
		case x.Way != replay.ByLog:
		case x.Mornings > 0:
			name = fmt.Sprintf("%d logged", x.Mornings)
		default:
			name = "none logged"
		}
		each.Columns = append(each.Columns, table.Column{Name: name, Align: table.Right, Wrap: true, MinWidth: 8})
	}
	for i, s := range scores {
		row := []table.Cell{table.Text(names[i]), table.Textf("%d", s.Seasons)}
		for _, x := range s.Scores {
			row = append(row, table.Textf("%.2f", x.CRPS))
		}
		each.Add(row...)
	}
	return each.Write(a.out, a.tables())
}

type spotsSkillJSON struct {
	Event     string           `json:"event"`
	Threshold float64          `json:"threshold_c"`
	Scores    []spotScoreJSON  `json:"scores"`
	Records   []spotRecordJSON `json:"records"`
}

type spotRecordJSON struct {
	Record  string          `json:"record"`
	Seasons int             `json:"seasons"`
	Scores  []spotScoreJSON `json:"scores"`
}

type spotScoreJSON struct {
	From     string   `json:"from"`
	Mornings *int     `json:"mornings"`
	CRPS     *float64 `json:"crps_days"`
	Ratio    *float64 `json:"ratio_to_own"`
	Bias     *float64 `json:"bias_days"`
	Covered  *float64 `json:"covered_90"`
}

func spotSkillJSON(names []string, scores []replay.SpotSkill) spotsSkillJSON {
	one := func(x replay.SpotScore) spotScoreJSON {
		s := spotScoreJSON{From: sentences.SpotWay(x), CRPS: number(x.CRPS, 3), Ratio: number(x.Ratio, 3), Bias: number(x.Bias, 2), Covered: number(x.Covered, 3)}
		if x.Way == replay.ByLog {
			s.Mornings = &x.Mornings
		}
		return s
	}
	out := spotsSkillJSON{Event: "last_spring_frost_at_plant_height"}
	for i := range scores[0].Scores {
		out.Scores = append(out.Scores, one(pooled(scores, i)))
	}
	for i, s := range scores {
		r := spotRecordJSON{Record: names[i], Seasons: s.Seasons}
		for _, x := range s.Scores {
			r.Scores = append(r.Scores, one(x))
		}
		out.Records = append(out.Records, r)
	}
	return out
}

// skillTonight replays the nights of a record: of the garden's, for its station, or, given
// a file at two heights, for the plants.
func (a *app) skillTonight(files []string, column string, from spotsFrom) error {
	var t replay.NightTrial
	var station, spot climate.Series
	where := ""
	if len(files) == 0 {
		s, err := a.open()
		if err != nil {
			return err
		}
		t = replay.DefaultNightTrial(s.Calendar, s.Settings.Latitude, site.AtStation)
		station, spot, where = s.Used(), s.Used(), s.RecordName+", in the screen"
	} else {
		r, err := opened.ReadTwoHeights(a.choice(), files[0], column)
		if err != nil {
			return err
		}
		p, err := from.prior()
		switch {
		case err != nil:
			return err
		case len(files) > 1 || len(from.neighbours) > 0:
			return usagef("--tonight replays one record at a time")
		}
		t = replay.DefaultNightTrial(climate.CalendarAt(r.Latitude), r.Latitude, p)
		station, spot, where = r.Station, r.Spot, r.Name+", at plant height"
	}
	t.Seed = a.seed
	n := t.Replay(station, spot)
	if n.Nights == 0 {
		return fmt.Errorf("%s: too few seasons to replay the nights of; wanted %d", where, climate.MinSeasons+4)
	}
	if a.format == table.JSON {
		return a.writeJSON(nightSkillJSON(t, n))
	}
	return a.writeNightSkill(where, t, n)
}

func (a *app) writeNightSkill(where string, t replay.NightTrial, n replay.NightScore) error {
	out := table.Table{
		Title: fmt.Sprintf("Frost tonight at %s: %d nights, %d with frost", where, n.Nights, n.Damage),
		Columns: []table.Column{{Name: "cost/loss", Align: table.Right}, {Name: "by the chance", Key: "ours", Align: table.Right}, {Name: "always", Align: table.Right},
			{Name: "never", Align: table.Right}, {Name: fmt.Sprintf("forecast %.0f °C or below", t.Rule), Key: "fixed_rule", Align: table.Right, Wrap: true, MinWidth: 12}, {Name: "best rule afterwards", Key: "best_rule", Align: table.Right, Wrap: true, MinWidth: 10}, {Name: "value", Align: table.Right}},
	}
	for _, c := range n.Costs {
		out.Add(table.Textf("%.2f", c.Ratio), table.Textf("%.4f", c.Ours), table.Textf("%.4f", c.Always), table.Textf("%.4f", c.Never), table.Textf("%.4f", c.Fixed), table.Textf("%.4f", c.Best), words.Number(c.Value, 2))
	}
	out.Notes = []string{
		"mean cost a night in losses of covering by the chance, always, never, by a fixed forecast, and by the forecast that would have been the best rule, which nobody knew; value: 0 the better of always and never, 1 perfect.",
		fmt.Sprintf("Brier score %.4f against %.4f by the date alone; the minimum is %.1f °C off (root mean square); %.0f %% of nights inside the 90 %% interval.",
			n.Brier.Score, n.Usual.Score, n.Error, 100*n.Covered),
		fmt.Sprintf("the forecast is made up, with an error of %.1f °C; %d mornings a season are logged.", t.Error, t.Mornings),
	}
	if err := out.Write(a.out, a.tables()); err != nil || a.format != table.TextFormat {
		return err
	}
	rel := table.Table{Title: "Did the chances come true?", Columns: []table.Column{{Name: "said", Align: table.Right}, {Name: "came", Align: table.Right}, {Name: "nights", Align: table.Right}}}
	for _, g := range n.Reliable {
		rel.Add(table.Textf("%.0f %%", 100*g.Chance), table.Textf("%.0f %%", 100*g.Came/g.N), table.Textf("%.0f", g.N))
	}
	fmt.Fprintln(a.out)
	return rel.Write(a.out, a.tables())
}

type nightsSkillJSON struct {
	Event       string          `json:"event"`
	Threshold   float64         `json:"threshold_c"`
	Nights      int             `json:"nights"`
	WithFrost   int             `json:"with_frost"`
	Error       float64         `json:"forecast_error_c"`
	Mornings    int             `json:"mornings_logged_a_season"`
	Rule        float64         `json:"fixed_rule_c"`
	Brier       *float64        `json:"brier"`
	Usual       *float64        `json:"brier_usual"`
	Reliability *float64        `json:"brier_reliability"`
	Resolution  *float64        `json:"brier_resolution"`
	RMSE        *float64        `json:"rmse_c"`
	Covered     *float64        `json:"covered_90"`
	Costs       []nightCostJSON `json:"costs"`
	Reliable    []reliableJSON  `json:"reliability"`
}

type nightCostJSON struct {
	CostLoss float64  `json:"cost_loss"`
	Ours     *float64 `json:"ours"`
	Always   *float64 `json:"always,omitempty"`
	Never    *float64 `json:"never,omitempty"`
	Fixed    *float64 `json:"fixed_rule,omitempty"`
	Best     *float64 `json:"best_rule"`
	BestRule *float64 `json:"best_rule_forecast_c"`
	Value    *float64 `json:"value,omitempty"`
}

type reliableJSON struct {
	Said   *float64 `json:"said"`
	Came   *float64 `json:"came"`
	Nights float64  `json:"nights"`
}

func nightSkillJSON(t replay.NightTrial, n replay.NightScore) nightsSkillJSON {
	out := nightsSkillJSON{Event: "frost_tonight", Threshold: float64(t.Threshold), Nights: n.Nights, WithFrost: n.Damage,
		Error: t.Error, Mornings: t.Mornings, Rule: t.Rule,
		Brier: number(n.Brier.Score, 5), Usual: number(n.Usual.Score, 5), Reliability: number(n.Brier.Reliability, 5), Resolution: number(n.Brier.Resolution, 5),
		RMSE: number(n.Error, 3), Covered: number(n.Covered, 3)}
	for _, c := range n.Costs {
		out.Costs = append(out.Costs, nightCostJSON{c.Ratio, number(c.Ours, 5), number(c.Always, 5), number(c.Never, 5), number(c.Fixed, 5), number(c.Best, 5), number(c.BestRule, 1), number(c.Value, 3)})
	}
	for _, g := range n.Reliable {
		out.Reliable = append(out.Reliable, reliableJSON{number(g.Chance, 3), number(g.Came/g.N, 3), g.N})
	}
	return out
}

type forecastsSkillJSON struct {
	Event     string              `json:"event"`
	Threshold float64             `json:"threshold_c"`
	File      string              `json:"file"`
	Forecasts []forecastSkillJSON `json:"forecasts"`
}

type forecastSkillJSON struct {
	Column    string          `json:"column"`
	Nights    int             `json:"nights"`
	WithFrost int             `json:"with_frost"`
	AsGiven   *float64        `json:"error_as_given_c"`
	Error     *float64        `json:"error_c"`
	Covered   *float64        `json:"covered_90"`
	Brier     *float64        `json:"brier"`
	BaseRate  *float64        `json:"brier_base_rate"`
	Costs     []nightCostJSON `json:"costs"`
}

// skillForecasts scores forecasts that were really given, a column of the file a line.
func (a *app) skillForecasts(name string) error {
	if u := a.units; u != "" && u != "c" && u != "f" {
		return usagef("--units %q; wanted c or f, of the forecasts where the file does not say", u)
	}
	f, err := os.Open(name)
	if err != nil {
		return fmt.Errorf("%s: %w", name, deliver.Cause(err))
	}
	defer f.Close()
	columns, err := forecast.ReadPast(f, forecast.Options{Name: name, Unit: a.units})
	if err != nil {
		return err
	}
	t := table.Table{Title: "Frost tonight by the forecasts of " + filepath.Base(name) + ", each corrected by those before it at its place",
		Columns: []table.Column{{Name: "forecast", Key: "column", Wrap: true, MinWidth: 14}, {Name: "nights", Align: table.Right}, {Name: "with frost", Key: "with_frost", Align: table.Right, Drop: 2},
			{Name: "off, as given", Unit: a.unit().Unit(), Key: "error_as_given_c", Align: table.Right, Wrap: true, MinWidth: 8}, {Name: "corrected", Unit: a.unit().Unit(), Key: "error_c", Align: table.Right},
			{Name: "in 90 %", Key: "covered_90", Align: table.Right, Drop: 1}, {Name: "Brier", Align: table.Right}, {Name: "by base rate", Key: "brier_base_rate", Align: table.Right, Wrap: true, MinWidth: 6, Drop: 3},
			{Name: "dearest against best rule", Key: "dearest", Align: table.Right, Wrap: true, MinWidth: 12}}}
	list := []forecastSkillJSON{}
	for _, c := range columns {
		var nights []replay.Issued
		raw := 0.0
		for _, n := range c.Nights {
			nights = append(nights, replay.Issued{Place: n.Place, Said: n.Said, Came: n.Came})
			raw += (n.Said - n.Came) * (n.Said - n.Came)
		}
		if len(nights) == 0 {
			a.notef("%s: %s: has no night with its outcome", name, c.Column)
			continue
		}
		raw = math.Sqrt(raw / float64(len(nights)))
		s := replay.ScoreIssued(nights, 0)
		dearest, costs := math.NaN(), []nightCostJSON{}
		for _, x := range s.Costs {
			costs = append(costs, nightCostJSON{CostLoss: x.Ratio, Ours: number(x.Ours, 5), Best: number(x.Best, 5), BestRule: number(x.BestRule, 1)})
			if r := x.Ours / x.Best; x.Ratio >= 0.05 && x.Ratio <= 0.5 && !(r <= dearest) {
				dearest = r
			}
		}
		t.Add(table.Text(c.Column), table.Textf("%d", s.Nights), table.Textf("%d", s.Damage), table.Textf("%.2f", a.unit().Difference(raw)), table.Textf("%.2f", a.unit().Difference(s.Error)),
			words.Percent(s.Covered), words.Number(s.Brier.Score, 4), words.Number(s.Brier.Uncertainty, 4), words.Number(dearest, 3))
		list = append(list, forecastSkillJSON{c.Column, s.Nights, s.Damage, number(raw, 3), number(s.Error, 3),
			number(s.Covered, 3), number(s.Brier.Score, 5), number(s.Brier.Uncertainty, 5), costs})
	}
	if len(list) == 0 {
		return fmt.Errorf("%s: has no night with its outcome", name)
	}
	if a.format == table.JSON {
		return a.writeJSON(forecastsSkillJSON{"frost_tonight", 0, filepath.Base(name), list})
	}
	t.Notes = []string{fmt.Sprintf("off: root mean square. dearest against best rule: what acting on the chance cost over what the fixed rule cost that would have been best for that ratio of cost to loss, which nobody knew; the dearest of %v to %v. Frost: %s or below.", 0.05, 0.5, a.unit().Degrees(0))}
	return t.Write(a.out, a.tables())
}
