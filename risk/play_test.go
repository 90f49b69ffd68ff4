package risk

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"frostward/climate"
	"frostward/crops"
)

var north = climate.Calendar{}

// on is a season day of the northern year.
func on(m time.Month, d int) climate.SeasonDay { return north.Of(m, d) }

func fact(v float64) crops.Fact { return crops.Fact{Value: v, Low: math.NaN(), High: math.NaN()} }

// testCrop is an invented tender crop whose numbers are easy to reckon with.
func testCrop() crops.Crop {
	u := crops.Unknown()
	return crops.Crop{
		Name: "test crop", Kind: crops.Fruit, Title: "test crops",
		SetBackSeedling: fact(1), KillSeedling: fact(0), SetBackHardened: fact(0), KillHardened: fact(-1),
		Chill: fact(5), SetBackDays: fact(4),
		GrowFrom: u, GrowBest: u, GrowMax: u, GrowLight: u, GrowthSown: u, GrowthPlanted: u,
		KillReady: u, KillWinter: u, BelowCm: u, RegrowsTo: u, Height: u, ColdDays: u, GrowthAfterCold: u,
		Base: fact(10), Upper: u, WarmthSown: fact(300), WarmthPlanted: fact(200), DaysSown: u, DaysPlanted: u,
		PickingDays: fact(30), StandDays: u, GerminationMin: fact(10), GerminationOpt: u, GerminationMax: u,
		EmergenceBase: fact(5), EmergenceSum: fact(50),
		WeeksUnderCover: fact(4), HardeningDays: fact(7), LightHours: u,
	}
}

// litCrop is testCrop with effective day-degrees: level at 40 °C, so that in these tests only
// light takes anything off.
func litCrop() crops.Crop {
	c := testCrop()
	c.GrowFrom, c.GrowBest, c.GrowMax, c.GrowLight = fact(10), fact(40), fact(60), fact(1)
	c.GrowthPlanted, c.GrowthSown = fact(150), fact(200)
	return c
}

// even is a season with the same day all year: 8 to 22 °C is 5 degree-days above 10 °C by
// the average, a little more by the sine.
func even(tmin, tmax float64) climate.Season {
	s := climate.NewSeason(2001)
	for i := range s.Tmin {
		s.Tmin[i], s.Tmax[i] = tmin, tmax
	}
	return s
}

func set(s climate.Season, sd climate.SeasonDay, tmin float64) {
	s.Tmin[sd-climate.SpanFrom] = tmin
}

func field(c crops.Crop, raised bool, seasons ...climate.Season) *Field {
	return NewField(climate.Ensemble{Latitude: 52, Seasons: seasons, Rests: len(seasons)}, c, raised, 1)
}

func out(c crops.Crop, sd climate.SeasonDay) Planting {
	return Planting{Crop: c, Start: sd, Sow: sd - 28, Raised: true}
}

// In an even season of 10 to 20 °C a crop with base 10 °C gets 5 degree-days a day, so 200
// of them take 40 days: by hand.
func TestWarmthIsCounted(t *testing.T) {
	c := testCrop()
	f := field(c, true, even(10, 20)).Play(0, out(c, on(time.May, 20)))
	assert.Equal(t, Outcome{
		Known: true, KilledOn: climate.NeverDay, SetBackOn: climate.NeverDay, EmergedOn: climate.NeverDay,
		ReadyOn: on(time.May, 20) + 39, EndsOn: on(time.May, 20) + 39 + 30, Ripens: true,
	}, f)
}

func TestNightsAtTheLimits(t *testing.T) {
	c := testCrop()
	start := on(time.May, 20)
	play := func(sd climate.SeasonDay, tmin float64) Outcome {
		s := even(10, 20)
		set(s, sd, tmin)
		return field(c, true, s).Play(0, out(c, start))
	}
	plain := play(start, 10)

	assert.False(t, play(start, -5).Lost, "the night before it goes out is not its own")
	assert.True(t, play(start+1, -1).Lost, "at the killing temperature")
	assert.Equal(t, start+1, play(start+1, -1).KilledOn)
	assert.False(t, play(start+1, -0.9).Lost, "just above it")
	assert.Equal(t, 1, play(start+1, -0.9).SetBacks)
	assert.Equal(t, 1, play(start+1, 0).SetBacks, "at the set-back temperature")
	assert.Equal(t, 0, play(start+1, 0.1).SetBacks)
	assert.Equal(t, 1, play(start+14, 5).Chilled, "the last night of the first fortnight, at the chilling limit")
	assert.Equal(t, 0, play(start+15, 5).Chilled)
	assert.Equal(t, 0, play(start+14, 5.1).Chilled)

	// A night of damage costs the set-back days, 4, from that day on; the day itself is one
	// of them, and its own short warmth is lost with it.
	assert.Equal(t, plain.ReadyOn+4, play(start+20, 0).ReadyOn)
	assert.Equal(t, 1, play(start+20, 0).ColdNights)
}

