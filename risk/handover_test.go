package risk

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
)

func TestWhenABedIsFree(t *testing.T) {
	c := testCrop()
	start := on(time.May, 20)
	s := even(10, 20)
	f := field(c, true, s).Play(0, out(c, start))
	assert.Equal(t, float64(start+39+30), f.freeOn(), "40 days to ripen, then 30 of picking")
	set(s, start+5, -1)
	assert.Equal(t, float64(start+5), field(c, true, s).Play(0, out(c, start)).freeOn(), "the day it is lost")
	s = even(10, 20)
	set(s, start+39+10, -1)
	assert.Equal(t, float64(start+39+10), field(c, true, s).Play(0, out(c, start)).freeOn(), "frost ends the picking")
	assert.True(t, math.IsNaN(Outcome{}.freeOn()))
	cold := field(c, true, even(2, 9)).Play(0, out(c, start))
	assert.Equal(t, float64(climate.SpanTo), cold.freeOn(), "never ripe, never killed: it stands to the end")
}

// Five seasons in which the first crop leaves on known days: the bed is free on 1 July in
// three of them, on 11 July in one, and one is not known.
func TestHandOver(t *testing.T) {
	c := testCrop()
	july := on(time.July, 1)
	e := climate.Ensemble{Latitude: 52}
	var outcomes []Outcome
	for i := range 6 {
		e.Seasons = append(e.Seasons, even(10, 20))
		e.Seasons[i].Year = 2001 + i
		outcomes = append(outcomes, Outcome{Known: true, EndsOn: july})
	}
	e.Rests = 6
	outcomes[3].EndsOn = july + 10
	outcomes[5] = Outcome{}
	first := Planting{Name: "peas", Crop: c, Start: on(time.March, 20)}
	next := out(c, on(time.July, 1))
	h := HandOver(e, first, outcomes, next, 0)
	assert.Equal(t, 0.8, h.InTime.Share)
	assert.Equal(t, 1, h.InTime.LeftOut)
	assert.Equal(t, july.OrNever(), h.Free[1].Value)
	assert.Equal(t, 0.8, HandOver(e, first, outcomes, next, 9).InTime.Share, "9 days of overlap are one too few")
	assert.Equal(t, 1.0, HandOver(e, first, outcomes, next, 10).InTime.Share)

	f := NewField(e, c, true, 1)
	a := AssessAfter(f, next, Fleece, 0.5, &h)
	assert.Equal(t, july+39, a.Result.Outcomes[0].ReadyOn)
	assert.Equal(t, f.Play(3, next.At(next.Start+10)), a.Result.Outcomes[3], "played from the day the bed is free")
	assert.False(t, a.Result.Outcomes[5].Known)
	assert.Equal(t, WaitCost{}, h.Cost(a.Result), "one late year in five costs this crop nothing")
}

// Ten seasons: in four the first crop is lost on 10 May, in six it is picked and leaves on 1 July. That the bed is
// free early after a loss says nothing of when the crop leaves it.
func TestHandOverOfWhatLived(t *testing.T) {
	c := testCrop()
	e := climate.Ensemble{Latitude: 52, Rests: 10}
	july := on(time.July, 1)
	outcomes := make([]Outcome, 10)
	for i := range outcomes {
		e.Seasons = append(e.Seasons, even(10, 20))
		e.Seasons[i].Year = 2001 + i
		outcomes[i] = Outcome{Known: true, Ripens: true, ReadyOn: july - 20, EndsOn: july}
		if i < 4 {
			outcomes[i] = Outcome{Known: true, Lost: true, KilledOn: on(time.May, 10), EndsOn: climate.NeverDay}
		}
	}
	first := Planting{Name: "peas", Crop: c, Start: on(time.March, 20)}
	h := HandOver(e, first, outcomes, out(c, july), 0)
	assert.Equal(t, 0.6, h.Picked.Share)
	assert.Equal(t, 1.0, h.InTime.Share)
	for _, q := range h.Leaves {
		assert.Equal(t, float64(july), q.Value)
	}
	assert.Equal(t, float64(on(time.May, 10)), h.Free[0].Value)

	// A bed that is hardly ever free by the planned day makes no planting sound or likely, however well it does.
	for i := range outcomes[:4] {
		outcomes[i] = outcomes[9]
	}
	early := out(c, july-10)
	h = HandOver(e, first, outcomes, early, 0)
	a := AssessAfter(NewField(e, c, true, 1), early, Fleece, 0.5, &h)
	assert.Equal(t, 1.0, a.Result.Succeeds.Share)
	assert.Equal(t, TooEarly, a.Verdict)
	last := a.Reasons()[len(a.Reasons())-1]
	assert.Equal(t, Reason{Kind: BedTaken, Day: july}, last)
	h.InTime.Share = seldomFree
	assert.False(t, (&Assessment{Handover: &h}).bedTaken(), "one season in twenty is enough")
}

