package table

import (
	"bytes"
	"io"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

func (t Table) writeText(w io.Writer, o Options) error {
	var shown []layout
	var left []string
	if len(t.Rows) > 0 { // a table without rows is its title and its notes
		shown, left = t.fit(o.Width)
	}
	var b bytes.Buffer
	if t.Title != "" {
		writeLines(&b, t.Title, o.Width)
		b.WriteByte('\n')
	}
	if len(shown) > 0 {
		if err := t.renderText(&b, shown, o); err != nil {
			return err
		}
	}
	if len(left) > 0 || len(shown) > 0 && len(t.Notes) > 0 {
		b.WriteByte('\n')
	}
	if len(left) > 0 {
		writeLines(&b, "Left out to fit the width: "+strings.Join(left, ", ")+".", o.Width)
	}
	for _, n := range t.Notes {
		writeLines(&b, n, o.Width)
	}
	_, err := w.Write(b.Bytes())
	return err
}

func writeLines(b *bytes.Buffer, s string, width int) {
	for _, line := range wrap(Safe(s), width) {
		b.WriteString(line + "\n")
	}
}

func (t Table) renderText(b *bytes.Buffer, shown []layout, o Options) error {
	rule := "─"
	if o.ASCII {
		rule = "-"
	}
	padding := make([]tw.Padding, len(shown))
	widths := tw.NewMapper[int, int]()
	for i, l := range shown {
		padding[i] = tw.Padding{Right: strings.Repeat(" ", gap), Overwrite: true}
		if i == len(shown)-1 {
			padding[i].Right = ""
		}
		widths.Set(i, l.width+len(padding[i].Right)) // widths count the padding
	}
	thin := renderer.NewBlueprint(tw.Rendition{
		Borders: tw.Border{Left: tw.Off, Right: tw.Off, Top: tw.Off, Bottom: tw.Off},
		Symbols: tw.NewSymbolCustom("thin").WithRow(rule).WithCenter(rule),
		Settings: tw.Settings{
			Separators: tw.Separators{BetweenColumns: tw.Off, BetweenRows: tw.Off},
			Lines:      tw.Lines{ShowHeaderLine: tw.On},
		},
	})
	heading := func(l layout) string {
		return strings.Join(wrap(t.Columns[l.column].heading(), l.width), "\n")
	}
	cell := func(c Cell, l layout) string {
		lines := wrap(Safe(c.Text), l.width)
		if o.Colour {
			for i, line := range lines { // each line by itself, so that no line leaves a colour on
				lines[i] = c.Tone.paint(line)
			}
		}
		return strings.Join(lines, "\n")
	}
	var raw bytes.Buffer
	err := t.render(&raw, shown, heading, cell,
		tablewriter.WithRenderer(thin),
		tablewriter.WithColumnWidths(widths),
		tablewriter.WithHeaderPaddingPerColumn(padding),
		tablewriter.WithRowPaddingPerColumn(padding))
	if err != nil {
		return err
	}
	for _, line := range strings.Split(strings.TrimRight(raw.String(), "\n"), "\n") {
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	return nil
}
