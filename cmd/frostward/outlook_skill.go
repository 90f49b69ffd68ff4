package main

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk/replay"
)

// outlookLeads are the days before the usual picking at which outlooks are scored.
var outlookLeads = []int{30, 60, 90}

// outlookTraining is how many seasons come before the first that is scored.
const outlookTraining = 15

// scoredOutlook is one crop of the plan with its outlooks' scores.
type scoredOutlook struct {
	opened.Planned
	scores []replay.OutlookScore
}

// outlookSkill replays the record for the crops of the plan, each once.
func (s *session) outlookSkill() error {
	a := s.app
	look, err := s.Outlooker()
	if err != nil {
		return err
	}
	rows, err := s.Plan()
	if err != nil {
		return err
	}
	plantings, err := s.Resolve(rows)
	if err != nil {
		return err
	}
	seen := map[string]bool{}
	var out []scoredOutlook
	for _, p := range plantings {
		k := fmt.Sprint(p.Crop.Label(), p.Raised)
		if seen[k] {
			continue
		}
		seen[k] = true
		scores, err := replay.OutlookSkill(s.Used(), s.Settings.Latitude, p.Crop, p.Raised, p.Start, outlookLeads, outlookTraining, look)
		if err != nil {
			return fmt.Errorf("%s: %w", s.RecordName, err)
		}
		out = append(out, scoredOutlook{p, scores})
	}
	if a.format == table.JSON {
		return a.writeJSON(s.outlookSkillJSON(out))
	}
	if a.format == table.TextFormat {
		a.paragraph(a.out, fmt.Sprintf("Outlooks replayed at the station: each season after the first %d as if it were under way, so many days before the usual first picking. "+
			"The CRPS is by how many days a forecast missed, counting its spread; a ratio below 1 is better than the dates of the seasons before. Of the dates that came, 8 in 10 should lie in the range stated for 8 years in 10.", outlookTraining), 0)
		fmt.Fprintln(a.out)
	}
	t := table.Table{Columns: []table.Column{
		{Name: "crop", Wrap: true}, {Name: "starts"}, {Name: "days before", Key: "lead_days", Align: table.Right}, {Name: "seasons", Align: table.Right},
		{Name: "usual dates", Unit: "days", Key: "crps_usual_days", Align: table.Right}, {Name: "outlook", Unit: "days", Key: "crps_outlook_days", Align: table.Right},
		{Name: "ratio", Align: table.Right}, {Name: "in its 8 in 10", Key: "within_10_90", Align: table.Right, Wrap: true, MinWidth: 8},
	}}
	for _, x := range out {
		for i, sc := range x.scores {
			name, start := x.Crop.Label(), s.dayCell(float64(x.Start))
			if i > 0 && a.format == table.TextFormat {
				name, start = "", table.Text("")
			}
			if sc.Seasons < climate.MinSeasons {
				why := "not known"
				if sc.Seasons == 0 {
					why = "not in yet" // so long before picking it is not in the ground
				}
				t.Add(table.Text(name), start, table.Textf("%d", sc.Lead), table.Textf("%d", sc.Seasons), table.Text(words.Dash), table.Text(words.Dash), table.Cell{Text: why, Tone: table.Quiet}, table.Text(words.Dash))
				continue
			}
			t.Add(table.Text(name), start, table.Textf("%d", sc.Lead), table.Textf("%d", sc.Seasons), words.Number(sc.Climatology, 2), words.Number(sc.CRPS, 2),
				words.Number(sc.Ratio(), 2), words.Percent(sc.Within))
		}
	}
	return t.Write(a.out, a.tables())
}

type outlookSkillJSON struct {
	By     string             `json:"by"`
	Scores []outlookScoreJSON `json:"scores"`
}

type outlookScoreJSON struct {
	Event    string   `json:"event"`
	Crop     string   `json:"crop"`
	Class    string   `json:"class"`
	Start    string   `json:"start"`
	Raised   bool     `json:"raised"`
	Lead     int      `json:"lead_days"`
	Seasons  int      `json:"seasons_scored"`
	CRPS     *float64 `json:"crps_days"`
	Usual    *float64 `json:"crps_usual_days"`
	Relative *float64 `json:"ratio_to_usual"`
	Within   *float64 `json:"within_10_90"`
}

func (s *session) outlookSkillJSON(all []scoredOutlook) outlookSkillJSON {
	out := outlookSkillJSON{By: s.app.by, Scores: []outlookScoreJSON{}}
	if out.By == "" {
		out.By = climate.ByRecord.String()
	}
	for _, x := range all {
		for _, sc := range x.scores {
			j := outlookScoreJSON{Event: "outlook_first_picking", Crop: x.Crop.Name, Class: x.Crop.Class, Start: s.Calendar.Format(x.Start), Raised: x.Raised,
				Lead: sc.Lead, Seasons: sc.Seasons}
			if sc.Seasons >= climate.MinSeasons {
				j.Within = number(sc.Within, 3)
				j.CRPS, j.Usual, j.Relative = number(sc.CRPS, 3), number(sc.Climatology, 3), number(sc.Ratio(), 3)
			}
			out.Scores = append(out.Scores, j)
		}
	}
	return out
}
