package site

// Prior is what is believed of a kind of spot before anything is measured there.
// Means and standard deviations are of the gap, spot minus station, in °C; the
// coefficients are as for Terms and independent of each other.
type Prior struct {
	Kind    string         // the word for it in garden.yaml
	Title   string         // for sentences
	Mean    [Terms]float64 // °C, °C per °C, °C, °C per °C
	SD      [Terms]float64
	Season  float64 // standard deviation of a whole season's gap about the long-run one, °C
	Night   float64 // standard deviation of one clear night's gap about its season's, °C
	Worth   float64 // the number of readings that Night is worth
	Source  string  // where the numbers are from
	Station bool    // the spot is the station: no gap, no spread
}

// The priors by kind. The open bed is the only one with measurements behind it.
var (
	// OpenBed is bare or low-cropped ground in the open.
	OpenBed = Prior{
		Kind:   "open bed",
		Title:  "an open bed",
		Mean:   [Terms]float64{0, -0.165, 0, 0},
		SD:     [Terms]float64{0.3, 0.045, 0.2, 0.03},
		Season: 0.35, Night: 1.05, Worth: 12,
		Source: "about nothing when overcast or windy, 2-3 °C when clear and still; between the line fitted at KNMI station 283 (10 cm), " +
			"and four fifths of it, as that station is colder near the ground than most",
	}
	// Hollow is low ground that cold air drains into.
	Hollow = Prior{
		Kind:   "hollow",
		Title:  "a bed in a hollow",
		Mean:   [Terms]float64{0, -0.24, 0, 0},
		SD:     [Terms]float64{0.4, 0.08, 0.3, 0.03},
		Season: 0.4, Night: 1.3, Worth: 8,
		Source: "common practice, no source: half as much again as an open bed",
	}
	// Wall is a bed or pots at the foot of a house wall, or a paved yard.
	Wall = Prior{
		Kind:   "wall",
		Title:  "a sheltered place by a wall",
		Mean:   [Terms]float64{0.3, -0.06, 0, 0},
		SD:     [Terms]float64{0.6, 0.06, 0.3, 0.03},
		Season: 0.35, Night: 1.0, Worth: 8,
		Source: "common practice, no source: half the sky hidden, warm masonry",
	}
	// Greenhouse is a bench or bed in an unheated greenhouse or tunnel.
	Greenhouse = Prior{
		Kind:   "greenhouse",
		Title:  "an unheated greenhouse",
		Mean:   [Terms]float64{1.3, 0, 0, 0},
		SD:     [Terms]float64{0.8, 0.08, 0.3, 0.04},
		Season: 0.35, Night: 1.0, Worth: 8,
		Source: "minima 1.3 °C above those outside in a single polythene tunnel (Savage 1980, Agrochemophysica 12, 5-13); spread from memory",
	}
	// AtStation is the station itself, or a thermometer in a screen like its own.
	AtStation = Prior{
		Kind: "station", Title: "the station", Station: true,
		Source: "by definition",
	}
)

// Priors lists the kinds of spot, the usual one first.
func Priors() []Prior { return []Prior{OpenBed, Hollow, Wall, Greenhouse, AtStation} }

// PriorOf returns the prior of a kind by its word.
func PriorOf(kind string) (Prior, bool) {
	for _, p := range Priors() {
		if p.Kind == kind {
			return p, true
		}
	}
	return Prior{}, false
}
