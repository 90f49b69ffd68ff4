package risk

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"frostward/climate"
	"frostward/climate/night"
	"frostward/climate/site"
)

// Evening is what is known on an evening about the night to come. Any of it may be
// NaN or not known.
type Evening struct {
	Forecast   float64 // minimum forecast for the station, °C
	Tmax       float64 // the day's maximum at the station, °C
	Noon       float64 // temperature at noon, °C
	NoonDew    float64 // dew point at noon, °C
	Reading    float64 // at the spot, two hours after sunset, °C
	DewPoint   float64 // then, °C
	Later      float64 // at the spot, later, °C
	LaterHours float64 // how many hours after sunset
	Cloud      night.Cloud
	Wind       night.Wind
	Length     float64 // from sunset to sunrise, hours
}

// NewEvening returns an evening of which nothing is known.
func NewEvening() Evening {
	n := math.NaN()
	return Evening{n, n, n, n, n, n, n, n, night.CloudUnknown, night.WindUnknown, n}
}

// radiation says whether the night is known to be clear and still.
func (e Evening) radiation() bool {
	return (e.Cloud == night.Clear || e.Cloud == night.Little) && (e.Wind == night.Calm || e.Wind == night.Light)
}

// PastNight is an evening of the garden log with what came of it.
type PastNight struct {
	Evening
	Day   climate.SeasonDay // of the morning
	Came  float64           // minimum at the spot, without cover, °C; NaN where not logged
	Usual Usual             // for that date
}

// TonightIn is all that a night's outlook at one spot rests on.
type TonightIn struct {
	Evening
	Day   climate.SeasonDay // of the morning
	Usual Usual             // for the date, at the spot
	Spot  site.Model
	Past  []PastNight // of the same spot, in order of dates, with forecasts of the same lead
	Lead  int         // nights before it at the time of the forecast: 0 for the night to come
}

// MethodKind is a way to a night's minimum.
type MethodKind int

// The ways, and where they are from.
const (
	ByForecast  MethodKind = iota // a forecast, corrected by its past errors
	ByMcKenzie                    // night.McKenzie
	ByCraddock                    // night.CraddockPritchard
	ByFAO                         // night.FitFAO, of this spot's own nights
	ByCooling                     // night.SquareRootMin, from two readings
	ByUsualDate                   // the minimum usual for the date
)

// Lack is what a method lacks to have a say; the zero value is nothing.
type Lack int

// What a method may lack.
const (
	LacksNothing     Lack = iota
	LacksForecast         // a forecast
	LacksAfternoon        // maximum, dew point, cloud and wind
	LacksNoon             // temperature and dew point at noon, cloud and wind
	LacksEvening          // temperature and dew point two hours after sunset
	LacksTwoReadings      // one two hours after sunset, and one at least an hour later
	LacksClearStill       // a night known to be clear and still
	LacksNights           // enough fit nights in the log: Method.Fault says how many
	LacksLaterInTime      // the later reading between three hours after sunset and sunrise
	LacksSeasons          // enough seasons of record for the date
	LacksNeed             // there is a better method
)

// Method is one way to the night's minimum at the spot.
type Method struct {
	Kind    MethodKind
	Said    float64 // its own number, °C: for the station's screen, or for the spot
	Station bool    // Said is for the station
	Tmin    float64 // at the spot, corrected by its past errors, °C
	SD      float64 // of what comes about Tmin, °C
	Open    float64 // the part of SD that more logged nights would take away, °C
	Weight  float64 // its share in the outlook, 0 to 1
	Nights  int     // of the log that it has learned from
	Seasons int     // of record that the usual minimum rests on
	Lack    Lack    // why it has no say
	Fault   error   // of the log, where Lack is LacksNights
}

// Tonight is the outlook for a night's minimum at a spot. The zero value is not known.
type Tonight struct {
	Known   bool
	Tmin    float64 // °C
	SD      float64 // of what comes about it, °C
	Open    float64 // the part of it that more logged nights would take away, °C
	Methods []Method
}

// together is the correlation assumed between the errors of any two methods: the cloud
// that comes up unforeseen surprises all of them. Stated, without a source; a garden's
// log is too short to tell it.
const together = 0.5

// Foresee puts the methods together, each corrected by its own past errors, weighted
// so that the error left is least (night.Combine). The usual minimum for the date has
// a say only where no method has: elsewhere it is in each method's correction.
func Foresee(in TonightIn) Tonight {
	ms := []Method{in.forecast(), in.mckenzie(), in.craddock(), in.fao(), in.cooling()}
	var use []int
	for i, m := range ms {
		if m.Lack == LacksNothing {
			use = append(use, i)
		}
	}
	usual := in.usual()
	if len(use) == 0 && usual.Lack == LacksNothing {
		use = append(use, len(ms))
	} else if usual.Lack == LacksNothing {
		usual.Lack = LacksNeed
	}
	ms = append(ms, usual)
	t := Tonight{Methods: ms, Known: len(use) > 0}
	if !t.Known {
		return t
	}
	cov := mat.NewSymDense(len(use), nil)
	for i, a := range use {
		for j, b := range use[:i+1] {
			v := ms[a].SD * ms[b].SD
			if i != j {
				v *= together
			}
			cov.SetSym(i, j, v)
		}
	}
	var weights []float64
	weights, t.SD = night.Combine(cov)
	for i, a := range use {
		m := &ms[a]
		m.Weight = weights[i]
		t.Tmin += m.Weight * m.Tmin
		t.Open += m.Weight * m.Open
	}
	return t
}

// ChanceOf is the chance of a night with its 90 % interval, which is how far it may
// move once more nights are logged.
type ChanceOf struct{ Share, Low, High float64 }

// AtOrBelow returns the chance that the night's minimum, with what a cover gains, is at
// or below a limit in °C. The error is taken as normal.
func (t Tonight) AtOrBelow(limit float64, c Cover) ChanceOf {
	mean, sd := t.Tmin+c.Gain, math.Hypot(t.SD, math.Hypot(c.Spread, c.Between))
	within := math.Sqrt(max(0.01, sd*sd-t.Open*t.Open))
	move := distuv.UnitNormal.Quantile(0.5+climate.Level/2) * t.Open
	return ChanceOf{distuv.UnitNormal.CDF((limit - mean) / sd), distuv.UnitNormal.CDF((limit - mean - move) / within), distuv.UnitNormal.CDF((limit - mean + move) / within)}
}

// Interval returns the temperatures that the minimum is between in 9 nights of 10, °C.
func (t Tonight) Interval() (low, high float64) {
	half := distuv.UnitNormal.Quantile(0.5+climate.Level/2) * t.SD
	return t.Tmin - half, t.Tmin + half
}
