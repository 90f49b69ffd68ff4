package main

import (
	"bytes"
	"errors"
	"io/fs"

	"github.com/spf13/cobra"

	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/page"
	"frostward/cmd/internal/view"
)

func newPage(a *app) *cobra.Command {
	var out output
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
	out.flags(c, page.Mark)
	c.Flags().BoolVar(&sheet, "sheet", false, "one A4 page for the wall: the year's days of each planting")
	return c
}

func (a *app) pageCmd(out output, sheet bool) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	if err := out.check(page.Mark, s.Own()); err != nil {
		return err
	}
	v, err := s.look()
	if err != nil {
		return err
	}
	if v.NoPlan != nil {
		_, err := s.Plan()
		if errors.Is(err, fs.ErrNotExist) && a.plan == "" && s.Settings.Plan == garden.Default().Plan {
			err = nil // there is none yet
		}
		if err == nil {
			_, err = s.Diary()
		}
		if err == nil {
			_, err = s.Catalogue()
		}
		if err != nil || sheet { // a plan that can be read, but not used, leaves the rest of the page
			return v.NoPlan
		}
		a.notef("%v", v.NoPlan)
	}
	var b bytes.Buffer
	if sheet {
		err = page.WriteSheet(&b, v.Sheet())
	} else {
		err = page.Write(&b, v.View(), page.Options{})
	}
	if err != nil {
		return err
	}
	if err := a.deliver(out, page.Mark, s.Own(), b.Bytes()); err != nil || out.name == "" {
		return err
	}
	a.notef("%s: the page of %s", out.name, s.Settings.Name)
	return nil
}

// look works out what the page shows, with the night and the outlook.
func (s *session) look() (*view.Garden, error) {
	v, err := view.Look(s.Garden, s.app.unit())
	if err != nil {
		return nil, err
	}
	v.Ways = s.words().Ways(s.Garden)
	if v.NoPlan == nil {
		v.Night = s.nightAhead()
	}
	return v, nil
}

// nightAhead is tonight as the page has it.
func (s *session) nightAhead() view.Night {
	e, err := s.evening(tonightOptions{})
	if err != nil {
		return view.Night{Err: err}
	}
	return view.Night{Night: e.Night}
}
