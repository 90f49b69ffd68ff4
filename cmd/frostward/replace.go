package main

import (
	"io"

	"github.com/spf13/cobra"

	"frostward/cmd/internal/deliver"
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

// deliver writes a result to a file in one step, or to the output where none is named. The files
// of keep are not written over.
func (a *app) deliver(o output, mark string, keep []string, b []byte) error {
	if o.name == "" {
		_, err := a.out.Write(b)
		return err
	}
	f := deliver.File{Name: o.name, Mark: mark, Keep: keep, Force: o.force}
	return f.Write(func(w io.Writer) error {
		_, err := w.Write(b)
		return err
	})
}
