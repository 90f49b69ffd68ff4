package risk

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/crops"
)

// What runs to seed and what stands the winter to be eaten (common practice, no source).
func TestWhatBolts(t *testing.T) {
	for _, c := range []struct {
		name, class string
		raised      bool
		bolts       bool
	}{
		{"leek", "main", true, true}, {"Brussels sprout", "late", true, true}, {"beetroot", "", false, true}, {"lettuce", "winter", true, true},
		{"parsnip", "", false, true}, {"spinach", "winter", true, true},
		{"garlic", "autumn", false, false}, {"onion", "overwintered", false, false}, {"cabbage", "spring", true, false},
		{"broad bean", "autumn", false, false}, {"sprouting broccoli", "late", true, false}, {"cauliflower", "winter", true, false},
		{"courgette", "", true, false}, {"potato", "maincrop", false, false}, {"basil", "", true, false},
	} {
		crop, err := crops.Builtin().Find(c.name, c.class)
		require.NoError(t, err)
		assert.Equal(t, c.bolts, boltsOn(crop, c.raised) == Bolting, crop.Label())
	}
	assert.Equal(t, on(time.May, 1)+climate.YearDays, Bolting)
}

// Leeks that are not of a size by 1 May have run to seed; the bed is free then. Those that are
// may be picked until then.
func TestBolting(t *testing.T) {
	c, err := crops.Builtin().Find("leek", "main")
	require.NoError(t, err)
	s := climate.NewSeason(2001)
	for i := range s.Tmin {
		w := southern[(climate.SpanFrom + climate.SeasonDay(i)).Fold()]
		s.Tmin[i], s.Tmax[i] = w.tmin, w.tmax
	}
	f := NewField(climate.Ensemble{Latitude: 51, Seasons: []climate.Season{s}}, c, true, 1)
	late := f.Play(0, out(c, on(time.September, 10)))
	assert.Equal(t, climate.NeverDay, late.ReadyOn)
	assert.Equal(t, float64(Bolting), late.freeOn())
	assert.False(t, late.Ripens || late.Lost || late.Light)

	// The last start that is ready at all is ready before the first of May, in its own time.
	start := on(time.June, 1)
	for f.Play(0, out(c, start+1)).ReadyOn != climate.NeverDay {
		start++
	}
	last := f.Play(0, out(c, start))
	assert.Less(t, last.ReadyOn, Bolting)
	assert.LessOrEqual(t, last.EndsOn, Bolting)
	assert.Equal(t, last.ReadyOn+WorthPicking <= Bolting, last.Ripens)
}

// What stands when the span is over, on 31 December of the year after, has ripened: that the record
// of its picking ends there is none of its fault.
func TestStandsAtTheEndOfTheSpan(t *testing.T) {
	c := testCrop()
	s := even(-0.5, -0.5) // it sets back nothing and grows nothing until November of the year after
	for d := on(time.November, 20) + climate.YearDays; d < climate.SpanTo; d++ {
		s.Tmin[d-climate.SpanFrom], s.Tmax[d-climate.SpanFrom] = 10, 20
	}
	c.SetBackHardened = fact(-5)
	c.KillHardened = fact(-9)
	f := field(c, true, s).Play(0, out(c, on(time.September, 1)))
	assert.Equal(t, on(time.November, 20)+climate.YearDays+39, f.ReadyOn, "29 December: three days before the end")
	assert.Equal(t, climate.SpanTo, f.EndsOn)
	assert.True(t, f.Ripens)
}

// The sweep keeps to the loop for what bolts.
func TestSweepBolts(t *testing.T) {
	e := southernEngland(12)
	for _, name := range []string{"leek", "kale", "spinach", "lettuce"} {
		c, err := crops.Builtin().Find(name, "")
		require.NoError(t, err)
		f := NewField(e, c, true, 1)
		var s Sweep
		s.set(f, out(c, 0))
		w := climate.Window{From: on(time.March, 1), To: on(time.December, 20)}
		for i := range e.Seasons {
			for k, got := range s.play(i, w, 1) {
				want := finishOf(f.Play(i, out(c, w.From+climate.SeasonDay(k))))
				require.Equal(t, want, got, "%s, season %d, day %d", name, i, k)
			}
		}
	}
}
