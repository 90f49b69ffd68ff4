package risk

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// invented is a record of some years: a cool year's course, with departures that keep a part
// of the day before's.
func invented(years int, keep float64) climate.Series {
	rng := rand.New(rand.NewPCG(7, uint64(years)))
	rec := climate.NewSeries(climate.NewDay(1990, time.January, 1), years*365+years/4)
	var off float64
	for i := range rec.Tmin {
		_, sd := north.Locate(rec.First + climate.Day(i))
		off = keep*off + 2.5*math.Sqrt(1-keep*keep)*rng.NormFloat64()
		mid := 10 - 8*math.Cos(2*math.Pi*float64(sd-20)/365) + off
		rec.Tmin[i], rec.Tmax[i] = mid-4, mid+4
	}
	return rec
}

// Departures that keep 0.8 of themselves a day: day k knows 0.8^(k+1) of the day before the
// first, and nothing of the month beyond it. Without memory it knows nothing.
func TestFadingOfAKnownProcess(t *testing.T) {
	f := FitFading(invented(60, 0.8), north)
	for k := range 3 {
		assert.InDelta(t, math.Pow(0.8, float64(k+1)), f.part[0][k][0], 0.06, "day %d", k)
		assert.InDelta(t, 0, f.part[0][k][1], 0.1)
	}
	assert.InDelta(t, 0, f.part[1][60][0], 0.06)
	f = FitFading(invented(60, 0), north)
	for k := range fadeDays {
		assert.InDelta(t, 0, f.part[0][k][0], 0.05)
	}
}

func TestSolve(t *testing.T) { // x = 1, -2, 3, by hand
	x := solve([lags][lags + 1]float64{{4, 1, 0, 2}, {0, 5, 2, -3}, {0, 0, 6, 14}})
	assert.InDeltaSlice(t, []float64{1, -2, 3}, x[:], 1e-12)
}

func outlookFields(rec climate.Series, season int, upTo climate.SeasonDay) (now, usual *Field, p Planting) {
	c := testCrop()
	c.Base = fact(6)
	c.KillHardened, c.SetBackHardened, c.KillSeedling, c.SetBackSeedling = fact(-2), fact(-1), fact(-2), fact(-1)
	c.WarmthPlanted, c.PickingDays = fact(700), fact(120)
	p = out(c, on(time.May, 25))
	before := climate.Recorded(rec, 52, 1991, season-1)
	seen := rec.Between(rec.First, north.Day(season, upTo))
	e := FitFading(seen, north).Splice(before, climate.SeasonOf(seen, north, season), upTo)
	return NewField(e, c, true, 1), NewField(before, c, true, 1), p
}

// As of the eve of the season's span the outlook is climatology.
func TestOutlookAtTheStartIsClimatology(t *testing.T) {
	rec := invented(40, 0.8)
	now, usual, p := outlookFields(rec, 2020, climate.SpanFrom-1)
	// Nothing of this season is known, so nothing is moved.
	o := LookOut(now, usual, p, climate.SpanFrom-1, OutlookOptions{GiveUp: 0.2})
	assert.Equal(t, o.Usual, o.Ready)
}

// As of planting the outlook stays near climatology: over 20 seasons its median is within half
// a day of the usual one in the mean, and never more than a week from it. The record has no
// memory beyond some days, so that what the eve of planting tells is small.
func TestOutlookAsOfPlantingIsNearClimatology(t *testing.T) {
	rec := invented(40, 0.8)
	var sum float64
	for season := 2008; season < 2028; season++ {
		now, usual, p := outlookFields(rec, season, on(time.May, 24))
		o := LookOut(now, usual, p, on(time.May, 24), OutlookOptions{GiveUp: 0.2})
		d := o.Ready[1].Value - o.Usual[1].Value
		assert.Less(t, math.Abs(d), 7., "%d", season)
		sum += d
	}
	assert.InDelta(t, 0, sum/20, 0.5)
}

