package journal

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
	"frostward/climate/night"
)

func day(t testing.TB, s string) climate.Day {
	t.Helper()
	d, err := climate.ParseDay(s)
	require.NoError(t, err)
	return d
}

func read(t testing.TB, text string) Log {
	t.Helper()
	l, err := Read(strings.NewReader(text), "log.csv")
	require.NoError(t, err)
	return l
}

func TestReadWhole(t *testing.T) {
	l := read(t, "date,spot,tmin_c,tmax_c,beside_c,evening_c,dew_point_c,humidity_pct,cloud,wind,forecast_c,covered,damage,note\n"+
		"2026-05-01,open bed,-1.5,14.5,-2.6,6.2,1,70,clear,calm,2.5,fleece,none,\"said \"\"cold\"\"\"\n")
	require.Empty(t, l.Faults)
	require.Equal(t, []Entry{{
		Day: day(t, "2026-05-01"), Spot: "open bed", Tmin: -1.5, Tmax: 14.5, Beside: -2.6, Evening: 6.2, DewPoint: 1, Humidity: 70,
		Cloud: night.Clear, Wind: night.Calm, Forecast: 2.5, Covered: "fleece", Damage: "none", Note: `said "cold"`, Line: 2,
	}}, l.Entries)
}

// What spreadsheets and editors make of a log.
func TestReadCustoms(t *testing.T) {
	for name, text := range map[string]string{
		"plain":              "date,spot,tmin_c\n2026-05-01,open bed,-1.5\n",
		"byte order mark":    "\ufeffdate,spot,tmin_c\n2026-05-01,open bed,-1.5\n",
		"CRLF":               "date,spot,tmin_c\r\n2026-05-01,open bed,-1.5\r\n",
		"CR alone":           "date,spot,tmin_c\r2026-05-01,open bed,-1.5\r",
		"decimal comma":      "date;spot;tmin_c\n2026-05-01;open bed;-1,5\n",
		"tab":                "date\tspot\ttmin_c\n2026-05-01\topen bed\t-1.5\n",
		"other order, case":  "Tmin_C,Spot,Date\n-1.5,open bed,2026-05-01\n",
		"all quoted":         "\"date\",\"spot\",\"tmin_c\"\n\"2026-05-01\",\"open bed\",\"-1.5\"\n",
		"unknown column":     "date,spot,frogs,tmin_c\n2026-05-01,open bed,12,-1.5\n",
		"day first, dots":    "date,spot,tmin_c\n01.05.2026,open bed,-1.5\n",
		"no line end":        "date,spot,tmin_c\n2026-05-01,open bed,-1.5",
		"empty cells after":  "date,spot,tmin_c,note\n2026-05-01,open bed,-1.5,\n,,,\n\n",
		"short row":          "date,spot,tmin_c,cloud,note\n2026-05-01,open bed,-1.5\n",
		"minus sign":         "date,spot,tmin_c\n2026-05-01,open bed,\u22121.5\n",
		"second heading":     "date,spot\ndate,spot,tmin_c\n2026-05-01,open bed,-1.5\n",
		"blanks round cells": "date, spot, tmin_c\n2026-05-01, open bed , -1.5\n",
	} {
		l := read(t, text)
		require.Empty(t, l.Faults, name)
		require.Len(t, l.Entries, 1, name)
		e := l.Entries[0]
		require.Equal(t, day(t, "2026-05-01"), e.Day, name)
		require.Equal(t, "open bed", e.Spot, name)
		require.Equal(t, -1.5, e.Tmin, name)
	}
}

