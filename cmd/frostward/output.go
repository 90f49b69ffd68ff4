package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"frostward/cmd/internal/deliver"
	"frostward/cmd/internal/pictures"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// output is where a command writes its result: -o and --force.
type output struct {
	name  string
	force bool
}

func (o *output) flags(c *cobra.Command, mark string) {
	c.Flags().StringVarP(&o.name, "output", "o", "", "`file` to write; standard output without")
	c.Flags().BoolVar(&o.force, "force", false, "write over a file that this command did not make (its own has "+mark+" near its beginning)")
}

// file is the output as a file that is written over nothing else; the files of keep are not.
func (o output) file(mark string, keep []string) deliver.File {
	return deliver.File{Name: o.name, Mark: mark, Keep: keep, Force: o.force}
}

// check says what would stop the writing, before the long work.
func (o output) check(mark string, keep []string) error {
	if o.name == "" {
		return nil
	}
	_, err := o.file(mark, keep).Check()
	return err
}

// deliver writes a result to a file in one step, or to the output where none is named.
func (a *app) deliver(o output, mark string, keep []string, b []byte) error {
	write := func(w io.Writer) error {
		_, err := w.Write(b)
		return err
	}
	if o.name == "" {
		return write(a.out)
	}
	return o.file(mark, keep).Write(write)
}

// unit is what temperatures are said in: CSV and JSON stay in °C.
func (a *app) unit() words.Units {
	return words.Units{Fahrenheit: a.fahr && a.format != table.CSV && a.format != table.JSON}
}

// words says results in the garden's days and the unit asked for.
func (s *session) words() sentences.In {
	return sentences.In{In: words.In{Units: s.app.unit(), Calendar: s.Calendar}}
}

// paragraph prints text within the terminal's width.
func (a *app) paragraph(w io.Writer, text string, indent int) {
	table.Paragraph(w, a.width, text, indent)
}

// labelled prints a paragraph with a label in the margin.
func (a *app) labelled(w io.Writer, label, text string) { table.Labelled(w, a.width, label, text) }

// lines prints sentences with their labels.
func (a *app) lines(lines []sentences.Line) {
	for _, l := range lines {
		a.labelled(a.out, l.Label, l.Text)
	}
}

// paper is what pictures are drawn on: the terminal's width within reason, and 80 where there is none.
func (a *app) paper() pictures.Paper {
	p := pictures.Paper{Width: 80, ASCII: a.ascii}
	if a.width > 0 {
		p.Width = min(a.width, 100)
	}
	return p
}

// picture prints a picture under its sentence, for people only.
func (a *app) picture(p pictures.Picture) {
	if len(p.Lines) == 0 || a.format != table.TextFormat {
		return
	}
	fmt.Fprintln(a.out)
	a.paragraph(a.out, p.Reading, 0)
	for _, l := range p.Lines {
		fmt.Fprintln(a.out, l)
	}
}
