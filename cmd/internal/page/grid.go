package page

import (
	"strings"

	"frostward/cmd/internal/table"
)

// grid is a table prepared for the template.
type grid struct {
	Label   string // for those who cannot see where it stands
	Caption string
	Head    []cell
	Rows    [][]cell
	Notes   []string
}

type cell struct {
	Text   string
	Number bool
	Class  string
}

func gridOf(t table.Table, label string) grid {
	g := grid{Label: "Table: " + label, Caption: t.Title, Notes: t.Notes}
	if t.Title != "" {
		g.Label = "Table: " + t.Title
	}
	for _, c := range t.Columns {
		g.Head = append(g.Head, cell{Text: strings.TrimSpace(c.Name + " " + c.Unit), Number: c.Align == table.Right})
	}
	for _, r := range t.Rows {
		row := make([]cell, len(r))
		for i, c := range r {
			var classes []string
			if t.Columns[i].Align == table.Right {
				classes = append(classes, "n")
			}
			if tone := toneClass(c.Tone); tone != "" {
				classes = append(classes, tone)
			}
			if len(c.Text) <= 14 {
				classes = append(classes, "whole") // a date or a word is not broken
			}
			row[i] = cell{Text: c.Text, Class: strings.Join(classes, " ")}
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// toneClass chooses the mark before a text. The text says the same in words.
func toneClass(t table.Tone) string {
	return map[table.Tone]string{table.Good: "good", table.Doubtful: "doubtful", table.Bad: "bad", table.Quiet: "unsure"}[t]
}