// As of a day after picking began, all is certain and true.
func TestOutlookAfterPickingIsCertain(t *testing.T) {
	rec := invented(40, 0.8)
	_, usual, p := outlookFields(rec, 2020, 0)
	truth := NewField(climate.Recorded(rec, 52, 2020, 2020), p.Crop, true, 1).Play(0, p)
	require.Less(t, truth.ReadyOn, climate.NeverDay)
	asOf := truth.ReadyOn + 1
	now, _, _ := outlookFields(rec, 2020, asOf)
	o := LookOut(now, usual, p, asOf, OutlookOptions{GiveUp: 0.2, HasBy: true, By: asOf})
	for _, q := range o.Ready {
		assert.Equal(t, truth.ReadyOn.OrNever(), q.Value)
		assert.Equal(t, truth.ReadyOn.OrNever(), q.Low)
		assert.Equal(t, truth.ReadyOn.OrNever(), q.High)
	}
	assert.Equal(t, 1.0, o.Ripens.Share)
	assert.Equal(t, 1.0, o.ByDate.Share)
	assert.Equal(t, climate.Never, o.GiveUp)
	// The nearer the day, the surer.
	wide := func(days climate.SeasonDay) float64 {
		now, _, _ := outlookFields(rec, 2020, asOf-days)
		o := LookOut(now, usual, p, asOf-days, OutlookOptions{GiveUp: 0.2})
		return o.Ready[2].Value - o.Ready[0].Value
	}
	assert.Greater(t, wide(60), wide(15))
	assert.Greater(t, wide(15), 0.)
}

// What is known stays as it was, leap day or not, and what follows is never upside down.
func TestSpliceKeepsWhatIsKnown(t *testing.T) {
	rec := invented(30, 0.8)
	this := climate.SeasonOf(rec, north, 2012)
	upTo := on(time.July, 10)
	rec.Snow = make([]float64, rec.Len())
	for i := range rec.Snow {
		rec.Snow[i] = float64(i)
	}
	before, d := climate.Recorded(rec, 52, 1991, 2011), int(upTo-climate.SpanFrom)
	this.Snow = make([]float64, climate.SpanLen)
	e := FitFading(rec, north).Splice(before, this, upTo)
	assert.Zero(t, e.Seasons[0].Snow[d])
	assert.Equal(t, before.Seasons[0].Snow[d+1:], e.Seasons[0].Snow[d+1:], "the snow is each season's own from then on")
	for _, s := range e.Seasons {
		for sd := climate.SpanFrom; sd <= upTo; sd++ {
			lo, hi := s.At(sd)
			was, high := this.At(sd)
			require.True(t, lo == was && hi == high)
		}
		for sd := upTo + 1; sd < 365; sd++ {
			lo, hi := s.At(sd)
			require.LessOrEqual(t, lo, hi)
		}
	}
	whole := FitFading(rec, north).Splice(climate.Recorded(rec, 52, 1991, 2011), this, climate.SpanTo+5)
	assert.Equal(t, this.Tmin, whole.Seasons[3].Tmin)
}

// Days missing so far are each season's own, so that a gap does not make the outlook not known;
// half a day is kept.
func TestSpliceFillsGaps(t *testing.T) {
	rec := invented(30, 0.8)
	this := climate.SeasonOf(rec, north, 2012)
	for d := range 20 {
		this.Tmin[200+d], this.Tmax[200+d] = math.NaN(), math.NaN()
	}
	this.Tmin[230], this.Tmax[231], this.Tmax[232] = math.NaN(), math.NaN(), math.NaN()
	this.Tmin[232] = 40
	before := climate.Recorded(rec, 52, 1991, 2011)
	e := FitFading(rec, north).Splice(before, this, on(time.July, 10))
	for i, s := range e.Seasons {
		assert.Equal(t, before.Seasons[i].Tmin[200:220], s.Tmin[200:220])
		assert.Equal(t, min(before.Seasons[i].Tmin[230], this.Tmax[230]), s.Tmin[230])
		assert.Equal(t, this.Tmin[231], s.Tmin[231])
		assert.Equal(t, 40.0, s.Tmax[232], "never below the minimum")
	}
}

