package main

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/deliver"
	"frostward/cmd/internal/forecast"
	"frostward/cmd/internal/journal"
	"frostward/cmd/internal/nights"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// exitAct is the status of tonight with --exit-code when something wants doing.
const exitAct = 3

// tonightOptions are the options of tonight; what it shares with log is in logOptions.
type tonightOptions struct {
	logOptions
	tmax, noon, noonDew, later string
	laterHours                 float64
	keep, exitCode             bool
	forecastUnit               string
}

func newTonight(a *app) *cobra.Command {
	var o tonightOptions
	c := &cobra.Command{
		Use:   "tonight",
		Short: "Cover or leave: the chance of harm tonight to each planting that is out, and what it is worth doing",
		Long: `tonight gives for each planting that is out the chance that the night to come sets it back or
kills it, bare and under each cover in garden.yaml, and what costs least: to leave it, to
cover it, or to carry its pots in. It protects when the work is worth less than the harm it
is likely to save, by the hours of work in garden.yaml (the cost-loss model: Murphy 1977).
What a cover gains differs from night to night and may be nothing.

Give it what you know: the minimum forecast for the station or nearest town, the sky and the
wind expected, readings at the spot two hours after sunset and later. What is not given is
taken from the garden log where it has the coming morning, and the day's maximum from the
record. With nothing at all it goes by what is usual for the date. Each method is corrected
by its own past errors in the garden log, so log the forecast each evening (--log does) and
the minimum in the morning.

A forecast may also be a file, or a pipe: daily minima or temperatures by the hour, as CSV or
JSON, with columns or names such as time, date, temperature_2m, tmin or temperature_2m_min, of
up to ten nights. Of hours the minimum from 18 to 9 h counts. A table then shows all its
evenings, and --log keeps them, so that each later forecast is corrected by how those as many
days ahead have erred.

Readings and --log are for the spot of --spot, or the first in garden.yaml.

With --exit-code the exit status tells a script what to do: 0 nothing, 3 something is to be
covered or carried in; 1 and 2 are errors as ever.`,
		Example: `  frostward tonight --forecast 2 --cloud clear --wind calm
  frostward tonight --garden mygarden --forecast 3 --evening 6.5 --humidity 82 --cloud clear --wind light --log
  frostward tonight --garden mygarden --forecast nights.csv --log
  frostward tonight --garden mygarden --forecast 1 --exit-code; test $? -eq 3 && notify-me`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.tonight(o) },
	}
	eveningFlags(c, &o.logOptions)
	f := c.Flags()
	f.Lookup("forecast").Usage = "the minimum forecast for the station or nearest town, `°C`; or a file of forecasts, or - for a pipe"
	f.StringVar(&o.forecastUnit, "forecast-units", "", "the `unit`, c or f, of a file of forecasts that does not say")
	f.StringVar(&o.tmax, "max", "", "the day's maximum at the station, `°C` (the record's)")
	f.StringVar(&o.noon, "noon", "", "temperature at noon, `°C`")
	f.StringVar(&o.noonDew, "noon-dew-point", "", "dew point at noon, `°C`")
	f.StringVar(&o.later, "later", "", "a later reading at the spot, `°C`")
	f.Float64Var(&o.laterHours, "later-hours", 0, "how many `hours` after sunset it was taken")
	f.BoolVar(&o.keep, "log", false, "write the evening's readings and forecast into the garden log")
	f.BoolVar(&o.exitCode, "exit-code", false, "exit with 3 when something is to be covered or carried in")
	return c
}

// evening is the night that is asked about, and those after it that the forecast has.
type evening struct {
	*session
	nights.Night
	given     nights.Given
	later     []nights.Night
	sun, next climate.SunTimes
}

func (a *app) tonight(o tonightOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	s.present()
	if err := s.noteOver(); err != nil {
		return err
	}
	v, err := s.evening(o)
	if err != nil {
		return err
	}
	if o.keep {
		if err := v.keep(o); err != nil {
			return err
		}
	}
	act := false
	for _, p := range v.Out {
		act = act || p.Advice.Do().Action != risk.Leave
	}
	if act && o.exitCode {
		a.status = exitAct
	}
	if a.format == table.JSON {
		return a.writeJSON(v.json())
	}
	return v.write(o)
}

