// Package garden reads a garden's own files: garden.yaml and plan.csv.
package garden

import (
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strings"

	"github.com/goccy/go-yaml"

	"frostward/climate/daily"
	"frostward/climate/quality"
	"frostward/climate/site"
	"frostward/risk"
)

// File is the name of a garden's own file in its folder.
const File = "garden.yaml"

// Garden is what garden.yaml says. Paths are relative to its folder.
type Garden struct {
	Name      string    `yaml:"name"`
	Latitude  float64   `yaml:"latitude"`  // degrees, south negative
	Longitude float64   `yaml:"longitude"` // degrees, west negative
	Height    *float64  `yaml:"height"`    // m above the sea; optional
	Stations  []Station `yaml:"stations"`  // several records, or one with its place, in the place of Record
	Record    Files     `yaml:"record"`    // one name or several; a folder or a pattern is all the files in it
	Plan      string    `yaml:"plan"`
	Log       string    `yaml:"log"`
	Diary     string    `yaml:"diary"`
	Crops     string    `yaml:"crops"`   // the grower's own facts; optional
	Units     string    `yaml:"units"`   // of the record, where it does not say: c, f, tenths or k
	Reading   string    `yaml:"read"`    // what else the record does not say, such as dates=dmy
	Answers   []string  `yaml:"answers"` // to what check asked, see quality.ParseAnswer
	Show      string    `yaml:"show"`    // the unit of temperatures on every screen: c or f; "" is c
	Aim       float64   `yaml:"aim"`     // the chance of success a sound planting needs
	Spots     []Spot    `yaml:"spots"`
	Hardening string    `yaml:"hardening"` // the spot where raised plants are hardened off; optional
	Covers    []Cover   `yaml:"covers"`
	Costs     Costs     `yaml:"costs"`
}

// Spot is a place in the garden with its own night temperatures.
type Spot struct {
	Name string `yaml:"name"`
	Kind string `yaml:"kind"` // one of site.Priors
	Pots bool   `yaml:"pots"` // plants here stand in pots and can be carried in
}

// Cover is a cover that the grower owns.
type Cover struct {
	Name    string   `yaml:"name"`
	Gain    float64  `yaml:"gain"`    // °C, mean
	Spread  float64  `yaml:"spread"`  // °C, standard deviation from night to night
	Pieces  *float64 `yaml:"pieces"`  // that are owned, each for one planting; without it and metres, enough
	Metres  float64  `yaml:"metres"`  // that are owned, shared out by the plantings' metres
	Between float64  `yaml:"between"` // °C, standard deviation of the mean from one such cover to another; 0 or not given: a fleece's
	Mulch   float64  `yaml:"mulch"`   // cm of straw or leaves on the ground, over what lives below it
}

// Risk is the cover as it is played.
func (c Cover) Risk() risk.Cover {
	out := risk.Cover{Name: c.Name, Gain: c.Gain, Spread: c.Spread, Between: risk.Fleece.Between, Mulch: c.Mulch}
	if c.Between > 0 {
		out.Between = c.Between
	}
	return out
}

// Stock is how much of the covers is owned, of those that are counted.
func (g Garden) Stock() map[string]risk.Stock {
	out := map[string]risk.Stock{}
	for _, c := range g.Covers {
		switch {
		case c.Pieces != nil:
			out[c.Name] = risk.Stock{Pieces: *c.Pieces}
		case c.Metres > 0:
			out[c.Name] = risk.Stock{Metres: c.Metres}
		}
	}
	return out
}

// Costs are what work and losses are worth, in a unit of the grower's own; NaN is not given.
type Costs struct {
	Unit    string  `yaml:"unit"`
	Cover   float64 `yaml:"cover"`    // to lay a cover over one planting and lift it again
	BringIn float64 `yaml:"bring_in"` // to carry one planting's pots in and out again
	SetBack float64 `yaml:"set_back"` // a planting set back
	Lost    float64 `yaml:"lost"`     // a planting killed
	Plant   float64 `yaml:"plant"`    // to raise one spare plant and hold it back
	Again   float64 `yaml:"again"`    // to sow or plant one planting a second time
}

// assumed are the costs that a night is weighed with where the garden does not give them.
var assumed = Costs{Cover: 0.3, BringIn: 0.3, SetBack: 2, Lost: 8}

// Night is the costs as given, NaN where they are not.
func (c Costs) Night() risk.NightCosts {
	return risk.NightCosts{Cover: c.Cover, BringIn: c.BringIn, SetBack: c.SetBack, Lost: c.Lost}
}

