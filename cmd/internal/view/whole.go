package view

import (
	"fmt"
	"slices"

	"frostward/climate"
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// wholeSection is what becomes of all plantings in the same years.
func (v *Garden) wholeSection() page.Section {
	switch {
	case v.NoPlan != nil:
		return page.Section{NotKnown: "the plan cannot be used"}
	case len(v.Plantings) < 2:
		return page.Section{NotKnown: "it takes a plan of two plantings or more"}
	}
	past, err := v.Remember(v.Plantings)
	if err != nil {
		return page.Section{NotKnown: err.Error()}
	}
	got, err := v.Together(v.Assessed, past)
	if err != nil {
		return page.Section{NotKnown: err.Error()}
	}
	s := page.Section{Folded: []page.Folded{{Line: "Year by year, each planting", Figures: []page.Figure{{
		Caption: "What would have become of each planting in the years of the record", Chart: yearsChart(past, got.Labels)}}}}}
	t, ok := TogetherTable(got)
	if !ok {
		s.Notes = []string{"How often all of it succeeds in the same year is not known: too few seasons can be played for every planting."}
		return s
	}
	if len(t.Notes) > 0 {
		s.Lead, s.Notes, t.Notes = t.Notes[0], t.Notes[1:], nil
	}
	s.Tables = []table.Table{t}
	return s
}

// TogetherTable is in how many years all of the plan succeeds, most of it, and at least one of each family, with sentences
// as notes; false where that is not known.
func TogetherTable(got opened.Together) (table.Table, bool) {
	t := table.Table{Title: "All together, with their reserves, in the same years", Columns: []table.Column{
		{Name: "there is a crop of", Wrap: true, MinWidth: 20}, {Name: "in"}, {Name: "(90\u00a0%)", Align: table.Right}, {Name: "plantings", Wrap: true, MinWidth: 20}}}
	add := func(of string, c climate.Chance, which string) {
		t.Add(table.Text(of), table.Text(words.InYears(c.Share)), words.IntervalCell(c), table.Text(which))
	}
	if len(got.Labels) < 2 || !got.Every.Known {
		return t, false
	}
	add(fmt.Sprintf("every one of %d plantings", len(got.Labels)), got.Every, "")
	add("nine in ten of them", got.NineInTen, "")
	for _, any := range got.AnyOf {
		if any.Succeeds.Known {
			add("at least one of the "+any.Family, any.Succeeds, words.List(any.Labels))
		}
	}
	t.Notes = sentences.Together(got.Together, got.Labels, got.Night, got.Took)
	return t, true
}

// yearsChart is the plan as it would have gone in each year of the record.
func yearsChart(past *opened.Remembered, labels []string) chart.Years {
	c := chart.Years{Title: "The plan in the years of the record", Years: past.Seasons, Names: labels,
		Desc: "Years down, plantings across, each by itself without its reserve."}
	for _, outcomes := range past.Outcomes {
		seen := make([]chart.Outcome, len(outcomes))
		for j, o := range outcomes {
			switch {
			case !o.Known:
			case o.Lost:
				seen[j] = chart.Killed
			case o.Ripens:
				seen[j] = chart.Ripe
			default:
				seen[j] = chart.Late
			}
		}
		c.Seen = append(c.Seen, seen)
	}
	// A season that is not over yet has nothing to show.
	for n := len(c.Years) - 1; n > 0 && !slices.ContainsFunc(c.Seen, func(s []chart.Outcome) bool { return s[n] != chart.Unknown }); n-- {
		c.Years = c.Years[:n]
	}
	return c
}
