package quality_test

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/climate/quality"
)

// row is a line of a file: the date it is written under, and its values.
type row struct {
	date       climate.Day
	tmin, tmax float64
}

// rows are a record as lines of a file.
func rows(s climate.Series) (out []row) {
	for i := range s.Tmin {
		out = append(out, row{s.First + climate.Day(i), s.Tmin[i], s.Tmax[i]})
	}
	return out
}

func write(rs []row, line func(i int, r row) string) []byte {
	var b bytes.Buffer
	b.WriteString("date,tmin_c,tmax_c\n")
	for i, r := range rs {
		b.WriteString(line(i, r))
	}
	return b.Bytes()
}

func cell(v float64) string {
	if math.IsNaN(v) {
		return ""
	}
	return fmt.Sprintf("%.1f", v)
}

func plain(_ int, r row) string {
	return fmt.Sprintf("%v,%s,%s\n", r.date, cell(r.tmin), cell(r.tmax))
}

// ten are ten years of the record that ships, where it has no gaps.
func ten(t *testing.T) climate.Series {
	s := cleanOf(t, shipped)["Badajoz"]
	return s.Between(climate.NewDay(1990, 1, 1), climate.NewDay(1999, 12, 31))
}

// Rows written under the next day's date run into the row after the run: the reader reports
// the line, uses neither row, and the day that the run left behind is missing.
func TestDatesMovedByADay(t *testing.T) {
	s := ten(t)
	for k, found := 0, 0; ; k++ {
		if k == 30 {
			// One of these ends where two days in a row have the same values: nothing clashes.
			assert.Equal(t, 29, found, "runs of moved dates that the reader reports, of 30")
			return
		}
		rs := rows(s)
		from, days := 100+110*k, 20+k
		for i := from; i < from+days; i++ {
			rs[i].date++
		}
		got, rep, err := daily.Read(bytes.NewReader(write(rs, plain)), "moved.csv", daily.Options{})
		require.NoError(t, err)
		n, _ := got.At(s.First + climate.Day(from))
		if rep.FaultCount == 1 && rep.Faults[0].Line == from+days+2 && math.IsNaN(n) {
			found++
		}
	}
}

// Missing runs are not doubted and nothing beside them is; the frost dates of the seasons
// that count are those of the whole record.
func TestMissingStretches(t *testing.T) {
	clean := cleanOf(t, shipped)["Badajoz"]
	p := newPlanter(clean, 3)
	p.each(12, 25, both, nil, func(i int, _ quality.Element) { p.s.Tmin[i], p.s.Tmax[i] = math.NaN(), math.NaN() })
	require.NotEmpty(t, p.out)
	assert.LessOrEqual(t, share(len(quality.Check(p.s)), p.s.Len()), 0.1)
	assert.LessOrEqual(t, len(quality.Ask(p.s)), len(quality.Ask(clean)), "nothing is asked about that is not without them")
	is, gappy := dates(clean), dates(p.s)
	assert.LessOrEqual(t, apart(is.medians(gappy), gappy.medians(gappy)), 1.0)
}

// A header in mid-file that turns the columns round is a fault of the file, reported with its
// line; without a header the values themselves tell, and the question names the days.
func TestColumnsChangePlaces(t *testing.T) {
	s := ten(t)
	const at = 2000
	turned := func(i int, r row) string {
		if i >= at {
			r.tmin, r.tmax = r.tmax, r.tmin
		}
		return plain(i, r)
	}
	got, _, err := daily.Read(bytes.NewReader(write(rows(s), turned)), "turned.csv", daily.Options{})
	require.NoError(t, err)
	flags := quality.Check(got)
	flagged := map[climate.Day]bool{}
	for _, f := range flags {
		flagged[f.Day] = true
	}
	assert.GreaterOrEqual(t, share(len(flagged), s.Len()-at), 98.0)
	var asked []quality.Question
	for _, q := range quality.Ask(got) {
		if q.Kind == "swapped" {
			asked = append(asked, q)
		}
	}
	require.NotEmpty(t, asked)
	assert.InDelta(t, float64(s.First)+at, float64(asked[0].From), 1)
	assert.InDelta(t, float64(s.Last()), float64(asked[len(asked)-1].To), 1)

	headed := strings.Replace(string(write(rows(s), turned)), fmt.Sprintf("%v,", s.First+at), fmt.Sprintf("date,tmax_c,tmin_c\n%v,", s.First+at), 1)
	read, rep, err := daily.Read(strings.NewReader(headed), "headed.csv", daily.Options{})
	if err == nil && rep.FaultCount == 0 {
		assert.Empty(t, quality.Check(read), "a header that is obeyed leaves nothing to doubt")
	}
}
