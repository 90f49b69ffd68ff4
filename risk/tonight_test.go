package risk

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/night"
	"frostward/climate/site"
)

func usualFive() Usual { return Usual{Low: 5, SD: 3, Tmax: 15, Seasons: 20} }

func TestForeseeFallsBackOnTheUsual(t *testing.T) {
	in := TonightIn{Evening: NewEvening(), Day: 120, Usual: usualFive(), Spot: site.PriorModel(site.OpenBed)}
	w := Foresee(in)
	require.True(t, w.Known)
	require.InDelta(t, 5, w.Tmin, 1e-9)
	require.InDelta(t, 3, w.SD, 1e-9)
	for _, m := range w.Methods {
		if m.Weight == 0 {
			require.NotEqual(t, LacksNothing, m.Lack, m.Kind)
		}
	}
	// By hand: (0-5)/3 = -1.6667, Phi = 0.0478.
	require.InDelta(t, 0.0478, w.AtOrBelow(0, Cover{}).Share, 5e-5)

	in.Usual.Seasons = 4
	w = Foresee(in)
	require.False(t, w.Known)
	require.Equal(t, LacksSeasons, w.Methods[len(w.Methods)-1].Lack)
}

func TestForeseeAtTheStation(t *testing.T) {
	in := TonightIn{Evening: NewEvening(), Day: 120, Usual: usualFive()}
	in.Forecast = 2
	w := Foresee(in)
	// The zero model is the station: nothing logged, the forecast stands as it is. Its
	// spread by hand: sqrt(1.8^2 + 0.5^2 + (0.1*3)^2) = 1.8921.
	require.InDelta(t, 2, w.Tmin, 1e-9)
	require.InDelta(t, 1.8921, w.SD, 1e-4)
	require.Equal(t, 1.0, w.Methods[0].Weight)
	low, high := w.Interval()
	require.InDelta(t, 2-1.645*1.8921, low, 1e-3)
	require.InDelta(t, 2+1.645*1.8921, high, 1e-3)
}

// A forecast that has been 3 °C too warm for the bed in logged nights is taken down.
func TestForeseeLearnsFromTheLog(t *testing.T) {
	in := TonightIn{Evening: NewEvening(), Day: 120, Usual: usualFive(), Spot: site.PriorModel(site.OpenBed)}
	in.Forecast, in.Tmax = 3, 14
	before := Foresee(in)
	for i := range 30 {
		p := PastNight{Evening: NewEvening(), Day: climate.SeasonDay(80 + i), Usual: usualFive()}
		p.Forecast, p.Tmax = float64(i%7), 14
		p.Came = in.Spot.Mean(stationNight(p.Forecast, p.Evening, p.Usual, p.Day)) - 3
		in.Past = append(in.Past, p)
	}
	after := Foresee(in)
	require.InDelta(t, before.Tmin-3, after.Tmin, 0.6)
	require.Less(t, after.Open, before.Open)
	require.Equal(t, 30, after.Methods[0].Nights)
	// Only the latest 60 are looked back on.
	for range 100 {
		in.Past = append(in.Past, in.Past[0])
	}
	require.Equal(t, recall, Foresee(in).Methods[0].Nights)
}

