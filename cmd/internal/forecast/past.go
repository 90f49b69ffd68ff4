package forecast

import (
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"frostward/climate"
)

// Past is what one column of a file of old forecasts said, with what came, in the order of places
// and days.
type Past struct {
	Column string
	Nights []PastNight
}

// PastNight is one forecast with its outcome.
type PastNight struct {
	Place      string
	Day        climate.Day // the row's
	Said, Came float64     // °C
}

// ReadPast reads a CSV file of forecasts and outcomes: a date; a column that begins with actual,
// observed, came or outcome; one or more that begin with forecast; and, of several places, columns
// place, city, station or state. A name that ends in .gz is of a compressed file.
func ReadPast(r io.Reader, o Options) ([]Past, error) {
	if strings.HasSuffix(o.Name, ".gz") {
		z, err := gzip.NewReader(r)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", o.Name, err)
		}
		r = z
	}
	lines := csv.NewReader(io.LimitReader(r, 256<<20))
	head, err := lines.Read()
	if err != nil {
		return nil, fmt.Errorf("%s:1: %w; wanted a heading: date, forecast, actual", o.Name, err)
	}
	date, came := -1, -1
	var said, place []int
	for i, h := range head {
		name, _ := nameOf(h)
		begins := func(list ...string) bool {
			return slices.ContainsFunc(list, func(w string) bool { return strings.HasPrefix(name, w) })
		}
		switch {
		case date < 0 && slices.Contains(timeNames, name):
			date = i
		case begins("forecast"):
			said = append(said, i)
		case came < 0 && begins("actual", "observed", "came", "outcome"):
			came = i
		case slices.Contains([]string{"place", "city", "station", "state"}, name):
			place = append(place, i)
		}
	}
	if date < 0 || came < 0 || len(said) == 0 {
		return nil, fmt.Errorf("%s:1: wanted columns date, actual (or observed, came, outcome), and forecast, or several that begin so", o.Name)
	}
	out := make([]Past, len(said))
	values := make([]series, len(said)) // in pairs: what was said, what came
	for {
		cells, err := lines.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", o.Name, err)
		}
		line, _ := lines.FieldPos(0)
		day, err := climate.ParseDay(strings.TrimSpace(cells[date]))
		if err != nil {
			return nil, fmt.Errorf("%s:%d: date: %w", o.Name, line, err)
		}
		var where []string
		for _, i := range place {
			where = append(where, strings.TrimSpace(cells[i]))
		}
		for k, i := range said {
			a, okA, errA := number(cells[i], false)
			b, okB, errB := number(cells[came], false)
			if errA != nil || errB != nil {
				return nil, fmt.Errorf("%s:%d: %q, %q; wanted numbers, or empty", o.Name, line, cells[i], cells[came])
			}
			if okA && okB {
				at := fmt.Sprintf("line %d", line)
				values[k].points = append(values[k].points, point{"", a, at}, point{"", b, at})
				out[k].Nights = append(out[k].Nights, PastNight{Place: strings.Join(where, ", "), Day: day})
			}
		}
	}
	for k := range out {
		out[k].Column = strings.TrimSpace(head[said[k]])
		values[k].column = out[k].Column
		_, values[k].unit = nameOf(head[said[k]])
		if err := values[k].celsius(o); err != nil {
			return nil, fmt.Errorf("%s: %w", o.Name, err)
		}
		for i := range out[k].Nights {
			out[k].Nights[i].Said, out[k].Nights[i].Came = values[k].points[2*i].value, values[k].points[2*i+1].value
		}
		slices.SortStableFunc(out[k].Nights, func(a, b PastNight) int {
			if c := strings.Compare(a.Place, b.Place); c != 0 {
				return c
			}
			return int(a.Day - b.Day)
		})
	}
	return out, nil
}
