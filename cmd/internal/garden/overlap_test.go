package garden

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

func TestOverlapWeeks(t *testing.T) {
	read := func(rows string) ([]Row, error) {
		return ReadPlan(strings.NewReader("name,crop,sow,follows,overlap_weeks\n"+rows), "plan.csv", climate.Calendar{})
	}
	rows, err := read("a,pea,03-20,,\nb,leek,06-20,a,2.5\nc,leek,06-20,a,0\n")
	require.NoError(t, err)
	assert.Equal(t, 0.0, rows[0].OverlapWeeks)
	assert.Equal(t, 2.5, rows[1].OverlapWeeks)
	for text, want := range map[string]string{
		"b,leek,06-20,a,two": `plan.csv:2: overlap_weeks: "two" is not a number of weeks; wanted 0 to 26`,
		"b,leek,06-20,a,-1":  `plan.csv:2: overlap_weeks: "-1"`,
		"b,leek,06-20,a,27":  `"27" is not a number of weeks`,
		"b,leek,06-20,a,NaN": `"NaN" is not a number of weeks`,
		"b,leek,06-20,,3":    `plan.csv:2: overlap_weeks: 3 weeks, but follows is empty`,
	} {
		_, err := read(text + "\n")
		assert.ErrorContains(t, err, want)
	}
}

func TestHardeningSpot(t *testing.T) {
	g, err := Parse([]byte("latitude: 50\nhardening: porch\nspots: [{name: porch, kind: wall}]\n"), "garden.yaml")
	require.NoError(t, err)
	assert.Equal(t, "porch", g.Hardening)
	_, err = Parse([]byte("latitude: 50\nhardening: moon\n"), "garden.yaml")
	assert.ErrorContains(t, err, `garden.yaml: hardening: spot "moon" is not in garden.yaml`)
	_, err = Parse([]byte("latitude: 50\nspots: []\n"), "garden.yaml")
	assert.NoError(t, err, "no spots and no hardening spot")
}
