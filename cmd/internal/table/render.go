package table

import (
	"io"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/tw"
)

// render hands the shown columns to tablewriter, which aligns them. Texts come ready
// wrapped: it cuts colours and words when it wraps, and shares widths out evenly.
func (t Table) render(w io.Writer, shown []layout, heading func(layout) string, cell func(Cell, layout) string, more ...tablewriter.Option) error {
	align := make(tw.Alignment, len(shown))
	headings := make([]string, len(shown))
	for i, l := range shown {
		align[i] = tw.AlignLeft
		if t.Columns[l.column].Align == Right {
			align[i] = tw.AlignRight
		}
		headings[i] = heading(l)
	}
	out := tablewriter.NewTable(w, append([]tablewriter.Option{
		tablewriter.WithHeaderAutoFormat(tw.Off), // would turn "Tmin °C" into "TMIN  ° C"
		tablewriter.WithHeaderAutoWrap(tw.WrapNone),
		tablewriter.WithRowAutoWrap(tw.WrapNone),
		tablewriter.WithEastAsian(tw.Off), // output must not depend on the locale
		tablewriter.WithAlignment(align),
		tablewriter.WithHeaderAlignmentConfig(tw.CellAlignment{PerColumn: align}),
		tablewriter.WithRowAlignmentConfig(tw.CellAlignment{PerColumn: align}),
	}, more...)...)
	out.Header(headings)
	for _, row := range t.Rows {
		cells := make([]string, len(shown)) // Append keeps it
		for i, l := range shown {
			cells[i] = cell(row[l.column], l)
		}
		if err := out.Append(cells); err != nil {
			return err
		}
	}
	return out.Render()
}