func TestAutumnFrostEndsIt(t *testing.T) {
	c := testCrop()
	start := on(time.July, 1) // ready 9 August
	play := func(frost climate.SeasonDay) Outcome {
		s := even(10, 20)
		set(s, frost, -1)
		return field(c, true, s).Play(0, out(c, start))
	}
	ready := start + 39
	assert.False(t, play(ready).Ripens, "killed on the day it would be ready")
	assert.False(t, play(ready).Lost, "a tender crop is not lost to spring frost when autumn kills it")
	assert.False(t, play(ready+13).Ripens, "13 days of picking are not worth it")
	assert.True(t, play(ready+14).Ripens, "14 days are")
	assert.Equal(t, ready+14, play(ready+14).EndsOn)
}

func TestLostPlantIsPlayedOn(t *testing.T) {
	c := testCrop()
	s := even(10, 20)
	start := on(time.May, 1)
	set(s, start+3, -4)
	f := field(c, true, s).Play(0, out(c, start))
	assert.True(t, f.Lost)
	assert.True(t, f.Ripens, "had it been saved it would have ripened")
	assert.False(t, f.Succeeds())
}

func TestSowingWaitsForTheSoil(t *testing.T) {
	c := testCrop()
	warm := field(c, false, even(10, 20)).Play(0, Planting{Crop: c, Start: on(time.May, 1)})
	assert.Less(t, warm.EmergedOn, climate.NeverDay)
	cold := even(2, 9) // soil never reaches 10 °C
	f := field(c, false, cold).Play(0, Planting{Crop: c, Start: on(time.May, 1)})
	assert.Equal(t, climate.NeverDay, f.EmergedOn)
	assert.False(t, f.Ripens)
	assert.False(t, f.Lost, "a seed in the ground does not freeze")
}

func TestSeedlingIsSofter(t *testing.T) {
	c := testCrop()
	s := even(10, 20)
	up := climate.SeasonDay(field(c, false, s).Play(0, Planting{Crop: c, Start: on(time.May, 1)}).EmergedOn)
	play := func(sd climate.SeasonDay) Outcome {
		s := even(10, 20)
		set(s, sd, -0.5) // kills a seedling, sets a hardened plant back
		return field(c, false, s).Play(0, Planting{Crop: c, Start: on(time.May, 1)})
	}
	assert.False(t, play(up).Lost, "not yet above ground that night")
	assert.True(t, play(up+1).Lost)
	assert.True(t, play(up+SeedlingDays).Lost, "the last seedling night")
	assert.False(t, play(up+SeedlingDays+1).Lost)
}

func TestGaps(t *testing.T) {
	c := testCrop()
	start := on(time.May, 20)
	play := func(days ...int) Outcome {
		s := even(10, 20)
		for _, d := range days {
			set(s, start+climate.SeasonDay(d), math.NaN())
		}
		return field(c, true, s).Play(0, out(c, start))
	}
	assert.True(t, play(1, 2, 3, 4).Known)
	assert.False(t, play(1, 2, 3, 4, 5).Known, "5 in a row")
	assert.Equal(t, start+39, play(1, 2, 3, 4).ReadyOn, "a gap's warmth is that of the last day before it")
	assert.True(t, play(1, 3, 5, 7, 9, 11, 13, 15, 17, 19).Known)
	assert.False(t, play(1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21).Known, "11 in all")
}

