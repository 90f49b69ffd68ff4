package forecast

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

func read(text string, unit string) ([]Night, error) {
	return Read(strings.NewReader(text), Options{Name: "f", Unit: unit, Zone: time.FixedZone("", 2*3600)})
}

func night(d int, t float64) Night { return Night{climate.NewDay(2026, 5, d), t} }

func TestRead(t *testing.T) {
	two := []Night{night(17, 2), night(18, -1)}
	for name, c := range map[string]struct {
		text, unit string
		want       []Night
	}{
		"daily CSV":            {"date,tmin_c,tmax_c\n2026-05-17,2,15\n2026-05-18,-1,12\n", "", two},
		"unit asked":           {"date,min\n2026-05-17,2\n2026-05-18,-1\n", "c", two},
		"Fahrenheit":           {"Date;Low (°F)\n2026-05-17;35,6\n2026-05-18;30.2\n", "", two},
		"lines above":          {"latitude,longitude\n52.5,13.4\n\ntime,temperature_2m_min (°C)\n2026-05-17,2\n2026-05-18,-1\n", "", two},
		"tabs, out of order":   {"day\tminimum [degC]\n2026-05-18\t\u22121\n2026-05-17\t2\n", "", two},
		"empty values":         {"date,tmin\n2026-05-17,2\n2026-05-18,-1\n2026-05-19,\n2026-05-20,NA\n", "c", two},
		"JSON of lists":        {`{"utc_offset": 7200, "daily_units": {"time": "iso8601", "temperature_2m_min": "°C"}, "daily": {"time": ["2026-05-17", "2026-05-18"], "temperature_2m_min": [2, -1], "temperature_2m_max": [9, 8]}}`, "", two},
		"JSON of objects":      {`{"unit": "fahrenheit", "nights": [{"date": "2026-05-17", "low": 35.6}, {"date": "2026-05-18", "low": 30.2}]}`, "", two},
		"JSON, a bare list":    {`[{"date": "2026-05-17", "tmin_c": 2}, {"date": "2026-05-18", "tmin_c": -1}, {"date": "2026-05-19", "tmin_c": null}]`, "", two},
		"seconds of the epoch": {fmt.Sprintf(`[{"dt": %d, "tmin_c": 2}]`, time.Date(2026, 5, 16, 23, 0, 0, 0, time.UTC).Unix()), "", two[:1]}, // 1 h on the 17th, by the garden's clock
	} {
		got, err := read(c.text, c.unit)
		require.NoError(t, err, name)
		require.Len(t, got, len(c.want), name)
		for i, w := range c.want {
			assert.Equal(t, w.Morning, got[i].Morning, name)
			assert.InDelta(t, w.Tmin, got[i].Tmin, 1e-9, name)
		}
	}
}

// hourly is a temperature by the hour from a time on.
func hourly(from time.Time, step int, of func(time.Time) float64, n int) string {
	var b strings.Builder
	b.WriteString("time,temperature_2m (°C)\n")
	for i := range n {
		at := from.Add(time.Duration(i*step) * time.Hour)
		fmt.Fprintf(&b, "%s,%g\n", at.Format("2006-01-02T15:04"), of(at))
	}
	return b.String()
}

// The minimum of the hours is that from 18 to 9 h, of nights known through their coldest hours.
func TestHours(t *testing.T) {
	from := time.Date(2026, 5, 16, 20, 0, 0, 0, time.UTC)
	cold := map[string]float64{"2026-05-17 04": 2, "2026-05-17 12": -5, "2026-05-17 18": -1, "2026-05-18 10": -7, "2026-05-19 09": 0}
	of := func(at time.Time) float64 {
		if v, ok := cold[at.Format("2006-01-02 15")]; ok {
			return v
		}
		return 8
	}
	got, err := read(hourly(from, 1, of, 62), "")
	require.NoError(t, err)
	assert.Equal(t, []Night{night(17, 2), night(18, -1), night(19, 0)}, got, "12 and 10 h are day; 18 and 9 h still night")

	got, err = read(hourly(from, 1, of, 10), "") // to 5 h
	require.NoError(t, err)
	assert.Equal(t, []Night{night(17, 2)}, got)
	_, err = read(hourly(from, 1, of, 9), "") // to 4 h
	assert.ErrorContains(t, err, "has no whole night")
	got, err = read(hourly(from.Add(time.Hour), 3, of, 20), "") // 21, 0, 3, 6 h
	require.NoError(t, err)
	assert.Len(t, got, 3, "the last ends at 6 h of the 19th: 20 steps of 3 h from 21 h")
	_, err = read(hourly(from, 4, of, 12), "") // 20, 0, 4, 8 h: a gap of four hours from 0 to 4
	assert.ErrorContains(t, err, "has no whole night")

	// Hours with a zone are put on the garden's clock, two hours ahead of Greenwich: 17 h there is 19 h here.
	text := strings.ReplaceAll(hourly(from.Add(-3*time.Hour), 1, func(at time.Time) float64 {
		if at.Hour() == 16 || at.Hour() == 17 {
			return float64(at.Hour() - 20)
		}
		return 5
	}, 40), ":00,", ":00Z,")
	got, err = read(text, "")
	require.NoError(t, err)
	assert.Equal(t, -4.0, got[1].Tmin, "16 h Greenwich is 18 h here, and of the night")

	// Where there are hours and days, the hours say the night.
	got, err = read(`{"daily": {"time": ["2026-05-17"], "temperature_2m_min": [-9]}, "hourly_units": {"temperature_2m": "°C"},
		"hourly": {"time": ["2026-05-16T22:00", "2026-05-17T01:00", "2026-05-17T04:00", "2026-05-17T06:00"], "temperature_2m": [5, 4, 3, 6]}}`, "")
	require.NoError(t, err)
	assert.Equal(t, []Night{night(17, 3)}, got)
}

