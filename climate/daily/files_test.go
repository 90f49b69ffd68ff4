package daily

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// plainOf writes the days from one to another of a record, to a tenth.
func plainOf(s climate.Series, from, to int, e Element) string {
	var b strings.Builder
	b.WriteString("date" + map[Element]string{NoElement: ",tmin,tmax", Tmin: ",tmin", Tmax: ",tmax"}[e] + "\n")
	for i := from; i < to; i++ {
		b.WriteString((s.First + climate.Day(i)).String())
		if e != Tmax {
			fmt.Fprintf(&b, ",%.1f", s.Tmin[i])
		}
		if e != Tmin {
			fmt.Fprintf(&b, ",%.1f", s.Tmax[i])
		}
		b.WriteString("\n")
	}
	return b.String()
}

func readTexts(o Options, texts ...string) (climate.Series, Report, error) {
	var in []Input
	for i, text := range texts {
		in = append(in, Input{fmt.Sprintf("%c.csv", 'a'+i), strings.NewReader(text)})
	}
	return ReadFiles(in, o)
}

func TestSeveralFiles(t *testing.T) {
	s := coolInland.record("2001-01-01", 1096, false)
	for i := range s.Tmin {
		s.Tmin[i], s.Tmax[i] = math.Round(s.Tmin[i]*10)/10, math.Round(s.Tmax[i]*10)/10
	}
	whole := plainOf(s, 0, 1096, NoElement)
	want, _, err := readTexts(Options{}, whole)
	require.NoError(t, err)
	for name, texts := range map[string][]string{
		"years":                          {plainOf(s, 0, 365, NoElement), plainOf(s, 365, 730, NoElement), plainOf(s, 730, 1096, NoElement)},
		"years, the last first":          {plainOf(s, 730, 1096, NoElement), plainOf(s, 0, 365, NoElement), plainOf(s, 365, 730, NoElement)},
		"a short piece goes with others": {plainOf(s, 0, 1080, NoElement), plainOf(s, 1080, 1096, NoElement)},
		"minimum and maximum":            {plainOf(s, 0, 1096, Tmin), plainOf(s, 0, 1096, Tmax)},
		"maximum and minimum":            {plainOf(s, 0, 1096, Tmax), plainOf(s, 0, 1096, Tmin)},
		"an overlap":                     {plainOf(s, 0, 600, NoElement), plainOf(s, 500, 1096, NoElement)},
		"the same twice":                 {whole, whole},
		"unnamed, one element each": {strings.Replace(plainOf(s, 0, 1096, Tmax), "tmax", "value", 1),
			strings.Replace(plainOf(s, 0, 1096, Tmin), "tmin", "value", 1)},
	} {
		got, rep, err := readTexts(Options{}, texts...)
		require.NoError(t, err, name)
		same(t, want, got, 1e-9)
		assert.Len(t, rep.Files, len(texts), name)
		assert.Equal(t, 1096, rep.Days, name)
		assert.Zero(t, rep.Differ, name)
		assert.NotEmpty(t, rep.TminName, name)
		assert.NotEmpty(t, rep.TmaxName, name)
	}

	// A value that differs is said, with both, and not used; two records that differ throughout are refused.
	changed := strings.Replace(plainOf(s, 500, 1096, NoElement), fmt.Sprintf("%s,%.1f", s.First+550, s.Tmin[550]), fmt.Sprintf("%s,%.1f", s.First+550, s.Tmin[550]+4), 1)
	got, rep, err := readTexts(Options{}, plainOf(s, 0, 600, NoElement), changed)
	require.NoError(t, err)
	assert.True(t, math.IsNaN(got.Tmin[550]))
	assert.Equal(t, s.Tmax[550], got.Tmax[550])
	assert.Equal(t, 200, rep.Overlap)
	assert.Equal(t, 1, rep.Differ)
	require.Len(t, rep.Faults, 1)
	assert.Contains(t, rep.Faults[0].Error(), `b.csv: tmin: "2002-07-05" has `)
	other := northPlains.record("2001-01-01", 1096, false)
	_, _, err = readTexts(Options{}, whole, plainOf(other, 0, 1096, NoElement))
	require.ErrorContains(t, err, "wanted files of one station's record")
	_, _, err = readTexts(Options{}, "station,date,tmin_c,tmax_c\nA,2001-01-01,1,2\n", "station,date,tmin_c,tmax_c\nB,2001-01-02,1,2\n")
	require.ErrorContains(t, err, `a.csv is of station "A" and b.csv of "B"`)
}