// someSeason draws a season of cold springs and warm summers.
func someSeason(t *rapid.T) climate.Season {
	s := climate.NewSeason(2001)
	level := rapid.Float64Range(-3, 3).Draw(t, "level")
	rough := rapid.Float64Range(0, 6).Draw(t, "rough")
	seed := rapid.Uint64().Draw(t, "seed")
	for i := range s.Tmin {
		mid := 9 - 8*math.Cos(2*math.Pi*float64(int(climate.SpanFrom)+i-20)/365) + level
		mid += rough * normals{seed}.at(0, climate.SpanFrom+climate.SeasonDay(i))
		s.Tmin[i], s.Tmax[i] = mid-5, mid+5
	}
	return s
}

// Adding warmth never makes a crop ready later, nor kills one that lived.
func TestWarmthNeverHurts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := testCrop()
		c.Chill = fact(rapid.Float64Range(-5, 8).Draw(t, "chill"))
		s := someSeason(t)
		start := climate.SeasonDay(rapid.IntRange(60, 240).Draw(t, "start"))
		raised := rapid.Bool().Draw(t, "raised")
		by := rapid.Float64Range(0, 4).Draw(t, "by")
		warmer := climate.NewSeason(2001)
		for i := range s.Tmin {
			warmer.Tmin[i], warmer.Tmax[i] = s.Tmin[i]+by, s.Tmax[i]+by
		}
		p := Planting{Crop: c, Start: start, Raised: raised}
		f := field(c, raised, s, warmer)
		cold, warm := f.Play(0, p), f.Play(1, p)
		if raised && cold.Lost == false && warm.Lost {
			t.Fatalf("warmth killed it: %+v, %+v", cold, warm)
		}
		if warm.ReadyOn > cold.ReadyOn {
			t.Fatalf("warmth made it later: %v after %v", warm.ReadyOn, cold.ReadyOn)
		}
	})
}

// A cover with more gain never lowers survival, and with no gain and no spread changes nothing.
func TestMoreCoverNeverHurts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := testCrop()
		f := field(c, true, someSeason(t))
		p := out(c, climate.SeasonDay(rapid.IntRange(60, 240).Draw(t, "start")))
		bare := f.Play(0, p)
		p.Cover = Cover{Name: "nothing"}
		assert.Equal(t, bare, f.Play(0, p))
		p.Cover = Cover{Name: "a", Gain: rapid.Float64Range(-1, 4).Draw(t, "gain"), Spread: rapid.Float64Range(0, 2).Draw(t, "spread")}
		a := f.Play(0, p)
		p.Cover.Gain += rapid.Float64Range(0, 3).Draw(t, "more")
		if b := f.Play(0, p); b.Lost && !a.Lost || b.ReadyOn > a.ReadyOn {
			t.Fatalf("more cover hurt: %+v, %+v", a, b)
		}
	})
}

// Leaving out one season moves a share by at most 1/n.
func TestOneSeasonMovesAShareLittle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := testCrop()
		var seasons []climate.Season
		n := rapid.IntRange(7, 15).Draw(t, "n")
		for range n {
			seasons = append(seasons, someSeason(t))
		}
		p := out(c, climate.SeasonDay(rapid.IntRange(80, 200).Draw(t, "start")))
		all := score(field(c, true, seasons...), p)
		less := score(field(c, true, seasons[1:]...), p)
		for _, d := range []float64{all.Survives.Share - less.Survives.Share, all.Ripens.Share - less.Ripens.Share, all.Succeeds.Share - less.Succeeds.Share} {
			if math.Abs(d) > 1/float64(n)+1e-12 {
				t.Fatalf("moved by %v of %d", d, n)
			}
		}
	})
}

func TestTooFewSeasonsAreNotKnown(t *testing.T) {
	c := testCrop()
	p := out(c, on(time.May, 20))
	s := even(10, 20)
	r := score(field(c, true, s, s, s, s), p)
	assert.False(t, r.Succeeds.Known)
	assert.Equal(t, NotKnown, grade(r.Succeeds, 0.5))
	r = score(field(c, true, s, s, s, s, s), p)
	assert.True(t, r.Succeeds.Known)
	assert.Equal(t, Likely, grade(r.Succeeds, 0.8), "5 of 5 still reaches down to 0.65")
	assert.Equal(t, Sound, grade(r.Succeeds, 0.6))
}