// evening works the nights out.
func (s *session) evening(o tonightOptions) (*evening, error) {
	day := s.Today()
	v := &evening{session: s}
	if !math.IsNaN(s.Settings.Longitude) {
		v.sun, v.next = climate.SunAt(day, s.Settings.Latitude, s.Settings.Longitude), climate.SunAt(day+1, s.Settings.Latitude, s.Settings.Longitude)
	}
	var err error
	if v.given, err = s.given(o); err != nil {
		return nil, err
	}
	standing, err := nights.InGround(s.Garden, s.app.spot)
	if err != nil {
		return nil, err
	}
	all, err := nights.Ahead(s.Garden, v.given, standing)
	if err != nil {
		return nil, err
	}
	v.Night, v.later = all[0], all[1:]
	return v, nil
}

// given is the evening as the options give it.
func (s *session) given(o tonightOptions) (g nights.Given, err error) {
	if g.Spot, err = s.Settings.Spot(s.app.spot); err != nil {
		return g, err
	}
	if o.forecast, g.Forecast, err = s.app.readForecast(o); err != nil {
		return g, err
	}
	e := risk.NewEvening()
	read, err := s.app.entry(o.logOptions)
	if err != nil {
		return g, err
	}
	if err := read.CheckReadings(); err != nil {
		return g, usage(err)
	}
	e.Forecast, e.Reading, e.DewPoint, e.Cloud, e.Wind = read.Forecast, read.Evening, nights.DewPoint(read), read.Cloud, read.Wind
	for _, x := range []struct {
		flag, text string
		to         *float64
	}{{"max", o.tmax, &e.Tmax}, {"noon", o.noon, &e.Noon}, {"noon-dew-point", o.noonDew, &e.NoonDew}, {"later", o.later, &e.Later}} {
		if *x.to, err = s.app.temperature(x.flag, x.text); err != nil {
			return g, err
		}
	}
	if o.laterHours != 0 {
		e.LaterHours = o.laterHours
	}
	if math.IsNaN(e.Later) != math.IsNaN(e.LaterHours) {
		return g, usagef("--later and --later-hours go together: a reading, and how many hours after sunset it was taken")
	}
	g.Evening = e
	return g, nil
}

// readForecast reads --forecast: a number for the night to come, or a file or - for a pipe, whose
// nights it returns instead.
func (a *app) readForecast(o tonightOptions) (number string, ahead []forecast.Night, err error) {
	if o.forecast == "" {
		return "", nil, nil
	}
	if _, err := a.temperature("forecast", o.forecast); err == nil && o.forecast != "-" {
		return o.forecast, nil, nil
	}
	unit := map[string]string{"": "", "c": "c", "f": "f"}
	u, ok := unit[strings.ToLower(o.forecastUnit)]
	if !ok {
		return "", nil, usagef("--forecast-units %q; wanted c or f", o.forecastUnit)
	}
	from, name := a.in, "the pipe"
	if o.forecast != "-" {
		f, err := os.Open(o.forecast)
		if err != nil {
			return "", nil, usagef("--forecast %q is neither a temperature, such as 2 or 29f, nor a file that can be read: %v", o.forecast, deliver.Cause(err))
		}
		defer f.Close()
		from, name = f, o.forecast
	}
	ahead, err = forecast.Read(from, forecast.Options{Name: name, Unit: u, Zone: time.Local})
	return "", ahead, err
}

// keep writes the evening into the log.
func (v *evening) keep(o tonightOptions) error {
	spot, err := v.Settings.Spot(v.app.spot)
	if err != nil {
		return err
	}
	if v.Invented {
		return errInvented
	}
	if len(v.given.Forecast) > 0 {
		o.forecast = ""
	}
	if ahead := slices.DeleteFunc(slices.Clone(v.given.Forecast), func(f forecast.Night) bool { return f.Morning <= v.Evening }); len(ahead) > 0 {
		path := filepath.Join(v.Dir, forecast.KeptFile)
		if err := forecast.Keep(path, v.Evening, ahead); err != nil {
			return err
		}
		v.app.notef("kept in %s: the forecast of %s", path, words.Plural(len(ahead), "night"))
	}
	e, err := v.app.entry(o.logOptions)
	if err != nil {
		return err
	}
	e.Day, e.Spot = v.Evening+1, spot.Name
	if len(v.given.Forecast) > 0 {
		e.Forecast = v.Spots[0].In.Forecast
	}
	if err := journal.Append(v.LogPath(), e); err != nil {
		return err
	}
	v.app.notef("logged in %s: %s", v.LogPath(), v.words().Entry(e))
	return nil
}
