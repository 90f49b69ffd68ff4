package batch

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every fault in a file of places is reported at its own line.
func TestPlacesFaultsAreAtTheirLine(t *testing.T) {
	const head = "station,latitude,elevation\na,50,1\n"
	for text, want := range map[string]string{
		head + "b,51\n":                 "places.csv:3: wrong number of fields",
		head + "b,51,2\nc,\"52,3\n":     "places.csv:4: extraneous or missing \" in quoted-field",
		head + "b,51,2\nc,5x,3\n":       "places.csv:4: latitude: \"5x\" is not degrees between -90 and 90",
		head + "b,51,high\n":            "places.csv:3: elevation: \"high\" is not metres above the sea; wanted a number, or nothing",
		"a,b\n":                         "places.csv:1: \"a,b\"; wanted columns named station and latitude",
		"\"a,b\n":                       "places.csv:1: extraneous or missing \" in quoted-field",
		"A0000000001  50.0000  10.0000": "places.csv:1: \"A0000000001  50.0000  10.0000\"; wanted station, latitude, longitude and elevation in fixed columns, or a CSV file with a header",
		"A0000000001  50.0000   10.0000  100.0\nA0000000002  51.0000   10.0000  1o0.0\n": "places.csv:2: elevation: \"1o0.0\" is not metres above the sea; wanted a number, or nothing",
	} {
		name := filepath.Join(t.TempDir(), "places.csv")
		require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
		_, err := ReadPlaces(name)
		assert.EqualError(t, err, filepath.Dir(name)+string(filepath.Separator)+want)
	}
}

// UTF-16 with its byte-order mark, as a spreadsheet writes it, is read; no height is no fault.
func TestPlacesInUTF16(t *testing.T) {
	name := filepath.Join(t.TempDir(), "places.csv")
	b := []byte{0xFF, 0xFE}
	for _, r := range "station,latitude,elevation\na,50,\nb,51,-999.9\n" {
		b = append(b, byte(r), 0)
	}
	require.NoError(t, os.WriteFile(name, b, 0o644))
	places, err := ReadPlaces(name)
	require.NoError(t, err)
	assert.Equal(t, 50.0, places["a"].Latitude)
	assert.True(t, math.IsNaN(places["a"].Elevation) && math.IsNaN(places["b"].Elevation))
}