func TestEveningMethods(t *testing.T) {
	in := TonightIn{Evening: NewEvening(), Day: 120, Usual: usualFive(), Spot: site.PriorModel(site.OpenBed)}
	in.Tmax, in.DewPoint, in.Reading = 15, 2, 6
	in.Cloud, in.Wind = night.Clear, night.Calm
	in.Later, in.LaterHours, in.Length = 3.5, 5, 10
	for i := range 12 {
		p := PastNight{Evening: NewEvening(), Day: 100, Usual: usualFive()}
		p.Reading, p.DewPoint, p.Cloud, p.Wind = float64(i%5)+2, float64(i%3), night.Little, night.Light
		p.Came = p.Reading/2 - 5
		in.Past = append(in.Past, p)
	}
	w := Foresee(in)
	by := map[MethodKind]Method{}
	sum := 0.0
	for _, m := range w.Methods {
		by[m.Kind] = m
		sum += m.Weight
	}
	require.InDelta(t, 1, sum, 1e-9)
	// By hand: (15+2)/2 - 8.5 = 0 for the screen, and colder at the bed.
	require.InDelta(t, 0, by[ByMcKenzie].Said, 1e-9)
	require.Less(t, by[ByMcKenzie].Tmin, -1.0)
	require.True(t, by[ByMcKenzie].Station)
	// By hand: the nights lie on reading/2 - 5.
	require.InDelta(t, -2, by[ByFAO].Said, 1e-6)
	require.Equal(t, 12, by[ByFAO].Nights)
	// By hand: 6 + (3.5-6)*sqrt(8/3) = 1.918.
	require.InDelta(t, 1.918, by[ByCooling].Said, 5e-4)
	require.Equal(t, LacksForecast, by[ByForecast].Lack)
	require.Equal(t, LacksNoon, by[ByCraddock].Lack)

	in.Wind = night.Brisk
	for _, m := range Foresee(in).Methods {
		if m.Kind == ByFAO || m.Kind == ByCooling {
			require.Equal(t, LacksClearStill, m.Lack)
		}
	}
	in.Wind, in.Past = night.Calm, in.Past[:9]
	for _, m := range Foresee(in).Methods {
		if m.Kind == ByFAO {
			require.Equal(t, LacksNights, m.Lack)
			require.EqualError(t, m.Fault, "9 clear, still nights with evening reading, dew point and minimum; wanted 10")
		}
	}
}

func TestUsualAt(t *testing.T) {
	e := climate.Ensemble{Seasons: []climate.Season{climate.NewSeason(2001), climate.NewSeason(2002), climate.NewSeason(2003)}}
	for i, s := range e.Seasons[:2] {
		for d := range s.Tmin {
			s.Tmin[d], s.Tmax[d] = float64(10*i), 20
		}
	}
	u := UsualAt(e, 120)
	// By hand: 15 nights at 0 and 15 at 10: mean 5, s.d. 5*sqrt(30/29).
	require.InDelta(t, 5, u.Low, 1e-9)
	require.InDelta(t, 5*math.Sqrt(30.0/29), u.SD, 1e-9)
	require.Equal(t, 2, u.Seasons)
	require.Equal(t, 20.0, u.Tmax)
	require.Equal(t, u, UsualAt(e, 120-climate.YearDays), "the same date a year before")
	require.True(t, math.IsNaN(UsualAt(climate.Ensemble{}, 120).Low))
}

// Laws of the chances: colder limits are less likely, a warmer night and more cover
// lower every chance, and the interval holds the share.
func TestChanceLaws(t *testing.T) {
	w := Tonight{Known: true, Tmin: 1, SD: 2, Open: 0.7}
	last := 0.0
	for limit := -6.0; limit < 8; limit += 0.5 {
		c := w.AtOrBelow(limit, Cover{})
		require.Greater(t, c.Share, last)
		require.LessOrEqual(t, c.Low, c.Share+0.02)
		require.GreaterOrEqual(t, c.High, c.Share-0.02)
		require.Less(t, c.Low, c.High)
		last = c.Share
		require.Less(t, w.AtOrBelow(limit, Cover{Gain: 2, Spread: 1}).Share, w.AtOrBelow(limit, Cover{Gain: 1, Spread: 1}).Share)
		warmer := w
		warmer.Tmin++
		require.Less(t, warmer.AtOrBelow(limit, Cover{}).Share, c.Share)
	}
	// A cover's own uncertainty can make matters worse on a night well above the limit.
	mild := Tonight{Known: true, Tmin: 6, SD: 1}
	require.Greater(t, mild.AtOrBelow(0, Cover{Gain: 0.1, Spread: 3}).Share, mild.AtOrBelow(0, Cover{}).Share)
}

