package main

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"os"
	"strconv"
	"strings"

	"frostward/cmd/internal/batch"
	"frostward/cmd/internal/opened"
)

// readPlaces reads where stations are: a CSV file with a header, or the fixed columns of
// GHCN-Daily's ghcnd-stations.txt (its readme.txt, section IV).
func readPlaces(name string) (map[string]batch.Place, error) {
	b, err := os.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, opened.Cause(err))
	}
	b = bytes.TrimPrefix(b, []byte("\xef\xbb\xbf"))
	head, _, _ := bytes.Cut(b, []byte{'\n'})
	var places map[string]batch.Place
	if bytes.IndexByte(head, ',') >= 0 {
		places, err = placesCSV(b)
	} else {
		places, err = placesFixed(b)
	}
	if err != nil {
		return nil, fmt.Errorf("%s:%w", name, err)
	}
	return places, nil
}

func placesCSV(b []byte) (map[string]batch.Place, error) {
	r := csv.NewReader(bytes.NewReader(b))
	r.TrimLeadingSpace = true
	head, err := r.Read()
	if err != nil {
		return nil, fmt.Errorf("1: %w", err)
	}
	at := map[string]int{}
	for i, h := range head {
		at[strings.ToLower(strings.TrimSpace(h))] = i
	}
	id, ok1 := at["station"]
	if _, ok := at["id"]; ok && !ok1 {
		id, ok1 = at["id"], true
	}
	lat, ok2 := at["latitude"]
	if !ok1 || !ok2 {
		return nil, fmt.Errorf("1: %q; wanted columns named station and latitude", strings.Join(head, ","))
	}
	places := map[string]batch.Place{}
	for {
		f, err := r.Read()
		if err == io.EOF {
			return places, nil
		}
		if err != nil {
			return nil, fmt.Errorf("1: %w", err)
		}
		line, _ := r.FieldPos(id)
		other := func(column string) (float64, error) {
			i, ok := at[column]
			if !ok || f[i] == "" {
				return math.NaN(), nil
			}
			return degreesOf(f[i], line, column, 180)
		}
		p := batch.Place{}
		if p.Latitude, err = degreesOf(f[lat], line, "latitude", 90); err != nil {
			return nil, err
		}
		if p.Longitude, err = other("longitude"); err != nil {
			return nil, err
		}
		p.Elevation = math.NaN()
		if i, ok := at["elevation"]; ok {
			if v, err := strconv.ParseFloat(f[i], 64); err == nil && v > -500 && v < 9000 {
				p.Elevation = v
			}
		}
		if i, ok := at["name"]; ok {
			p.Name = f[i]
		}
		places[f[id]] = p
	}
}

// placesFixed reads ID 1-11, latitude 13-20, longitude 22-30, elevation 32-37, name 42-71.
func placesFixed(b []byte) (map[string]batch.Place, error) {
	places := map[string]batch.Place{}
	s := bufio.NewScanner(bytes.NewReader(b))
	for line := 1; s.Scan(); line++ {
		t := s.Text()
		if strings.TrimSpace(t) == "" {
			continue
		}
		if len(t) < 37 {
			return nil, fmt.Errorf("%d: %q; wanted station, latitude, longitude and elevation in fixed columns, or a CSV file with a header", line, t)
		}
		p := batch.Place{Elevation: math.NaN()}
		var err error
		if p.Latitude, err = degreesOf(strings.TrimSpace(t[12:20]), line, "latitude", 90); err != nil {
			return nil, err
		}
		if p.Longitude, err = degreesOf(strings.TrimSpace(t[21:30]), line, "longitude", 180); err != nil {
			return nil, err
		}
		if v, err := strconv.ParseFloat(strings.TrimSpace(t[31:37]), 64); err == nil && v > -500 { // -999.9 is missing
			p.Elevation = v
		}
		if len(t) > 41 {
			p.Name = strings.TrimSpace(t[41:min(71, len(t))])
		}
		places[strings.TrimSpace(t[:11])] = p
	}
	return places, s.Err()
}

func degreesOf(s string, line int, what string, most float64) (float64, error) {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(math.Abs(v) <= most) {
		return 0, fmt.Errorf("%d: %s: %q is not degrees between %v and %v", line, what, s, -most, most)
	}
	return v, nil
}