func TestReadFaults(t *testing.T) {
	const head = "date,spot,tmin_c,humidity_pct,cloud,evening_c,dew_point_c,note\n"
	for text, want := range map[string]string{
		"2026-05-01,bed,1O.5\n":                         `log.csv:2: tmin_c: "1O.5" is not a number`,
		"2026-05-01,bed,NaN\n":                          `log.csv:2: tmin_c: "NaN" is not a number`,
		"2026-05-01,bed,1e1\n":                          `log.csv:2: tmin_c: "1e1" is not a number`,
		"2026-05-01,bed,85\n":                           `log.csv:2: tmin_c: 85 °C is outside what is found on earth; wanted °C between -90 and 60`,
		"2026-05-01,bed,1,140\n":                        `log.csv:2: humidity_pct: 140 is not a humidity; wanted per cent between 0 and 100`,
		"2026-05-01,bed,1,,foggy\n":                     `log.csv:2: cloud: "foggy" is not known; wanted clear, little, broken, overcast`,
		"2026-05-01,bed,1,,,4,9\n":                      `log.csv:2: dew_point_c: 9 °C is above the temperature of 4 °C at the same hour, which cannot be`,
		"2026-02-30,bed,1\n":                            `log.csv:2: date: "2026-02-30" is not a date; wanted one such as 2026-05-24 or 24 May 2026`,
		"03/04/2026,bed,1\n":                            `log.csv:2: date: "03/04/2026": which is the day and which the month is not clear; wanted year-month-day, such as 2026-05-24`,
		"2026-05-01,,1\n":                               `log.csv:2: spot: is empty; wanted a spot of the garden`,
		"2026-05-01,bed,1,,,,,,,\n":                     `log.csv:2: 10 cells; the heading has 8`,
		"2026-05-01,bed,1,,,,,\"so\n2026-05-02,bed,2\n": `log.csv:2: a quote is left open; wanted it closed on the line, or doubled ("") to stand for itself`,
		"2026-05-01,bed,1,,,,,a\"b\"\n":                 `log.csv:2: a quote stands inside a cell; wanted quotes round the whole cell, and doubled ("") to stand for themselves`,
		"2026-05-01,bed,1 <cut off>\n":                  `log.csv:2: was cut off while it was written, and is not used`,
		"\"2026-05-01\",bed,1":                          `log.csv:2: "\"2026-05-01\",bed,1" has no line end and too few cells: it was cut off while it was written, and is not used; if it is all there, put a line end after it`,
	} {
		l := read(t, head+text)
		require.NotEmpty(t, l.Faults, text)
		require.Equal(t, want, l.Faults[0].Error(), text)
		for _, e := range l.Entries {
			require.NotEqual(t, 2, e.Line, text)
		}
	}
}

// A last line without a line end and with too few cells is used, and remarked on: an older version may have been
// stopped in its number. One with all its cells is not.
func TestLastLineThatMayBeCut(t *testing.T) {
	const head = "date,spot,tmin_c,note\n"
	l := read(t, head+"2026-03-01,open bed,-1")
	require.Len(t, l.Entries, 1)
	require.Equal(t, `log.csv:2: "2026-03-01,open bed,-1" has no line end and 3 of 4 cells; it is used as it stands: if it was cut off, log that date and spot again`, l.Remark)
	for _, text := range []string{"2026-03-01,open bed,-1\n", "2026-03-01,open bed,-1,", "2026-03-01,open bed,-1,rime"} {
		require.Empty(t, read(t, head+text).Remark, text)
	}
}

func TestReadRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"hello\n":                   `log.csv:1: "hello" is not a heading; wanted date,spot,tmin_c,`,
		"date,spot,tmin_c,tmin_c\n": `log.csv:1: column "tmin_c" stands twice`,
		"\xff\xfed\x00a\x00":        `log.csv: is in UTF-16, which is read but not written to`,
	} {
		_, err := Read(strings.NewReader(text), "log.csv")
		require.ErrorContains(t, err, want)
	}
	l := read(t, "")
	require.Empty(t, l.Entries)
}

// A file without end is refused, whatever is in it.
func TestReadEndless(t *testing.T) {
	for _, unit := range []string{"\x00", "\""} {
		_, err := Read(endless(unit), "log.csv")
		require.ErrorContains(t, err, "log.csv: is over 64 MiB; wanted a garden log", "%q", unit)
	}
	_, err := Read(strings.NewReader("date,spot"+strings.Repeat(",x", 1_000_000)+"\n"), "log.csv")
	require.ErrorContains(t, err, "log.csv:1: 1000002 columns; wanted at most 1000")
}

type endless string

func (e endless) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = e[0]
	}
	return len(b), nil
}

// An open quote costs its own line only, a note over several lines none.
func TestQuotesOverLines(t *testing.T) {
	l := read(t, "date,spot,tmin_c,note\n"+
		"2026-05-01,bed,1,\"a\nb, c\n\nd\"\n"+
		"2026-05-02,bed,2,\"open\n"+
		"2026-05-03,bed,3,\n"+
		"2026-05-04,bed,4,\"shut\"\n")
	require.Len(t, l.Entries, 3)
	require.Equal(t, "a\nb, c\n\nd", l.Entries[0].Note)
	require.Equal(t, 3.0, l.Entries[1].Tmin)
	require.Equal(t, 8, l.Entries[2].Line)
	require.Len(t, l.Faults, 1)
	require.Equal(t, 6, l.Faults[0].Line)
}

// Dates as spreadsheets of two countries rewrite them: one date tells the order of all.
func TestDateOrders(t *testing.T) {
	l := read(t, "date,spot,tmin_c\n03/04/2026,bed,1\n24/04/2026,bed,2\n")
	require.Empty(t, l.Faults)
	require.Equal(t, "2026-04-03", l.Entries[0].Day.String())
	l = read(t, "date,spot,tmin_c\n03/04/2026,bed,1\n4/24/2026,bed,2\n2026-05-01,bed,3\n")
	require.Empty(t, l.Faults)
	require.Equal(t, "2026-03-04", l.Entries[0].Day.String())
	l = read(t, "date,spot,tmin_c\n13/04/2026,bed,1\n4/24/2026,bed,2\n")
	require.Len(t, l.Faults, 2, "orders that contradict each other")
}

