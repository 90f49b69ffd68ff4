package page

import (
	"strings"
	"unicode/utf8"

	"frostward/cmd/internal/table"
)

// grid is a table prepared for the template.
type grid struct {
	Label   string // for those who cannot see where it stands
	Caption string
	Cards   string // where there is little room each row is a card with its labels; "many" columns want more
	Head    []cell
	Rows    [][]cell
	Notes   []string
}

type cell struct {
	Text   string
	Label  string // its column's, for a card
	Number bool
	Class  string
	Tone   string // the mark before the text
}

func gridOf(t table.Table, label string) grid {
	g := grid{Label: "Table: " + label, Caption: t.Title, Notes: t.Notes}
	switch n := len(t.Columns); {
	case n > 7:
		g.Cards = "many"
	case n > 3:
		g.Cards = "cards"
	}
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
			if c.Text == "" || c.Text == "-" {
				classes = append(classes, "none") // a card leaves it out
			}
			if n := utf8.RuneCountInString(c.Text); n <= 14 || n <= 17 && g.Cards != "many" {
				classes = append(classes, "whole") // a date, a word, and where there is room two dates are not broken
			}
			if utf8.RuneCountInString(c.Text+g.Head[i].Text) > 20 {
				classes = append(classes, "long") // fills a line of a card
			}
			row[i] = cell{Text: c.Text, Label: g.Head[i].Text, Class: strings.Join(classes, " "), Tone: toneClass(c.Tone)}
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

// toneClass chooses the mark before a text. The text says the same in words.
func toneClass(t table.Tone) string {
	return map[table.Tone]string{table.Good: "good", table.Doubtful: "doubtful", table.Bad: "bad", table.Quiet: "unsure"}[t]
}
