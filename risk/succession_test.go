package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/crops"
)

// cool is a cool place's mean year, without a frost between mid April and mid October: 2 °C in
// late January, 18 °C in late July.
func cool() climate.Season {
	s := climate.NewSeason(2001)
	for i := range s.Tmin {
		d := (climate.SpanFrom + climate.SeasonDay(i)).Fold()
		mid := southern[d].tmin/2 + southern[d].tmax/2
		s.Tmin[i], s.Tmax[i] = mid-5, mid+5
	}
	return s
}

func five(s climate.Season) []climate.Season { return []climate.Season{s, s, s, s, s} }

// Sowings for a steady supply lie further apart in spring than in summer, and each is picked
// as the one before is over.
func TestSuccession(t *testing.T) {
	c, err := crops.Builtin().Find("lettuce", "main")
	require.NoError(t, err)
	p := out(c, 0)
	f := field(c, true, five(cool())...)
	tried := Try(f, p, climate.Window{From: on(time.April, 10), To: on(time.September, 1)}, 1, 0.5)
	got := tried.succession(14)
	require.Greater(t, len(got), 6)
	for i := 1; i < len(got); i++ {
		d := got[i].Harvest[1].Value - got[i-1].Harvest[1].Value
		assert.True(t, d >= 14 && d <= 17, "%d: %v days", i, d)
	}
	gap := func(i int) climate.SeasonDay { return got[i].Planting.Start - got[i-1].Planting.Start }
	assert.Greater(t, gap(1), gap(4)+2, "spring and summer")
	assert.Less(t, gap(len(got)-1), gap(4), "the last of summer lie closest: autumn spreads them out")

	assert.Len(t, tried.succession(1000), 1)
	tried.Aim = 1.01
	assert.Empty(t, tried.succession(14), "none does so well")
}

func TestStandingOn(t *testing.T) {
	c := testCrop() // ready 40 days after planting at 10 to 20 °C, picked for 30
	c.KillHardened = fact(-6)
	s := even(10, 20)
	date := on(time.July, 20)
	ask := func(s climate.Season, ago climate.SeasonDay) Standing {
		f := field(c, true, five(s)...)
		got := standingOn(f, out(c, 0), climate.Window{From: date - ago, To: date - ago}, 1, date)
		require.Len(t, got, 1)
		return got[0]
	}
	assert.Equal(t, 1.0, ask(s, 39).Good.Share, "ready on the day")
	assert.Equal(t, 0.0, ask(s, 38).Ready.Share, "a day late")
	assert.Equal(t, 1.0, ask(s, 69).Good.Share, "the last day of its picking")
	assert.Equal(t, 0.0, ask(s, 70).Good.Share, "past its best")
	assert.Equal(t, 1.0, ask(s, 70).Ready.Share)
	c.StandDays = fact(31)
	assert.Equal(t, 1.0, ask(s, 70).Good.Share, "it stands a day longer than it is picked")
	set(s, date, -6)
	assert.Equal(t, 0.0, ask(s, 50).Good.Share, "killed the night before")
	set(s, date, -5.9)
	assert.Equal(t, 1.0, ask(s, 50).Good.Share)
	set(s, date+1, -20)
	assert.Equal(t, 1.0, ask(s, 50).Good.Share, "the night after is none of its business")
}

// The last start reaches its size by the line, the next day does not; what is ready then stands
// until a night that kills it.
func TestLastStart(t *testing.T) {
	c := testCrop()
	c.KillHardened = fact(-6)
	c.LightHours = fact(10)
	s := even(10, 20)
	set(s, on(time.December, 30), -6)
	f := field(c, true, five(s)...)
	later := []climate.SeasonDay{on(time.December, 29), on(time.December, 30)}
	l, ok := lastStart(f, out(c, 0), climate.Window{From: 100, To: 360}, 0.6, later)
	require.True(t, ok)
	assert.Equal(t, north.DaysOfLight(52, 10).Last, l.Line)
	assert.LessOrEqual(t, f.Play(0, l.Planting).ReadyOn, l.Line)
	assert.Greater(t, f.Play(0, l.Planting.At(l.Planting.Start+1)).ReadyOn, l.Line)
	assert.Equal(t, 1.0, l.Winter[0].Alive.Share)
	assert.Equal(t, 0.0, l.Winter[1].Alive.Share)

	_, ok = lastStart(f, out(c, 0), climate.Window{From: l.Planting.Start + 1, To: 360}, 0.6, later)
	assert.False(t, ok, "too late from the start")
	tropics := NewField(climate.Ensemble{Latitude: 5, Seasons: five(s), Rests: 5}, c, true, 1)
	_, ok = lastStart(tropics, out(c, 0), climate.Window{From: 100, To: 360}, 0.6, later)
	assert.False(t, ok, "no short days there")
}
