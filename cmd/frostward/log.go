package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/climate/night"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/cmd/internal/table"
)

// logOptions are what a reading may have, as written.
type logOptions struct {
	date, min, evening, dew, humidity string
	forecast, cloud, wind             string
	covered, damage, note             string
	max, beside                       string
	last                              int
	undo                              bool
}

func newLog(a *app) *cobra.Command {
	var o logOptions
	c := &cobra.Command{
		Use:   "log",
		Short: "Add a reading of the garden's own thermometer, or list the latest",
		Long: `log adds one line to the garden log: the morning minimum at plant height at a spot, and,
if known, the evening before it: temperature and dew point or humidity two hours after
sunset, the sky, the wind, the minimum forecast, what was covered, the damage seen. Without
any of these it lists the latest mornings.

The date is that of the morning. A correction is another line for the same date and spot:
what it has takes the place of what was there, which stays in the file. The line is on the
disk when the command says so.

The log is the plain file log.csv in the garden's folder, which a spreadsheet may edit too.
--undo takes the last line back.
Thirty mornings of one spring say nearly as much about a spot's last frost as its own
record of decades would; clear, still mornings say the most.`,
		Example: `  frostward log --garden mygarden --min -1.5
  frostward log --garden mygarden --min 30f --spot "south wall" --date 2026-05-02
  frostward log --garden mygarden --min 0.5 --forecast 3 --evening 6 --humidity 80 --cloud clear --wind calm
  frostward log --garden mygarden --last 30`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.logCmd(o) },
	}
	f := c.Flags()
	f.StringVar(&o.date, "date", "", "the `morning`, such as 2026-05-02 (today; tomorrow for an evening without a minimum)")
	f.StringVar(&o.min, "min", "", "the morning's minimum, `°C`, or °F with an f behind it")
	eveningFlags(c, &o)
	f.StringVar(&o.max, "max", "", "the day's maximum at the spot, `°C`, by a shaded thermometer: shows what glass gains by day")
	f.StringVar(&o.beside, "beside", "", "the minimum beside the cover, `°C`, when --min is under it: shows what the cover gains")
	f.StringVar(&o.covered, "covered", "", "the `cover` that thermometer and plants were under, or no")
	f.StringVar(&o.damage, "damage", "", "`damage` seen, or none")
	f.StringVar(&o.note, "note", "", "a `note`")
	f.IntVar(&o.last, "last", 14, "how many `mornings` to list")
	f.BoolVar(&o.undo, "undo", false, "take the last line back: a line is added that cancels it")
	return c
}

// eveningFlags are the flags that log and tonight share.
func eveningFlags(c *cobra.Command, o *logOptions) {
	f := c.Flags()
	f.StringVar(&o.evening, "evening", "", "temperature at the spot two hours after sunset, `°C`")
	f.StringVar(&o.dew, "dew-point", "", "dew point then, `°C`")
	f.StringVar(&o.humidity, "humidity", "", "or relative humidity then, `per cent`")
	f.StringVar(&o.forecast, "forecast", "", "the minimum forecast for the station or nearest town, `°C`")
	f.StringVar(&o.cloud, "cloud", "", "`sky` through the night: clear, little, broken or overcast")
	f.StringVar(&o.wind, "wind", "", "`wind` through the night: calm, light, moderate or brisk")
	for flag, words := range map[string][]string{"cloud": night.Clouds(), "wind": night.Winds()} {
		complete2(c, flag, words)
	}
}

