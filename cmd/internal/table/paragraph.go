package table

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// Paragraph writes text broken at spaces to a width, unbroken where it is 0,
// with the lines after the first indented.
func Paragraph(w io.Writer, width int, text string, indent int) {
	if width == 0 {
		fmt.Fprintln(w, text)
		return
	}
	at := 0
	for i, word := range strings.Fields(kept.Replace(text)) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case at+1+n > width:
			fmt.Fprintf(w, "\n%s", strings.Repeat(" ", indent))
			at = indent
		default:
			fmt.Fprint(w, " ")
			at++
		}
		fmt.Fprint(w, strings.ReplaceAll(word, keep, " "))
		at += n
	}
	fmt.Fprintln(w)
}

// keep stands for a space at which no line may break: a number stays with its unit.
const keep = "\x00"

var kept = strings.NewReplacer(" %", keep+"%", " °", keep+"°", keep, "")

// Labelled writes a paragraph with a label in the margin.
func Labelled(w io.Writer, width int, label, text string) {
	var b strings.Builder
	if width > 0 {
		width = max(width-labelWidth, 20)
	}
	Paragraph(&b, width, text, 0)
	for i, line := range strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n") {
		if i > 0 {
			label = ""
		}
		fmt.Fprintf(w, "  %-*s%s\n", labelWidth-2, label, line)
	}
}

// labelWidth is the room for the labels of labelled lines.
const labelWidth = 12
