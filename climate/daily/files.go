package daily

import (
	"fmt"
	"io"
	"math"
	"slices"

	"frostward/climate"
)

// Input is a file to read.
type Input struct {
	Name   string // for messages
	Reader io.Reader
}

// ReadFiles reads one station's record from one or more files: pieces of years, the minimum and the maximum apart,
// or copies that overlap. Where files overlap, values that are the same to 0.06 °C are taken once; others are a
// fault, and neither is used. Files that mostly disagree are not of one record, which is an error.
func ReadFiles(in []Input, opts Options) (climate.Series, Report, error) {
	type part struct {
		f   *file
		rep Report
	}
	var parts []part
	together := map[string]*evidence{} // of files of one layout, in a unit that none of them states
	var nameless []int                 // files of one element that do not say which
	for _, i := range in {
		f, err := open(i.Reader, i.Name, opts)
		defer f.stop()
		if err == nil {
			err = f.parse()
		}
		if err == nil {
			if err = f.sink.several(); err != nil {
				err = fmt.Errorf("%s: %w", i.Name, err)
			}
		}
		if err != nil {
			return climate.Series{}, f.rep, err
		}
		rep, err := f.ready(f.sink.current, f.sink.table)
		if err == errNameless && len(in) == 2 {
			nameless = append(nameless, len(parts))
		} else if err != nil {
			return climate.Series{}, rep, fmt.Errorf("%s: %w", i.Name, err)
		}
		parts = append(parts, part{f, rep})
	}
	if len(nameless) > 0 {
		a, b := parts[0].f, parts[1].f
		e := lowerOf(a.sink.table.readings, b.sink.table.readings)
		if len(nameless) == 1 || e == NoElement {
			return climate.Series{}, parts[0].rep, fmt.Errorf("%s: %w", parts[nameless[0]].f.name, errNameless)
		}
		for k, f := range []*file{a, b} {
			f.sink.table.alone(e)
			if e == Tmin {
				parts[k].rep.TmaxName = ""
			} else {
				parts[k].rep.TminName = ""
			}
			e = Tmin + Tmax - e
		}
		parts[0].rep.Notes = append(parts[0].rep.Notes, "of the two files the lower was taken as the minimum")
	}
	key := func(p part) string {
		u, _ := p.f.parser.stated()
		return fmt.Sprint(p.rep.Format, p.rep.TminName, p.rep.TmaxName, u)
	}
	for _, p := range parts {
		if together[key(p)] == nil {
			together[key(p)] = &evidence{}
		}
		together[key(p)].add(p.f.sink.table)
	}
	var s climate.Series
	var rep Report
	for k, p := range parts {
		if err := p.f.unit(&p.rep, together[key(p)]); err != nil {
			return climate.Series{}, p.rep, fmt.Errorf("%s: %w", p.f.name, err)
		}
		next, r, err := p.f.finish(p.f.sink.table, p.rep)
		switch {
		case err != nil:
			return climate.Series{}, r, err
		case k == 0:
			s, rep = next, r
		default:
			if s, rep, err = join(s, rep, next, r, opts.maxFaults()); err != nil {
				return climate.Series{}, rep, err
			}
		}
	}
	return s, rep, nil
}

// lowerOf says which element the first of two files has, one value a day each: a minimum is hardly ever above its
// maximum.
func lowerOf(a, b []reading) Element {
	first := map[int32]float64{}
	for _, r := range a {
		first[r.at/minutesADay] = r.tmin
	}
	below, above := 0, 0
	for _, r := range b {
		switch v, ok := first[r.at/minutesADay]; {
		case !ok:
		case v < r.tmin:
			below++
		case v > r.tmin:
			above++
		}
	}
	switch {
	case max(below, above) < 10 || min(below, above)*100 > max(below, above):
		return NoElement
	case below > above:
		return Tmin
	}
	return Tmax
}

// sameValue is the most by which two copies of a value may differ, in °C: what rounding to a tenth leaves.
const sameValue = 0.06

