package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"os/signal"
	"runtime"
	"syscall"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/cmd/internal/batch"
	"frostward/cmd/internal/deliver"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/words"
	"frostward/crops"
)

// stationsOptions are the command's own flags.
type stationsOptions struct {
	output, places string
	force          bool
	at             []float64
	crops          []string
	from, to       string
	aim            float64
	byDay          bool
	workers        int
	quiet, tidy    bool
}

// stationCrops are the twelve crops scored unless --crop says otherwise: those whose planting
// out frost decides, and some hardy ones to set beside them.
var stationCrops = []string{
	"courgette", "winter squash, early", "cucumber, outdoor", "tomato, early", "sweet pepper", "sweet corn, early",
	"French bean, dwarf", "runner bean", "pea, early", "calabrese", "cabbage, summer", "leek, early",
}

func newStations(a *app) *cobra.Command {
	var o stationsOptions
	c := &cobra.Command{
		Annotations: map[string]string{ownForm: "CSV or JSON lines, by the ending of its file"},
		Use:         "stations DIR|FILE... -o OUT",
		Short:       "The same for many stations at once: frosts, and crops on every planting-out day",
		Long: `stations reads the records of many stations, checks each, works out its last spring and
first autumn frosts at several thresholds, counted and by curve, with their intervals, and
plays crops from every planting-out day of a window through every season. It writes one
row a station: a header of names says what is in it.

It takes folders and files in any of the formats that are read; tar archives of them (such
as .dly files in a tar.gz); and long files of many stations, the rows of each together.
All cores are used, and memory does not grow with the number of stations.

The output's ending says how it is written: .csv, or .jsonl for a JSON object a line, and
.gz or .zst after it to pack it. Rows are in order of the files' names, and of the stations in
each, the same for any number of workers. Empty, or null, is not known; "none" is a date that
does not come in so many seasons, and frost-free days without an end. Until all is done the rows
are in a folder, OUT.frostward-part: after an interruption the same command goes on from there.
A station that cannot be read has a row that says why, and the rest go on.

Where a file does not say its latitude, --places gives it by station, as a CSV file with
columns station and latitude (longitude, elevation, name), or in the layout of
ghcnd-stations.txt; else --latitude is taken for all. A station of which neither is known is
taken to lie at 50 degrees, on the side that its warmer months show, and says "assumed".
Planting-out days are the north's; in the south they are half a year on.`,
		Example: `  frostward stations records/ -o frosts.csv
  frostward stations ghcnd_all.tar.gz --places ghcnd-stations.txt -o world.csv.zst
  frostward stations long.csv --at 0 --crop "sweet corn, early" --crop courgette -o out.jsonl
  frostward stations records/ --by-day -o out.jsonl.zst`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("no folder or file to read; wanted at least one")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error { return a.stations(o, args) },
	}
	f := c.Flags()
	f.StringVarP(&o.output, "output", "o", "", "the `file` to write: .csv or .jsonl, plain, .gz or .zst")
	f.BoolVar(&o.force, "force", false, "write over a file that this command did not make (its own begins with its column station)")
	f.StringVar(&o.places, "places", "", "a `file` of where the stations are")
	f.Float64SliceVar(&o.at, "at", []float64{-4, -2, 0, 2}, "frost thresholds in `°C`")
	f.StringArrayVar(&o.crops, "crop", stationCrops, "a `crop` to score, with its class, such as \"sweet corn, early\"; may be given more than once")
	f.StringVar(&o.from, "from", "04-01", "first planting-out `day`, month-day")
	f.StringVar(&o.to, "to", "07-31", "last planting-out `day`")
	f.Float64Var(&o.aim, "aim", 0.8, "`chance` of success that a sound planting needs")
	f.BoolVar(&o.byDay, "by-day", false, "also write the seasons that succeed for every planting-out day")
	// The library would write -4.000000, and a line of 250 characters.
	f.Lookup("at").DefValue = "-4,-2,0,2"
	f.Lookup("crop").DefValue = fmt.Sprintf("%d crops, from %s to %s", len(stationCrops), stationCrops[0], stationCrops[len(stationCrops)-1])
	f.IntVar(&o.workers, "workers", 0, "`number` of stations worked on at once; 0 is one a core")
	f.BoolVar(&o.tidy, "tidy", false, "write a row a station and item (value, low, high) in place of one wide row a station")
	f.BoolVar(&o.quiet, "quiet", false, "say nothing but errors")
	return c
}

