package risk

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/crops"
)

// southernEngland makes seasons of southern England's mean climate, as catalogue.csv has it
// (from memory), with departures that keep 0.75 of the day before's and stand 2.8 °C about the
// mean, and clear weather that widens the day's range: invented weather about typical means.
func southernEngland(n int) climate.Ensemble {
	return weatherAbout(n, 51, 2.8, func(d int) (lo, hi float64) { return southern[d].tmin, southern[d].tmax })
}

// weatherAbout does so for a course of mean minima and maxima and a latitude.
func weatherAbout(n int, latitude, swing float64, mean func(d int) (lo, hi float64)) climate.Ensemble {
	rng := rand.New(rand.NewPCG(20, 5))
	e := climate.Ensemble{Latitude: latitude, Rests: n}
	for y := range n {
		s := climate.NewSeason(2001 + y)
		var off, clear float64
		year := 0.5 * rng.NormFloat64()
		for i := range s.Tmin {
			lo, hi := mean((climate.SpanFrom + climate.SeasonDay(i)).Fold())
			off = 0.75*off + swing*math.Sqrt(1-0.75*0.75)*rng.NormFloat64()
			clear = 0.6*clear + 0.8*rng.NormFloat64()
			mid := (lo+hi)/2 + year + off
			half := (hi - lo) / 2 * math.Exp(0.3*clear-0.05)
			s.Tmin[i], s.Tmax[i] = mid-half, mid+half
		}
		e.Seasons = append(e.Seasons, s)
	}
	return e
}

func scoreIn(t *testing.T, e climate.Ensemble, name, class string, raised bool, start climate.SeasonDay) Result {
	t.Helper()
	c, err := crops.Builtin().Find(name, class)
	require.NoError(t, err)
	return score(NewField(e, c, raised, 1), Planting{Crop: c, Start: start, Raised: raised})
}

// Rules of the trade for southern England; all common practice, no source. The whole day loop
// must keep to them: nights, soil, warmth and light.
func TestRulesOfTheTrade(t *testing.T) {
	station := southernEngland(60)
	bed := site.PriorModel(site.OpenBed).ToSpot(station, 1)

	lettuce := scoreIn(t, station, "lettuce", "main", true, on(time.April, 22))
	weeks := (lettuce.Harvest[1].Value - float64(on(time.April, 1))) / 7
	assert.InDelta(t, 9, weeks, 1, "lettuce sown in modules on 1 April and planted three weeks later is cut 8 to 10 weeks from sowing")

	corn := scoreIn(t, bed, "sweet corn", "main", true, on(time.May, 28))
	early := scoreIn(t, bed, "sweet corn", "early", true, on(time.May, 28))
	late := scoreIn(t, bed, "sweet corn", "late", true, on(time.May, 28))
	assert.Greater(t, early.Succeeds.Share, 0.8, "early sweet corn is a good bet")
	assert.Less(t, late.Ripens.Share, early.Ripens.Share, "the late class is marginal")
	assert.Less(t, late.Harvest[0].Value, float64(on(time.October, 15)), "and yet comes in a good year")
	assert.True(t, corn.Harvest[1].Value > float64(on(time.August, 10)) && corn.Harvest[1].Value < float64(on(time.September, 20)),
		"cobs in late August and September: %v", north.Words(climate.SeasonDay(corn.Harvest[1].Value)))

	frost := climate.DatesOf(bed, 0, climate.WMO)
	n := 0
	for _, d := range frost.Spring {
		if !math.IsInf(d, 0) && d >= float64(on(time.May, 20)) {
			n++
		}
	}
	assert.True(t, n >= 1 && n <= 27, "a frost in late May does happen at the ground, though not in most years: %d of 60", n)

	beans := scoreIn(t, bed, "French bean", "dwarf", false, on(time.May, 20))
	assert.Greater(t, beans.Succeeds.Share, 0.7, "sown in late May they do")
	tooSoon := scoreIn(t, bed, "courgette", "", true, on(time.April, 10))
	assert.Less(t, tooSoon.Survives.Share, 0.7, "courgettes do not stand out of doors in mid April")

	leeks := scoreIn(t, bed, "leek", "late", true, on(time.June, 15))
	assert.Greater(t, leeks.Succeeds.Share, 0.85, "late leeks stand there")
}

