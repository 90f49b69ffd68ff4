package main

import (
	"fmt"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
)

// warmthFlags are the options of warmth.
type warmthFlags struct {
	base, upper   float64
	method, limit string
	from, to      string
	crop          string
	all           bool
}

func newWarmth(a *app) *cobra.Command {
	var f warmthFlags
	c := &cobra.Command{
		Use:   "warmth",
		Short: "Degree-days, crop heat units, the growing season and the length of day",
		Long: `warmth shows how much warmth a season brings here, season by season and typically:
degree-days between two dates, Ontario crop heat units, and the length of the growing
season as ETCCDI defines it. It ends with the light: when the days are how long.

Degree-days are the mean height of the temperature above --base, day by day, summed.
--method says how the temperature is taken to run between the day's minimum and maximum;
--limit says what warmth above --upper is worth. --crop takes base and upper limit from the
catalogue, with the method its sums rest on.

Missing days, up to three on end and one day in twenty, take the mean of their neighbours;
a season with more missing is left out. Warmth is counted in the station's screen, as
published sums are, whatever the spot.

As CSV the seasons are written, one a row; as JSON everything.`,
		Example: `  frostward warmth
  frostward warmth --crop "sweet corn" --from 05-15 --to 10-15
  frostward warmth --base 10 --upper 30 --method average-clipped --limit horizontal --all`,
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error { return a.warmth(c, f) },
	}
	fl := c.Flags()
	fl.Float64Var(&f.base, "base", 10, "temperature in `°C` below which nothing grows")
	fl.Float64Var(&f.upper, "upper", math.NaN(), "upper limit in `°C`; without it warmth has no limit")
	fl.Lookup("upper").DefValue = ""
	fl.StringVar(&f.method, "method", "single-sine", "`name`: single-sine, double-sine, single-triangle, double-triangle, average or average-clipped")
	fl.StringVar(&f.limit, "limit", "", "`name`: horizontal (default with --upper), intermediate or vertical")
	fl.StringVar(&f.from, "from", "", "first day of the sum, `day` such as 24 May (1 April, in the south 1 October)")
	fl.StringVar(&f.to, "to", "", "last day of the sum, `day` such as 24 May (31 October, in the south 30 April)")
	fl.StringVar(&f.crop, "crop", "", "base and upper limit of a crop of the catalogue, by `name`")
	fl.BoolVar(&f.all, "all", false, "show every season, not only the last twelve")
	complete(c, "method", "single-sine", "double-sine", "single-triangle", "double-triangle", "average", "average-clipped")
	complete(c, "limit", "none", "horizontal", "intermediate", "vertical")
	return c
}

func (a *app) warmth(c *cobra.Command, f warmthFlags) error {
	a.asHappened()
	s, err := a.open()
	if err != nil {
		return err
	}
	w, err := s.warmthAsked(c, f)
	if err != nil {
		return err
	}
	if a.spot != "" && a.spot != "station" {
		a.notef("--spot %s: warmth is counted in the station's screen; a spot changes only the nights' frost", a.spot)
	}
	if err := s.FindWarmth(w); err != nil {
		return err
	}
	switch a.format {
	case table.JSON:
		return a.writeJSON(s.warmthJSON(w))
	case table.CSV:
		return s.warmthYears(w, true).Write(a.out, a.tables())
	}
	return s.writeWarmth(w, f.all)
}

// warmthAsked reads the options into limits and days.
func (s *session) warmthAsked(c *cobra.Command, f warmthFlags) (*opened.Warmth, error) {
	w := &opened.Warmth{Sum: climate.DegreeDays{Base: f.base, Upper: f.upper}}
	var err error
	if w.Sum.Method, err = climate.ParseMethod(f.method); err != nil {
		return nil, usagef("--method %w", err)
	}
	if f.crop != "" {
		if c.Flags().Changed("base") || c.Flags().Changed("upper") {
			return nil, usagef("--crop takes base and upper limit from the catalogue; wanted it, or --base and --upper")
		}
		if err := s.warmthOfCrop(w, f.crop); err != nil {
			return nil, err
		}
	}
	limited := !math.IsNaN(w.Sum.Upper)
	switch {
	case f.limit == "" && limited:
		w.Sum.Limit = climate.Horizontal
	case f.limit != "":
		if w.Sum.Limit, err = climate.ParseUpperLimit(f.limit); err != nil {
			return nil, usagef("--limit %w", err)
		}
		if w.Sum.Limit != climate.NoLimit && !limited {
			return nil, usagef("--limit %s wants a temperature: --upper", f.limit)
		}
	}
	switch {
	case math.IsNaN(w.Sum.Base) || math.IsInf(w.Sum.Base, 0):
		return nil, usagef("--base %v; wanted a temperature in °C", w.Sum.Base)
	case w.Sum.Limit != climate.NoLimit && !(w.Sum.Upper > w.Sum.Base):
		return nil, usagef("--upper %v is not above the base %v", w.Sum.Upper, w.Sum.Base)
	}
	w.Days, err = s.warmthDays(f.from, f.to)
	return w, err
}

func (s *session) warmthOfCrop(w *opened.Warmth, name string) error {
	cat, err := s.Catalogue()
	if err != nil {
		return err
	}
	name, class, _ := strings.Cut(name, ",")
	crop, err := cat.Find(strings.TrimSpace(name), strings.TrimSpace(class))
	if err != nil {
		return usagef("--crop: %w", err)
	}
	if !crop.Base.Known() {
		return fmt.Errorf("%s: the catalogue has no base temperature for it; --base sets one", crop.Label())
	}
	w.Of, w.Sum.Base, w.Sum.Upper = crop.Label(), crop.Base.Value, crop.Upper.Value
	return nil
}

// warmthDays reads the days of the sum; a last day before the first is in the next year.
func (s *session) warmthDays(from, to string) (climate.Window, error) {
	w := climate.Window{From: s.Calendar.Of(4, 1), To: s.Calendar.Of(10, 31)}
	if s.Calendar.South {
		w = climate.Window{From: s.Calendar.Of(10, 1), To: s.Calendar.Of(4, 30)}
	}
	for _, d := range []struct {
		flag, text string
		day        *climate.SeasonDay
	}{{"--from", from, &w.From}, {"--to", to, &w.To}} {
		if d.text == "" {
			continue
		}
		v, err := s.Calendar.Parse(d.text)
		if err != nil {
			return w, usagef("%s: %w", d.flag, err)
		}
		*d.day = v
	}
	if w.To < w.From {
		w.To += climate.YearDays
	}
	return w, nil
}
