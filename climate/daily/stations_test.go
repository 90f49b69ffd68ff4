package daily

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// three makes a file of three stations out of the invented one, station 2 a day later
// and station 3 cut off.
func three(t *testing.T, name string) (text string, ids []string) {
	b, err := os.ReadFile(filepath.Join(stations, "formats", name))
	require.NoError(t, err)
	one := string(b)
	head := ""
	if i := strings.Index(one, "\n") + 1; strings.HasPrefix(one, `"STATION"`) {
		head, one = one[:i], one[i:]
	}
	text = head
	for k := 1; k <= 3; k++ {
		id := fmt.Sprintf("XX00000000%d", k)
		ids = append(ids, id)
		text += strings.ReplaceAll(one, "XX000000001", id)
	}
	return text, ids
}

func TestStations(t *testing.T) {
	want, _, err := readFile(t, "formats/plain.csv", Options{})
	require.NoError(t, err)
	for _, name := range []string{"station.dly", "by-year.csv", "access.csv"} {
		t.Run(name, func(t *testing.T) {
			text, ids := three(t, name)
			var got []string
			for st, err := range Stations(strings.NewReader(text), name, Options{}) {
				require.NoError(t, err)
				got = append(got, st.Report.Station)
				same(t, want, st.Series, 0)
				assert.Equal(t, 4, st.Report.Flagged)
			}
			assert.Equal(t, ids, got)

			for st, err := range Stations(strings.NewReader(text), name, Options{}) {
				require.NoError(t, err)
				require.Equal(t, ids[0], st.Report.Station)
				break // must not call back again
			}

			_, _, err := Read(strings.NewReader(text), name, Options{})
			require.EqualError(t, err, name+": has several stations: XX000000001, XX000000002, XX000000003; choose one (--station)")
			s, rep, err := Read(strings.NewReader(text), name, Options{Station: ids[1]})
			require.NoError(t, err)
			assert.Equal(t, ids[1], rep.Station)
			same(t, want, s, 0)
			_, _, err = Read(strings.NewReader(text), name, Options{Station: "YY1"})
			require.ErrorContains(t, err, `has no station "YY1"; it has XX000000001`)
		})
	}
}

// Rows of a station that come back after another's would make it two records.
func TestStationComesBack(t *testing.T) {
	text, ids := three(t, "by-year.csv")
	text += strings.SplitAfter(text, "\n")[1]
	var got []string
	var last error
	for st, err := range Stations(strings.NewReader(text), "x", Options{}) {
		if last = err; err == nil {
			got = append(got, st.Report.Station)
		}
	}
	assert.Equal(t, ids, got)
	assert.ErrorContains(t, last, `comes back to station "XX000000001"`)
}

// A station that cannot be used is an error of its own and does not end the file.
func TestOneBadStation(t *testing.T) {
	text := "station,date,tmin,tmax\nA,2001-01-01,1,9\n"
	want := strings.Split(string(plainRowsOf(t)), "\n")
	for _, row := range want {
		text += "B," + row + "\n"
	}
	var errs, good []string
	for st, err := range Stations(strings.NewReader(text), "x", Options{}) {
		if err != nil {
			errs = append(errs, st.Report.Station)
		} else {
			good = append(good, st.Report.Station)
		}
	}
	assert.Equal(t, []string{"A"}, errs, "units cannot be told from one day")
	assert.Equal(t, []string{"B"}, good)
}

func plainRowsOf(t *testing.T) string {
	b, err := os.ReadFile(filepath.Join(stations, "formats", "plain.csv"))
	require.NoError(t, err)
	_, rows, _ := strings.Cut(strings.TrimSpace(string(b)), "\n")
	return rows
}

func TestChoices(t *testing.T) {
	const rows = "date,tmin,night,day\n03/04/2001,1,2,9\n04/04/2001,3,4,8\n"
	read := func(text string, o Options) (climate.Series, error) {
		s, _, err := Read(strings.NewReader(text), "x", o)
		return s, err
	}
	s, err := read(rows, Options{Units: Celsius, Tmin: "Night", Tmax: "DAY"})
	require.NoError(t, err)
	assert.Equal(t, []float64{2, 4}, s.Tmin)
	assert.Equal(t, []float64{9, 8}, s.Tmax)
	assert.Equal(t, mustDay("2001-04-03"), s.First, "the days follow each other if the day comes first")
	s, err = read(rows, Options{Units: Fahrenheit, Tmax: "day", Dates: MonthFirst})
	require.NoError(t, err)
	assert.Equal(t, mustDay("2001-03-04"), s.First)
	assert.InDelta(t, (9-32)/1.8, s.Tmax[0], 1e-12)
	_, err = read(rows, Options{Tmin: "grass"})
	require.EqualError(t, err, `x: has no column "grass"; its columns are date, tmin, night, day`)
}

// A row without a station goes with the row above, whichever station is asked for.
func TestBlankStation(t *testing.T) {
	const text = "station,date,tmin_c,tmax_c\n" +
		",2001-01-01,1,9\n" + // of nobody
		"A,2001-01-02,2,9\n,2001-01-03,3,9\n" +
		"B,2001-01-04,4,9\n,2001-01-05,5,9\n"
	got := map[string]string{}
	for st, err := range Stations(strings.NewReader(text), "x", Options{}) {
		require.NoError(t, err)
		got[st.Report.Station] = fmt.Sprint(st.Series.Tmin, st.Report.FaultCount)
	}
	assert.Equal(t, map[string]string{"A": "[2 3] 1", "B": "[4 5] 0"}, got)
	for id, want := range map[string][]float64{"A": {2, 3}, "B": {4, 5}} {
		s, rep, err := Read(strings.NewReader(text), "x", Options{Station: id})
		require.NoError(t, err)
		assert.Equal(t, want, s.Tmin, id)
		assert.Equal(t, `x:2: station: ",2001-01-01,1,9" is a row without a station; wanted its name`, rep.Faults[0].Error())
	}
	_, _, err := Read(strings.NewReader("date,tmin_c,tmax_c\n2001-01-01,1,9\n#station,date,tmin_c,tmax_c\nA,2001-01-02,1,9\n"), "x", Options{})
	require.ErrorContains(t, err, "a header with a station and one without")
}
