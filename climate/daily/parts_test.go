package daily

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseDate(t *testing.T) {
	const want = "2026-05-04"
	for _, s := range []string{"2026-05-04", "2026/5/4", "2026.05.04", "20260504", "2026 05 04", "2026-05-04T06:00:00Z",
		"2026-05-04 00:00:00+02:00", "20260504T0600", "4.5.2026", "04/05/2026", "4-May-2026", "4 May 2026", "May 4, 2026",
		"2026-May-04", "4 MAY 2026", "04.05.2026 12:00"} {
		d, ok := parseDate([]byte(s), DayFirst)
		assert.True(t, ok, s)
		assert.Equal(t, want, d.String(), s)
	}
	d, ok := parseDate([]byte("05/04/2026"), MonthFirst)
	assert.True(t, ok)
	assert.Equal(t, want, d.String())
	for _, s := range []string{"", "2026", "2026-05", "2026-05-32", "2026-13-01", "2025-02-29", "26-05-04", "2026-05-04x",
		"2026--05-04", "20260532", "202605041", "1599-12-31", "2300-01-01", "4 Mayday 2026", "May May 2026", "4 5 May",
		"2026-05-04 or so", "-2026-05-04", "٢٠٢٦-05-04"} {
		_, ok := parseDate([]byte(s), DayFirst)
		assert.False(t, ok, s)
	}
}

func TestClassify(t *testing.T) {
	for name, want := range map[string]struct {
		c column
		u Units
	}{
		"tmin": {colTmin, ""}, "TMIN": {colTmin, ""}, " Tmin ": {colTmin, ""}, "Tmin (°C)": {colTmin, Celsius}, "tmin_f": {colTmin, Fahrenheit},
		"Tmin (\xb0F)": {colTmin, Fahrenheit}, "temp_min": {colTmin, ""}, "Min Temp": {colTmin, ""}, "minimum temperature": {colTmin, ""},
		"min": {colTmin, ""}, "TN": {colTmin, ""}, "tminC": {colTmin, Celsius}, "TmaxF": {colTmax, Fahrenheit}, "TX [0.1 degC]": {colTmax, TenthsCelsius},
		"Daily Maximum (deg F)": {colTmax, Fahrenheit}, "temperature_2m_max (°C)": {colTmax, Celsius}, "tasmax": {colTmax, ""}, "tmax (K)": {colTmax, Kelvin},
		"High": {colTmax, ""}, "TXK": {colTmax, ""}, "Max Temp in tenths": {colTmax, TenthsCelsius},
		"date": {colDate, ""}, "YYYYMMDD": {colDate, ""}, "MESS_DATUM": {colDate, ""}, "Year": {colYear, ""}, "mon": {colMonth, ""}, "DOY": {colYearDay, ""},
		"STATION": {colStation, ""}, "TMIN_ATTRIBUTES": {colTminFlags, ""}, "Latitude": {colLatitude, ""},
		"TNH": {colOther, ""}, "T10N": {colOther, ""}, "TG": {colOther, ""}, "rain": {colOther, ""}, "": {colOther, ""}, "tminx": {colOther, ""},
		"Q_TN": {colOther, ""}, "minutes": {colOther, ""}, "max wind": {colOther, ""}, "RHX": {colOther, ""},
	} {
		c, u := classify(name)
		assert.Equal(t, want.c, c, name)
		if c != colOther {
			assert.Equal(t, want.u, u, name)
		}
	}
}

func TestUnitsAndLatitudeInText(t *testing.T) {
	for line, want := range map[string]Units{
		"units: degF for temperature; inches precip":                                Fahrenheit,
		"TN : minimum temperature in 0.1 &#176;C":                                   TenthsCelsius,
		"Temperatures in °C":                                                        Celsius,
		"daily max and min, degrees Fahrenheit":                                     Fahrenheit,
		"Minimum temperatuur (in 0.1 graden Celsius)":                               TenthsCelsius,
		"temperature in °C or °F":                                                   "",
		"precipitation is precise to 0.1 inch":                                      "",
		"Class C station, temperature at height F":                                  "",
		"pressure in 0.1 hPa, observed at 20 °C":                                    "",
		"Zonneschijnduur (in 0.1 uur) berekend uit de globale straling, max 24 uur": "",
	} {
		assert.Equal(t, want, unitsInText(line), line)
	}
	for line, want := range map[string]float64{
		"Latitude: 51.2 N": 51.2, "lat=-33.9": -33.9, "Lat. 33.9 S, Long. 18.4 E": -33.9, "LATITUDE 40": 40, "latitude (deg): 52": math.NaN(),
		"flat 12": math.NaN(), "Latitude: 512": math.NaN(), "elevation 51": math.NaN(),
	} {
		got, ok := latitudeInText(line)
		assert.Equal(t, !math.IsNaN(want), ok, line)
		if ok {
			assert.Equal(t, want, got, line)
		}
	}
}

