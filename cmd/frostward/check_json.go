package main

import (
	"fmt"

	"frostward/climate/quality"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

type checkJSON struct {
	Verdict     string            `json:"verdict"` // "fit", "fit with care" or "not fit"
	Says        string            `json:"says"`
	Reasons     []string          `json:"reasons"`
	Record      recordJSON        `json:"record"`
	Faults      []faultJSON       `json:"faults"` // the first 50
	Gaps        []missingJSON     `json:"gaps"`   // the longest first
	Years       []missingYearJSON `json:"missing_by_year"`
	Rules       []ruleJSON        `json:"rules"`
	Flags       []flagJSON        `json:"flags"`
	FlaggedDays int               `json:"flagged_days"`
	Questions   []questionJSON    `json:"questions"`
	Steps       []stepJSON        `json:"homogeneity"`
	Seasons     []halvesJSON      `json:"seasons"`
	Lone        []loneJSON        `json:"frost_dates_on_one_reading"`
}

type recordJSON struct {
	File        string   `json:"file"`
	Format      string   `json:"format"`
	Compression string   `json:"compression"`
	Units       string   `json:"units"`
	UnitsFrom   string   `json:"units_from"`
	Station     string   `json:"station"`
	StationName string   `json:"station_name"`
	Latitude    *float64 `json:"latitude"`
	Longitude   *float64 `json:"longitude"`
	Elevation   *float64 `json:"elevation_m"`
	TminColumn  string   `json:"tmin_column"`
	TmaxColumn  string   `json:"tmax_column"`
	Files       []string `json:"files"`          // of a record of several
	Overlap     int      `json:"overlap_values"` // that two of the files have
	Differ      int      `json:"overlap_differ"`
	DayEnds     string   `json:"day_ends"` // where days were made of readings
	Readings    []int    `json:"readings"` // a day, from first on; empty where days were read
	Incomplete  int      `json:"days_not_covered"`
	Shifted     int      `json:"dates_moved_by"`
	Rows        int      `json:"rows"`
	Days        int      `json:"days"`
	First       string   `json:"first"`
	Last        string   `json:"last"`
	MissingTmin int      `json:"missing_tmin"`
	MissingTmax int      `json:"missing_tmax"`
	Coded       int      `json:"missing_codes"`
	Flagged     int      `json:"flagged_by_source"`
	Repeated    int      `json:"repeated"`
	Unsorted    int      `json:"unsorted"`
	Faults      int      `json:"faults"`
	Notes       []string `json:"notes"`
}

type faultJSON struct {
	Line  int    `json:"line"`
	Field string `json:"field"`
	Text  string `json:"text"`
	Want  string `json:"wanted"`
	Says  string `json:"says"`
}

type missingJSON struct {
	From    string `json:"from"`
	To      string `json:"to"`
	Days    int    `json:"days"`
	Element string `json:"element"`
}

type missingYearJSON struct {
	Year int `json:"year"`
	Tmin int `json:"tmin"`
	Tmax int `json:"tmax"`
}

type ruleJSON struct {
	Rule      string  `json:"rule"`
	Says      string  `json:"says"`
	Threshold float64 `json:"threshold"`
	Unit      string  `json:"unit"`
	Source    string  `json:"source"`
	Values    int     `json:"values"`
}

type flagJSON struct {
	Date    string `json:"date"`
	Element string `json:"element"`
	Rule    string `json:"rule"`
	Why     string `json:"why"`
}

type questionJSON struct {
	From    string `json:"from"`
	To      string `json:"to"`
	Element string `json:"element"`
	Kind    string `json:"kind"`
	Why     string `json:"why"`
	Ask     string `json:"ask"`
	Answer  string `json:"answer"` // what to answer with, yes or no after it
	Masked  bool   `json:"left_out"`
}

type stepJSON struct {
	Of          string   `json:"of"`
	Reported    bool     `json:"reported"`
	Date        string   `json:"date"`
	Before      int      `json:"years_before"`
	After       int      `json:"years_after"`
	Size        *float64 `json:"size_c"`
	T           *float64 `json:"snht_t"`
	Critical    float64  `json:"snht_critical_5_percent"`
	Significant bool     `json:"significant_5_percent"`
	Strongly    bool     `json:"significant_1_percent"`
	Trend       *float64 `json:"c_per_decade"`
	Gradual     bool     `json:"slow_change_explains_it"`
}

type loneJSON struct {
	Date      string   `json:"date"`
	Half      string   `json:"half"`
	Threshold float64  `json:"threshold_c"`
	Tmin      *float64 `json:"tmin_c"`
	Off       *float64 `json:"sd_from_expected"`
}

type halvesJSON struct {
	Threshold float64       `json:"threshold_c"`
	First     int           `json:"first"`
	Last      int           `json:"last"`
	Spring    halfCountJSON `json:"spring"`
	Autumn    halfCountJSON `json:"autumn"`
	LeftOut   []leftOutJSON `json:"left_out"`
}

type halfCountJSON struct {
	Counts int    `json:"counts"`
	From   string `json:"window_from"`
	To     string `json:"window_to"`
}

func (c *checked) json() checkJSON {
	s, r := c.s, c.s.Report
	out := checkJSON{
		Verdict: c.Verdict.Word, Says: c.Verdict.Sentence(), Reasons: append([]string{}, c.Verdict.Reasons...),
		Record: recordJSON{File: s.RecordName, Format: string(r.Format), Compression: r.Compression,
			Units: string(r.Units), UnitsFrom: r.UnitsFrom, Station: r.Station, StationName: r.StationName,
			Latitude: number(r.Latitude, 5), Longitude: number(r.Longitude, 5), Elevation: number(r.Elevation, 1),
			TminColumn: r.TminName, TmaxColumn: r.TmaxName, Rows: r.Rows, Days: r.Days,
			First: r.First.String(), Last: r.Last.String(), MissingTmin: r.MissingTmin, MissingTmax: r.MissingTmax,
			Coded: r.Coded, Flagged: r.Flagged, Repeated: r.Repeated, Unsorted: r.Unsorted, Faults: r.FaultCount,
			Notes: append([]string{}, r.Notes...), Files: []string{}, Overlap: r.Overlap, Differ: r.Differ, DayEnds: r.DayEnds,
			Readings: append([]int{}, r.Readings...), Incomplete: r.Incomplete, Shifted: r.Shifted},
		Faults: []faultJSON{}, Gaps: []missingJSON{}, Years: []missingYearJSON{}, Flags: []flagJSON{},
		FlaggedDays: c.DoubtfulDays, Questions: []questionJSON{}, Steps: []stepJSON{}, Lone: []loneJSON{},
	}
	for _, f := range r.Files {
		out.Record.Files = append(out.Record.Files, f.Name)
	}
	for _, f := range r.Faults {
		out.Faults = append(out.Faults, faultJSON{f.Line, f.Field, f.Text, f.Want, f.Error()})
	}
	for _, g := range c.Gaps {
		out.Gaps = append(out.Gaps, missingJSON{g.From.String(), g.To.String(), g.Days(), g.Element})
	}
	for _, y := range c.Years {
		out.Years = append(out.Years, missingYearJSON{y.Year, y.Tmin, y.Tmax})
	}
	for _, rule := range quality.Rules {
		out.Rules = append(out.Rules, ruleJSON{rule.Name, rule.Says, rule.Threshold, rule.Unit, rule.Source, quality.Values(c.ByRule[rule.Name])})
	}
	for _, f := range s.Flags {
		out.Flags = append(out.Flags, flagJSON{f.Day.String(), f.Element.String(), f.Rule, f.Why})
	}
	for _, q := range c.Questions {
		out.Questions = append(out.Questions, questionJSON{q.From.String(), q.To.String(), q.Element.String(), q.Kind, q.Why, q.Ask, fmt.Sprintf("%s %v %v", q.About, q.From, q.To), q.Masked})
	}
	for _, t := range c.Steps {
		out.Steps = append(out.Steps, stepJSON{t.Of, t.Kept(), t.Date.String(), t.Before, t.After, number(t.Size, 2),
			number(t.Statistic, 2), t.Critical, t.Significant, t.Strongly, number(t.Trend, 2), t.Gradual})
	}
	for _, l := range c.Lone {
		half := map[string]string{"last in spring": "spring", "first in autumn": "autumn"}[l.Half]
		out.Lone = append(out.Lone, loneJSON{l.Day.String(), half, float64(l.Threshold), number(l.Tmin, 2), number(l.Off, 1)})
	}
	for _, d := range c.Frosts {
		h := halvesJSON{Threshold: float64(d.Threshold), First: s.First, Last: s.Last, LeftOut: []leftOutJSON{}}
		h.Spring.Counts, _ = opened.Counted(d.Spring)
		h.Autumn.Counts, _ = opened.Counted(d.Autumn)
		for i, half := range []*halfCountJSON{&h.Spring, &h.Autumn} {
			half.From, half.To = s.Calendar.Format(d.Windows[i].From), s.Calendar.Format(d.Windows[i].To)
		}
		for _, l := range d.LeftOut {
			h.LeftOut = append(h.LeftOut, leftOutJSON{l.Season, l.Half, l.Why})
		}
		out.Seasons = append(out.Seasons, h)
	}
	return out
}

// findings is every finding, a line each, for --format csv.
func (c *checked) findings() table.Table {
	t := table.Table{Columns: []table.Column{{Name: "finding"}, {Name: "from"}, {Name: "to"}, {Name: "element"}, {Name: "rule"}, {Name: "says"}}}
	add := func(cells ...string) { t.Rows = append(t.Rows, table.Row(cells...)) }
	add("verdict", c.s.Report.First.String(), c.s.Report.Last.String(), "", c.Verdict.Word, c.Verdict.Sentence())
	for _, f := range c.s.Report.Faults {
		add("fault", "", "", f.Field, "", f.Error())
	}
	for _, g := range c.Gaps {
		add("gap", g.From.String(), g.To.String(), g.Element, "", words.Plural(g.Days(), "day"))
	}
	for _, f := range c.s.Flags {
		add("flag", f.Day.String(), f.Day.String(), f.Element.String(), f.Rule, f.Why)
	}
	for _, q := range c.Questions {
		add("question", q.From.String(), q.To.String(), q.Element.String(), q.Kind, q.Why+": "+q.Ask)
	}
	for _, s := range c.Steps {
		if s.Kept() {
			add("step", s.Date.String(), s.Date.String(), s.Of, "homogeneity", sentences.Step(c.s.app.unit(), s))
		}
	}
	for _, l := range c.Lone {
		add("frost date", l.Day.String(), l.Day.String(), "tmin", fmt.Sprintf("%s at %v °C", l.Half, float64(l.Threshold)),
			fmt.Sprintf("%.1f °C: %s", l.Tmin, sentences.LoneFrost(l)))
	}
	for _, d := range c.Frosts {
		for i, w := range d.Windows {
			n, _ := opened.Counted([][]float64{d.Spring, d.Autumn}[i])
			add("seasons", c.s.Calendar.Format(w.From), c.s.Calendar.Format(w.To), "tmin", fmt.Sprintf("frost at %v °C", float64(d.Threshold)),
				fmt.Sprintf("%s: %d of %d count", [2]string{"spring", "autumn"}[i], n, len(d.Spring)))
		}
		for _, l := range d.LeftOut {
			add("left out", fmt.Sprint(l.Season), fmt.Sprint(l.Season), "tmin", l.Half, l.Why)
		}
	}
	return t
}
