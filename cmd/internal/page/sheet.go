package page

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"
	"unicode/utf8"

	"frostward/cmd/internal/table"
)

//go:embed sheet.css
var sheetStyle string

// Sheet is one A4 page for the wall, black on white.
type Sheet struct {
	Title, Note string
	Plan        table.Table // one planting a row; its last column is left to write in
	Frosts      table.Table // one spot a row
	Foot        []string
}

// The room on the sheet, in millimetres: all of A4 within its margins, what stands around the
// plan's rows, and the least that is left to write in.
const (
	sheetHeight = 273.0
	sheetAround = 50.0
	sheetNotes  = 22.0
	tallestRow  = 8.5
	lowestRow   = 5.0
	longName    = 44 // letters from which a name may take three lines
)

// WriteSheet writes the sheet, its rows as high as the page has room for. It returns an error
// when there are more plantings than a page can show.
func WriteSheet(w io.Writer, s Sheet) error {
	lines := 0.0
	for _, r := range s.Plan.Rows {
		lines++
		if utf8.RuneCountInString(r[0].Text) > longName {
			lines += 0.5
		}
	}
	room := sheetHeight - sheetAround - sheetNotes - 5.2*float64(len(s.Frosts.Rows)+1)
	row := min(room/(lines+1.5), tallestRow)
	if row < lowestRow {
		return fmt.Errorf("%d plantings and %d spots do not fit on one page; wanted at most about %.0f plantings", len(s.Plan.Rows), len(s.Frosts.Rows), room/lowestRow)
	}
	// Two lines of text fit a row: a point is 0.353 mm, a line 1.1 of the text's height.
	css := sheetStyle + fmt.Sprintf(":root { --row: %.2fmm; --text: %.1fpt; }\n", row, min(9, (row-0.8)/0.777))
	return tmpl().ExecuteTemplate(w, "sheet", struct {
		head
		Sheet        Sheet
		Plan, Frosts grid
		Lines        []struct{} // to write on, 8 mm apart
	}{head{Title: s.Title, Style: template.HTML("<style>" + css + "</style>"), Policy: policyFor(css, false)},
		s, gridOf(s.Plan, "the year"), gridOf(s.Frosts, "frost dates"), make([]struct{}, int((sheetNotes+room-row*(lines+1.5))/8))})
}
