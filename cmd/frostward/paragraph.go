package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// paragraph prints text broken at spaces to the width of the terminal, unbroken where there
// is none, with the lines after the first indented.
func (a *app) paragraph(w io.Writer, text string, indent int) {
	if a.width == 0 {
		fmt.Fprintln(w, text)
		return
	}
	at := 0
	for i, word := range strings.Fields(kept.Replace(text)) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case at+1+n > a.width:
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
