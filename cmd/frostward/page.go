package main

import (
	"bytes"

	"github.com/spf13/cobra"

	"frostward/cmd/internal/page"
)

func newPage(a *app) *cobra.Command {
	var out string
	var sheet bool
	c := &cobra.Command{
		Annotations: map[string]string{ownForm: "an HTML page"},
		Use:         "page",
		Short:       "The garden as one HTML page, to look at or print",
		Long: `page writes the garden as one HTML file that needs nothing else: no network, no scripts,
no fonts. It shows what there is to do this week, the plan through the season, when frosts
come at each spot, this season's warmth against past ones, when each planting may start, how
the spots differ from the station, and the record behind it all. Every picture has its
figures as a table beside it. It suits a telephone, in light and dark.

With --sheet it is one A4 page to print and hang up instead: each planting's days, its window,
the frost dates of the spots, and room to write.`,
		Example: `  frostward page -o garden.html
  frostward page --garden mygarden -o mygarden.html
  frostward page --garden mygarden --sheet -o sheet.html`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.pageCmd(out, sheet) },
	}
	c.Flags().StringVarP(&out, "output", "o", "", "`file` to write; standard output without")
	c.Flags().BoolVar(&sheet, "sheet", false, "one A4 page for the wall: the year's days of each planting")
	return c
}

func (a *app) pageCmd(out string, sheet bool) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	v, err := s.look()
	if err != nil {
		return err
	}
	if v.noPlan != nil && !sheet {
		a.notef("%v", v.noPlan)
	}
	var b bytes.Buffer
	if sheet {
		if v.noPlan != nil {
			return v.noPlan
		}
		err = page.WriteSheet(&b, v.sheet())
	} else {
		err = page.Write(&b, v.view(), page.Options{})
	}
	if err != nil {
		return err
	}
	if err := a.deliver(out, b.Bytes()); err != nil || out == "" {
		return err
	}
	a.notef("%s: the page of %s", out, s.Settings.Name)
	return nil
}
