package table

// gap is the number of spaces between columns.
const gap = 2

// A column that wraps is not made narrower than wrapMin, or its longest word up to
// wrapWord, unless it asks for it. When nothing more can be left out any column may be
// broken at spaces, down to squeezed, which still holds a date such as "24 May".
const (
	wrapMin  = 12
	wrapWord = 20
	squeezed = 6
)

// layout is one shown column.
type layout struct {
	column int // index into Columns
	width  int // places on the screen
	min    int // fewest that wrapping may leave it
	least  int // fewest in need
}

// fit chooses the columns to show and their widths so that a text table is at most
// limit wide, and names those left out. A table that cannot be made to fit is wider.
func (t Table) fit(limit int) (shown []layout, left []string) {
	shown = t.layouts()
	if limit <= 0 {
		return shown, nil
	}
	out := make([]bool, len(t.Columns))
	for total(shown, minOf) > limit {
		worst := -1
		for i, l := range shown {
			if d := t.Columns[l.column].Drop; d > 0 && (worst < 0 || d >= t.Columns[shown[worst].column].Drop) {
				worst = i
			}
		}
		if worst < 0 {
			for i := range shown {
				shown[i].min = shown[i].least
			}
			break
		}
		out[shown[worst].column] = true
		shown = append(shown[:worst], shown[worst+1:]...)
	}
	narrow(shown, limit)
	for i, c := range t.Columns {
		if name := c.heading(); out[i] && name != "" { // a picture without a heading is not missed
			left = append(left, name)
		}
	}
	return shown, left
}

// narrow takes places from the widest columns that can spare them until all fit.
func narrow(shown []layout, limit int) {
	for over := total(shown, widthOf) - limit; over > 0; over-- {
		widest := -1
		for i, l := range shown {
			if l.width > l.min && (widest < 0 || l.width > shown[widest].width) {
				widest = i
			}
		}
		if widest < 0 {
			return
		}
		shown[widest].width--
	}
}

func widthOf(l layout) int { return l.width }
func minOf(l layout) int   { return l.min }

func total(ls []layout, of func(layout) int) int {
	sum := gap * (len(ls) - 1)
	for _, l := range ls {
		sum += of(l)
	}
	return sum
}

// layouts gives each column the width of its longest cell, or what its heading needs
// to stand in two lines if that is more.
func (t Table) layouts() []layout {
	ls := make([]layout, len(t.Columns))
	wrapping := t.wrapping()
	for i, c := range t.Columns {
		l := layout{column: i}
		word := 0
		for _, row := range t.Rows {
			text := Safe(row[i].Text)
			l.width = max(l.width, width(text))
			word = max(word, longestWord(text))
		}
		l.min, l.least = l.width, min(l.width, max(word, squeezed))
		if wrapping[i] {
			l.min, l.least = min(l.width, max(wrapMin, min(word, wrapWord))), min(l.width, squeezed)
			if c.MinWidth > 0 {
				l.min = min(l.width, c.MinWidth)
				l.least = min(l.least, l.min)
			}
		}
		word = longestWord(c.heading())
		l.width = max(l.width, twoLines(c.heading()), 1)
		l.min = max(l.min, word, 1)
		l.least = max(l.least, word, 1)
		ls[i] = l
	}
	return ls
}

// wrapping says which columns may wrap: those that say so, else the last one of text.
func (t Table) wrapping() []bool {
	w := make([]bool, len(t.Columns))
	last, any := -1, false
	for i, c := range t.Columns {
		w[i] = c.Wrap
		any = any || c.Wrap
		if c.Align == Left {
			last = i
		}
	}
	if !any && last >= 0 {
		w[last] = true
	}
	return w
}
