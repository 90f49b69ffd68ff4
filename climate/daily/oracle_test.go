package daily

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
)

// fieldOf draws the text of a temperature: mostly plain, sometimes strange.
func fieldOf(t *rapid.T, label string) string {
	switch rapid.IntRange(0, 19).Draw(t, label+" kind") {
	case 0:
		return rapid.SampledFrom([]string{"", "NA", " ", "-", "M"}).Draw(t, label)
	case 1:
		return rapid.SampledFrom([]string{"-9999", "-999", "-99.9", "9999", "-998", "999.9"}).Draw(t, label)
	case 2:
		return rapid.SampledFrom([]string{"NaN", "inf", "1e308", "1O.5", "--5", "5.", ".5", "-.5", "-0", "-0.0", "+3.5", "1.2.3",
			"0x10", "1e1", "12 3", "\"4.5\"", "\"4.5", "5,", "123456", "98765.4", "1\r", "\x00", "−2.5"}).Draw(t, label)
	case 3:
		return rapid.StringMatching(`-?[0-9]{1,7}(\.[0-9]{0,9})?`).Draw(t, label)
	case 4:
		return strconv.FormatFloat(rapid.Float64Range(-60, 60).Draw(t, label), 'g', -1, 64)
	case 5:
		return fmt.Sprint(rapid.IntRange(-120, 130).Draw(t, label))
	case 6:
		return fmt.Sprintf("%.2f", float64(rapid.IntRange(-12000, 13000).Draw(t, label))/100)
	}
	return fmt.Sprintf("%.1f", float64(rapid.IntRange(-400, 450).Draw(t, label))/10)
}

// dateOf draws a date that mostly follows the one before.
func dateOf(t *rapid.T, day *climate.Day) string {
	switch rapid.IntRange(0, 14).Draw(t, "date kind") {
	case 0:
		*day = mustDay("2003-12-20") + climate.Day(rapid.IntRange(0, 80).Draw(t, "jump"))
	case 1:
		return rapid.SampledFrom([]string{"2004-02-30", "2003-02-29", "2004-13-01", "2004-00-10", "2004-01-00", "9999-01-01", "",
			"2004-1-5", "20040106", "2004-01-07T00:00", "x004-01-01", "2004-01-0a", "2004/01/08"}).Draw(t, "date")
	default:
		*day++
	}
	return day.String()
}

// oracle reads rows the plainest way there is: strings.Split, strconv, a map.
func oracle(rows []string) (map[climate.Day]pair, int) {
	type found struct {
		tmin, tmax map[float64]bool
	}
	all := map[climate.Day]*found{}
	bad := 0
	number := func(s string) (v float64, ok bool) {
		s = strings.TrimSpace(s)
		if len(s) > 1 && s[0] == '"' && s[len(s)-1] == '"' {
			s = s[1 : len(s)-1]
		}
		switch s {
		case "", "NA", "-", "M":
			return math.NaN(), true
		}
		s = strings.Replace(s, "−", "-", 1)
		if strings.Trim(s, "0123456789.-+eE") != "" || strings.HasPrefix(s, "+-") {
			return 0, false
		}
		v, err := strconv.ParseFloat(s, 64)
		if err != nil || math.Abs(v) > 99999 {
			return 0, false
		}
		for _, code := range []float64{-9999, -999, -998, 9999, -99999, 99999, -8888, -32768, 32767, -99, -99.9, -99.99, -999.9,
			-999.99, -9999.9, 999, 999.9, 999.99, 9999.9} {
			if v == code {
				return math.NaN(), true
			}
		}
		return v, true
	}
	date := func(s string) (climate.Day, bool) {
		s = strings.Replace(strings.TrimSuffix(s, "T00:00"), "/", "-", 2)
		if len(s) == 8 && !strings.Contains(s, "-") {
			s = s[:4] + "-" + s[4:6] + "-" + s[6:]
		}
		if s == "2004-1-5" {
			s = "2004-01-05"
		}
		d, err := climate.ParseDay(s)
		return d, err == nil && d < mustDay("2300-01-01")
	}
	for _, line := range rows {
		for _, row := range strings.Split(line, "\r") {
			if strings.TrimSpace(row) == "" {
				continue
			}
			f := strings.Split(row, ",")
			for len(f) > 3 && strings.TrimSpace(f[len(f)-1]) == "" {
				f = f[:len(f)-1]
			}
			if len(f) != 3 || strings.Count(row, `"`)%2 == 1 {
				bad++
				continue
			}
			tmin, ok1 := number(f[1])
			tmax, ok2 := number(f[2])
			d, ok := date(f[0])
			if !ok && ok1 && ok2 && math.IsNaN(tmin) && math.IsNaN(tmax) {
				continue
			}
			if !ok || !ok1 || !ok2 {
				bad++
				continue
			}
			if all[d] == nil {
				all[d] = &found{map[float64]bool{}, map[float64]bool{}}
			}
			if !math.IsNaN(tmin) {
				all[d].tmin[tmin] = true
			}
			if !math.IsNaN(tmax) {
				all[d].tmax[tmax] = true
			}
		}
	}
	out := map[climate.Day]pair{}
	for d, f := range all {
		v := pair{math.NaN(), math.NaN()}
		if len(f.tmin) > 1 || len(f.tmax) > 1 {
			bad++
			continue
		}
		for x := range f.tmin {
			v.tmin = x
		}
		for x := range f.tmax {
			v.tmax = x
		}
		out[d] = v
	}
	return out, bad
}