// join lays one record over another.
func join(a climate.Series, ra Report, b climate.Series, rb Report, maxFaults int) (climate.Series, Report, error) {
	if ra.Station != "" && rb.Station != "" && ra.Station != rb.Station {
		return a, ra, fmt.Errorf("%s is of station %q and %s of %q; wanted one station's record", ra.Name, ra.Station, rb.Name, rb.Station)
	}
	first, last := min(a.First, b.First), max(a.Last(), b.Last())
	n := int(last-first) + 1
	out := climate.Series{First: first, Tmin: make([]float64, n), Tmax: make([]float64, n)}
	if a.Snow != nil || b.Snow != nil {
		out.Snow = make([]float64, n)
		for i := range out.Snow {
			out.Snow[i] = max(a.SnowOn(first+climate.Day(i)), b.SnowOn(first+climate.Day(i)))
		}
	}
	rep := ra
	rep.Files = append(slices.Clone(ra.Files), rb)
	if ra.Files == nil {
		rep.Files = []Report{ra, rb}
	}
	if len(rep.Files) == 2 {
		rep.Name = ra.Name + " and " + baseName(rb.Name)
	} else {
		rep.Name = fmt.Sprintf("%s and %d more files", rep.Files[0].Name, len(rep.Files)-1)
	}
	rep.Faults = slices.Clone(ra.Faults)
	rep.FaultCount += rb.FaultCount
	rep.Faults = append(rep.Faults, rb.Faults...)
	shared, differ := 0, 0
	for i := range n {
		d := first + climate.Day(i)
		x, xMax := a.At(d)
		y, yMax := b.At(d)
		for _, e := range []struct {
			to   *float64
			x, y float64
			name string
		}{{&out.Tmin[i], x, y, "tmin"}, {&out.Tmax[i], xMax, yMax, "tmax"}} {
			v, ok := agreed(e.x, e.y)
			if e.x == e.x && e.y == e.y {
				shared++
				if math.Abs(e.x-e.y) <= sameValue {
					v, ok = e.x, true
				}
			}
			if !ok {
				differ++
				v = math.NaN()
				rep.FaultCount++
				rep.Faults = append(rep.Faults, Fault{File: rb.Name, Field: e.name, Text: d.String(),
					Want: fmt.Sprintf("has %.1f °C here and %.1f °C in %s; neither is used", e.y, e.x, rep.Files[0].Name)})
			}
			*e.to = v
		}
	}
	if differ > 5 && differ*10 > shared {
		return a, ra, fmt.Errorf("%s and %s differ on %d of the %d values that both have; wanted files of one station's record", ra.Name, rb.Name, differ, shared)
	}
	rep.Overlap, rep.Differ = ra.Overlap+shared, ra.Differ+differ
	rep.Faults = rep.Faults[:min(len(rep.Faults), maxFaults)]
	count(out, &rep)
	rep.Rows, rep.Coded, rep.Flagged = ra.Rows+rb.Rows, ra.Coded+rb.Coded, ra.Flagged+rb.Flagged
	rep.Repeated, rep.Unsorted, rep.Incomplete = ra.Repeated+rb.Repeated, ra.Unsorted+rb.Unsorted, ra.Incomplete+rb.Incomplete
	rep.TminName, rep.TmaxName = or(ra.TminName, rb.TminName), or(ra.TmaxName, rb.TmaxName)
	rep.StationName, rep.DayEnds = or(ra.StationName, rb.StationName), or(ra.DayEnds, rb.DayEnds)
	if math.IsNaN(rep.Latitude) {
		rep.Latitude, rep.Longitude, rep.Elevation = rb.Latitude, rb.Longitude, rb.Elevation
	}
	for _, note := range rb.Notes {
		if !slices.Contains(rep.Notes, note) {
			rep.Notes = append(rep.Notes, note)
		}
	}
	rep.Readings = readings(out, a, ra, b, rb)
	return out, rep, nil
}

// readings joins the numbers of readings a day of two records.
func readings(out, a climate.Series, ra Report, b climate.Series, rb Report) []int {
	if ra.Readings == nil && rb.Readings == nil {
		return nil
	}
	all := make([]int, out.Len())
	for i, n := range ra.Readings {
		all[int(a.First-out.First)+i] = n
	}
	for i, n := range rb.Readings {
		all[int(b.First-out.First)+i] = max(all[int(b.First-out.First)+i], n)
	}
	return all
}

// count fills in what a report says of the days of a series.
func count(s climate.Series, rep *Report) {
	rep.First, rep.Last, rep.Days, rep.MissingTmin, rep.MissingTmax = s.First, s.Last(), 0, 0, 0
	for i := range s.Tmin {
		noMin, noMax := math.IsNaN(s.Tmin[i]), math.IsNaN(s.Tmax[i])
		if noMin {
			rep.MissingTmin++
		}
		if noMax {
			rep.MissingTmax++
		}
		if !noMin || !noMax {
			rep.Days++
		}
	}
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}
