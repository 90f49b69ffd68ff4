package main

import (
	"fmt"

	"frostward/cmd/internal/table"
)

// write prints the night: what to do in one line, the plantings, and why.
func (v *evening) write(o tonightOptions) error {
	a := v.app
	text := a.format == table.TextFormat
	if text {
		a.paragraph(a.out, v.Headline(v.app.unit()), 2)
		fmt.Fprintln(a.out)
	}
	if err := v.Table(a.unit()).Write(a.out, a.tables()); err != nil || !text {
		return err
	}
	if len(v.later) > 0 {
		fmt.Fprintln(a.out)
		if err := v.AheadTable(v.later, a.unit()).Write(a.out, a.tables()); err != nil {
			return err
		}
	}
	fmt.Fprintln(a.out)
	if err := v.MethodTable(v.sun, a.unit()).Write(a.out, a.tables()); err != nil {
		return err
	}
	fmt.Fprintln(a.out)
	a.lines(v.Why(v.sun, v.next, v.session.hot(v.Evening), a.unit()))
	return nil
}