// The reader agrees with the oracle whatever the rows, with the short cut for plain rows and without.
func TestReadersAgreeWithOracle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		day := mustDay("2003-12-20")
		var rows []string
		for range rapid.IntRange(1, 60).Draw(t, "rows") {
			end := rapid.SampledFrom([]string{"", "", "", "", "\r", ",", ", "}).Draw(t, "end")
			rows = append(rows, dateOf(t, &day)+","+fieldOf(t, "tmin")+","+fieldOf(t, "tmax")+end)
		}
		eol := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "line end")
		data := []byte("date,tmin,tmax" + eol + strings.Join(rows, eol))
		if rapid.Bool().Draw(t, "closed") {
			data = append(data, eol...)
		}
		want, bad := oracle(rows)

		opts := Options{Units: Celsius, MaxFaults: 1000}
		var reports []Report
		for k, read := range []func(io.Reader, string, Options) (climate.Series, Report, error){Read, readSlowly} {
			s, rep, err := read(bytes.NewReader(data), "x", opts)
			if err != nil {
				s = climate.Series{}
			}
			for d, v := range want {
				tmin, tmax := s.At(d)
				if !equal(tmin, v.tmin) || !equal(tmax, v.tmax) {
					t.Fatalf("reader %d: %s: %v %v; want %v\n%q", k, d, tmin, tmax, v, data)
				}
			}
			for i := range s.Tmin {
				if v, ok := want[s.First+climate.Day(i)]; !ok && !(math.IsNaN(s.Tmin[i]) && math.IsNaN(s.Tmax[i])) {
					t.Fatalf("reader %d: %s: made up %v %v; want %v\n%q", k, s.First+climate.Day(i), s.Tmin[i], s.Tmax[i], v, data)
				}
			}
			if rep.FaultCount != bad {
				t.Fatalf("reader %d: %d faults, want %d: %v\n%q", k, rep.FaultCount, bad, rep.Faults, data)
			}
			reports = append(reports, rep)
		}
		for k, rep := range reports[1:] {
			require.Equal(t, fmt.Sprint(reports[0]), fmt.Sprint(rep), "reader %d\n%q", k+1, data)
		}
	})
}

func equal(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }

// Whatever number is accepted is what strconv makes of the text, bit for bit.
func TestNumbersAreStrconvs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.OneOf(
			rapid.StringMatching(`-?[0-9]{0,6}(\.[0-9]{0,8})?`),
			rapid.StringMatching(`[-+0-9.eE,]{0,12}`),
			rapid.Custom(func(t *rapid.T) string {
				return strconv.FormatFloat(rapid.Float64().Draw(t, "v"), 'g', -1, 64)
			}),
		).Draw(t, "text")
		v, ok := parseNumber([]byte(s))
		want, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
		switch {
		case ok && (err != nil || v != want || math.Signbit(v) && v == 0):
			t.Fatalf("%q gave %v, strconv %v %v", s, v, want, err)
		case !ok && err == nil && math.Abs(want) <= maxMagnitude && len(s) <= 24 && !strings.ContainsAny(s, ","):
			t.Fatalf("%q refused, strconv gives %v", s, want)
		}
	})
}
