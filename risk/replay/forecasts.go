package replay

import (
	"slices"
	"sort"

	"frostward/climate/stat"
)

// forecast is a distribution issued for one season, within the range of its event.
type forecast interface {
	crps(came float64) float64
	pit(came float64) stat.PIT
	quantile(p float64) float64
	by(x float64) float64 // the chance of x or less
}

// sample is a forecast by counting: recorded or generated seasons.
type sample []float64 // in rising order

func newSample(x []float64) sample {
	s := slices.Clone(x)
	slices.Sort(s)
	return s
}

func (s sample) crps(came float64) float64  { return stat.CRPS(s, came) }
func (s sample) pit(came float64) stat.PIT  { return stat.EnsemblePIT(s, came) }
func (s sample) quantile(p float64) float64 { return stat.QuantileSorted(s, p) }
func (s sample) by(x float64) float64 {
	return float64(sort.Search(len(s), func(i int) bool { return s[i] > x })) / float64(len(s))
}

// curve is a forecast by the mixed normal curve. What it gives to values outside the range is
// at the range's ends.
type curve struct {
	stat.Mixed
	low, high float64
}

func (c curve) crps(came float64) float64 { return c.CRPS(came, c.low, c.high) }

func (c curve) quantile(p float64) float64 { return stat.Clamp(c.Quantile(p), c.low, c.high) }

func (c curve) by(x float64) float64 {
	switch {
	case x < c.low:
		return 0
	case x >= c.high:
		return 1
	}
	return c.CDF(x)
}

func (c curve) pit(came float64) stat.PIT {
	switch {
	case came <= c.low:
		return stat.PIT{Below: 0, UpTo: c.CDF(c.low)}
	case came >= c.high:
		return stat.PIT{Below: c.CDF(c.high), UpTo: 1}
	}
	return c.PIT(came)
}
