package daily

import (
	"bytes"
	"fmt"
	"math"
	"strconv"

	"frostward/climate"
)

// Append returns the text of a plain table, date,tmin,tmax with dates such as 2026-05-24, with the days of a series
// added in its unit and in the order of its columns. Nothing that stands there is changed.
func Append(text []byte, name string, s climate.Series, opts Options) ([]byte, error) {
	head, err := sniff(text[:min(len(text), blockSize)], opts)
	h := head.header
	empty := false
	plain := err == nil && head.format == Delimited && head.sep == ',' && h.width == 3 && h.at[colDate] == 0 && h.at[colTmin] > 0 && h.at[colTmax] > 0
	if plain {
		rest := text
		for range head.headLine {
			_, rest = cutLine(rest)
		}
		row, _ := cutLine(rest)
		plain = len(rest) == 0 || len(row) > 10 && row[4] == '-' && row[7] == '-' && row[10] == ','
		empty = len(rest) == 0
	}
	if !plain {
		return nil, fmt.Errorf("%s: is no plain table of date,tmin,tmax with dates such as 2026-05-24, and days are added to no other", name)
	}
	unit, _ := stated(head, opts)
	if !empty {
		_, rep, err := Read(bytes.NewReader(text), name, opts)
		if err != nil {
			return nil, err
		}
		unit = rep.Units
	}
	end := "\n"
	if bytes.Contains(text, []byte("\r\n")) {
		end = "\r\n"
	}
	out := bytes.Clone(text)
	if len(out) > 0 && out[len(out)-1] != '\n' {
		out = append(out, end...)
	}
	for i := range s.Tmin {
		if math.IsNaN(s.Tmin[i]) && math.IsNaN(s.Tmax[i]) {
			continue
		}
		var v [3]float64
		v[h.at[colTmin]], v[h.at[colTmax]] = s.Tmin[i], s.Tmax[i]
		out = append(out, (s.First + climate.Day(i)).String()...)
		for _, x := range v[1:] {
			out = append(out, ',')
			if !math.IsNaN(x) {
				out = strconv.AppendFloat(out, math.Round(unit.from(x)*100)/100, 'f', -1, 64)
			}
		}
		out = append(out, end...)
	}
	return out, nil
}

// Differences compares two records: how many values both have, and the days on which they differ by more than
// rounding to a tenth leaves.
func Differences(a, b climate.Series) (shared int, days []climate.Day) {
	for d := max(a.First, b.First); d <= min(a.Last(), b.Last()); d++ {
		x, xMax := a.At(d)
		y, yMax := b.At(d)
		differ := false
		for _, v := range [2][2]float64{{x, y}, {xMax, yMax}} {
			if !math.IsNaN(v[0]) && !math.IsNaN(v[1]) {
				shared++
				differ = differ || math.Abs(v[0]-v[1]) > sameValue
			}
		}
		if differ {
			days = append(days, d)
		}
	}
	return shared, days
}
