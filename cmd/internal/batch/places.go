package batch

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"frostward/cmd/internal/deliver"
	"io"
	"math"
	"os"
	"strconv"
	"strings"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// ReadPlaces reads where stations are: a CSV file with a header, or the fixed columns of
// GHCN-Daily's ghcnd-stations.txt (its readme.txt, section IV).
func ReadPlaces(name string) (map[string]Place, error) {
	b, err := os.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, deliver.Cause(err))
	}
	if b, _, err = transform.Bytes(unicode.BOMOverride(transform.Nop), b); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	head, _, _ := bytes.Cut(b, []byte{'\n'})
	var places map[string]Place
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

func placesCSV(b []byte) (map[string]Place, error) {
	r := csv.NewReader(bytes.NewReader(b))
	r.TrimLeadingSpace = true
	head, err := r.Read()
	if err != nil {
		return nil, csvFault(err)
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
	places := map[string]Place{}
	for {
		f, err := r.Read()
		if err == io.EOF {
			return places, nil
		}
		if err != nil {
			return nil, csvFault(err)
		}
		line, _ := r.FieldPos(id)
		other := func(column string) (float64, error) {
			i, ok := at[column]
			if !ok || f[i] == "" {
				return math.NaN(), nil
			}
			return degreesOf(f[i], line, column, 180)
		}
		p := Place{}
		if p.Latitude, err = degreesOf(f[lat], line, "latitude", 90); err != nil {
			return nil, err
		}
		if p.Longitude, err = other("longitude"); err != nil {
			return nil, err
		}
		p.Elevation = math.NaN()
		if i, ok := at["elevation"]; ok {
			if p.Elevation, err = metresOf(f[i], line); err != nil {
				return nil, err
			}
		}
		if i, ok := at["name"]; ok {
			p.Name = f[i]
		}
		places[f[id]] = p
	}
}

// placesFixed reads ID 1-11, latitude 13-20, longitude 22-30, elevation 32-37, name 42-71.
func placesFixed(b []byte) (map[string]Place, error) {
	places := map[string]Place{}
	s := bufio.NewScanner(bytes.NewReader(b))
	for line := 1; s.Scan(); line++ {
		t := s.Text()
		if strings.TrimSpace(t) == "" {
			continue
		}
		if len(t) < 37 {
			return nil, fmt.Errorf("%d: %q; wanted station, latitude, longitude and elevation in fixed columns, or a CSV file with a header", line, t)
		}
		p := Place{Elevation: math.NaN()}
		var err error
		if p.Latitude, err = degreesOf(strings.TrimSpace(t[12:20]), line, "latitude", 90); err != nil {
			return nil, err
		}
		if p.Longitude, err = degreesOf(strings.TrimSpace(t[21:30]), line, "longitude", 180); err != nil {
			return nil, err
		}
		if p.Elevation, err = metresOf(strings.TrimSpace(t[31:37]), line); err != nil {
			return nil, err
		}
		if len(t) > 41 {
			p.Name = strings.TrimSpace(t[41:min(71, len(t))])
		}
		places[strings.TrimSpace(t[:11])] = p
	}
	return places, s.Err()
}

// csvFault is a fault of the CSV itself, at its line.
func csvFault(err error) error {
	var p *csv.ParseError
	if errors.As(err, &p) {
		return fmt.Errorf("%d: %w", p.Line, p.Err)
	}
	return fmt.Errorf("1: %w; wanted a header", err)
}

// metresOf reads a height, NaN where there is none: -999.9 is GHCN-Daily's code for that.
func metresOf(s string, line int) (float64, error) {
	if s == "" || s == "-999.9" {
		return math.NaN(), nil
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v > -500 && v < 9000) {
		return 0, fmt.Errorf("%d: elevation: %q is not metres above the sea; wanted a number, or nothing", line, s)
	}
	return v, nil
}

func degreesOf(s string, line int, what string, most float64) (float64, error) {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(math.Abs(v) <= most) {
		return 0, fmt.Errorf("%d: %s: %q is not degrees between %v and %v", line, what, s, -most, most)
	}
	return v, nil
}
