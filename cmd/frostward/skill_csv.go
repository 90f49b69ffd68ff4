package main

import (
	"fmt"
	"math"
	"strings"

	"frostward/cmd/internal/table"
	"frostward/risk/replay"
)

// skillCSV is the table for programs: a line for each score.
func (s *session) skillCSV(scores []replay.Score) table.Table {
	t := table.Table{}
	for _, k := range []string{"event", "threshold_c", "by", "training", "seasons_scored", "unit", "crps", "ratio_to_curve_30",
		"ratio_low", "ratio_high", "bias", "covered_80", "covered_90", "brier", "brier_reliability", "brier_resolution", "brier_uncertainty", "pit"} {
		t.Columns = append(t.Columns, table.Column{Name: k, Key: k})
	}
	for _, x := range s.wanted(scores) {
		threshold, unit := "", "degree_days"
		if !math.IsNaN(x.Event.Threshold) {
			threshold = fmt.Sprint(x.Event.Threshold)
		}
		if x.Event.Dates {
			unit = "days"
		}
		t.Add(table.Text(x.Event.Name), table.Text(threshold), table.Text(x.By.String()), table.Text(trainingName(x.Training)),
			table.Textf("%d", x.Seasons), table.Text(unit), table.Textf("%.4f", x.CRPS), table.Textf("%.4f", x.Ratio.Value),
			table.Textf("%.4f", x.Ratio.Low), table.Textf("%.4f", x.Ratio.High), table.Textf("%.2f", x.Bias),
			table.Textf("%.3f", x.Within80), table.Textf("%.3f", x.Within90), table.Textf("%.5f", x.Brier.Score),
			table.Textf("%.5f", x.Brier.Reliability), table.Textf("%.5f", x.Brier.Resolution), table.Textf("%.5f", x.Brier.Uncertainty),
			table.Text(pitData(x.PIT)))
	}
	return t
}

func pitData(pit []float64) string {
	var words []string
	for _, v := range pit {
		words = append(words, fmt.Sprintf("%.3f", v))
	}
	return strings.Join(words, " ")
}