// OfReserve is what a reserve costs a year: spare plants are raised whether they are needed or not.
func (c Costs) OfReserve(r risk.Reserve) float64 {
	if r.Again {
		return c.Again
	}
	return c.Plant * float64(r.Plants)
}

// Assumed has assumed costs in the place of those not given, and says whether any of cover, set_back and lost is.
func (c Costs) Assumed() (all risk.NightCosts, any bool) {
	or := func(v, other float64) float64 {
		if math.IsNaN(v) {
			return other
		}
		return v
	}
	all = Costs{Cover: or(c.Cover, assumed.Cover), BringIn: or(c.BringIn, assumed.BringIn), SetBack: or(c.SetBack, assumed.SetBack), Lost: or(c.Lost, assumed.Lost)}.Night()
	return all, math.IsNaN(c.Cover + c.SetBack + c.Lost)
}

// Default is what a garden is where its file says nothing.
func Default() Garden {
	return Garden{
		Latitude: math.NaN(), Longitude: math.NaN(),
		Record: Files{"record.csv"}, Plan: "plan.csv", Log: "log.csv", Diary: "diary.csv",
		Aim:    0.8,
		Spots:  []Spot{{Name: "open bed", Kind: "open bed"}},
		Covers: []Cover{{Name: risk.Fleece.Name, Gain: risk.Fleece.Gain, Spread: risk.Fleece.Spread}},
		Costs:  Costs{Unit: "hours of work", Cover: math.NaN(), BringIn: math.NaN(), SetBack: math.NaN(), Lost: math.NaN(), Plant: math.NaN(), Again: math.NaN()},
	}
}

// Read reads a garden.yaml, no more of it than may be one; where names it in messages.
func Read(r io.Reader, where string) (Garden, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxSettings+1))
	if err != nil {
		return Default(), fmt.Errorf("%s: %w", where, err)
	}
	return Parse(b, where)
}

// Parse reads the text of a garden.yaml; where names it in messages.
func Parse(b []byte, where string) (g Garden, err error) {
	g = Default()
	// The yaml library has panicked on hostile input in its past; a garden is a file from
	// outside, so a panic there is a fault of the file.
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%s: cannot be read as YAML: %v", where, r)
		}
	}()
	if err := guard(b, where); err != nil {
		return g, err
	}
	usual := g.Record
	g.Record = nil
	if err := yaml.UnmarshalWithOptions(b, &g, yaml.Strict()); err != nil {
		return g, yamlFault(where, err)
	}
	switch {
	case len(g.Stations) > 0 && g.Record != nil && (len(g.Record) != 1 || g.Record[0] != g.Stations[0].File):
		return g, fmt.Errorf("%s: %w", where, errBoth)
	case len(g.Stations) > 0:
		g.Record = Files{g.Stations[0].File}
	case g.Record == nil:
		g.Record = usual
	}
	if err := g.check(); err != nil {
		return g, fmt.Errorf("%s: %w", where, err)
	}
	return g, nil
}

const maxFile = 1 << 20

