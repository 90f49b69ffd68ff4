package quality

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"frostward/climate"
)

// Finds that only come to be when an earlier rule has taken values away, or that hold values
// outside the world's bounds: what the first look saw is no longer, or not all, of it.
func TestScreensAfterOtherFinds(t *testing.T) {
	at := int(climate.NewDay(1991, 5, 1) - clean(20).First)
	other := int(climate.NewDay(1995, 5, 1) - clean(20).First)
	for _, c := range []struct {
		rule  string
		plant func(s climate.Series)
	}{
		{"repeated month", func(s climate.Series) { // the same but for a day that is naught in one
			copy(s.Tmin[other:other+31], s.Tmin[at:at+31])
			s.Tmin[at+9], s.Tmin[other+9], s.Tmax[other+9] = math.NaN(), 0, 0
		}},
		{"repeated stretch", func(s climate.Series) { // no eight of its days are in the world's bounds
			copy(s.Tmin[other+100:other+115], s.Tmin[at:at+15])
			copy(s.Tmax[other+100:other+115], s.Tmax[at:at+15])
			s.Tmin[at+7], s.Tmin[other+107] = -99.9, -99.9
		}},
		{"streak", func(s climate.Series) { // days between two runs go
			for i := at; i < at+31; i++ {
				if s.Tmin[i] = 3.3; i >= at+10 && i < at+21 {
					s.Tmin[i] = s.Tmax[i]
				}
			}
		}},
		{"gap", func(s climate.Series) { // what lies in the hole does
			for i, m := range newRecord(s).month {
				if m == 5 {
					s.Tmax[i] = 20 + float64(i%50)/10
				}
			}
			for i := at; i < at+8; i++ {
				s.Tmin[i], s.Tmax[i] = 30, 30
			}
			s.Tmax[at+10] = 36
		}},
	} {
		s := clean(20)
		c.plant(s)
		flags := byRule(Check(s), c.rule)
		assert.NotEmpty(t, flags, c.rule)
		assert.Empty(t, Disagreement(new(Checker), s, map[string]int{}), c.rule)
	}
}

// The shortest stretch is found wherever its two places lie, with nothing measured beside it.
func TestShortestStretch(t *testing.T) {
	for from := 500; from < 508; from++ {
		for to := 3000; to < 3008; to++ {
			s := clean(10)
			copy(s.Tmin[to:to+stretchDays], s.Tmin[from:from+stretchDays])
			copy(s.Tmax[to:to+stretchDays], s.Tmax[from:from+stretchDays])
			for _, i := range []int{from - 1, from + stretchDays, to - 1, to + stretchDays} {
				s.Tmin[i], s.Tmax[i] = math.NaN(), math.NaN()
			}
			assert.False(t, noRepeatedStretch(newRecord(s)), "%d, %d", from, to)
		}
	}
	assert.True(t, noRepeatedStretch(newRecord(clean(10))))
}

// Where the values lie is looked at anew when some have been taken away.
func TestSpreadIsLookedAtAnew(t *testing.T) {
	s := clean(10)
	for i, m := range newRecord(s).month {
		if m == 5 {
			s.Tmin[i], s.Tmax[i] = 5, 10
		}
	}
	at := int(climate.NewDay(1985, 5, 5) - s.First)
	s.Tmin[at], s.Tmax[at+9] = 15, 30
	r := newRecord(s)
	assert.True(t, noMega(r))
	r.mask([]Flag{{Day: s.First + climate.Day(at) + 9, Element: Tmax}})
	assert.False(t, noMega(r))
	assert.Len(t, mega(r), 1)
}

// A calm value speaks for no other unit.
func TestCalm(t *testing.T) {
	calm, all := 0, 0
	for mean := -40.0; mean <= 35; mean += 0.5 {
		for _, sd := range []float64{0.3, 1, 2.5, 4, 7, 12} {
			c := calmAt(mean, 1/sd)
			for z := -7.0; z <= 7; z += 0.01 {
				if math.Abs(z) < 2 {
					all++
				}
				if !c.holds(z) {
					continue
				}
				if math.Abs(z) < 2 {
					calm++
				}
				v := mean + z*sd
				for k, o := range otherUnits {
					x := logDensity((o.scale*v+o.offset-mean)/sd) - logDensity(z) + stretches[k]
					if o.scale < 0 && v < 0 {
						x = -18
					}
					if x > 1e-9 {
						t.Fatalf("mean %v, sd %v: %v speaks for %q by %v", mean, sd, v, o.name, x)
					}
				}
			}
		}
	}
	assert.Greater(t, calm, all/2)
	unknown := calmAt(math.NaN(), math.NaN())
	assert.False(t, unknown.holds(0))
}

// The days of a record are those of the calendar, 29 February folded away.
func TestRecordDays(t *testing.T) {
	s := climate.NewSeries(climate.NewDay(1899, 2, 17), 3000)
	r := newRecord(s)
	for i := range r.len() {
		d := s.First + climate.Day(i)
		y, m, _ := d.Date()
		_, sd := climate.Calendar{}.Locate(d)
		assert.Equal(t, []int{int(m), int(sd)}, []int{int(r.month[i]), int(r.day[i])}, "%v", d)
		if k := len(r.months) - 1; r.months[k].from <= i {
			assert.Equal(t, y, r.months[k].year)
		}
	}
	assert.Equal(t, s.Len(), r.months[len(r.months)-1].to)
}
