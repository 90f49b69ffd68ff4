// Package crops knows what each crop needs: the temperatures that set it back and
// kill it, the warmth and days it takes, the soil it germinates in, how it is raised.
//
// The facts are in catalogue.csv, one a line, each with its source. A grower's own
// file adds facts or puts others in their place.
package crops

import "math"

// Fact is one number with its origin. Unknown facts have a NaN Value.
type Fact struct {
	Value     float64
	Low, High float64 // the range that sources or varieties give; NaN where none is stated
	Source    string  // author and year, table or page; "memory"; "common practice, no source"
	Note      string  // conflicts, caveats
}

// Known says whether the fact has a value.
func (f Fact) Known() bool { return !math.IsNaN(f.Value) }

// Unknown is a fact that nobody has given.
func Unknown() Fact {
	return Fact{Value: math.NaN(), Low: math.NaN(), High: math.NaN()}
}

// Kind is the part of the plant that is picked, which decides what ends its growth.
type Kind string

// The kinds of crop.
const (
	Fruit  Kind = "fruit"  // fruits and pods: warmth and frost end it
	Leaf   Kind = "leaf"   // leaves and salads: light ends its growth, not its picking
	Root   Kind = "root"   // roots and tubers
	Bulb   Kind = "bulb"   // onions, garlic, leeks
	Flower Kind = "flower" // heads and curds
)

// Crop is one crop, or one variety class of it. Temperatures are °C at the plant,
// plain degree-days are °C-days above Base with Upper as a horizontal limit by the single
// sine method. Each field's comment ends with its key in catalogue.csv.
type Crop struct {
	Name  string // singular, lower case: "sweet corn"
	Class string // "", "early", "main", "late", or the trade's own word: "autumn", "maincrop", "sets"
	Kind  Kind   // kind
	Title string // plural, for sentences: "courgettes"; plural

	// Family is what a household takes one crop for in place of another: "squashes" of a courgette and a pumpkin. family
	Family string

	// StartsFrom is what goes into the ground or the pot: "seed", "tubers", "cloves",
	// "sets"; "seed" where the catalogue is silent. starts_from
	StartsFrom string
	// Caution says what in this crop can hurt whoever eats it; mostly empty. caution
	Caution string

	// Cold. A plant is hardened once it has had its hardening-off days, or, sown in
	// place, once it is past the seedling stage.
	SetBackSeedling Fact // damaged at or below, recovers with delay; setback_seedling_c
	KillSeedling    Fact // dead at or below; kill_seedling_c
	SetBackHardened Fact // setback_hardened_c
	KillHardened    Fact // kill_hardened_c
	KillReady       Fact // kills, or spoils what is picked, once it is ready: heads before leaves; kill_ready_c
	RegrowsTo       Fact // down to this, shoots that frost kills before midsummer grow again from below ground; regrows_to_c
	KillWinter      Fact // kills a plant fully hardened by weeks of cold; kill_winter_c
	BelowCm         Fact // what lives through the winter is so deep in the soil, and the soil kills it; below_cm
	Height          Fact // of the grown plant, cm, where it is so tall that frost at the ground is not what it meets; height_cm
	Chill           Fact // nights at or below this check growth without visible damage; chill_c
	SetBackDays     Fact // growth lost by being set back once, in days; setback_days

	// Growth. A crop is ready when its effective day-degrees (see climate.Response) come to
	// its sum, counted from coming up or from planting out. A sum's low and high are its 1 in
	// 10 and 9 in 10 among gardens and varieties.
	GrowFrom      Fact // grow_from_c
	GrowBest      Fact // grow_best_c
	GrowMax       Fact // grow_max_c
	GrowLight     Fact // MJ/m2 a °C-day; grow_light
	GrowthSown    Fact // growth_sown
	GrowthPlanted Fact // growth_planted

	// Cold that it must have before it forms what is picked, in days at the best temperature
	// for it, and the growth that it wants after that.
	ColdDays        Fact // cold_days
	GrowthAfterCold Fact // growth_after_cold

	// The same need in plain degree-days, as others publish it. It decides only where there
	// is no GrowthSown or GrowthPlanted, as in a grower's own crop.
	Base           Fact // base_c
	Upper          Fact // upper_c
	WarmthSown     Fact // degree-days from sowing in place to first picking; warmth_sown
	WarmthPlanted  Fact // degree-days from planting out a raised plant to first picking; warmth_planted
	DaysSown       Fact // days likewise, where only days are published; days_sown
	DaysPlanted    Fact // days_planted
	PickingDays    Fact // how long picking lasts in good conditions; picking_days
	StandDays      Fact // days a mature winter crop stands in the bed without spoiling; stand_days
	GerminationMin Fact // lowest soil temperature to germinate; germ_min_c
	GerminationOpt Fact // soil temperature at which it germinates best; soil_opt_c
	GerminationMax Fact // highest soil temperature to germinate; germ_max_c
	EmergenceBase  Fact // base of the thermal time to emergence; emerge_base_c
	EmergenceSum   Fact // soil degree-days above EmergenceBase to emergence; emerge_sum

	// Raising.
	WeeksUnderCover Fact // from sowing under cover to planting out; 0: sown in place only; weeks_under_cover
	HardeningDays   Fact // harden_days
	LightHours      Fact // day length below which growth all but stops; light_hours

	// The customary span for going into open ground, sown in place or planted out, in
	// season days (see climate.SeasonDay), so that it holds in both hemispheres. OutTo
	// below OutFrom wraps round midwinter. Unknown where no custom is recorded.
	OutFrom Fact // out_from
	OutTo   Fact // out_to
}

// Label is the crop's name with its class, such as "sweet corn, early".
func (c Crop) Label() string {
	if c.Class == "" {
		return c.Name
	}
	return c.Name + ", " + c.Class
}

// Tender says whether the first frosts kill even a hardened plant: a killing
// temperature above -2.5 °C. It is a word for sentences; the chances use the numbers.
func (c Crop) Tender() bool { return c.KillHardened.Known() && c.KillHardened.Value > -2.5 }

// Hardiness says in a word what frost a hardened plant stands: tender, half-hardy down
// to -5 °C, hardy down to -10 °C, very hardy below; "not known" where it is not. The
// words are the trade's, the limits between them ours.
func (c Crop) Hardiness() string {
	switch k := c.KillHardened.Value; {
	case c.Tender():
		return "tender"
	case k > -5:
		return "half-hardy"
	case k > -10:
		return "hardy"
	case k <= -10:
		return "very hardy"
	}
	return "not known"
}