func (g Garden) check() error {
	switch {
	case math.IsNaN(g.Latitude):
		return errors.New("latitude: is missing; wanted degrees, south negative, such as 53.6")
	case !(g.Latitude >= -90 && g.Latitude <= 90):
		return fmt.Errorf("latitude: %v is not between -90 and 90 degrees", g.Latitude)
	case !math.IsNaN(g.Longitude) && !(g.Longitude >= -180 && g.Longitude <= 180):
		return fmt.Errorf("longitude: %v is not between -180 and 180 degrees", g.Longitude)
	case !(g.Aim > 0 && g.Aim < 1):
		return fmt.Errorf("aim: %v is not a chance between 0 and 1, such as 0.8", g.Aim)
	}
	if g.Show != "" && g.Show != "c" && g.Show != "f" {
		return fmt.Errorf("show: %q; wanted c or f, the unit of temperatures on every screen", g.Show)
	}
	if _, err := daily.ParseUnits(g.Units); err != nil {
		return fmt.Errorf("units: %w", err)
	}
	if _, err := g.Reader(); err != nil {
		return err
	}
	for _, a := range g.Answers {
		if _, err := quality.ParseAnswer(a); err != nil {
			return fmt.Errorf("answers: %w", err)
		}
	}
	named := []struct{ key, name string }{{"plan", g.Plan}, {"log", g.Log}, {"diary", g.Diary}, {"crops", g.Crops}}
	if len(g.Record) == 0 {
		return errors.New("record: is empty; wanted the name of a file")
	}
	for _, name := range g.Record {
		named = append(named, struct{ key, name string }{"record", name})
	}
	for _, f := range named {
		switch {
		case f.name == "" && f.key == "crops":
		case f.name == "":
			return fmt.Errorf("%s: is empty; wanted the name of a file", f.key)
		case !filepath.IsLocal(f.name):
			return fmt.Errorf("%s: %q leads out of the garden's folder; wanted a file in it, named from there", f.key, f.name)
		}
	}
	if err := g.checkStations(); err != nil {
		return err
	}
	seen := map[string]bool{}
	for _, s := range g.Spots {
		if _, ok := site.PriorOf(s.Kind); !ok {
			return fmt.Errorf("spots: %q: kind %q is not known; wanted one of %s", s.Name, s.Kind, Kinds())
		}
		if s.Name == "" || seen[s.Name] {
			return fmt.Errorf("spots: name %q is missing or given twice", s.Name)
		}
		seen[s.Name] = true
	}
	if _, err := g.Spot(g.Hardening); g.Hardening != "" && err != nil {
		return fmt.Errorf("hardening: %w", err)
	}
	for _, c := range g.Covers {
		if c.Name == "" || !(c.Gain >= -5 && c.Gain <= 15) || !(c.Spread >= 0 && c.Spread <= 10) || !(c.Between >= 0 && c.Between <= 10) || !(c.Mulch >= 0 && c.Mulch <= 60) {
			return fmt.Errorf("covers: %q: wanted a name, a gain of -5 to 15 °C, a spread and between of 0 to 10 °C, and a mulch of 0 to 60 cm", c.Name)
		}
		if c.Pieces != nil && (!(*c.Pieces >= 0 && *c.Pieces <= 1000) || *c.Pieces != math.Trunc(*c.Pieces) || c.Metres != 0) || !(c.Metres >= 0 && c.Metres <= 10000) {
			return fmt.Errorf("covers: %q: wanted either pieces, a whole number of 0 to 1000, or metres, above 0 to 10000", c.Name)
		}
	}
	for _, v := range []float64{g.Costs.Cover, g.Costs.BringIn, g.Costs.SetBack, g.Costs.Lost, g.Costs.Plant, g.Costs.Again} {
		if v <= 0 || math.IsInf(v, 0) {
			return fmt.Errorf("costs: %v; wanted a number above 0, of %s", v, g.Costs.Unit)
		}
	}
	return nil
}

// Reader is how the record is to be read, as far as the garden says.
func (g Garden) Reader() (o daily.Options, err error) {
	if o.Units, err = daily.ParseUnits(g.Units); err != nil {
		return o, fmt.Errorf("units: %w", err)
	}
	for _, answer := range strings.FieldsFunc(g.Reading, func(r rune) bool { return r == ',' || r == ';' }) {
		if err := o.Set(answer); err != nil {
			return o, fmt.Errorf("read: %w", err)
		}
	}
	return o, nil
}

// Files are names of files; in garden.yaml one name stands for a list of one.
type Files []string

// UnmarshalYAML takes a name or a list of names.
func (f *Files) UnmarshalYAML(read func(any) error) error {
	var list []string
	if read(&list) == nil {
		*f = list
		return nil
	}
	var one string
	if err := read(&one); err != nil {
		return err
	}
	*f = Files{one}
	return nil
}

// Kinds lists the kinds of spot, for messages.
func Kinds() string {
	out := ""
	for i, p := range site.Priors() {
		if i > 0 {
			out += ", "
		}
		out += p.Kind
	}
	return out
}

// Spot returns a spot by name, or the first one for "".
func (g Garden) Spot(name string) (Spot, error) {
	if name == "" && len(g.Spots) > 0 {
		return g.Spots[0], nil
	}
	names := ""
	for _, s := range g.Spots {
		if s.Name == name {
			return s, nil
		}
		names += fmt.Sprintf(" %q", s.Name)
	}
	if name == StationSpot {
		return Spot{Name: name, Kind: site.AtStation.Kind}, nil
	}
	return Spot{}, fmt.Errorf("spot %q is not in %s; it has%s, and \"station\" is always known", name, File, names)
}

// StationSpot is the name of the spot that every garden has: the station's screen.
const StationSpot = "station"

// Cover returns a cover by name; "" is none.
func (g Garden) Cover(name string) (risk.Cover, error) {
	if name == "" || name == "none" {
		return risk.Cover{}, nil
	}
	names := ""
	for _, c := range g.Covers {
		if c.Name == name {
			return c.Risk(), nil
		}
		names += fmt.Sprintf(" %q", c.Name)
	}
	return risk.Cover{}, fmt.Errorf("cover %q is not in %s; it has%s", name, File, names)
}
