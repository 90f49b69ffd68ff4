package risk

import (
	"hash/fnv"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"frostward/climate"
	"frostward/crops"
)

// doubt is how far a garden's crop may be from the catalogue's: its sum multiplied by need,
// and the temperatures that harm it moved by cold °C, season by season. The zero doubt is none.
//
// Varieties, soils and gardeners differ, and what counts as a first picking: that part is drawn
// once a world, for it is the same in every season of one garden. What is left from one year to
// the next is drawn once a season. (Recorded seasons have no worlds; there each draws both.)
type doubt struct{ need, cold []float64 }

// yearToYear is the standard deviation of the log of a sum between one garden's own years: of
// seven varieties of tomato grown in two years in St Paul (0.07); professional crops had 0.05 to
// 0.11 (Wurr's lettuce and cauliflower, Gray's tomato, Ferreira's bean).
const yearToYear = 0.07

// tenth is the standard normal's 0.9 quantile: sums state their 1 in 10 and 9 in 10.
const tenth = 1.2816

// sumSpread is the standard deviation of the log of a crop's sum among gardens and years; 0
// where the catalogue states no range.
func sumSpread(c crops.Crop, raised bool) float64 {
	f := c.GrowthSown
	if raised {
		f = c.GrowthPlanted
	}
	if !(f.High > f.Low) || !(f.Low > 0) {
		return 0
	}
	return math.Log(f.High/f.Low) / (2 * tenth)
}

// killSpread is the standard deviation, in °C, of the temperatures that harm a crop: a quarter
// of the range that sources give; 0 where none is stated.
func killSpread(c crops.Crop) float64 {
	if w := c.KillHardened.High - c.KillHardened.Low; w > 0 {
		return w / 4
	}
	return 0
}

// doubtOf draws a crop's doubt over an ensemble. Classes of a crop draw alike.
func doubtOf(e climate.Ensemble, c crops.Crop, raised bool) (d doubt) {
	total, cold := sumSpread(c, raised), killSpread(c)
	n := len(e.Seasons)
	if n < 2 || total == 0 && cold == 0 {
		return doubt{}
	}
	year := min(yearToYear, total)
	garden := math.Sqrt(total*total - year*year)
	own, stands, years := newSpread(c.Name, math.Phi), newSpread(c.Name, math.Sqrt2), newSpread(c.Name, math.SqrtE)
	recorded := e.By != climate.ByWeather && e.Seasons[0].Year != e.Seasons[n-1].Year
	d.need, d.cold = make([]float64, n), make([]float64, n)
	for i, s := range e.Seasons {
		world, season := s.World, i
		if e.By != climate.ByWeather {
			world = i
		}
		if recorded { // so that a season's draw is its own whichever others are there
			world, season = s.Year, s.Year
		}
		d.need[i] = math.Exp(garden*own.at(world) + year*years.at(season))
		d.cold[i] = cold * stands.at(world)
	}
	return d
}

// spread is a row of standard normal numbers of which any run is spread evenly over the
// distribution: a few worlds carry the whole of the doubt and little luck of their own. They are
// the quantiles of a start plus multiples of an irrational number, whole parts dropped (Weyl
// 1916).
type spread struct{ start, step float64 }

// newSpread begins a row at a place of the name's own.
func newSpread(name string, step float64) spread {
	h := fnv.New64a()
	h.Write([]byte(name))
	return spread{float64(h.Sum64()>>11) / (1 << 53), step}
}

func (s spread) at(k int) float64 {
	_, u := math.Modf(s.start + float64(k)*s.step)
	return distuv.UnitNormal.Quantile(min(max(u, 1e-4), 1-1e-4))
}

// needIn is what the crop needs in season i.
func (f *Field) needIn(i int) float64 {
	if f.doubt.need == nil {
		return f.need
	}
	return f.need * f.doubt.need[i]
}

// coldIn is by how much the temperatures that harm the crop are higher in season i, °C.
func (f *Field) coldIn(i int) float64 {
	if f.doubt.cold == nil {
		return 0
	}
	return f.doubt.cold[i]
}
