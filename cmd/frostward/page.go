package main

import (
	"bytes"

	"github.com/spf13/cobra"

	"frostward/cmd/internal/page"
)

func newPage(a *app) *cobra.Command {
	var out string
	c := &cobra.Command{
		Annotations: map[string]string{ownForm: "an HTML page"},
		Use:         "page",
		Short:       "The garden as one HTML page, to look at or print",
		Long: `page writes the garden as one HTML file that needs nothing else: no network, no scripts,
no fonts. It shows what there is to do this week, the plan through the season, when frosts
come at each spot, this season's warmth against past ones, when each planting may start, how
the spots differ from the station, and the record behind it all. Every picture has its
figures as a table beside it. It prints on A4 and suits a telephone, in light and dark.`,
		Example: `  frostward page -o garden.html
  frostward page --garden mygarden -o mygarden.html`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.pageCmd(out) },
	}
	c.Flags().StringVarP(&out, "output", "o", "", "`file` to write; standard output without")
	return c
}

func (a *app) pageCmd(out string) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	v, err := s.look()
	if err != nil {
		return err
	}
	if v.noPlan != nil {
		a.notef("%v", v.noPlan)
	}
	var b bytes.Buffer
	if err := page.Write(&b, v.view(), page.Options{}); err != nil {
		return err
	}
	if err := a.deliver(out, b.Bytes()); err != nil || out == "" {
		return err
	}
	a.notef("%s: the page of %s", out, s.Settings.Name)
	return nil
}
