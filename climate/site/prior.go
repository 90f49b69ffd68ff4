package site

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Place says where the garden is, seen from the station. The zero value is the same place.
type Place struct {
	Km   float64 // kilometres
	Rise float64 // the garden's height less the station's, m
}

// away is how much of the doubt of another place applies: none at the station, all of it
// some kilometres off or some tens of metres higher. Between 5 and 50 km the 14 pairs and the
// upland show no growth with distance: it is siting that matters. Nearer there are no
// data: the two lengths are a judgement.
func (w Place) away() float64 {
	return 1 - math.Exp(-math.Abs(w.Km)/2-math.Abs(w.Rise)/40)
}

// days is how much warmer the garden's days are than the station's, °C: the fall of the maxima with
// height is that of the standard atmosphere (ISO 2533: 6.5 °C a kilometre), near what mixed air has by day.
func (w Place) days() float64 { return -0.0065 * w.Rise }

// Prior is what is believed of a kind of spot before anything is measured there.
type Prior struct {
	Kind    string         // the word for it in garden.yaml
	Title   string         // for sentences
	Place   Place          // of the garden
	More    [Terms]float64 // difference from an open bed
	Wider   [Terms]float64 // standard deviations beside an open bed's
	Shelter *Shelter       // not nil: under glass, film or a sheet, or by a wall
	Source  string         // where the numbers are from
	Station bool           // a screen like the station's: no bed, only the place
	Same    *Table         // nil: the program's own, for records left out in tests
	Other   *Table         // likewise
}

// The priors by kind.
var (
	// OpenBed is bare or low-cropped ground in the open.
	OpenBed = Prior{
		Kind:  "open bed",
		Title: "an open bed",
		Source: "5 and 10 cm minima against the screen at 23 stations (Deutscher Wetterdienst, KNMI, Met Éireann), " +
			"and against the screen of another station at 14 pairs 5 to 25 km apart and in one upland",
	}
	// Hollow is low ground that cold air drains into.
	Hollow = Prior{
		Kind:   "hollow",
		Title:  "a bed in a hollow",
		More:   [Terms]float64{-0.75, -0.075},
		Wider:  [Terms]float64{0.5, 0.05},
		Source: "common practice, no source: half as much again as an open bed",
	}
	// Wall is a bed or pots at the foot of a house wall, or a paved yard.
	Wall = Prior{
		Kind:    "wall",
		Title:   "a sheltered place by a wall",
		More:    [Terms]float64{1.35, 0.105},
		Wider:   [Terms]float64{0.6, 0.04},
		Shelter: &Shelter{Bed: true, Day: 0.4, DaySD: 0.6, Source: "judgement: a guess"},
		Source:  "common practice, no source: half the sky hidden, warm masonry; measured once each, a porch gained 1.8 °C on a frost and a wall nothing",
	}
	// Greenhouse is a bench or bed in an unheated glasshouse; the others are what their names say.
	Greenhouse = Prior{Kind: "greenhouse", Title: "an unheated glasshouse", Shelter: &glasshouse, Source: glasshouse.Source}
	Polytunnel = Prior{Kind: "tunnel", Title: "an unheated polytunnel", Shelter: &tunnel, Source: tunnel.Source}
	Frame      = Prior{Kind: "frame", Title: "a cold frame", Shelter: &coldFrame, Source: coldFrame.Source}
	// UnderCloche and UnderFleece are beds that keep their cover by day and night.
	UnderCloche = Prior{Kind: "cloche", Title: "a bed kept under cloches", Shelter: &cloche, Source: cloche.Source}
	UnderFleece = Prior{Kind: "fleece", Title: "a bed kept under fleece", Shelter: &fleeceOver, Source: fleeceOver.Source}
	// AtStation is a screen like the station's; at the same place, the station itself.
	AtStation = Prior{
		Kind: "station", Title: "the station", Station: true,
		Source: "by definition; at another place, what the pairs of stations show beyond the bed",
	}
)