func TestAdvise(t *testing.T) {
	costs := NightCosts{Cover: 0.3, BringIn: 0.5, SetBack: 2, Lost: 8}
	x := Exposed{Label: "courgettes", SetBack: 0, Kill: -1}
	covers := []Cover{Fleece}

	warm := Tonight{Known: true, Tmin: 8, SD: 1.5}.Advise(x, covers, costs)
	require.Equal(t, Leave, warm.Do().Action)
	cold := Tonight{Known: true, Tmin: -0.5, SD: 1.5}.Advise(x, covers, costs)
	require.Equal(t, LayCover, cold.Do().Action)
	require.Less(t, cold.Do().Killed.Share, cold.Choices[0].Killed.Share)
	// Far below what fleece can do, it is not worth laying.
	bitter := Tonight{Known: true, Tmin: -9, SD: 1.5}.Advise(x, covers, costs)
	require.Equal(t, Leave, bitter.Do().Action)
	x.Movable = true
	require.Equal(t, BringIn, Tonight{Known: true, Tmin: -9, SD: 1.5}.Advise(x, covers, costs).Do().Action)
	x.Movable = false
	require.Equal(t, Leave, Tonight{Known: true, Tmin: -0.5, SD: 1.5}.Advise(x, nil, costs).Do().Action)
	require.Equal(t, 1.0, Tonight{Known: true, Tmin: -0.5, SD: 1.5}.Advise(x, nil, costs).BreakEven)
}

// With a perfect cover and one kind of damage, the break-even chance is cost/loss, and the
// advice turns exactly there (Murphy 1977).
func TestBreakEvenIsCostOverLoss(t *testing.T) {
	x := Exposed{SetBack: 0, Kill: 0}
	perfect := []Cover{{Name: "perfect", Gain: 60}}
	for _, ratio := range []float64{0.02, 0.1, 0.3, 0.6, 0.9} {
		costs := NightCosts{Cover: ratio, SetBack: 1, Lost: 1}
		for low := -4.0; low < 6; low += 0.5 {
			a := Tonight{Known: true, Tmin: low, SD: 1.5}.Advise(x, perfect, costs)
			require.InDelta(t, ratio, a.BreakEven, 1e-4)
			require.Equal(t, a.Choices[0].Damaged.Share > ratio, a.Do().Action == LayCover, "ratio %v, %v °C", ratio, low)
		}
	}
}

// A night of -0.5 °C, give or take 1.5 °C, for courgettes that are set back at 0 and killed
// at -1 °C: fleece is worth its work from 12 % of harm. By hand: Phi(1/3) = 0.63,
// Phi(-1/3) = 0.37, 8*0.37 + 2*0.26 = 3.48 hours.
func ExampleTonight_Advise() {
	courgettes := Exposed{Label: "courgettes", SetBack: 0, Kill: -1}
	costs := NightCosts{Cover: 0.3, SetBack: 2, Lost: 8}
	a := Tonight{Known: true, Tmin: -0.5, SD: 1.5}.Advise(courgettes, []Cover{Fleece}, costs)
	for _, c := range a.Choices {
		fmt.Printf("%-5v  harm %.2f  killed %.2f  hours %.2f\n", c.Action, c.Damaged.Share, c.Killed.Share, c.hours())
	}
	fmt.Printf("do: %v; worth it from %.2f\n", a.Do().Action, a.BreakEven)
	// Output:
	// leave  harm 0.63  killed 0.37  hours 3.48
	// cover  harm 0.37  killed 0.19  hours 2.20
	// do: cover; worth it from 0.16
}

// Forecasts further ahead err by more, but never by more than the usual of the date does.
func TestForecastErrorsByLead(t *testing.T) {
	const usual = 3.5
	last, lastDrawn := 0.0, -1.0
	for lead := range 11 {
		spread, overdone := forecastErrors(lead, usual)
		require.Greater(t, spread, last)
		require.GreaterOrEqual(t, overdone, lastDrawn)
		require.LessOrEqual(t, overdone, 1.0)
		require.LessOrEqual(t, spread, math.Hypot(ForecastSpread, usual))
		last, lastDrawn = spread, overdone
		if lead == 0 {
			require.Equal(t, ForecastSpread, spread)
			require.Zero(t, overdone)
		}
	}
}
