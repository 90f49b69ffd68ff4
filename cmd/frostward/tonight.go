package main

import (
	"math"
	"time"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/climate/night"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/crops"
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
}

func newTonight(a *app) *cobra.Command {
	var o tonightOptions
	c := &cobra.Command{
		Use:   "tonight",
		Short: "Cover or leave: the chance of harm tonight to each planting that is out, and what it is worth doing",
		Long: `tonight tells for each planting that is out the chance that the night to come sets it back or
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

Readings and --log are for the spot of --spot, or the first in garden.yaml.

With --exit-code the exit status tells a script what to do: 0 nothing, 3 something is to be
covered or carried in; 1 and 2 are errors as ever.`,
		Example: `  frostward tonight --forecast 2 --cloud clear --wind calm
  frostward tonight --garden mygarden --forecast 3 --evening 6.5 --humidity 82 --cloud clear --wind light --log
  frostward tonight --garden mygarden --forecast 1 --exit-code; test $? -eq 3 && notify-me`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.tonight(o) },
	}
	eveningFlags(c, &o.logOptions)
	f := c.Flags()
	f.StringVar(&o.tmax, "max", "", "the day's maximum at the station, `°C` (the record's)")
	f.StringVar(&o.noon, "noon", "", "temperature at noon, `°C`")
	f.StringVar(&o.noonDew, "noon-dew-point", "", "dew point at noon, `°C`")
	f.StringVar(&o.later, "later", "", "a later reading at the spot, `°C`")
	f.Float64Var(&o.laterHours, "later-hours", 0, "how many `hours` after sunset it was taken")
	f.BoolVar(&o.keep, "log", false, "write the evening's readings and forecast into the garden log")
	f.BoolVar(&o.exitCode, "exit-code", false, "exit with 3 when something is to be covered or carried in")
	return c
}

// tonightSpot is a spot with its night.
type tonightSpot struct {
	garden.Spot
	in  risk.TonightIn
	out risk.Tonight
}

// tonightOut is a planting that is out with what to do about it.
type tonightOut struct {
	opened.Planned
	at     *tonightSpot
	advice risk.Advice
}

// evening is the night that is asked about.
type evening struct {
	*session
	day       climate.Day // of the evening; the morning is the next
	sun, next climate.SunTimes
	given     risk.Evening
	nights    []journal.Entry // of the log
	fields    *opened.Fields
	spots     []*tonightSpot
	out       []tonightOut
	waiting   []string // sown and not up, or not known what they stand
}

func (a *app) tonight(o tonightOptions) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	s.present()
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
	for _, p := range v.out {
		act = act || p.advice.Do().Action != risk.Leave
	}
	if act && o.exitCode {
		a.status = exitAct
	}
	if a.format == table.JSON {
		return a.writeJSON(v.json())
	}
	return v.write(o)
}

// evening works the night out.
func (s *session) evening(o tonightOptions) (*evening, error) {
	day := s.Today()
	v := &evening{session: s, day: day}
	if !math.IsNaN(s.Settings.Longitude) {
		v.sun, v.next = climate.SunAt(day, s.Settings.Latitude, s.Settings.Longitude), climate.SunAt(day+1, s.Settings.Latitude, s.Settings.Longitude)
	}
	var err error
	if v.given, err = s.given(o); err != nil {
		return nil, err
	}
	if v.fields, err = s.Fields(); err != nil {
		return nil, err
	}
	log, err := s.Log()
	if err != nil {
		return nil, err
	}
	v.nights = log.Nights()
	spot, err := s.Settings.Spot(s.app.spot)
	if err != nil {
		return nil, err
	}
	v.at(spot)
	return v, v.findOut()
}

// at is the night at a spot.
func (v *evening) at(sp garden.Spot) *tonightSpot {
	for _, t := range v.spots {
		if t.Name == sp.Name {
			return t
		}
	}
	e := v.given
	if len(v.spots) > 0 { // the readings are of the first; the air's moisture is everywhere the same
		e.Reading, e.Later, e.LaterHours = math.NaN(), math.NaN(), math.NaN()
	}
	ensemble := v.fields.At(sp)
	_, morning := v.Calendar.Locate(v.day + 1)
	t := &tonightSpot{Spot: sp}
	t.in = risk.TonightIn{Evening: v.complete(e, sp.Name), Day: morning, Spot: v.fields.Model(sp),
		Usual: risk.UsualAt(ensemble, morning), Past: v.past(sp.Name, ensemble)}
	t.out = risk.Foresee(t.in)
	v.spots = append(v.spots, t)
	return t
}

// given is the evening as the options tell it.
func (s *session) given(o tonightOptions) (risk.Evening, error) {
	e := risk.NewEvening()
	read, err := s.app.entry(o.logOptions)
	if err != nil {
		return e, err
	}
	if err := read.CheckReadings(); err != nil {
		return e, usage(err)
	}
	e.Forecast, e.Reading, e.DewPoint, e.Cloud, e.Wind = read.Forecast, read.Evening, dewOf(read), read.Cloud, read.Wind
	for _, x := range []struct {
		flag, text string
		to         *float64
	}{{"max", o.tmax, &e.Tmax}, {"noon", o.noon, &e.Noon}, {"noon-dew-point", o.noonDew, &e.NoonDew}, {"later", o.later, &e.Later}} {
		if *x.to, err = s.app.temperature(x.flag, x.text); err != nil {
			return e, err
		}
	}
	if o.laterHours != 0 {
		e.LaterHours = o.laterHours
	}
	if math.IsNaN(e.Later) != math.IsNaN(e.LaterHours) {
		return e, usagef("--later and --later-hours go together: a reading, and how many hours after sunset it was taken")
	}
	return e, nil
}