// Priors lists the kinds of spot, the usual one first.
func Priors() []Prior {
	return []Prior{OpenBed, Hollow, Wall, Greenhouse, Polytunnel, Frame, UnderCloche, UnderFleece, AtStation}
}

// PriorOf returns the prior of a kind by its word.
func PriorOf(kind string) (Prior, bool) {
	for _, p := range Priors() {
		if p.Kind == kind {
			return p, true
		}
	}
	return Prior{}, false
}

// Roofed: under a roof of glass or film, so that the night's gap is from the air of the garden and not from an
// open bed.
func (p Prior) Roofed() bool { return p.Shelter != nil && !p.Shelter.Bed }

// At is the prior in a garden at another place than the station.
func (p Prior) At(w Place) Prior {
	p.Place = w
	return p
}

// Identity: the spot is the station itself.
func (p Prior) Identity() bool { return p.Station && p.Place == Place{} }

// believe is the prior with the station's habit; known is whether it is.
func (p Prior) believe(h Habit, known bool) belief {
	bed, other := samePlace, elsewhere
	if p.Same != nil {
		bed = *p.Same
	}
	if p.Other != nil {
		other = *p.Other
	}
	// Of the stations with a garden elsewhere none has a Clear beyond these; further out only the bed's part is known.
	seen := Habit{h.Spread, max(-0.1, min(0.4, h.Clear))}
	here, there, f := bed.at(h, Place{}), other.at(seen, p.Place), p.Place.away()
	for i, bedSeen := range bed.at(seen, Place{}).mean {
		there.mean[i] += here.mean[i] - bedSeen
	}
	if p.Place.Rise != 0 { // the rise counts in full however near
		flat := other.at(seen, Place{})
		for i := range there.mean {
			here.mean[i] += other.at(seen, p.Place).mean[i] - flat.mean[i]
		}
	}
	b := mix(here, there, f)
	// The level is less sure the higher or lower the garden lies: in the upland the spread
	// left beyond 300 m of rise is 1.1 to 1.25 °C, below it 0.8.
	b.cov[0][0] += f * sq(perHundred*p.Place.Rise/100)
	switch {
	case p.Station || p.Roofed():
		b = placeOnly(b, bed.at(h, Place{}))
		b.cov[0][0] += f * sq(levelSpread)
	default:
		b.cov[0][0] += sq(levelSpread)
		for i, more := range p.More {
			b.mean[i] += more
			b.cov[i][i] += sq(p.Wider[i])
		}
	}
	if !known {
		b.cov[0][0] += sq(unknownV)
	}
	if s := p.Shelter; s != nil {
		b.mean[0] += s.Gain
		b.cov[0][0] += sq(s.Between)
		b.night = math.Hypot(b.night, s.Night)
	}
	return b
}

const perHundred = 0.25 // °C for each 100 m

// placeOnly takes the bed out of a belief about place and bed: independent of each other,
// their means and covariances add up.
func placeOnly(all, bed belief) belief {
	b := belief{night: math.Sqrt(max(0.01, sq(all.night)-sq(bed.night)))}
	s := mat.NewSymDense(Terms, nil)
	for i := range b.mean {
		b.mean[i] = all.mean[i] - bed.mean[i]
		for j := i; j < Terms; j++ {
			s.SetSym(i, j, all.cov[i][j]-bed.cov[i][j])
		}
	}
	var e mat.EigenSym
	if !e.Factorize(s, true) {
		panic("site: a symmetric matrix of finite numbers has eigenvalues")
	}
	var u mat.Dense
	e.VectorsTo(&u)
	for k, l := range e.Values(nil) { // a difference of two estimates may have negative ones
		for i := range b.mean {
			for j := range b.mean {
				b.cov[i][j] += max(0, l) * u.At(i, k) * u.At(j, k)
			}
		}
	}
	for i := range b.mean { // what has no spread at all would refuse a fit
		b.cov[i][i] += 1e-6
	}
	return b
}