func TestReadFaults(t *testing.T) {
	for text, want := range map[string]string{
		"":                                          "has no column for the time",
		"a,b\n1,2\n":                                "has no column for the time",
		"date,tmin\n2026-05-17,2\n":                 `does not say whether "tmin" is in °C or °F`,
		"date,tmin_c\n17 o'clock,2\n":               `line 2: "17 o'clock" is not a time`,
		"date,tmin_c\n2026-05-17,two\n":             `line 2: tmin_c: "two" is not a number`,
		"date,tmin_c\n2026-05-17,99\n":              "line 2: tmin_c: 99 is 99 °C; wanted a temperature found on earth",
		"date,tmin_c\n2026-05-17\n":                 "line 2: has 1 cells; wanted 2",
		"date,temperature_c\n2026-05-17,2\n":        "has one temperature a day",
		"date,tmin_c\n2026-05-17,2\n2026-05-17,3\n": "line 3: a second minimum for 2026-05-17",
		`{"daily": {"time": ["2026-05-17"], "tmin_c": [1, 2]}}`: "daily: has 1 times and 2 of tmin_c",
		`{"daily": `: "is not whole JSON",
		`[{"date": "2026-05-17", "tmin_c": "cold"}]`: `number 1: tmin_c: "cold" is not a number`,
	} {
		_, err := read(text, "")
		require.ErrorContains(t, err, want, text)
		require.ErrorContains(t, err, "f: ", "the file first")
	}
	_, err := read("date,tmin_c\n2026-05-17,2\n", "f")
	require.ErrorContains(t, err, `says that "tmin_c" is in °C; wanted no --forecast-units f`)
}

func TestAtMostTenNights(t *testing.T) {
	var b strings.Builder
	b.WriteString("date,tmin_c\n")
	for i := range 16 {
		fmt.Fprintf(&b, "2026-05-%02d,%d\n", 10+i, i)
	}
	got, err := read(b.String(), "")
	require.NoError(t, err)
	require.Len(t, got, 10)
}

// Whatever is read, it is an error with the file's name or nights in order, on earth.
func FuzzRead(f *testing.F) {
	f.Add("date,tmin_c\n2026-05-17,2\n")
	f.Add(`{"hourly": {"time": ["2026-05-16T22:00"], "temperature_c": [5]}}`)
	f.Add(`[{"date": "2026-05-17", "low": 35.6}]`)
	f.Fuzz(func(t *testing.T, text string) {
		nights, err := read(text, "c")
		if err != nil {
			require.True(t, strings.HasPrefix(err.Error(), "f: "))
			return
		}
		for i, n := range nights {
			require.True(t, n.Tmin >= lowest && n.Tmin <= highest)
			require.True(t, i == 0 || nights[i-1].Morning < n.Morning)
		}
	})
}

func TestReadPast(t *testing.T) {
	const text = "date,city,forecast_am,forecast_pm,actual_low\n2021-03-02,B,32,,30\n2021-03-01,A,50,41,41\n2021-03-03,A,32,33.8,\n2021-03-01,B,41,32,32\n"
	got, err := ReadPast(strings.NewReader(text), Options{Name: "old.csv", Unit: "f"})
	require.NoError(t, err)
	require.Len(t, got, 2)
	assert.Equal(t, "forecast_am", got[0].Column)
	require.Len(t, got[0].Nights, 3, "a night without its outcome says nothing")
	assert.Equal(t, PastNight{"A", climate.NewDay(2021, 3, 1), 10, 5}, got[0].Nights[0])
	assert.Equal(t, climate.NewDay(2021, 3, 1), got[0].Nights[1].Day, "places apart, then by day")
	assert.Equal(t, PastNight{"B", climate.NewDay(2021, 3, 1), 0, 0}, got[1].Nights[1])
	for text, want := range map[string]string{
		"date,low\n":                                "old.csv:1: wanted columns date, actual",
		"date,forecast,actual\n1 Mai,1,2\n":         "old.csv:2: date:",
		"date,forecast,actual\n2021-03-01,cold,2\n": `old.csv:2: "cold", "2"; wanted numbers`,
		"date,forecast,actual\n2021-03-01,1,2\n":    "does not say whether",
	} {
		_, err := ReadPast(strings.NewReader(text), Options{Name: "old.csv"})
		require.ErrorContains(t, err, want)
	}
}
