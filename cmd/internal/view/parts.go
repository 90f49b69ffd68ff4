package view

import (
	"math"

	"frostward/climate"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/opened"
)

// partsOf are the stages as the season strip draws them.
func partsOf(g opened.Stages) []chart.Part {
	var out []chart.Part
	add := func(stage chart.Stage, from, to float64) {
		if !math.IsNaN(from) && !math.IsNaN(to) && to > from {
			out = append(out, chart.Part{Stage: stage, From: climate.SeasonDay(from), To: climate.SeasonDay(to), Low: math.NaN(), High: math.NaN()})
		}
	}
	add(chart.UnderCover, g.Sow, opened.FirstKnown(g.Harden, g.Out))
	add(chart.Hardening, g.Harden, g.Out)
	add(chart.Out, g.Out, opened.FirstKnown(g.Pick, g.EndsWithoutOne))
	add(chart.Picking, g.Pick, opened.FirstKnown(g.Free, g.Pick+1))
	if n := len(out) - 1; n >= 0 && out[n].Stage == chart.Picking {
		out[n].Low, out[n].High = g.Early, g.Late
	}
	return out
}
