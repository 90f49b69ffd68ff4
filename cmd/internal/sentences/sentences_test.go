package sentences

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/words"
	"frostward/crops"
	"frostward/risk"
	"frostward/risk/replay"
)

var (
	north      = climate.CalendarAt(52)
	celsius    = In{words.In{Calendar: north}}
	fahrenheit = In{words.In{Calendar: north, Units: words.Units{Fahrenheit: true}}}
)

func known(share float64) climate.Chance {
	return climate.Chance{Known: true, Share: share, Low: max(0, share-0.1), High: min(1, share+0.1), Seasons: 30}
}

func TestUnits(t *testing.T) {
	assert.Equal(t, "3 °C", celsius.Degrees(3))
	assert.Equal(t, "-1.5 °C", celsius.Degrees(-1.5))
	assert.Equal(t, "29 °F", fahrenheit.Degrees(-1.5), "29.3")
	assert.Equal(t, 18.0, fahrenheit.Difference(10), "a difference has no zero to move")
	assert.Equal(t, "last spring frost at 32 °F", Event(fahrenheit.Units, replay.LastSpringFrost(0)))
	assert.Equal(t, "last spring frost at -2 °C", Event(celsius.Units, replay.LastSpringFrost(-2)))
}

func TestHandover(t *testing.T) {
	q := func(v float64) climate.Quantile { return climate.Quantile{Known: true, Value: v} }
	start := climate.SeasonDay(181) // 1 July
	h := risk.Handover{Before: "peas", InTime: known(0.8), Free: [3]climate.Quantile{q(181), q(181), q(191)},
		Picked: known(0.9), Leaves: [3]climate.Quantile{q(181), q(183), q(191)}}
	h.Alone.Succeeds, h.Alone.Harvest = known(0.9), []climate.Quantile{q(220), q(221), q(230)}
	after := risk.Result{Planting: risk.Planting{Start: start}, Succeeds: known(0.9), Harvest: []climate.Quantile{q(220), q(224), q(230)}}
	assert.Equal(t, "The bed is free of peas by 1 Jul in 8 years in 10. After a picking of peas, in 9 years in 10, it is free about 3 Jul, by 11 Jul in 9 of 10 such years. The wait makes its picking 3 days later and no less sure.",
		celsius.handover(&h, after))
	after.Succeeds = known(0.6)
	assert.Contains(t, celsius.handover(&h, after), "in a free bed it would succeed in 90 % of the years, not 60 %")
	h.InTime = known(1)
	assert.Contains(t, celsius.handover(&h, after), "It never waits.")
	assert.Equal(t, "When peas leaves the bed is not known.", celsius.handover(&risk.Handover{Before: "peas"}, after))
}

func TestHardening(t *testing.T) {
	h := risk.Hardening{Any: known(0.6), Nights: []risk.HardeningNight{
		{Day: 133, Limit: 1, Harm: known(0.4)}, {Day: 134, Limit: 0.5, Harm: known(0.1)}, {Day: 135, Limit: 0, Harm: known(0)}}}
	h.Inside[0].Value, h.Inside[1].Value = 1, 2
	assert.Equal(t, "On 1 of its 3 nights in a usual year, and on 2 in a bad one (1 in 10), plants so far hardened would be set back "+
		"(at 1.0 °C or below at first, 0.0 °C at last): bring them in then. The worst is the night to 14 May (40 %).", celsius.Hardening(h))
	assert.Contains(t, fahrenheit.Hardening(h), "(at 34 °F or below at first, 32 °F at last)")
	assert.Equal(t, "How cold its nights are is not known.", celsius.Hardening(risk.Hardening{}))
}

