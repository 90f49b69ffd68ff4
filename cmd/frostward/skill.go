package main

import (
	"fmt"
	"math"
	"runtime"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/risk"
	"frostward/risk/replay"
)

// skillFlags are the options of skill.
type skillFlags struct {
	at       []float64
	training []string
	base     float64
	crop     string
	spots    []string // files at two heights
	column   string   // of the minimum at plant height in them
	where    spotsFrom
	outlook  bool // score outlooks
	tonight  bool
	issued   string // a file of forecasts with what came
}

func newSkill(a *app) *cobra.Command {
	var o skillFlags
	c := &cobra.Command{
		Use:   "skill",
		Short: "How good these chances have been: the record replayed, season by season",
		Long: `skill replays the record as if each season were still to come. What the program would have
said of it, from the seasons before and nothing else, is scored against what came: the
last spring and first autumn frost, the frost-free days, the warmth of a summer, and the
first picking of a crop.

The score is the CRPS: by how many days a forecast missed, counting its spread. It is set
against a normal curve fitted to the 30 seasons before (a climatological normal): a ratio
below 1 is better than the curve. Each way to chances (--by) is scored for several numbers
of seasons to learn from. A season is scored if 30 came before it, so a record wants 35.

The chances themselves are scored too: of those said to come 3 times in 10, did 3 in 10
come? See the reliability table, and in JSON the Brier score with its parts, and the
histogram of where in its forecast each season fell (PIT).

--spots FILE scores instead what a garden log is worth, on a record that has the minimum in
the screen and at plant height (T10N in the files of KNMI): the last spring frost at plant
height from no mornings logged, 10, or 30, against the station's own and a fixed offset; give
it again for more files. Where the garden's thermometer does not stand at the station,
--distance and --rise say where, --kind what it stands on, and --neighbour FILE,KM,M adds
another station with its own distance and rise. --tonight scores what "frostward tonight" would have said each
evening, and what acting on it would have cost; with --spots, at plant height.`,
		Example: `  frostward skill --history station.csv
  frostward skill --history station.csv --by weather --at 0 --training 10,all
  frostward skill --history station.csv --format json
  frostward skill --spots etmgeg_283.txt
  frostward skill --spots garden.csv --low-column bed --distance 12 --rise -40
  frostward skill --tonight --history station.csv
  frostward skill --tonight --forecasts forecasts.csv --units f`,
		Args: cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			for _, name := range []string{"low-column", "distance", "rise", "kind", "neighbour"} {
				if c.Flags().Changed(name) && len(o.spots) == 0 {
					return usagef("--%s goes with --spots", name)
				}
			}
			switch {
			case o.outlook:
				s, err := a.open()
				if err != nil {
					return err
				}
				return s.outlookSkill()
			case o.issued != "" && (!o.tonight || len(o.spots) > 0):
				return usagef("--forecasts goes with --tonight, and without --spots")
			case o.issued != "":
				return a.skillForecasts(o.issued)
			case o.tonight:
				return a.skillTonight(o.spots, o.column, o.where)
			case len(o.spots) > 0:
				return a.skillSpots(o.spots, o.column, o.where)
			}
			return a.skill(o)
		},
	}
	f := c.Flags()
	f.StringArrayVar(&o.spots, "spots", nil, "score spots on a record at two heights, a `file`; may be given more than once")
	f.StringVar(&o.column, "low-column", "T10N", "the `column` of the minimum at plant height in it")
	f.Float64Var(&o.where.km, "distance", 0, "how far the garden of --spots is from its station, in `km`")
	f.Float64Var(&o.where.rise, "rise", 0, "the garden's height less the station's, in `m`")
	f.StringVar(&o.where.kind, "kind", site.OpenBed.Kind, "`kind` of spot that the column is of, as in garden.yaml; station: a screen")
	f.StringArrayVar(&o.where.neighbours, "neighbour", nil, "another station's `file`, with its km and rise: FILE,KM,M; without them, those above")
	f.StringVar(&o.issued, "forecasts", "", "with --tonight, score the forecasts in a `file`: date, forecast (or several that begin so), actual, and place")
	f.BoolVar(&o.tonight, "tonight", false, "score what is said of the night to come")
	f.BoolVar(&o.outlook, "outlook", false, "score the outlooks of the plan's crops, 30, 60 and 90 days before picking")
	f.Float64SliceVar(&o.at, "at", []float64{-2, 0, 2}, "frost threshold in `°C`; may be given more than once")
	f.StringSliceVar(&o.training, "training", []string{"8", "10", "15", "20", "30", "all"}, "`seasons` to learn from, a list; \"all\" is all before")
	f.Float64Var(&o.base, "base", 10, "base of the degree-days in `°C`")
	f.StringVar(&o.crop, "crop", "sweet corn", "`crop` whose first picking is scored")
	return c
}

