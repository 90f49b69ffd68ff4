package risk

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"frostward/crops"
)

// Own frosts. The nights that a garden's plantings lived through, and those that killed them, say how much more or less
// cold its crop stands than the catalogue's. By how much has a normal prior, what sources differ by.

// Faced is a night that a planting met.
type Faced struct {
	Margin float64 // °C by which it stayed above what kills the catalogue's crop there and then
	Spread float64 // standard deviation of that: what is not known of the night at the plant
	Cover  float64 // °C more where it was covered, and nobody said whether it was; else 0
	Killed bool
}

// LearnedCold is what own nights say of what kills a crop.
type LearnedCold struct {
	Shift, Spread float64 // °C that the garden's crop is killed at above the catalogue's, and its standard deviation
	Killed, Lived int     // nights that it rests on
	Odd           []int   // indexes of nights that cannot be: killed in warmth, or alive in a cold far beyond
}

// LearnCold works out by how much the temperatures that harm a garden's crop differ from the catalogue's. Where it is not
// known whether a planting was covered, either is as likely: so a loss says much of what the crop does not stand, and
// little of how much more would have been needed; and a night lived through says little.
func LearnCold(c crops.Crop, nights []Faced) LearnedCold {
	l := LearnedCold{Spread: killSpread(c)}
	if l.Spread == 0 {
		return l
	}
	const reach, points = 4, 81 // prior standard deviations on either side, and where the chance is worked out
	var weight, sum, square float64
	var used []Faced
	for i, n := range nights {
		far := oddDate * math.Hypot(l.Spread, n.Spread)
		switch {
		case n.Killed && n.Margin > far, !n.Killed && n.Margin+n.Cover < -far:
			l.Odd = append(l.Odd, i)
		case n.Killed:
			l.Killed++
			used = append(used, n)
		case n.Margin < far: // a warmer night says nothing
			l.Lived++
			used = append(used, n)
		}
	}
	for k := range points {
		z := reach * (2*float64(k)/(points-1) - 1)
		w := distuv.UnitNormal.Prob(z)
		for _, n := range used {
			w *= n.chance(z * l.Spread)
		}
		weight, sum, square = weight+w, sum+w*z, square+w*z*z
	}
	if mean := sum / weight; weight > 0 {
		l.Shift, l.Spread = mean*l.Spread, math.Sqrt(square/weight-mean*mean)*l.Spread
	}
	return l
}

// chance is how likely a night would have ended as it did for a crop that is killed so much above the catalogue's.
func (n Faced) chance(shift float64) float64 {
	end := func(margin float64) float64 {
		z := (margin - shift) / n.Spread
		if n.Killed {
			z = -z
		}
		return math.Erfc(-z/math.Sqrt2) / 2
	}
	if n.Cover == 0 {
		return end(n.Margin)
	}
	return (end(n.Margin) + end(n.Margin+n.Cover)) / 2
}

// Range is the shift's 1 in 10 and 9 in 10.
func (l LearnedCold) Range() (low, high float64) {
	return l.Shift - tenth*l.Spread, l.Shift + tenth*l.Spread
}

// Of returns the crop as the garden has shown it: what harms it moved, what sources differ by narrowed.
func (l LearnedCold) Of(c crops.Crop) crops.Crop {
	if l.Killed+l.Lived == 0 {
		return c
	}
	for _, f := range []*crops.Fact{&c.SetBackSeedling, &c.KillSeedling, &c.SetBackHardened, &c.KillHardened, &c.KillReady, &c.KillWinter} {
		f.Value += l.Shift
	}
	c.KillHardened.Low, c.KillHardened.High = c.KillHardened.Value-2*l.Spread, c.KillHardened.Value+2*l.Spread
	return c
}