// entry reads the options. The date is left to the caller.
func (a *app) entry(o logOptions) (e journal.Entry, err error) {
	e = journal.NewEntry(0, "")
	for _, v := range []struct {
		flag, text string
		to         *float64
	}{
		{"min", o.min, &e.Tmin}, {"max", o.max, &e.Tmax}, {"beside", o.beside, &e.Beside}, {"evening", o.evening, &e.Evening}, {"dew-point", o.dew, &e.DewPoint}, {"forecast", o.forecast, &e.Forecast},
	} {
		if *v.to, err = a.temperature(v.flag, v.text); err != nil {
			return e, err
		}
	}
	if e.Humidity, err = percentOf("humidity", o.humidity); err != nil {
		return e, err
	}
	if e.Cloud, err = night.ParseCloud(o.cloud); err != nil {
		return e, usage(fmt.Errorf("--cloud: %w", err))
	}
	if e.Wind, err = night.ParseWind(o.wind); err != nil {
		return e, usage(fmt.Errorf("--wind: %w", err))
	}
	e.Covered, e.Damage, e.Note = o.covered, o.damage, o.note
	return e, nil
}

// empty says whether no reading was given.
func (o logOptions) empty() bool {
	o.date, o.last = "", 0
	return o == logOptions{}
}

func (a *app) logCmd(o logOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	if o.undo {
		return s.undoReading()
	}
	if o.empty() {
		return s.listLog(o.last)
	}
	e, err := a.entry(o)
	if err != nil {
		return err
	}
	spot, err := s.Settings.Spot(a.spot)
	if err != nil {
		return err
	}
	e.Spot = spot.Name
	if e.Day, err = morning(o.date, e, s.Today()); err != nil {
		return err
	}
	if o.beside != "" && (o.covered == "" || o.covered == "no" || o.min == "") {
		return usagef("--beside %s: wanted --covered with the cover's name and --min under it, too", o.beside)
	}
	if o.covered != "" && o.covered != "no" {
		if _, err := s.Settings.Cover(o.covered); err != nil {
			return err
		}
	}
	return s.addToLog(e, spot)
}

// undoReading takes the last line of the log back.
func (s *session) undoReading() error {
	if s.Invented {
		return errInvented
	}
	log, err := s.Log()
	if err != nil {
		return err
	}
	if len(log.Entries) == 0 {
		return usagef("--undo: the log has no line to take back")
	}
	e := log.Entries[len(log.Entries)-1]
	if err := journal.Append(s.LogPath(), journal.TakeBack(e)); err != nil {
		return err
	}
	if s.app.format == table.JSON {
		return s.app.writeJSON(tookBackJSON{s.LogPath(), entryJSONOf(e)})
	}
	fmt.Fprintf(s.app.out, "Took back in %s: %s.\n", s.LogPath(), s.words().Entry(e))
	return nil
}

// morning is the day of an entry.
func morning(text string, e journal.Entry, today climate.Day) (climate.Day, error) {
	if text == "" {
		if math.IsNaN(e.Tmin) && (!math.IsNaN(e.Evening) || !math.IsNaN(e.Forecast)) {
			return today + 1, nil
		}
		return today, nil
	}
	d, err := climate.ReadDay(text)
	if err != nil {
		return 0, usage(fmt.Errorf("--date: %w", err))
	}
	if d > today+1 {
		return 0, usagef("--date %v: is after tomorrow; wanted the morning of a night that has begun", d)
	}
	return d, nil
}

// addToLog writes an entry and says what it means.
func (s *session) addToLog(e journal.Entry, spot garden.Spot) error {
	a := s.app
	if s.Invented {
		return errInvented
	}
	if err := e.Check(); err != nil {
		return usage(err)
	}
	spots, err := s.Spots()
	if err != nil {
		return err
	}
	before, sum := spots.Fit(spot)
	path := s.LogPath()
	if err := journal.Append(path, e); err != nil {
		return err
	}
	log, err := s.Reread().Log()
	if err != nil {
		return err
	}
	merged := e
	for _, n := range log.Nights() {
		if n.Day == e.Day && n.Spot == e.Spot {
			merged = n
		}
	}
	if a.format == table.JSON {
		return a.writeJSON(loggedJSON{path, entryJSONOf(merged)})
	}
	fmt.Fprintf(a.out, "Logged in %s: %s.\n", path, s.words().Entry(merged))
	if w := s.words().Reading(s.Garden, merged, before, sum); w != "" {
		a.paragraph(a.out, w, 0)
	}
	return nil
}
