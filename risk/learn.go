package risk

import (
	"math"

	"frostward/climate"
	"frostward/crops"
)

// Own dates. A garden's own dates of first picking say how much more or less than the
// catalogue's sum its crop wants. The log of the sum has a normal prior, the catalogue's; each
// date is an observation of it; what comes out is a crop with a sum of its own and a narrower
// range, which every chance and date then rests on.

// Seen is one first picking: the sum that the crop had when it was seen, between two looks.
type Seen struct {
	Sum    float64 // effective day-degrees by the middle of the days since the look before
	Usual  float64 // what the catalogue's crop needs, raised or sown as this one was
	Spread float64 // standard deviation of the log of that among gardens and years
	Rate   float64 // effective day-degrees a day in the week before
	Look   float64 // days between looks; 1: every day
}

// Learned is what own dates say of a crop's sum.
type Learned struct {
	Factor float64 // the garden's sum over the catalogue's
	Spread float64 // standard deviation of the log of that factor
	Years  int     // dates that it rests on
	Odd    []int   // indexes of dates too far off to be averaged in: another sowing, thinnings?
}

// oddDate is how many standard deviations a date may be off before it is asked about.
const oddDate = 3

// Learn works out a garden's own sum of a crop from its dates. A date is off by what differs from
// year to year and by not looking every day: (Look²-1)/12 days², at the rate of the last week.
func Learn(dates []Seen) Learned {
	total := 0.0
	for _, d := range dates {
		total = max(total, d.Spread)
	}
	year := min(yearToYear, total)
	prior := total*total - year*year
	l := Learned{Factor: 1, Spread: math.Sqrt(prior)}
	if !(prior > 0) {
		return l
	}
	weight, sum := 1/prior, 0.0
	for i, d := range dates {
		at := math.Log(d.Sum / d.Usual)
		look := d.Rate / d.Sum
		v := year*year + (d.Look*d.Look-1)/12*look*look
		if !(math.Abs(at) <= oddDate*math.Sqrt(prior+v)) { // NaN is odd, too
			l.Odd = append(l.Odd, i)
			continue
		}
		weight, sum = weight+1/v, sum+at/v
		l.Years++
	}
	l.Factor, l.Spread = math.Exp(sum/weight), math.Sqrt(1/weight)
	return l
}

// Range is the factor's 1 in 10 and 9 in 10, without what differs from year to year.
func (l Learned) Range() (low, high float64) {
	return l.Factor * math.Exp(-tenth*l.Spread), l.Factor * math.Exp(tenth*l.Spread)
}

// Of returns the crop as the garden has shown it: its sums multiplied, their range narrowed.
func (l Learned) Of(c crops.Crop) crops.Crop {
	if l.Years == 0 {
		return c
	}
	for _, f := range []*crops.Fact{&c.GrowthSown, &c.GrowthPlanted} {
		if !f.Known() || !(f.High > f.Low) {
			continue
		}
		total := math.Hypot(l.Spread, yearToYear)
		f.Value *= l.Factor
		f.Low, f.High = f.Value*math.Exp(-tenth*total), f.Value*math.Exp(tenth*total)
	}
	return c
}

// SeenOn returns what a crop had in season i of its field, put out or sown in place on a day, when
// it was first picked on another, the gardener looking every so many days. Growth lost to cold
// nights counts as Play counts it. It is false where days are missing or the crop had not come up.
func (f *Field) SeenOn(i int, p Planting, picked climate.SeasonDay, look float64) (Seen, bool) {
	if picked > climate.SpanTo || p.Start < climate.SpanFrom {
		return Seen{}, false
	}
	g := *f.Certain()
	g.need = math.Inf(1) // so that it grows on until it is picked
	ok := true
	had := func(by climate.SeasonDay) float64 {
		l := g.pass(i, &p, p.Start, p.Start, by, false)
		ok = ok && l.outcome.Known
		return l.sum
	}
	seen := Seen{Look: look, Usual: f.need, Spread: sumSpread(f.Crop, f.Raised), Sum: had(picked - climate.SeasonDay(math.Round((look-1)/2)))}
	seen.Rate = (had(picked) - had(picked-7)) / 7
	return seen, ok && seen.Sum > 0
}