func TestSplit(t *testing.T) {
	for line, want := range map[string]string{
		`a,b,c`:               "a|b|c #3",
		`a, b ,c,,`:           "a|b|c #3",
		`a,b`:                 "a|b #2",
		`a,b,`:                "a|b| #3",
		`a,b,c,d,e`:           "a|b|c #5",
		`"a","b,c"," d "`:     "a|b,c|d #3",
		`"a""b",c,d`:          `a"b|c|d #3`,
		`"""x""","",""""`:     `"x"|` + `|" #3`,
		` "a" , "b" ,c,"d,e"`: "a|b|c #4",
		`a,b,c,"d`:            "a|b|c #4",
		``:                    " #1",
	} {
		s := splitter{sep: ','}
		n, ok := s.split([]byte(line), 3)
		require.True(t, ok, line)
		var got []string
		for _, f := range s.fields {
			got = append(got, string(f))
		}
		assert.Equal(t, want, strings.Join(got, "|")+" #"+string(rune('0'+n)), line)
	}
	for _, line := range []string{`"a,b,c`, `a,"b"c,d`, `a,"b"" ,c`} {
		s := splitter{sep: ','}
		_, ok := s.split([]byte(line), 3)
		assert.False(t, ok, line)
	}
}

func TestOptionWords(t *testing.T) {
	for s, want := range map[string]Units{"": "", "C": Celsius, "°F": Fahrenheit, "tenths": TenthsCelsius, "kelvin": Kelvin} {
		u, err := ParseUnits(s)
		require.NoError(t, err)
		assert.Equal(t, want, u)
	}
	_, err := ParseUnits("Réaumur")
	assert.EqualError(t, err, `"Réaumur" is not a unit of temperature; wanted c, f, tenths (of °C) or k`)
	e, err := parseElement("TMAX")
	require.NoError(t, err)
	assert.Equal(t, Tmax, e)
	_, err = parseElement("rain")
	assert.Error(t, err)
	o, err := parseDateOrder("mdy")
	require.NoError(t, err)
	assert.Equal(t, MonthFirst, o)
	_, err = parseDateOrder("ymd")
	assert.Error(t, err)
}

// yearOf makes a year of rows whose warmest month has the mean maximum given, as the
// number in the file.
func yearOf(first string, days int, warmest float64) string {
	var b strings.Builder
	b.WriteString("date,tmin,tmax\n")
	from := mustDay(first)
	for i := range days {
		d := from + dayOffset(i)
		_, m, _ := d.Date()
		x := warmest - 0.2*math.Abs(warmest)*math.Abs(float64(m)-7)
		b.WriteString(d.String() + "," + trimFloat(x-8) + "," + trimFloat(x) + "\n")
	}
	return b.String()
}

func trimFloat(v float64) string {
	return strings.TrimSuffix(strings.TrimRight(strings.Replace(strconv.FormatFloat(v, 'f', 1, 64), "-0.0", "0.0", 1), "0"), ".")
}

func TestUnitsFromValues(t *testing.T) {
	for _, c := range []struct {
		name string
		text string
		want Units
		err  string
	}{
		{"a cool place in °C", yearOf("2001-01-01", 365, 18), Celsius, ""},
		{"a hot place in °C", yearOf("2001-01-01", 365, 44), Celsius, ""},
		{"at the bound", yearOf("2001-01-01", 365, 50), Fahrenheit, ""},
		{"a warm place in °F", yearOf("2001-01-01", 365, 88), Fahrenheit, ""},
		{"six months of summer in °F", yearOf("2001-04-01", 180, 75), Fahrenheit, ""},
		{"six months in °C, unmistakable", yearOf("2001-04-01", 180, 20), Celsius, ""},
		{"six months that may be a cold half-year in °F", yearOf("2001-04-01", 180, 40), "", "does not say its unit, and its values (180 days) could be in °C or °F"},
		{"two months", yearOf("2001-04-01", 60, 20), "", "60 days) could be in °C or °F"},
		{"five days", yearOf("2001-04-01", 5, 20), "", "5 days) could be in °C or °F"},
		{"tenths not divided", yearOf("2001-01-01", 365, 220), "", "its values fit none"},
	} {
		s, rep, err := Read(strings.NewReader(c.text), "x", Options{})
		if c.err != "" {
			assert.ErrorContains(t, err, c.err, c.name)
			continue
		}
		require.NoError(t, err, c.name)
		assert.Equal(t, c.want, rep.Units, c.name)
		assert.Equal(t, "values", rep.UnitsFrom)
		for _, v := range s.Tmax {
			assert.Less(t, v, 50.0)
		}
	}
}
