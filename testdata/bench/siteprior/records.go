// Package siteprior fits the tables of climate/site to open records that have a station's
// screen and a garden's thermometer, and can leave records out. The records are not part of
// this repository: 12 stations of the Deutscher Wetterdienst with screen and 5 cm minima,
// 14 pairs of such stations 5 to 25 km apart, 8 stations of one upland, KNMI station 283
// (10 cm), and the grass minima of 3 stations of Met Éireann.
//
//	go test -v -run PriorTables ./climate/site
//
// prints the tables and holds the program's own to them.
package siteprior

import (
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"time"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/climate/site"
)

// Record is a station's screen with a garden's minima.
type Record struct {
	Name          string
	Stations      []string // whose thermometers are in it
	Kind          string   // "same": both at one place; "pair"; "upland"; "screen": a screen elsewhere
	Place         site.Place
	Station, Spot climate.Series
	Own           Line
}

// Shares says whether two records have a thermometer in common.
func (r Record) Shares(o Record) bool {
	for _, a := range r.Stations {
		for _, b := range o.Stations {
			if a == b {
				return true
			}
		}
	}
	return false
}

// grossError is the widest gap taken for true, °C.
const grossError = 15

// Load reads all records from the data folder.
func Load(dir string) ([]Record, error) {
	var out []Record
	add := func(r Record) {
		for i, t := range r.Spot.Tmin {
			if s, _ := r.Station.At(r.Spot.First + climate.Day(i)); math.Abs(t-s) > grossError {
				r.Spot.Tmin[i] = math.NaN()
			}
		}
		r.Own = ownLine(r.Station, r.Spot)
		out = append(out, r)
	}
	for _, g := range []struct{ glob, spot, tmin, tmax string }{
		{"bed/dwd-*.csv.gz", "t5cm", "tmin", "tmax"}, {"soil/*.csv.gz", "grass_min_c", "tmin_c", "tmax_c"},
	} {
		files, err := filepath.Glob(filepath.Join(dir, g.glob))
		if err != nil {
			return nil, err
		}
		for _, f := range files {
			c, err := read(f, g.tmin, g.tmax, g.spot)
			if err != nil {
				return nil, err
			}
			id := filepath.Base(f)
			id = id[:len(id)-len(".csv.gz")]
			if id[:4] == "dwd-" {
				id = id[4:]
			}
			add(Record{Name: id, Stations: []string{id}, Kind: "same", Station: c.station, Spot: c.spot})
		}
	}
	r := Record{Name: "KNMI 283", Stations: []string{"283"}, Kind: "same"}
	for column, to := range map[string]*climate.Series{"": &r.Station, "T10N": &r.Spot} {
		f, err := os.Open(filepath.Join(dir, "knmi-daily-283.txt"))
		if err != nil {
			return nil, err
		}
		*to, _, err = daily.Read(f, f.Name(), daily.Options{Tmin: column})
		f.Close()
		if err != nil {
			return nil, err
		}
	}
	add(r)
	err := eachRow(filepath.Join(dir, "near", "pairs.csv"), func(row func(string) string) error {
		c, err := read(filepath.Join(dir, "near", row("file")+".csv.gz"), "tmin", "tmax", "garden_t5cm")
		if err != nil {
			return err
		}
		add(Record{Name: row("file")[4:], Stations: []string{row("station"), row("garden")}, Kind: "pair", Station: c.station, Spot: c.spot,
			Place: site.Place{Km: number(row("km")), Rise: number(row("garden_minus_station_m"))}})
		return nil
	})
	if err != nil {
		return nil, err
	}
	up, err := upland(dir)
	for _, r := range up {
		add(r)
	}
	return out, err
}

// upland pairs every two of the 8 stations, at 5 cm and in the screen.
func upland(dir string) (out []Record, err error) {
	type station struct {
		id                string
		height, lat, long float64
		read              twoHeights
	}
	var all []station
	err = eachRow(filepath.Join(dir, "near", "forest.csv"), func(row func(string) string) error {
		c, err := read(filepath.Join(dir, "near", row("file")+".csv.gz"), "tmin", "tmax", "t5cm")
		all = append(all, station{row("file")[7:], number(row("height_m")), number(row("latitude")), number(row("longitude")), c})
		return err
	})
	for _, g := range all {
		if n := len(completeSeasons(g.read.station, g.read.spot)); n >= 12 && g.id != "00706" { // which is among the 12
			out = append(out, Record{Name: "upland " + g.id, Stations: []string{g.id}, Kind: "same", Station: g.read.station, Spot: g.read.spot})
		}
		for _, s := range all {
			if s.id == g.id {
				continue
			}
			km := 6371 * math.Pi / 180 * math.Hypot(s.lat-g.lat, (s.long-g.long)*math.Cos(g.lat*math.Pi/180))
			r := Record{Name: s.id + ">" + g.id, Stations: []string{s.id, g.id}, Station: s.read.station, Place: site.Place{Km: km, Rise: g.height - s.height}}
			screen := g.read.station
			screen.Tmin = append([]float64(nil), screen.Tmin...)
			for kind, spot := range map[string]climate.Series{"upland": g.read.spot, "screen": screen} {
				r.Kind, r.Spot = kind, spot
				if len(completeSeasons(r.Station, r.Spot)) >= 12 {
					r.Spot.Tmin = append([]float64(nil), spot.Tmin...)
					out = append(out, r)
				}
			}
		}
	}
	return out, err
}

type twoHeights struct{ station, spot climate.Series }

// read reads a gzipped CSV file with dates in its first column; empty is missing.
func read(name, tmin, tmax, spot string) (twoHeights, error) {
	var c twoHeights
	type day struct {
		d          climate.Day
		lo, hi, at float64
	}
	var days []day
	err := eachRow(name, func(row func(string) string) error {
		at, err := time.Parse(time.DateOnly, row("date"))
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		days = append(days, day{climate.NewDay(at.Date()), number(row(tmin)), number(row(tmax)), number(row(spot))})
		return nil
	})
	if err != nil || len(days) == 0 {
		return c, err
	}
	n := int(days[len(days)-1].d-days[0].d) + 1
	c.station, c.spot = climate.NewSeries(days[0].d, n), climate.NewSeries(days[0].d, n)
	for _, x := range days {
		i := int(x.d - days[0].d)
		c.station.Tmin[i], c.station.Tmax[i], c.spot.Tmin[i] = x.lo, x.hi, x.at
	}
	return c, nil
}

// eachRow visits the rows of a CSV file, each as a function from a column's name to its cell; "" where it has none.
func eachRow(name string, visit func(func(string) string) error) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	in := csv.NewReader(f)
	if filepath.Ext(name) == ".gz" {
		z, err := gzip.NewReader(f)
		if err != nil {
			return err
		}
		in = csv.NewReader(z)
	}
	rows, err := in.ReadAll()
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	for _, r := range rows[1:] {
		if err := visit(func(column string) string {
			if i := slices.Index(rows[0], column); i >= 0 {
				return r[i]
			}
			return ""
		}); err != nil {
			return err
		}
	}
	return nil
}

func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}