// dewOf is the dew point of a line of the log, from the humidity where only that is known.
func dewOf(e journal.Entry) float64 {
	if math.IsNaN(e.DewPoint) && !math.IsNaN(e.Humidity) {
		return climate.DewPoint(e.Evening, e.Humidity)
	}
	return e.DewPoint
}

// complete fills in, where it is not given, what the log has of the coming morning, the
// day's maximum from the record, and the length of the night.
func (v *evening) complete(e risk.Evening, spot string) risk.Evening {
	for _, n := range v.nights {
		if n.Day == v.day+1 && n.Spot == spot {
			fill(&e.Reading, n.Evening)
			fill(&e.DewPoint, dewOf(n))
		}
	}
	v.shared(&e, v.day+1)
	_, tmax := v.Masked.At(v.day)
	fill(&e.Tmax, tmax)
	fill(&e.Length, v.nightLength(v.day))
	return e
}

// shared fills in what the log has of a morning at any spot that holds for all: the
// forecast, the sky and the wind.
func (v *evening) shared(e *risk.Evening, morning climate.Day) {
	for _, n := range v.nights {
		if n.Day != morning {
			continue
		}
		fill(&e.Forecast, n.Forecast)
		if e.Cloud == night.CloudUnknown {
			e.Cloud = n.Cloud
		}
		if e.Wind == night.WindUnknown {
			e.Wind = n.Wind
		}
	}
}

// fill sets a number that is not known.
func fill(to *float64, from float64) {
	if math.IsNaN(*to) {
		*to = from
	}
}

// nightLength is the hours from sunset to the next sunrise.
func (v *evening) nightLength(day climate.Day) float64 {
	y, m, d := day.Date()
	return 24 - climate.SunriseToSunset(v.Settings.Latitude, time.Date(y, m, d, 0, 0, 0, 0, time.UTC).YearDay())
}

// past is the log of a spot up to the evening, as the methods learn from it.
func (v *evening) past(spot string, e climate.Ensemble) []risk.PastNight {
	var out []risk.PastNight
	usual := map[climate.SeasonDay]risk.Usual{}
	for _, n := range v.nights {
		if n.Spot != spot || n.Day > v.day || n.Covered != "" || math.IsNaN(n.Tmin) {
			continue
		}
		_, sd := v.Calendar.Locate(n.Day)
		if _, ok := usual[sd]; !ok {
			usual[sd] = risk.UsualAt(e, sd)
		}
		p := risk.PastNight{Evening: risk.NewEvening(), Day: sd, Came: n.Tmin, Usual: usual[sd]}
		p.Reading, p.DewPoint = n.Evening, dewOf(n)
		v.shared(&p.Evening, n.Day)
		_, p.Tmax = v.Masked.At(n.Day - 1)
		p.Length = v.nightLength(n.Day - 1)
		out = append(out, p)
	}
	return out
}

// findOut finds the plantings that are out and weighs what to do about each.
func (v *evening) findOut() error {
	rows, err := v.markedPlan(v.day)
	if err != nil {
		return err
	}
	plantings, err := v.Resolve(rows)
	if err != nil {
		return err
	}
	var covers []risk.Cover
	for _, c := range v.Settings.Covers {
		covers = append(covers, c.Risk())
	}
	c := v.Settings.Costs
	costs := risk.NightCosts{Cover: c.Cover, BringIn: c.BringIn, SetBack: c.SetBack, Lost: c.Lost}
	for _, p := range plantings {
		if v.app.spot != "" && p.Where.Name != v.app.spot {
			continue
		}
		l, in := v.inGround(p, nil, v.day)
		if !in {
			continue
		}
		age := int(v.day - l.since)
		if !p.Raised && age < risk.DefaultEmergenceDays {
			v.waiting = append(v.waiting, p.Label())
			continue
		}
		seedling := !p.Raised && age < risk.DefaultEmergenceDays+risk.SeedlingDays
		at := v.at(p.Where)
		if !at.out.Known {
			v.waiting = append(v.waiting, p.Label())
			continue
		}
		x := risk.Exposure(p.Crop, p.Label(), seedling, p.Where.Pots)
		v.out = append(v.out, tonightOut{p, at, at.out.Advise(x, covers, costs)})
	}
	return nil
}

// keep writes the evening into the log.
func (v *evening) keep(o tonightOptions) error {
	spot, err := v.Settings.Spot(v.app.spot)
	if err != nil {
		return err
	}
	e, err := v.app.entry(o.logOptions)
	if err != nil {
		return err
	}
	e.Day, e.Spot = v.day+1, spot.Name
	if v.Invented {
		return errInvented
	}
	if err := journal.Append(v.LogPath(), e); err != nil {
		return err
	}
	v.app.notef("logged in %s: %s", v.LogPath(), v.app.entryWords(e))
	return nil
}

// title names a planting in a sentence: its own name, or its crop's in the plural.
func (p tonightOut) title() string {
	if p.Name != "" {
		return "the " + p.Name
	}
	return "the " + titleOf(p.Crop)
}

func titleOf(c crops.Crop) string {
	if c.Title != "" {
		return c.Title
	}
	return c.Label()
}
