package main

import (
	"math"

	"frostward/climate"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/words"
	"frostward/risk/replay"
)

type skillJSON struct {
	Garden    string          `json:"garden"`
	Seasons   replayedJSON    `json:"seasons"`
	Reference referenceJSON   `json:"reference"`
	Scores    []scoreJSON     `json:"scores"`
	Summary   []skillMeanJSON `json:"summary"`
	BestBy    string          `json:"best_by"`
}

// replayedJSON is the seasons of record, and the most that an event is scored on.
type replayedJSON struct {
	First  int `json:"first"`
	Last   int `json:"last"`
	Scored int `json:"scored"`
}

type referenceJSON struct {
	By       string `json:"by"`
	Training int    `json:"training_seasons"`
}

// scoreJSON is one event, way and number of training seasons. "training" is "all" where all
// seasons before were learnt from; training_seasons is then the most that these were.
type scoreJSON struct {
	Event           string            `json:"event"`
	ThresholdC      *float64          `json:"threshold_c"`
	What            string            `json:"what"`
	By              string            `json:"by"`
	Training        any               `json:"training"`
	TrainingSeasons int               `json:"training_seasons"`
	SeasonsScored   int               `json:"seasons_scored"`
	Unit            string            `json:"unit"`
	CRPS            *float64          `json:"crps"`
	CRPSDays        *float64          `json:"crps_days"`
	ReferenceCRPS   *float64          `json:"reference_crps"`
	Ratio           *float64          `json:"ratio_to_curve_30"`
	RatioLow        *float64          `json:"ratio_low"`
	RatioHigh       *float64          `json:"ratio_high"`
	RatioToRecord   *float64          `json:"ratio_to_record"`
	Bias            *float64          `json:"bias"`
	Covered80       *float64          `json:"covered_80"`
	Covered90       *float64          `json:"covered_90"`
	PIT             []*float64        `json:"pit"`
	Brier           brierJSON         `json:"brier"`
	Reliability     []reliabilityJSON `json:"reliability"`
}

type brierJSON struct {
	Questions   int      `json:"questions"`
	Score       *float64 `json:"score"`
	Reliability *float64 `json:"reliability"`
	Resolution  *float64 `json:"resolution"`
	Uncertainty *float64 `json:"uncertainty"`
	Skill       *float64 `json:"skill"`
}

type reliabilityJSON struct {
	Chance    *float64 `json:"chance"`
	Came      *float64 `json:"came"`
	Questions int      `json:"questions"`
}

// skillMeanJSON is the mean of the ratios to the curve, over the frosts of spring and autumn at
// all thresholds, and over all events.
type skillMeanJSON struct {
	By       string   `json:"by"`
	Training any      `json:"training"`
	Frosts   *float64 `json:"mean_ratio_frosts"`
	Events   *float64 `json:"mean_ratio_all"`
}

func (s *session) skillJSON(scores []replay.Score) skillJSON {
	out := skillJSON{Garden: s.Settings.Name, Scores: []scoreJSON{},
		Seasons:   replayedJSON{First: s.First, Last: s.Last},
		Reference: referenceJSON{climate.ByCurve.String(), replay.Reference},
		BestBy:    replay.BestWay(scores).String()}
	for _, x := range s.wanted(scores) {
		out.Scores = append(out.Scores, scoreOf(scores, x))
		out.Seasons.Scored = max(out.Seasons.Scored, x.Seasons)
	}
	for _, m := range s.skillMeans(scores) {
		out.Summary = append(out.Summary, skillMeanJSON{m.by.String(), trainingJSON(m.training), number(m.frosts, 4), number(m.all, 4)})
	}
	return out
}

func scoreOf(scores []replay.Score, x replay.Score) scoreJSON {
	j := scoreJSON{Event: x.Event.Name, ThresholdC: number(x.Event.Threshold, 2), What: sentences.Event(words.Units{}, x.Event), By: x.By.String(),
		Training: trainingJSON(x.Training), TrainingSeasons: x.Learnt, SeasonsScored: x.Seasons,
		Unit: "degree_days", CRPS: number(x.CRPS, 4), ReferenceCRPS: number(x.Reference, 4),
		Ratio: number(x.Ratio.Value, 4), RatioLow: number(x.Ratio.Low, 4), RatioHigh: number(x.Ratio.High, 4),
		RatioToRecord: number(x.CRPS/countedCRPS(scores, x), 4),
		Bias:          number(x.Bias, 2), Covered80: number(x.Within80, 3), Covered90: number(x.Within90, 3),
		Brier: brierJSON{x.Brier.N, number(x.Brier.Score, 5), number(x.Brier.Reliability, 5), number(x.Brier.Resolution, 5),
			number(x.Brier.Uncertainty, 5), number(x.Brier.Skill(), 3)}}
	if x.Event.Dates {
		j.Unit, j.CRPSDays = "days", j.CRPS
	}
	for _, v := range x.PIT {
		j.PIT = append(j.PIT, number(v, 4))
	}
	for _, r := range x.Table {
		j.Reliability = append(j.Reliability, reliabilityJSON{number(r.Chance, 3), number(r.Came/r.N, 3), int(r.N)})
	}
	return j
}

// trainingJSON is a number of seasons, or "all".
func trainingJSON(training int) any {
	if training == replay.All {
		return "all"
	}
	return training
}

// countedCRPS is the score of the counted record from the same seasons.
func countedCRPS(scores []replay.Score, x replay.Score) float64 {
	for _, o := range scores {
		if o.By == climate.ByRecord && o.Training == x.Training && o.Event.Same(x.Event) && o.Seasons == x.Seasons {
			return o.CRPS
		}
	}
	return math.NaN()
}
