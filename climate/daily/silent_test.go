package daily

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// place is an invented climate: the year's mean, half its range from winter to summer, and the days' range, in °C.
type place struct{ mean, swing, days, weather float64 }

var (
	coolInland  = place{9, 9, 9, 3}
	coolCoast   = place{7.5, 3.5, 4.5, 1.8} // warmest month about 13 °C by day
	hotDesert   = place{25, 12, 15, 3}
	northPlains = place{4, 17, 12, 5}
)

// weather is a place's invented record of some days in °C; south puts its summer into January.
func (p place) record(first string, days int, south bool) climate.Series {
	rng := rand.New(rand.NewPCG(7, 11))
	s := climate.Series{First: mustDay(first), Tmin: make([]float64, days), Tmax: make([]float64, days)}
	spell := 0.0
	for i := range days {
		_, m, d := (s.First + climate.Day(i)).Date()
		phase := 2 * math.Pi * (float64(m-1)*30.4 + float64(d) - 200) / 365
		if south {
			phase += math.Pi
		}
		spell = 0.7*spell + 0.7*p.weather*rng.NormFloat64()
		middle := p.mean + p.swing*math.Cos(phase) + spell
		half := p.days / 2 * (0.6 + 0.8*rng.Float64())
		s.Tmin[i], s.Tmax[i] = middle-half, middle+half
	}
	return s
}

// asCDO writes a record as Climate Data Online does, with or without columns of attributes.
func asCDO(s climate.Series, u Units, attributes bool, only Element) string {
	number := func(v float64) string {
		switch u {
		case Fahrenheit:
			return fmt.Sprintf("%.0f", v*1.8+32)
		case TenthsCelsius:
			return fmt.Sprintf("%.0f", v*10)
		}
		return fmt.Sprintf("%.1f", v)
	}
	var b strings.Builder
	names := []string{"STATION", "NAME", "DATE"}
	for _, e := range []string{"TMAX", "TMIN"} {
		if only == Tmin && e == "TMAX" {
			continue
		}
		names = append(names, e)
		if attributes {
			names = append(names, e+"_ATTRIBUTES")
		}
	}
	fmt.Fprintln(&b, `"`+strings.Join(names, `","`)+`"`)
	for i := range s.Tmin {
		row := []string{"USC00000001", "NOWHERE, XX US", (s.First + climate.Day(i)).String()}
		for k, v := range []float64{s.Tmax[i], s.Tmin[i]} {
			if only == Tmin && k == 0 {
				continue
			}
			row = append(row, number(v))
			if attributes {
				row = append(row, ",,7,0700")
			}
		}
		fmt.Fprintln(&b, `"`+strings.Join(row, `","`)+`"`)
	}
	return b.String()
}

// A unit is right, or it is asked for; it is never wrong.
func TestUnitIsNeverSilentlyWrong(t *testing.T) {
	for name, p := range map[string]place{"inland": coolInland, "coast": coolCoast, "desert": hotDesert, "plains": northPlains} {
		for _, u := range []Units{Celsius, Fahrenheit, TenthsCelsius} {
			for _, days := range []int{20, 31, 59, 120, 250, 365, 1500} {
				for _, start := range []string{"2001-01-01", "2001-06-01"} {
					for _, attributes := range []bool{false, true} {
						for _, only := range []Element{NoElement, Tmin} {
							title := fmt.Sprint(name, " ", u, " ", days, " days from ", start, " attributes ", attributes, " only ", only)
							_, rep, err := Read(strings.NewReader(asCDO(p.record(start, days, false), u, attributes, only)), "x.csv", Options{})
							if err != nil {
								assert.ErrorContains(t, err, "--units", title)
								if days >= 365 && only == NoElement {
									assert.Fail(t, "a whole year of both was not told", "%s: %v", title, err)
								}
								continue
							}
							assert.Equal(t, u, rep.Units, title)
						}
					}
				}
			}
		}
	}
}

// What the header states is not believed against all sense.
func TestStatedUnitIsHeldAgainstTheValues(t *testing.T) {
	text := strings.NewReplacer("TMAX", "TMAX (°C)", "TMIN", "TMIN (°C)").Replace(asCDO(coolInland.record("2001-01-01", 365, false), Fahrenheit, false, NoElement))
	_, _, err := Read(strings.NewReader(text), "x.csv", Options{})
	require.ErrorContains(t, err, "says that it is in °C, but in °C it would have")
	_, rep, err := Read(strings.NewReader(text), "x.csv", Options{Units: Fahrenheit})
	require.NoError(t, err)
	assert.Equal(t, "option", rep.UnitsFrom)
}

