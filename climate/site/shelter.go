package site

import (
	"math"

	"frostward/climate"
)

// Shelter is what a roof of glass or film, a sheet or a wall adds to the garden's air, by night and by day.
// Each figure holds for an unheated one, and differs from one structure to the next.
type Shelter struct {
	Gain    float64 // °C: mean gain of the night's minimum
	Cold    float64 // °C: the same on nights of 2 °C or less outside; between that and 5 °C it passes from the one to the other
	Between float64 // °C: standard deviation of the night's gain from one structure to another
	Night   float64 // °C: from night to night
	Bed     bool    // the night's gain is over an open bed's minimum; else over the garden's screen
	Day     float64 // the day's mean gain as a multiple of DayGain
	DaySD   float64 // standard deviation of its logarithm from one structure to another
	Source  string
}

// The shelters. Sources as read: Savage 1980 (Agrochemophysica 12, 5-13: a single polythene tunnel,
// +1.3 by night, none under 0.5 on 10 frosts); Ogden and van Iersel 2009 and Ogden et al. 2011 (Acta
// Hort. 893: tunnels in Georgia gave no protection unheated, leaves colder on clear nights); HortScience
// 54(2):267, 2019 (0 to +3.0 by month); Hemphill 1988 (spunbonded +0.5 and +1.8 by night); Bucki and Siwek
// 2021 (fleece 20 g/m2, daily mean +2.1); Acta Hort. 187, 1986 (sheets with 4 % of holes +1.5 by night, mean +2).
// The polytunnel's own record is a private one in Britain, 624 nights of 2021 to 2023: +0.3 by night with
// a standard deviation of 0.6, and +0.02 on its 100 nights of 2 °C or less.
var (
	tunnel = Shelter{Gain: 0.3, Cold: 0, Between: 0.7, Night: 0.6, Day: 1, DaySD: 0.5,
		Source: "a British polytunnel, 624 nights (+0.3, nothing at 2 °C or less) and two springs of days; Savage 1980; Ogden & van Iersel 2009"}
	glasshouse = Shelter{Gain: 0.7, Cold: 0.4, Between: 0.8, Night: 0.6, Day: 1, DaySD: 0.5,
		Source: "no measurement found: judgement, 0.4 °C above the polytunnel's night and its day"}
	coldFrame = Shelter{Gain: 0.8, Cold: 0.5, Between: 1, Night: 1.5, Day: 1, DaySD: 0.5,
		Source: "a frame in Minnesota, March to May (+0.3 by night with a spread of 2.2, mean of the day +4.8 when shut); aired by day: judgement"}
	cloche = Shelter{Gain: 0.6, Cold: 0.6, Between: 0.8, Night: 0.8, Bed: true, Day: 0.8, DaySD: 0.5,
		Source: "sheets with holes (Acta Hort. 187, 1986), bottle cloches in Michigan (slightly below 0): judgement between them"}
	fleeceOver = Shelter{Gain: 1.1, Cold: 1.1, Between: 0.7, Night: 0.8, Bed: true, Day: 0.8, DaySD: 0.4,
		Source: "Hemphill 1988 (+0.5 and +1.8 by night); Bucki & Siwek 2021 (mean of the day +2.1)"}
)

// DayGain is by how much the mean of a day inside a polytunnel is above the mean of its extremes outside, °C,
// with the vents opened as a grower does: 0.222 S / (1 + 0.162 (Tmax - 15)) with S the day's sun in
// MJ/m2 by Hargreaves' formula (FAO-56 eq. 50). Fitted to a British polytunnel, Apr 2022 to May 2023,
// against a screened station: months left out are met to 0.57 °C (root mean square).
func DayGain(tmin, tmax, ra float64) float64 { return 0.222 * vented(tmin, tmax, ra, 0.162) }

// maxGain is the same of the maximum at the plants, by an unshaded thermometer: 0.878 S / (1 + 0.161 (Tmax - 15)), with
// a standard deviation of maxGainSD from day to day.
func maxGain(tmin, tmax, ra float64) float64 { return 0.878 * vented(tmin, tmax, ra, 0.161) }

// maxGainSD is the standard deviation of a day's maximum inside about maxGain, °C.
const maxGainSD = 3.2

func vented(tmin, tmax, ra, c float64) float64 {
	return climate.Inland * ra * math.Sqrt(max(0.5, tmax-tmin)) / (1 + c*max(0, tmax-15))
}

// warmer is what a night's warmth outside leaves of the part of the gain that cold nights lack: 0 at
// 2 °C or less, 1 from 5 °C.
func warmer(tmin float64) float64 { return max(0, min(1, (tmin-2)/3)) }

// lasting are the shares of the nights' variance that last: see departures.
type lasting struct {
	season, slow, fast float64
	log                float64 // what the readings of one spring have in common
	flat               bool    // a night's spread is the same whatever the sky
}

var (
	// Fitted to the autocorrelation of what the line leaves at 12 German stations and KNMI 283 (0.21,
	// 0.14, 0.12, 0.09 and 0.06 at 1, 5, 12, 30 and 80 nights) and the pairs (0.26, 0.16, 0.12, 0.10, 0.06).
	outdoors = lasting{season: 0.07, slow: 0.10, fast: 0.10, log: 0.115}
	// The polytunnel's: 0.66, 0.55, 0.46 and 0.30 at 1, 2, 3 and 7 nights, so that ten nights in a row are worth
	// about two.
	sheltered = lasting{season: 0.10, slow: 0.35, fast: 0.40, log: 0.45, flat: true}
)