func (a *app) stations(o stationsOptions, args []string) error {
	set, err := a.stationSettings(o)
	if err != nil {
		return err
	}
	if o.output == "" {
		return usagef("no -o FILE to write; wanted a name that ends in .csv or .jsonl")
	}
	if o.workers < 0 {
		return usagef("--workers %d; wanted a number of at least 1, or 0 for one a core", o.workers)
	}
	if o.workers == 0 {
		o.workers = runtime.GOMAXPROCS(0)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	watch := &batch.Progress{Quiet: o.quiet, Screen: a.screen, Term: a.getenv("TERM"), Note: a.notef}
	sum, err := batch.Run(ctx, batch.Options{Settings: set, Args: args, Output: o.output, Tidy: o.tidy, Keep: []string{o.places}, Force: o.force, Workers: o.workers, Watch: watch})
	watch.End()
	switch u := (*batch.Unfinished)(nil); {
	case errors.As(err, &u):
		return unfinished(u, o.output, ctx.Err() != nil)
	case err != nil:
		return deliver.Cause(err)
	case !o.quiet:
		if sum.Assumed > 0 {
			a.notef("%s taken to lie at %.0f degrees, as neither the file nor --places or --latitude says where; their rows say assumed",
				words.Plural(sum.Assumed, "station"), batch.AssumedLatitude)
		}
		a.notef("%s: %s", o.output, summary(sum, watch))
	}
	if sum.Stations > 0 && sum.Failed == sum.Stations {
		return fmt.Errorf("none of %s could be read", words.Plural(sum.Stations, "station"))
	}
	return nil
}

// unfinished says what a run that was stopped has left, and how it goes on.
func unfinished(u *batch.Unfinished, output string, stopped bool) error {
	why := fmt.Sprintf("%s: %v", output, deliver.Cause(u.Cause))
	if stopped {
		why = "stopped"
	}
	if u.Rows == 0 {
		return fmt.Errorf("%s; nothing was written", why)
	}
	return fmt.Errorf("%s; %s done and kept in %s, nothing written to %s: the same command goes on from there, and deleting the folder begins again",
		why, words.Plural(u.Rows, "station"), u.Part, output)
}

func summary(s batch.Summary, w *batch.Progress) string {
	text := words.Plural(s.Stations, "station")
	if s.Failed > 0 {
		text += fmt.Sprintf(", of which %d failed", s.Failed)
	}
	if s.Without > 0 {
		text += fmt.Sprintf(", %d have no temperatures", s.Without)
	}
	if s.Before > 0 {
		text += fmt.Sprintf(" (%d taken up from an earlier run)", s.Before)
	}
	return text + w.Rate()
}

// stationSettings checks the flags and looks crops and places up.
func (a *app) stationSettings(o stationsOptions) (batch.Settings, error) {
	set := batch.Settings{Thresholds: o.at, Aim: o.aim, ByDay: o.byDay, Latitude: math.NaN()}
	if !(o.aim > 0 && o.aim < 1) {
		return set, usagef("--aim %v; wanted a chance between 0 and 1, such as 0.8", o.aim)
	}
	if len(o.at) == 0 {
		return set, usagef("--at: wanted at least one temperature in °C")
	}
	for i, t := range o.at {
		if math.IsNaN(t) || math.Abs(t) > 50 {
			return set, usagef("--at %v; wanted a temperature in °C", t)
		}
		for _, u := range o.at[:i] {
			if t == u {
				return set, usagef("--at %v is given twice", t)
			}
		}
	}
	var err error
	if set.From, err = (climate.Calendar{}).Parse(o.from); err != nil {
		return set, usage(fmt.Errorf("--from: %w", err))
	}
	if set.To, err = (climate.Calendar{}).Parse(o.to); err != nil {
		return set, usage(fmt.Errorf("--to: %w", err))
	}
	if set.From > set.To {
		return set, usagef("--from %s is after --to %s", o.from, o.to)
	}
	if a.latitude != "" {
		if set.Latitude, err = opened.ParseLatitude(a.latitude); err != nil {
			return set, err
		}
	}
	if set.Units, err = daily.ParseUnits(a.units); err != nil {
		return set, usage(fmt.Errorf("--units: %w", err))
	}
	if set.Crops, err = stationCropsOf(o.crops); err != nil {
		return set, usage(err)
	}
	if o.places != "" {
		if set.Places, err = batch.ReadPlaces(o.places); err != nil {
			return set, err
		}
	}
	return set, nil
}

func stationCropsOf(names []string) ([]batch.Crop, error) {
	cat, err := crops.Load()
	if err != nil {
		return nil, err
	}
	var out []batch.Crop
	seen := map[string]bool{}
	for _, name := range names {
		c, err := cat.Find(name, "")
		if err != nil {
			return nil, fmt.Errorf("--crop: %w", err)
		}
		if seen[c.Label()] {
			return nil, fmt.Errorf("--crop: %s is given twice", c.Label())
		}
		seen[c.Label()] = true
		crop := batch.Crop{Crop: c, Raised: batch.PlantedOut(c)}
		if err := crop.Check(); err != nil {
			return nil, fmt.Errorf("--crop: %w", err)
		}
		out = append(out, crop)
	}
	return out, nil
}