func TestPicked(t *testing.T) {
	f := Outcome{Known: true, Lost: true, ReadyOn: 200, EndsOn: 250}
	assert.Equal(t, climate.Never, f.picked())
	f.Lost = false
	assert.Equal(t, 200.0, f.picked())
	f.EndsOn = 200
	assert.Equal(t, climate.Never, f.picked())
	assert.True(t, math.IsNaN(Outcome{}.picked()))
}

// A plant saved from the nights so far can still be killed by a later one, and not by those before.
func TestSavedIsNotSafe(t *testing.T) {
	c, start := testCrop(), on(time.May, 20)
	s := even(10, 20)
	set(s, start+3, -4)
	set(s, start+12, -4)
	f := field(c, true, s)
	saved := f.play(0, out(c, start), start, start+10)
	assert.True(t, saved.Lost)
	assert.Equal(t, start+12, saved.KilledOn)
	assert.Equal(t, 1, saved.SetBacks, "of the night that it was saved from")
	assert.False(t, f.play(0, out(c, start), start, start+12).Lost, "it stands on that day, so that night did not kill it")
	for _, o := range livingOutcomes(f, out(c, start), start+10) {
		assert.True(t, o.Lost, "too few seasons to leave any out")
	}
}

// Of 20 seasons, some kill a planting that is known to be alive: they are left out, unless fewer
// than 10 would stay.
func TestLivingOutcomes(t *testing.T) {
	c := testCrop()
	start := on(time.May, 20)
	play := func(killed int) (known, setBack int) {
		var seasons []climate.Season
		for i := range 20 {
			s := even(10, 20)
			if i < killed {
				set(s, start+3, -4)
			}
			seasons = append(seasons, s)
		}
		for _, f := range livingOutcomes(field(c, true, seasons...), out(c, start), start+10) {
			assert.False(t, f.Lost)
			if f.Known {
				known++
				if f.ReadyOn > start+39 {
					setBack++
				}
			}
		}
		return known, setBack
	}
	known, setBack := play(10)
	assert.Equal(t, []int{10, 0}, []int{known, setBack})
	known, setBack = play(11)
	assert.Equal(t, []int{20, 11}, []int{known, setBack}, "it must have been saved")
}

// Ten seasons: ripe on days 201 to 205 in five, never in the other five, which stand until
// frost on day 240. Not ready on day 204, one of six is worth waiting for.
func TestGiveUp(t *testing.T) {
	var outcomes []Outcome
	var ready []float64
	for i := range 10 {
		f := Outcome{Known: true, ReadyOn: climate.NeverDay, EndsOn: 240}
		if i < 5 {
			f.ReadyOn, f.EndsOn, f.Ripens = climate.SeasonDay(201+i), 260, true
		}
		outcomes, ready = append(outcomes, f), append(ready, f.picked())
	}
	assert.Equal(t, 204.0, giveUp(outcomes, ready, 180, 0.2), "1 of 6 is below a fifth, 2 of 7 were not")
	assert.Equal(t, 180.0, giveUp(outcomes, ready, 180, 0.6), "it is so already")
	assert.Equal(t, 205.0, giveUp(outcomes, ready, 180, 0.1))
	assert.Equal(t, climate.Never, giveUp(outcomes[:7], ready[:7], 180, 0.3), "too few are left to tell")
}

// A cover put on in autumn changes nothing before and never makes it worse.
func TestAutumnCoverNeverHurts(t *testing.T) {
	rec := invented(40, 0.8)
	now, usual, p := outlookFields(rec, 2020, on(time.July, 1))
	o := LookOut(now, usual, p, on(time.July, 1), OutlookOptions{GiveUp: 0.2, Cover: Cover{Name: "tunnel", Gain: 3}})
	assert.GreaterOrEqual(t, o.Covered.Share, o.Ripens.Share)
	assert.Greater(t, o.CoverSaves, 0.)
	for i := range now.Ensemble.Seasons {
		q := p
		q.Cover = Cover{Name: "tunnel", Gain: 3}
		late := now.play(i, q, climate.SpanTo, p.Start)
		assert.Equal(t, now.Play(i, p), late, "laid after the end")
	}
}