// A planting of the year after follows the one of the season before it.
func TestHandOverToTheYearAfter(t *testing.T) {
	e := climate.Ensemble{Latitude: 52}
	var outcomes []Outcome
	for i := range 4 {
		e.Seasons = append(e.Seasons, even(10, 20))
		e.Seasons[i].Year = 2001 + i
		outcomes = append(outcomes, Outcome{Known: true, EndsOn: climate.SeasonDay(400 + i)})
	}
	e.Seasons[3].Year = 2010 // a gap between records
	leeks := Planting{Name: "leeks", Start: 150}
	h := HandOver(e, leeks, outcomes, Planting{Start: 60}, 0)
	assert.Equal(t, []float64{35, 36}, h.On[1:3])
	assert.True(t, math.IsNaN(h.On[0]) && math.IsNaN(h.On[3]))
	assert.Equal(t, float64(400), HandOver(e, leeks, outcomes, Planting{Start: 150}, 0).On[0], "on one day: of the same season")
	assert.True(t, math.IsNaN(HandOver(e, leeks, outcomes, Planting{Start: 149}, 0).On[0]), "a day before: of the next")
	spliced := e
	spliced.Seasons = make([]climate.Season, 4)
	for i := range spliced.Seasons {
		spliced.Seasons[i].Year = 2026 // four ways in which one season may go on
	}
	assert.Equal(t, []float64{35, 36, 37, 38}, HandOver(spliced, leeks, outcomes, Planting{Start: 60}, 0).On)
	e.By = climate.ByWeather
	assert.Equal(t, []float64{35, 36, 37, 38}, HandOver(e, leeks, outcomes, Planting{Start: 60}, 0).On)
}

func TestBedNeverFree(t *testing.T) {
	c := testCrop()
	f := field(c, true, even(10, 20))
	outcome := f.playAfter(0, out(c, 150), float64(climate.SpanTo))
	assert.True(t, outcome.Known)
	assert.False(t, outcome.Lost || outcome.Ripens)
	assert.False(t, f.playAfter(0, out(c, 150), math.NaN()).Known)
	assert.Equal(t, f.Play(0, out(c, 150)), f.playAfter(0, out(c, 150), 150))
	assert.Equal(t, f.Play(0, out(c, 151)), f.playAfter(0, out(c, 150), 150.5), "from the first whole day")
}

// A handover never makes the follower start earlier than planned or than the bed is free, and
// in a season without damaging nights never makes it ready earlier.
func TestHandoverNeverHurries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := testCrop()
		c.SetBackHardened, c.KillHardened, c.Chill = fact(-50), fact(-50), fact(-50)
		f := field(c, true, someSeason(t))
		p := out(c, climate.SeasonDay(rapid.IntRange(60, 240).Draw(t, "start")))
		free := float64(rapid.IntRange(0, 400).Draw(t, "free"))
		alone, after := f.Play(0, p), f.playAfter(0, p, free)
		require.GreaterOrEqual(t, after.ReadyOn, alone.ReadyOn)
		require.GreaterOrEqual(t, after.ReadyOn.OrNever(), free)
		later := f.playAfter(0, p, free+float64(rapid.IntRange(0, 60).Draw(t, "later")))
		require.GreaterOrEqual(t, later.ReadyOn, after.ReadyOn)
	})
}

// The days of picking and clearing rest on at least climate.MinSeasons seasons that succeed.
func TestWhenItSucceedsNeedsSeasons(t *testing.T) {
	var r Result
	for range climate.MinSeasons - 1 {
		r.Outcomes = append(r.Outcomes, Outcome{Known: true, ReadyOn: 200, EndsOn: 230, Ripens: true})
	}
	r.Outcomes = append(r.Outcomes, Outcome{}, Outcome{Known: true, Lost: true, Ripens: true, ReadyOn: 1, EndsOn: 2})
	pick, free := r.WhenItSucceeds()
	assert.True(t, math.IsNaN(pick) && math.IsNaN(free), "one season too few")
	r.Outcomes = append(r.Outcomes, Outcome{Known: true, ReadyOn: 200, EndsOn: 230, Ripens: true})
	pick, free = r.WhenItSucceeds()
	assert.Equal(t, []float64{200, 230}, []float64{pick, free})
}

// A bed free on the planned day, or before it, costs nothing; a part of a day counts as a day; a
// bed that is free on the last day of the span is still planted, one free after it never.
func TestPlayAfterAtItsEnds(t *testing.T) {
	f := field(testCrop(), true, even(10, 20))
	p := out(testCrop(), 150)
	for free, want := range map[float64]climate.SeasonDay{149: 150, 150: 150, 150.5: 151, 151: 151} {
		assert.Equal(t, f.Play(0, p.At(want)), f.playAfter(0, p, free), "%g", free)
	}
	assert.Equal(t, f.Play(0, p.At(climate.SpanTo-1)), f.playAfter(0, p, float64(climate.SpanTo-1)))
	assert.Equal(t, Outcome{Known: true, KilledOn: climate.NeverDay, SetBackOn: climate.NeverDay, EmergedOn: climate.NeverDay,
		ReadyOn: climate.NeverDay, EndsOn: climate.SpanTo}, f.playAfter(0, p, float64(climate.SpanTo)))
}

// A planting that succeeds as often as 2 % less is as good; a share less is a cost.
func TestCostOfWaiting(t *testing.T) {
	h := Handover{Alone: Result{Succeeds: climate.Chance{Share: 2 * asGood}, Harvest: make([]climate.Quantile, 3)}}
	after := func(share float64) Result {
		return Result{Succeeds: climate.Chance{Share: share}, Harvest: []climate.Quantile{{}, {Value: 3}, {}}}
	}
	assert.False(t, h.Cost(after(asGood)).Chance)
	assert.True(t, h.Cost(after(asGood-1e-9)).Chance)
	assert.Equal(t, 3.0, h.Cost(after(0.5)).Later)
	h.InTime.Share = 1
	assert.True(t, h.Cost(after(0.5)).Never)
}
