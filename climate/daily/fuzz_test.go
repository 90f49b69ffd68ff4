package daily

import (
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"frostward/climate"
)

// FuzzRead holds for any bytes: no panic; bounded size; nothing but numbers and gaps in
// the series; the counts of the report; and that what was accepted, written out as a
// plain table and read again, comes back bit for bit.
func FuzzRead(f *testing.F) {
	for _, dir := range []string{"formats", "faulty", "layouts"} {
		files, _ := filepath.Glob(filepath.Join(stations, dir, "*.*"))
		for _, name := range files {
			b, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(b[:min(len(b), 1500)], byte(0))
			f.Add(b[:min(len(b), 700)], byte(5))
		}
	}
	f.Fuzz(func(t *testing.T, b []byte, how byte) {
		opts := Options{
			Units:    []Units{Celsius, "", Fahrenheit, TenthsCelsius, Kelvin}[how%5],
			Element:  Element(how / 5 % 3),
			Dates:    DateOrder(how / 15 % 3),
			MaxBytes: 4 << 20,
		}
		s, rep, err := Read(bytes.NewReader(b), "fuzz", opts)
		s2, rep2, err2 := readSlowly(bytes.NewReader(b), "fuzz", opts)
		if (err == nil) != (err2 == nil) || err != nil && err.Error() != err2.Error() {
			t.Fatalf("plain rows: %v; all rows: %v", err, err2)
		}
		if err != nil {
			if msg := err.Error(); !strings.HasPrefix(msg, "fuzz:") || len(msg) > 2000 {
				t.Fatalf("error without its place, or endless: %q", msg)
			}
			return
		}
		if rep.FaultCount != rep2.FaultCount || s.First != s2.First || s.Len() != s2.Len() {
			t.Fatalf("plain rows: %+v; all rows: %+v", rep, rep2)
		}
		check(t, s, rep)
		for i := range s.Tmin {
			if !equal(s.Tmin[i], s2.Tmin[i]) || !equal(s.Tmax[i], s2.Tmax[i]) {
				t.Fatalf("%s: plain rows %v %v, all rows %v %v", s.First+climate.Day(i), s.Tmin[i], s.Tmax[i], s2.Tmin[i], s2.Tmax[i])
			}
		}
		again, rep3, err := Read(bytes.NewReader(plainTable(s)), "again", Options{Units: Celsius})
		if err != nil || rep3.FaultCount > 0 || rep3.Coded > 0 {
			if err == nil && hasCode(s) {
				return // 32 °F times 5/9 may make a code of what was none; 273 K less, a number too big to be read
			}
			t.Fatalf("own output: %v %v", err, rep3.Faults)
		}
		if again.First != s.First || again.Len() != s.Len() {
			t.Fatalf("%v days from %v came back as %v from %v", s.Len(), s.First, again.Len(), again.First)
		}
		for i := range s.Tmin {
			if !equal(s.Tmin[i], again.Tmin[i]) || !equal(s.Tmax[i], again.Tmax[i]) {
				t.Fatalf("%s: %v %v came back as %v %v", s.First+climate.Day(i), s.Tmin[i], s.Tmax[i], again.Tmin[i], again.Tmax[i])
			}
		}
	})
}

// readSlowly is Read without the short cut for plain rows.
func readSlowly(r io.Reader, name string, opts Options) (climate.Series, Report, error) {
	opts.slowly = true
	return Read(r, name, opts)
}

// check tests what holds of every series and report.
func check(t testing.TB, s climate.Series, rep Report) {
	days, noMin, noMax := 0, 0, 0
	for i := range s.Tmin {
		for _, v := range []float64{s.Tmin[i], s.Tmax[i]} {
			if math.Abs(v) > maxMagnitude+460 {
				t.Fatalf("%v °C", v)
			}
		}
		if math.IsNaN(s.Tmin[i]) {
			noMin++
		}
		if math.IsNaN(s.Tmax[i]) {
			noMax++
		}
		if !math.IsNaN(s.Tmin[i]) || !math.IsNaN(s.Tmax[i]) {
			days++
		}
	}
	if days != rep.Days || noMin != rep.MissingTmin || noMax != rep.MissingTmax || rep.First != s.First || rep.Last != s.Last() ||
		s.Len() > windowDays || len(s.Tmin) != len(s.Tmax) || days == 0 || rep.FaultCount < len(rep.Faults) || rep.Units == "" {
		t.Fatalf("%d days, %d and %d missing: %+v", days, noMin, noMax, rep)
	}
}

func hasCode(s climate.Series) bool {
	for i := range s.Tmin {
		if isCode(s.Tmin[i], Celsius) || isCode(s.Tmax[i], Celsius) || s.Tmin[i] < -maxMagnitude || s.Tmax[i] < -maxMagnitude {
			return true
		}
	}
	return false
}

// plainTable writes a series as date,tmin,tmax with every digit it has.
func plainTable(s climate.Series) []byte {
	b := []byte("date,tmin,tmax\n")
	number := func(v float64) {
		if !math.IsNaN(v) {
			b = strconv.AppendFloat(b, v, 'g', -1, 64)
		}
	}
	for i := range s.Tmin {
		b = append(b, (s.First + climate.Day(i)).String()...)
		b = append(b, ',')
		number(s.Tmin[i])
		b = append(b, ',')
		number(s.Tmax[i])
		b = append(b, '\n')
	}
	return b
}

// FuzzStations holds for any bytes: no panic, no station twice, and each station is what
// Read gives for it, as long as the file holds together.
func FuzzStations(f *testing.F) {
	for _, name := range []string{"station.dly", "by-year.csv", "access.csv", "knmi.txt"} {
		b, err := os.ReadFile(filepath.Join(stations, "formats", name))
		if err != nil {
			f.Fatal(err)
		}
		b = b[:min(len(b), 900)]
		f.Add(b)
		f.Add(append(bytes.Clone(b), bytes.ReplaceAll(b, []byte("XX000000001"), []byte("XX000000002"))...))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		seen := map[string]bool{}
		whole := true
		var found []Station
		for st, err := range Stations(bytes.NewReader(b), "fuzz", Options{Units: Celsius, Element: Tmin}) {
			if err != nil {
				whole = whole && st.Report.Station != ""
				continue
			}
			if seen[st.Report.Station] {
				t.Fatalf("station %q twice", st.Report.Station)
			}
			seen[st.Report.Station] = true
			check(t, st.Series, st.Report)
			found = append(found, st)
		}
		for _, st := range found[:min(len(found), 3)] {
			if !whole || st.Report.Station == "" {
				break
			}
			s, _, err := Read(bytes.NewReader(b), "fuzz", Options{Units: Celsius, Element: Tmin, Station: st.Report.Station})
			if err != nil {
				t.Fatalf("station %q: %v", st.Report.Station, err)
			}
			same(t, st.Series, s, 0)
		}
	})
}