// Light as the trade knows it: lettuce planted in early September is not ready before winter
// where one planted in early August is (common practice, no source; for crisp lettuce Wurr,
// Fellows and Suckling 1988 give about 48 days in mid June, from memory).
func TestLightOfAutumn(t *testing.T) {
	e := southernEngland(40)
	took := func(class string, start climate.SeasonDay) float64 {
		return scoreIn(t, e, "lettuce", class, true, start).Harvest[1].Value - float64(start)
	}
	june := took("crisp", on(time.June, 15))
	assert.InDelta(t, 48, june, 6)
	assert.Greater(t, took("crisp", on(time.August, 5)), june)
	r := scoreIn(t, e, "lettuce", "crisp", true, on(time.September, 10))
	assert.Greater(t, r.Harvest[0].Value, float64(climate.YearDays), "planted on 10 September it stands over the winter")
	assert.Greater(t, scoreIn(t, e, "lettuce", "main", true, on(time.August, 10)).Ripens.Share, 0.9)
	line := e.Calendar.DaysOfLight(51, 10).Last
	assert.True(t, line > on(time.October, 20) && line < on(time.November, 1), "the 10-hour line at 51°: %s", north.Words(line))
}

// What is published of hardening: spinach gains 2 to 4 °C in its first day at 5/2 °C
// ("Freezing tolerance and rapid cold acclimation of spinach"); winter oilseed rape leaves are
// half killed at -3 °C unhardened and at -19 °C hardened (PMC519078, table I); beans, cucurbits,
// tomatoes and corn gain little or nothing below 0 °C (from memory). The limits that plants
// harden off by fall more slowly than that for every crop, and for tender ones by next to nothing.
func TestHardeningIsOnTheSafeSide(t *testing.T) {
	e := climate.Ensemble{Latitude: 51, Seasons: []climate.Season{even(5, 12)}, Rests: 1}
	n := 0
	for _, c := range crops.Builtin().All() {
		h := Harden(e, Planting{Crop: c, Start: 120, Raised: true})
		for k := 1; k < len(h.Nights); k++ {
			drop := h.Nights[k-1].Limit - h.Nights[k].Limit
			assert.True(t, drop >= 0 && drop <= 2, "%s: %.1f °C in a night", c.Label(), drop)
			n++
		}
		if len(h.Nights) > 0 && c.Tender() {
			assert.LessOrEqual(t, h.Nights[0].Limit-h.Nights[len(h.Nights)-1].Limit, 1.5, c.Label())
		}
	}
	assert.Greater(t, n, 300)
	kale, err := crops.Builtin().Find("kale", "")
	require.NoError(t, err)
	assert.True(t, kale.KillHardened.Value < -3 && kale.KillHardened.Value > -19, "between unhardened and hardened rape")
}

// courseOf runs between monthly means that stand in the middle of each month.
func courseOf(lows, highs [12]float64) func(d int) (lo, hi float64) {
	return func(d int) (lo, hi float64) {
		x := (float64(d)+0.5)*12/climate.YearDays + 11.5
		k, f := int(x), x-math.Floor(x)
		return lows[k%12]*(1-f) + lows[(k+1)%12]*f, highs[k%12]*(1-f) + highs[(k+1)%12]*f
	}
}

// The customary span of going into open ground and the days on which a crop succeeds in four
// seasons of five or more overlap, for most crops, in a climate like Kent's (the span's own), like
// Cork's and like Minnesota's (monthly means from memory; the spans are common practice in
// southern England, so away from it they may come a month earlier or later).
func TestCustomaryWindowsOverlap(t *testing.T) {
	for _, c := range []struct {
		name   string
		e      climate.Ensemble
		slack  climate.SeasonDay
		fewest int // crops and classes, of 91
	}{
		{"Kent", southernEngland(25), 0, 70},
		{"Cork", weatherAbout(25, 51.9, 2.3, courseOf([12]float64{3, 3, 3.7, 4.7, 7, 9.6, 11.4, 11.4, 9.8, 7.6, 5, 3.7},
			[12]float64{8.2, 8.4, 9.9, 11.7, 14.3, 16.9, 18.7, 18.5, 16.5, 13.4, 10.4, 8.7})), 30, 50},
		{"Minnesota", weatherAbout(25, 45, 4.5, courseOf([12]float64{-13.6, -11.5, -5, 2, 8.6, 14.4, 17.5, 16.2, 11, 4, -3, -10.3},
			[12]float64{-4.6, -2.1, 5, 13.7, 20.7, 26, 28.7, 27.2, 22.5, 14.8, 5.5, -2.1})), 30, 45},
	} {
		var misses []string
		n := 0
		for _, crop := range crops.Builtin().All() {
			raised := crop.WeeksUnderCover.Value > 0
			f := NewField(c.e, crop, raised, 1)
			from, to := climate.SeasonDay(crop.OutFrom.Value), climate.SeasonDay(crop.OutTo.Value)
			if to < from {
				to += climate.YearDays
			}
			ok := false
			for sd := from - c.slack; sd <= to+c.slack && !ok; sd += 7 {
				ok = score(f, Planting{Crop: crop, Start: sd, Raised: raised}).Succeeds.Share >= 0.8
			}
			if ok {
				n++
			} else {
				misses = append(misses, crop.Label())
			}
		}
		t.Logf("%s: %d overlap; not: %v", c.name, n, misses)
		assert.GreaterOrEqual(t, n, c.fewest, c.name)
	}
}