// -99 is a missing code in °C and an ordinary night in tenths, whichever it turns out to be.
func TestMinus99(t *testing.T) {
	s := coolInland.record("2001-01-01", 730, false)
	s.Tmin[10] = -9.9
	_, _, err := Read(strings.NewReader(asCDO(s, TenthsCelsius, false, NoElement)), "x", Options{})
	require.NoError(t, err)
	got, rep, _ := Read(strings.NewReader(asCDO(s, TenthsCelsius, false, NoElement)), "x", Options{})
	assert.Equal(t, -9.9, got.Tmin[10])
	assert.Zero(t, rep.Coded)
	s.Tmin[10] = -99
	got, rep, err = Read(strings.NewReader(asCDO(s, Celsius, false, NoElement)), "x", Options{})
	require.NoError(t, err)
	assert.True(t, math.IsNaN(got.Tmin[10]))
	assert.Equal(t, 1, rep.Coded)
}

func stamped(format string, s climate.Series, back int) string {
	var b strings.Builder
	b.WriteString("time,tmin_c,tmax_c\n")
	for i := range s.Tmin {
		d := s.First + climate.Day(i-back)
		_, m, _ := d.Date()
		hour := 23
		if m > 3 && m < 11 {
			hour = 22
		}
		fmt.Fprintf(&b, "%s%s,%.1f,%.1f\n", d, strings.ReplaceAll(format, "HH", fmt.Sprint(hour)), s.Tmin[i], s.Tmax[i])
	}
	return b.String()
}

// Days stamped with their midnight in UTC are those that begin then; where it may be either, it is asked.
func TestStampsInUTC(t *testing.T) {
	s := coolInland.record("2001-01-01", 400, false)
	one := 1
	for _, c := range []struct {
		name, text, err string
		opts            Options
		shift           int
	}{
		{"midnight with summer time", stamped("THH:00:00Z", s, 1), "", Options{}, 1},
		{"23:00 all year", stamped("T23:00:00Z", s, 1), "--read shift=0 or shift=1", Options{}, 0},
		{"23:00 all year, answered", stamped("T23:00:00Z", s, 1), "", Options{Shift: &one}, 1},
		{"23:00 all year, in the east", "# latitude: 52.5 longitude: 13.4\n" + stamped("T23:00:00Z", s, 1), "", Options{}, 1},
		{"23:00 all year, in the west", "# latitude: 45 longitude: -120\n" + stamped("T23:00:00Z", s, 0), "", Options{}, 0},
		{"the day's last second", stamped("T23:59:59Z", s, 0), "", Options{}, 0},
		{"midnight", stamped("T00:00:00Z", s, 0), "", Options{}, 0},
		{"noon", stamped("T12:00:00Z", s, 0), "", Options{}, 0},
		{"midnight in America", stamped("T06:00:00Z", s, 0), "", Options{}, 0},
		{"the place's own clock", stamped("T23:00:00+01:00", s, 0), "", Options{}, 0},
	} {
		got, rep, err := Read(strings.NewReader(c.text), "x", c.opts)
		if c.err != "" {
			require.ErrorContains(t, err, c.err, c.name)
			continue
		}
		require.NoError(t, err, c.name)
		assert.Equal(t, c.shift, rep.Shifted, c.name)
		assert.Equal(t, s.First, got.First, c.name)
	}
}

// Letters beyond ASCII are read in UTF-8, in Latin-1, and garbled.
func TestUmlauts(t *testing.T) {
	for _, names := range []string{"Datum;Tiefsttemperatur;Höchsttemperatur", "Datum;Tiefsttemperatur;H\xf6chsttemperatur", "Datum;Tiefsttemperatur;H\ufffdchsttemperatur",
		"Datum;Tiefsttemperatur;Hoechsttemperatur", "Päivä;Alin lämpötila [°C];Ylin lämpötila [°C]"} {
		_, rep, err := Read(strings.NewReader(names+"\n01.04.2001;1,5;9,0\n02.04.2001;2,5;19,0\n"), "x", Options{Units: Celsius})
		require.NoError(t, err, names)
		assert.NotEmpty(t, rep.TmaxName, names)
		assert.Zero(t, rep.MissingTmax)
		assert.Zero(t, rep.MissingTmin)
	}
}