func (a *app) skill(o skillFlags) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	if a.by != "" {
		if _, err := a.choice().Way(); err != nil {
			return err
		}
	}
	h, err := s.hindcast(o)
	if err != nil {
		return err
	}
	scores := h.Run()
	if len(scores) == 0 {
		return fmt.Errorf("%s: skill scores seasons that %d others came before, and wants %d to score: %d to %d are too few or have too many days missing",
			s.RecordName, replay.Reference, replay.FewestScored, s.First, s.Last)
	}
	if a.format == table.JSON {
		return a.writeJSON(s.skillJSON(scores))
	}
	return s.writeSkill(scores)
}

// hindcast sets up the replay that the options ask for.
func (s *session) hindcast(o skillFlags) (*replay.Hindcast, error) {
	h := &replay.Hindcast{Record: s.Used(), Latitude: s.Settings.Latitude, Ways: replay.Ways, Seed: s.app.seed,
		Worlds: opened.Worlds, PerWorld: opened.SeasonsInWorld, Workers: runtime.GOMAXPROCS(0)}
	for _, t := range o.training {
		n, err := strconv.Atoi(t)
		switch {
		case t == "all":
			n = replay.All
		case err != nil || n < climate.MinSeasons:
			return nil, usagef("--training %q; wanted numbers of seasons from %d on, or all", t, climate.MinSeasons)
		}
		h.Training = append(h.Training, n)
	}
	for _, t := range o.at {
		if math.IsNaN(t) || math.IsInf(t, 0) {
			return nil, usagef("--at %v; wanted a temperature in °C", t)
		}
		f := climate.Frost(t)
		h.Events = append(h.Events, replay.LastSpringFrost(f), replay.FirstAutumnFrost(f), replay.FrostFreeDays(f))
	}
	// The warm half of the year, from the start of its fourth month to the end of its eighth:
	// April to August in the north.
	h.Events = append(h.Events, replay.WarmthBy(climate.DegreeDays{Base: o.base}, 90, 243))
	p, err := s.skillPlanting(o.crop)
	if err != nil {
		return nil, err
	}
	h.Events = append(h.Events, replay.Ripening(p, s.app.seed))
	return h, nil
}

// skillPlanting is the crop put out in the middle of the days that are customary for it, or on
// day 140 of the season (21 May in the north) where none are.
func (s *session) skillPlanting(name string) (risk.Planting, error) {
	cat, err := s.Catalogue()
	if err != nil {
		return risk.Planting{}, err
	}
	name, class, _ := strings.Cut(name, ",")
	crop, err := cat.Find(name, strings.TrimSpace(class))
	if err != nil {
		return risk.Planting{}, usage(err)
	}
	p := risk.Planting{Crop: crop, Start: 140, Raised: opened.WeeksUnderCover(crop) > 0}
	if from, to := crop.OutFrom, crop.OutTo; from.Known() && to.Known() && from.Value < to.Value {
		p.Start = climate.SeasonDay((from.Value + to.Value) / 2)
	}
	if err := p.Check(); err != nil {
		return p, usage(err)
	}
	return p, nil
}
