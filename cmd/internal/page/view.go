// Package page writes the garden as one HTML page that needs nothing else: no network,
// no fonts, no scripts. It knows sections, charts and tables, not risks.
package page

import (
	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/table"
)

// View is what the page shows. Every part may be empty: the page then says that it is
// not known, with the part's reason if it has one.
type View struct {
	Garden string // its name
	AsOf   string // the day it is for, such as "25 May 2026"
	Notice string // what a reader must know first, such as that all is invented
	About  string // a sentence on the record behind it all

	Decision Decision
	Plan     Section
	Whole    Section // garden: all plantings in the same years
	Outlook  Section // of what is in the ground
	Frosts   Section
	Warmth   Section
	Windows  Section
	Spots    Section
	Skill    Section
	Quality  Section
	Sources  []Source
	Cautions []string
}

// Decision is what to do tonight and this week, first on the page.
type Decision struct {
	Headline string // at most twelve words
	Tone     table.Tone
	Detail   string // the chance behind it, with its interval
	AtRisk   *table.Table
	Rest     *table.Table // what is not at risk, folded away
	RestLine string       // a sentence on the rest
	Days     []Day        // the week's work
	Lines    []string     // further sentences
	NotKnown string
}

// Day is one day's work.
type Day struct {
	Name  string // "Sat 16 May"
	Items []string
}

// Section is one part of the page.
type Section struct {
	Lead     string // a sentence or two: the answer before the picture
	Figures  []Figure
	Tables   []table.Table
	Folded   []Folded // further figures and tables, each behind a line that opens
	Notes    []string
	NotKnown string // why there is nothing
}

// Folded is what a section keeps behind a line.
type Folded struct {
	Line    string
	Figures []Figure
	Tables  []table.Table
}

// Figure is a chart with its caption, which serves as its heading.
type Figure struct {
	Caption string
	Chart   chart.Chart
	Wide    bool // over the whole width of a desk screen
}

// Source is a book, paper or data set, and what was taken from it.
type Source struct{ What, For string }

// Empty says whether there is nothing to show.
func (s Section) Empty() bool {
	return s.Lead == "" && len(s.Folded)+len(s.Figures)+len(s.Tables)+len(s.Notes) == 0
}

// Empty says whether there is nothing to show.
func (d Decision) Empty() bool {
	return d.Headline == "" && len(d.Lines)+len(d.Days) == 0 && d.AtRisk == nil && d.Rest == nil
}