// Every kind of reason has its sentence, and none of them a °C where °F is asked for.
func TestReasons(t *testing.T) {
	a := &risk.Assessment{Handover: &risk.Handover{Before: "peas"}, Result: risk.Result{Succeeds: known(0.5), Planting: risk.Planting{Crop: crops.Crop{Chill: crops.Fact{Value: 5}}}}}
	for k := risk.TooFewSeasons; k <= risk.BedTaken; k++ {
		r := risk.Reason{Kind: k, Share: 0.8, ForLight: 0.1, Seasons: 4, Nights: [2]float64{4, 6}, Limit: 5, Day: 150, Days: 12, Cover: "fleece"}
		said := fahrenheit.reason(a, r)
		assert.NotEmpty(t, said, "kind %d", k)
		assert.NotContains(t, said, "°C", "kind %d", k)
	}
	assert.Panics(t, func() { celsius.reason(a, risk.Reason{Kind: risk.BedTaken + 1}) })
	assert.Equal(t, "About 4 nights of its first fortnight are at or below 41 °F, which check it.",
		fahrenheit.reason(a, risk.Reason{Kind: risk.ChilledAtFirst, Nights: [2]float64{4}, Limit: 5}))
	assert.Contains(t, celsius.reason(a, risk.Reason{Kind: risk.BetterDay, Day: 160, Days: 12, Share: 0.9, Sound: true}), "10 Jun, 12 days later, is sound")
	assert.Contains(t, celsius.reason(a, risk.Reason{Kind: risk.BetterDay, Day: 140, Days: -1, Share: 0.9}), "21 May, a day earlier, does better")
	assert.Empty(t, celsius.reason(a, risk.Reason{Kind: risk.CoverWouldSave, Share: 0.52, Nights: [2]float64{4, 6}}), "half the years either way")
}

func TestSpot(t *testing.T) {
	s := site.Summary{Clear: site.Gap{Mean: -3.1}, Dull: site.Gap{Mean: 0.02}, Used: 30}
	assert.Equal(t, "on clear nights this spot is 3.1 °C colder than the station, on overcast or windy ones as cold (30 mornings)", Spot(celsius.Units, "this spot", s))
	assert.Contains(t, Spot(fahrenheit.Units, "the bed", s), "the bed is 5.6 °F colder than the station")
	s.Used, s.Prior = 0, site.OpenBed
	assert.Contains(t, Spot(celsius.Units, "it", s), "no mornings logged yet: taken as usual for an open bed")
	assert.Equal(t, "this spot is the station", Spot(celsius.Units, "this spot", site.Summary{Prior: site.AtStation}))
}

func TestTogether(t *testing.T) {
	all := risk.Together{Every: known(0.3), NineInTen: known(0.6), Fail: climate.Quantile{Known: true, Value: 2}, Pair: [2]int{0, 2}, PairFails: known(0.2)}
	labels := []string{"beans", "kale", "squash"}
	assert.Equal(t, []string{"In a bad year (1 in 10) 2 or more of 3 fail.", "Most often together fail beans and squash: both in 2 years in 10.",
		"The night of the record that would have killed the most was that to 12 May 1997: beans and kale."}, Together(all, labels, climate.NewDay(1997, 5, 12), labels[:2]))
	assert.Empty(t, Together(risk.Together{}, labels, 0, nil))
}

// Every way to a night's minimum, every lack of one, and every season that is not played has its words.
func TestEveryValueHasWords(t *testing.T) {
	for k := risk.ByForecast; k <= risk.ByUsualDate; k++ {
		assert.NotEmpty(t, Method(k), "method %d", k)
	}
	assert.Empty(t, NoSay(risk.Method{}))
	for l := risk.LacksForecast; l <= risk.LacksNeed; l++ {
		assert.NotEmpty(t, NoSay(risk.Method{Lack: l, Fault: errors.New("9 nights; wanted 10")}), "lack %d", l)
	}
	assert.Equal(t, "the record has 4 seasons for the date; wanted 5", NoSay(risk.Method{Lack: risk.LacksSeasons, Seasons: 4}))
	assert.Equal(t, "the log has 9 nights; wanted 10", NoSay(risk.Method{Lack: risk.LacksNights, Fault: errors.New("9 nights; wanted 10")}))
	for w := risk.DaysMissing; w <= risk.DiedBefore; w++ {
		assert.NotEmpty(t, NotPlayed(w), "reason %d", w)
	}
	assert.Equal(t, "the station less 2 °C", SpotWay(replay.SpotScore{Way: replay.ByStation, Less: 2, Mornings: -1}))
	assert.Equal(t, "usual for the kind and place, nothing logged", SpotWay(replay.SpotScore{Way: replay.ByLog}))
	assert.Equal(t, "10 mornings of one spring logged", SpotWay(replay.SpotScore{Way: replay.ByLog, Mornings: 10}))
	assert.Equal(t, "the spot's own record", SpotWay(replay.SpotScore{Way: replay.ByOwnRecord, Mornings: -1}))
}
