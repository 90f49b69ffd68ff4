package daily

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

func TestAppend(t *testing.T) {
	nan := math.NaN()
	more := climate.Series{First: mustDay("2001-01-03"), Tmin: []float64{-1.5, nan, nan}, Tmax: []float64{5, nan, 7.25}}
	for text, want := range map[string]string{
		"date,tmin_c,tmax_c\n2001-01-01,1,2\n":               "date,tmin_c,tmax_c\n2001-01-01,1,2\n2001-01-03,-1.5,5\n2001-01-05,,7.25\n",
		"date,tmin_c,tmax_c\n2001-01-01,1,2":                 "date,tmin_c,tmax_c\n2001-01-01,1,2\n2001-01-03,-1.5,5\n2001-01-05,,7.25\n",
		"# mine\ndate,tmax_f,tmin_f\r\n2001-01-01,50,32\r\n": "# mine\ndate,tmax_f,tmin_f\r\n2001-01-01,50,32\r\n2001-01-03,41,29.3\r\n2001-01-05,45.05,\r\n",
	} {
		got, err := Append([]byte(text), "x", more, Options{})
		require.NoError(t, err)
		assert.Equal(t, want, string(got))
		s, _, err := Read(strings.NewReader(string(got)), "x", Options{})
		require.NoError(t, err)
		lo, _ := s.At(more.First)
		assert.InDelta(t, -1.5, lo, 1e-9)
	}
	for _, text := range []string{"date,tmin_c,tmax_c,rain\n2001-01-01,1,2,0\n", "date;tmin_c;tmax_c\n2001-01-01;1;2\n", "date,tmin_c,tmax_c\n1.1.2001,1,2\n", ""} {
		_, err := Append([]byte(text), "x", more, Options{})
		require.ErrorContains(t, err, "is no plain table", text)
	}
}
