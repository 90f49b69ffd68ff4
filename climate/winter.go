package climate

import "math"

// Hardening returns how far a plant that can harden is hardened by the weather, day by day of
// a season from the day of an index on, on which it is not hardened: 0 not at all, 1 by ten days of 0 to 8 °C, up to
// 2 after frost. dst is used for the result when it is long enough. A day that is missing changes nothing.
//
// The form is that of winter wheat (Ritchie 1991, in Modeling Plant and Soil Systems, as seen
// in the code of a crop model; the 506 from memory), taken over to vegetables, for which it is
// untested: with a mean of -1 to 8 °C it gains 0.1 - (T-3.5)²/506 a day; once at 1, 0.083 a day
// of 0 °C or below; a maximum above 10 °C takes 0.02 a degree, twice that at 1 and more.
func Hardening(dst []float64, s Season, from int) []float64 {
	n := len(s.Tmin)
	if cap(dst) < n {
		dst = make([]float64, n)
	}
	dst = dst[:n]
	h := 0.0
	lows, highs := s.Air()
	clear(dst[:from])
	for i := from; i < n; i++ {
		h = Harden(h, lows[i], highs[i])
		dst[i] = h
	}
	return dst
}

// Harden is a day's step of Hardening.
func Harden(h, tmin, tmax float64) float64 {
	const almost = 1 - 1e-9 // ten tenths are a hair below 1
	m := (tmin + tmax) / 2
	if m != m {
		return h
	}
	switch {
	case h > almost && m <= 0:
		h += 0.083
	case m >= -1 && m <= 8:
		h += 0.1 - (m-3.5)*(m-3.5)/506
	}
	if over := tmax - 10; over > 0 {
		lost := 0.02 * over
		if h > almost {
			lost *= 2
		}
		h -= lost
	}
	return min(max(h, 0), 2)
}

// What GroundTemperatures follows: the share of the way that bare soil 5 to 10 cm deep goes in a
// day towards the air's mean, fitted to Cork's soil at 10 cm from November to March (residual
// 0.7 °C; Dublin 0.46 and 1.1), and a fifth of that where water has to freeze (after Rankinen
// et al. 2004, from memory and unchecked).
const (
	groundShare = 0.56
	frozenShare = 0.2
	mulchShare  = 0.06 // a cm: k times exp(-0.06 cm) under snow or straw; after Rankinen et al. 2004, likewise
)

// GroundTemperatures returns the temperature of soil a hand deep through a season, in °C, for each
// day, such as roots and cloves meet it: bare, or under a mulch so many cm thick, and under what snow there is. It follows the air; SoilTemperatures, which is
// for seed beds, has a surface that snow and ice keep from freezing and says nothing of frost.
// NaN where the air is not known.
func GroundTemperatures(dst []float64, s Season, mulch float64) []float64 {
	n := len(s.Tmin)
	if cap(dst) < n {
		dst = make([]float64, n)
	}
	dst = dst[:n]
	t := math.NaN()
	lows, highs := s.Air()
	for i := range dst {
		air := (lows[i] + highs[i]) / 2
		if dst[i] = math.NaN(); air != air {
			continue
		}
		if t != t {
			t = air
		}
		t += groundStep(t, air, s.Under(i, mulch)) * (air - t)
		dst[i] = t
	}
	return dst
}

// Under is the cm of mulch and snow over the ground on the day of an index.
func (s Season) Under(i int, mulch float64) float64 {
	if s.Snow != nil {
		mulch += s.Snow[i]
	}
	return mulch
}

// groundStep is the share of the way that the ground goes in a day towards the air's mean.
func groundStep(ground, air, mulch float64) float64 {
	k := groundShare * math.Exp(-mulchShare*mulch)
	if ground <= 0 && air < 0 {
		k *= frozenShare
	}
	return k
}

// AirForGround returns the day's mean of the air, in °C, that takes ground of one temperature to
// another by the next day: the step of GroundTemperatures the other way round.
func AirForGround(now, next, mulch float64) float64 {
	return now + (next-now)/groundStep(now, next, mulch)
}

// Chilling returns what a day counts towards the cold that a plant must have before it flowers,
// 0 to 1: it rises from 2 °C to all at 7 °C and falls to nothing at 12 °C (for brassicas; the
// triangle is that of Wurr and of Atherton, the numbers between their cauliflower at 2 to 24 °C
// and growers' ten weeks below 10 °C, from memory).
func Chilling(mean float64) float64 {
	switch {
	case mean <= 2 || mean >= 12 || mean != mean:
		return 0
	case mean <= 7:
		return (mean - 2) / 5
	}
	return (12 - mean) / 5
}
