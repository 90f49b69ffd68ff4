// Package sample makes an invented garden's page for tests. Nothing in it is a record of
// any place, and the program does not use it.
package sample

import (
	charts "frostward/cmd/internal/chart/sample"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/table"
)

// Hostile is a name that must be shown as text wherever it stands.
const Hostile = `<script>document.title="owned"</script><img src=x onerror=alert(1)>"'&`

// View is a page with something in every section.
func View() page.View {
	plan := table.Table{Title: "The plan, scored", Columns: []table.Column{
		{Name: "planting"}, {Name: "spot"}, {Name: "plant out"}, {Name: "survives", Align: table.Right}, {Name: "ripens", Align: table.Right}, {Name: "both", Align: table.Right}, {Name: "verdict"}, {Name: "better"}},
		Notes: []string{"Shares of 32 seasons, each with its 90 % interval."}}
	plan.Add(table.Text("courgettes"), table.Text("open bed"), table.Text("24 May"), table.Text("91 % (79-96 %)"), table.Text("97 % (87-99 %)"), table.Text("88 % (76-94 %)"), table.Cell{Text: "likely", Tone: table.Good}, table.Text("30 May"))
	plan.Add(table.Text("sweet corn, early"), table.Text("open bed"), table.Text("21 May"), table.Text("84 % (71-92 %)"), table.Text("53 % (39-67 %)"), table.Text("50 % (36-64 %)"), table.Cell{Text: "doubtful", Tone: table.Doubtful}, table.Text("—"))
	plan.Add(table.Text("squash"), table.Text("open bed"), table.Text("1 Jun"), table.Text("97 % (87-99 %)"), table.Text("12 % (6-25 %)"), table.Text("12 % (6-25 %)"), table.Cell{Text: "poor", Tone: table.Bad}, table.Text("—"))
	plan.Add(table.Text(Hostile), table.Text(Hostile), table.Text("1 Jun"), table.Text("not known"), table.Text("not known"), table.Text("not known"), table.Cell{Text: "not known", Tone: table.Quiet}, table.Text("—"))
	week := table.Table{Title: "Nights this week at the open bed", Columns: []table.Column{{Name: "night"}, {Name: "chance of frost"}, {Name: "courgettes"}}}
	week.Add(table.Text("25 May"), table.Text("3 in 10"), table.Cell{Text: "cover", Tone: table.Bad})
	week.Add(table.Text("26 May"), table.Text("1 in 10"), table.Cell{Text: "leave", Tone: table.Good})
	rest := table.Table{Columns: week.Columns}
	rest.Add(table.Text("27 May"), table.Text("1 in 100"), table.Cell{Text: "leave", Tone: table.Good})
	quality := table.Table{Columns: []table.Column{{Name: "what"}, {Name: "days", Align: table.Right}}}
	quality.Add(table.Text("read"), table.Text("11 688"))
	quality.Add(table.Text("missing"), table.Text("41"))
	quality.Add(table.Text("doubtful, left out"), table.Text("3"))
	return page.View{
		Garden: "Garden behind the mill", AsOf: "25 May 2026", Notice: "This garden and all its figures are invented.",
		About: "Counted over the 32 seasons 1994 to 2025 of record.csv, and this season up to 24 May.",
		Decision: page.Decision{
			Headline: "Cover the courgettes tonight; sow beans on Tuesday.", Tone: table.Bad,
			Detail: "3 chances in 10 (20-41 %) of harm, from about -1 °C down, at the open bed.",
			AtRisk: &week, Rest: &rest, RestLine: "The beans by the wall can stay as they are.",
			Days:  []page.Day{{Name: "Tue 26 May", Items: []string{"Sow beans.", Hostile}}, {Name: "Sun 31 May", Items: []string{"Plant out squash."}}},
			Lines: []string{"The squash is better kept under glass until about 1 June."},
		},
		Plan: page.Section{Lead: "One planting of four is likely to survive and ripen.",
			Figures: []page.Figure{{Caption: "From sowing under cover to the last picking", Chart: charts.Season(), Wide: true}},
			Tables:  []table.Table{plan}},
		Outlook: page.Section{Lead: "Next to be ready: broad beans, about 19 June (8 years in 10: 13 to 27 Jun)."},
		Whole:   page.Section{Lead: "In a bad year 9 or more of 22 fail.", Folded: []page.Folded{{Line: "Year by year", Figures: []page.Figure{{Caption: "Each planting, year by year", Chart: charts.Years()}}}}},
		Frosts: page.Section{Lead: "At the open bed the last frost comes on 16 May in the middle season; in 1 season in 10 after 30 May.",
			Figures: []page.Figure{{Caption: "A frost still to come in spring", Chart: charts.Curves()}, {Caption: "A frost already come in autumn", Chart: charts.Curves()}},
			Notes:   []string{"A frost is a night at or below 0 °C. Each mark is one season."}},
		Warmth: page.Section{Lead: "This season is level with the middle one.", Figures: []page.Figure{{Caption: "Degree-days above 10 °C", Chart: charts.Fan()}}},
		Windows: page.Section{Lead: "Each line shows how many seasons would have served, by the day the plants go out.",
			Figures: []page.Figure{{Caption: "Courgettes, open bed", Chart: charts.Window()}, {Caption: Hostile, Chart: charts.Window()}},
			Folded:  []page.Folded{{Line: "One planting more whose day is sound", Figures: []page.Figure{{Caption: "Leeks, open bed", Chart: charts.Window()}}}}},
		Spots: page.Section{Lead: "On clear nights the open bed is 3.1 °C colder than the station.",
			Figures: []page.Figure{{Caption: "Open bed", Chart: charts.Scatter()}}},
		Skill:   page.Section{Lead: "What was given 7 chances in 10 came 7 times in 10.", Figures: []page.Figure{{Caption: "Stated and seen", Chart: charts.Reliability()}}},
		Quality: page.Section{Lead: "The record is fit to rely on.", Tables: []table.Table{quality}},
		Sources: []page.Source{{What: "Thom 1959", For: "frost dates where some seasons have none"}, {What: "the garden's own record and log"}},
		Cautions: []string{"Heaters under covers can burn and suffocate: follow their maker's instructions and local rules.",
			"Do not eat squash that tastes bitter, nor greened potatoes."},
	}
}
