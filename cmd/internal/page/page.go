package page

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"sync"

	"frostward/cmd/internal/chart"
	"frostward/cmd/internal/table"
)

//go:embed page.tmpl
var templates string

// tmpl is parsed when it is first asked for: most commands write no page.
var tmpl = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("page").Funcs(template.FuncMap{
		"grid": func(t *table.Table) grid { return gridOf(*t, "This week") },
	}).Parse(templates))
})

// Options says where the page will stand. The zero value is a file by itself.
type Options struct {
	Live  bool          // served: the policy is in the header, and forms are allowed
	Links []Link        // to the other pages of a served garden
	Top   template.HTML // forms in place of the week's list
}

// Link leads to another page.
type Link struct {
	To, Name string
	Here     bool
}

// head is what every page has.
type head struct {
	Options
	Title  string
	Style  template.HTML
	Policy string
}

func (o Options) head(title string) head {
	return head{Options: o, Title: title, Style: styleElement, Policy: Policy(o.Live)}
}

// part is a section prepared for the template.
type part struct {
	ID, Short, Heading string
	Section            Section
	Figures            []figure
	Tables             []grid
	Folded             []folded
	Quiet              bool // folded away: what the chances rest on, not what to do
}

// folded is what a line opens.
type folded struct {
	Line    string
	Figures []figure
	Tables  []grid
}

type figure struct {
	Caption        string
	Wide           bool
	Picture, Wider template.HTML
	Data           grid
}

// Write writes the garden's page.
func Write(w io.Writer, v View, o Options) error {
	parts := []part{
		{ID: "plan", Short: "The plan", Heading: "The plan through the season", Section: v.Plan},
		{ID: "outlook", Short: "In the ground", Heading: "What is in the ground", Section: v.Outlook},
		{ID: "whole", Short: "All together", Heading: "The garden as a whole", Section: v.Whole},
		{ID: "frosts", Short: "Frosts", Heading: "When the frosts come", Section: v.Frosts},
		{ID: "warmth", Short: "Warmth", Heading: "Warmth so far", Section: v.Warmth},
		{ID: "windows", Short: "Windows", Heading: "When each planting may go out", Section: v.Windows},
		{ID: "spots", Short: "Spots", Heading: "How the spots differ from the station", Section: v.Spots},
		{ID: "skill", Short: "Skill", Heading: "How good these chances have been", Section: v.Skill, Quiet: true},
		{ID: "quality", Short: "Record", Heading: "The record behind it", Section: v.Quality, Quiet: true},
	}
	for i := range parts {
		parts[i].prepare()
	}
	return tmpl().ExecuteTemplate(w, "garden", struct {
		head
		View     View
		HeadTone string
		Sections []part
	}{o.head(v.Garden), v, toneClass(v.Decision.Tone), parts})
}

// prepare draws the section's figures; their ids begin with the section's.
func (p *part) prepare() {
	drawn := 0
	draw := func(figures []Figure) (out []figure) {
		for _, f := range figures {
			drawn++
			id := fmt.Sprintf("%s-%d", p.ID, drawn)
			g := figure{Caption: f.Caption, Wide: f.Wide, Data: gridOf(f.Chart.Data(), f.Caption)}
			// The charts escape what they are given; their tests hold them to it.
			g.Picture = template.HTML(f.Chart.SVG(id, chart.Narrow))
			if f.Wide {
				g.Wider = template.HTML(f.Chart.SVG(id+"w", chart.Wide))
			}
			out = append(out, g)
		}
		return out
	}
	grids := func(tables []table.Table) (out []grid) {
		for _, t := range tables {
			out = append(out, gridOf(t, p.Heading))
		}
		return out
	}
	p.Figures, p.Tables = draw(p.Section.Figures), grids(p.Section.Tables)
	for _, f := range p.Section.Folded {
		p.Folded = append(p.Folded, folded{f.Line, draw(f.Figures), grids(f.Tables)})
	}
}

// WriteSection writes one section, for the body of a served page.
func WriteSection(w io.Writer, id, heading string, s Section) error {
	p := part{ID: id, Heading: heading, Section: s}
	p.prepare()
	return tmpl().ExecuteTemplate(w, "section", p)
}

// WriteShell writes a page around a body that a template has made safe.
func WriteShell(w io.Writer, title string, body template.HTML, o Options) error {
	return tmpl().ExecuteTemplate(w, "shell", struct {
		head
		Body template.HTML
	}{o.head(title), body})
}