func TestNights(t *testing.T) {
	l := read(t, "date,spot,tmin_c,evening_c,covered,note\n"+
		"2026-05-02,bed,,5,,evening\n"+
		"2026-05-01,bed,3,,fleece,\n"+
		"2026-05-02,bed,-1,,,\n"+ // the morning's line keeps the evening's reading
		"2026-05-02,wall,2,,,\n"+
		"2026-05-01,bed,-,,no,was the wrong day\n")
	n := l.Nights()
	require.Len(t, l.Entries, 5, "all are kept")
	require.Len(t, n, 3)
	require.True(t, math.IsNaN(n[0].Tmin))
	require.Equal(t, "", n[0].Covered)
	require.Equal(t, "was the wrong day", n[0].Note)
	require.Equal(t, 5.0, n[1].Evening)
	require.Equal(t, -1.0, n[1].Tmin)
	require.Equal(t, "evening", n[1].Note)
	require.Equal(t, "wall", n[2].Spot)
}

func FuzzRead(f *testing.F) {
	f.Add([]byte("date,spot,tmin_c\n2026-05-01,open bed,-1.5\n"), -1.5, "note")
	f.Add([]byte("\ufeffdate;spot;tmin_c;note\r\n24.05.2026;bed;-1,5;\"a\r\nb\"\r\n2026"), 3.25, "=1+1")
	f.Add([]byte("spot,note,date\nbed,\"open,2026-05-01\nbed,x,2026-05-02"), 0.0, "-")
	f.Add([]byte("date\tspot\tfrogs\r2026-05-01\tbed\t\"3\"\r"), 60.0, "a\"b")
	f.Add([]byte("date,spot\n2026-05-01,bed <cut off>\n"), -90.0, "\x00 <cut off>")
	demo, err := os.ReadFile("../demo/garden/log.csv")
	require.NoError(f, err)
	f.Add(demo, 1.0, "")
	f.Fuzz(func(t *testing.T, b []byte, tmin float64, note string) {
		l, err := parse(b, "log.csv", logForm)
		if err != nil {
			return
		}
		for _, e := range l.Entries {
			require.NoError(t, e.Check())
		}
		// Whatever is added reads back, and everything before it as it was.
		e := NewEntry(day(t, "2026-05-09"), "bed")
		e.Tmin, e.Note = math.Round(tmin*100)/100, note
		if e.Check() != nil || !e.hasValue() {
			return
		}
		text, err := l.custom.addition(e, logForm)
		if err != nil {
			return
		}
		after, err := parse(append(b[:len(b):len(b)], text...), "log.csv", logForm)
		require.NoError(t, err)
		require.Equal(t, len(l.Entries)+1, len(after.Entries), "%q", text)
		for i, was := range l.Entries {
			requireSame(t, was, after.Entries[i])
		}
		got := after.Entries[len(l.Entries)]
		require.Equal(t, e.Day, got.Day)
		require.Equal(t, e.Spot, got.Spot)
		requireNumber(t, e.Tmin, got.Tmin)
		require.Equal(t, len(l.Faults), len(after.Faults))
	})
}

func requireNumber(t *testing.T, want, got float64) {
	t.Helper()
	if !(math.IsNaN(want) && math.IsNaN(got)) && want != got {
		t.Fatalf("want %v, got %v", want, got)
	}
}

func requireSame(t *testing.T, a, b Entry) {
	t.Helper()
	require.Equal(t, a.Line, b.Line)
	require.Equal(t, a.Day, b.Day)
	requireNumber(t, a.Tmin, b.Tmin)
	requireNumber(t, a.Forecast, b.Forecast)
	require.Equal(t, a.Note, b.Note)
}

// A line without quotes is cut where a CSV reader would cut it.
func TestCellsOfIsCSV(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sep := rapid.SampledFrom([]rune{',', ';', '\t'}).Draw(t, "separator")
		line := rapid.StringMatching(`[a-z0-9 ,;.\r\t'=-]{1,30}`).Draw(t, "line")
		line = strings.TrimRight(line, "\r\n")
		if line == "" {
			return
		}
		r := csv.NewReader(strings.NewReader(line))
		r.Comma, r.FieldsPerRecord = sep, -1
		want, err := r.Read()
		if err != nil {
			t.Fatal(err)
		}
		for i := range want {
			want[i] = strings.TrimSpace(want[i])
		}
		got, err := cellsOf(line, sep)
		if err != nil || !slices.Equal(want, got) {
			t.Fatalf("%q: %q, wanted %q", line, got, want)
		}
	})
}
