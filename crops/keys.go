package crops

// Key says what a fact of the catalogue is about, how it is written and what its
// number must lie between.
type Key struct {
	Name string  // as in the key column of catalogue.csv
	Unit string  // what the unit column must say; "" for text and for kind
	Text bool    // the value is words, not a number
	Min  float64 // lowest and highest number that can be meant
	Max  float64
	What string // in plain words, for a reader

	number func(*Crop) *Fact
	words  func(*Crop) *string
}

// The limits are there to catch a slipped decimal point or °F, not to judge: each is
// wider than anything grown in a garden.
var keys = []Key{
	{Name: "kind", Text: true, What: "part that is picked"},
	{Name: "plural", Text: true, What: "plural", words: func(c *Crop) *string { return &c.Title }},
	{Name: "family", Text: true, What: "counted among", words: func(c *Crop) *string { return &c.Family }},
	{Name: "also", Text: true, What: "also called"},
	{Name: "starts_from", Text: true, What: "starts from", words: func(c *Crop) *string { return &c.StartsFrom }},
	{Name: "caution", Text: true, What: "caution", words: func(c *Crop) *string { return &c.Caution }},

	{Name: "setback_seedling_c", Unit: "°C", Min: -30, Max: 10, What: "seedling set back at",
		number: func(c *Crop) *Fact { return &c.SetBackSeedling }},
	{Name: "kill_seedling_c", Unit: "°C", Min: -40, Max: 10, What: "seedling killed at",
		number: func(c *Crop) *Fact { return &c.KillSeedling }},
	{Name: "setback_hardened_c", Unit: "°C", Min: -30, Max: 10, What: "hardened plant set back at",
		number: func(c *Crop) *Fact { return &c.SetBackHardened }},
	{Name: "kill_hardened_c", Unit: "°C", Min: -40, Max: 10, What: "hardened plant killed at",
		number: func(c *Crop) *Fact { return &c.KillHardened }},
	{Name: "kill_ready_c", Unit: "°C", Min: -30, Max: 5, What: "spoilt, once ready, at",
		number: func(c *Crop) *Fact { return &c.KillReady }},
	{Name: "regrows_to_c", Unit: "°C", Min: -30, Max: 0, What: "grows again from below ground after frost down to",
		number: func(c *Crop) *Fact { return &c.RegrowsTo }},
	{Name: "kill_winter_c", Unit: "°C", Min: -40, Max: 0, What: "hardened by the winter, killed at",
		number: func(c *Crop) *Fact { return &c.KillWinter }},
	{Name: "below_cm", Unit: "cm", Min: 0, Max: 30, What: "lives below ground at",
		number: func(c *Crop) *Fact { return &c.BelowCm }},
	{Name: "height_cm", Unit: "cm", Min: 5, Max: 400, What: "grows to",
		number: func(c *Crop) *Fact { return &c.Height }},
	{Name: "chill_c", Unit: "°C", Min: 0, Max: 15, What: "checked by nights at or below",
		number: func(c *Crop) *Fact { return &c.Chill }},
	{Name: "setback_days", Unit: "days", Min: 0, Max: 60, What: "growth lost by one set-back",
		number: func(c *Crop) *Fact { return &c.SetBackDays }},

	{Name: "grow_from_c", Unit: "°C", Min: -5, Max: 20, What: "grows above",
		number: func(c *Crop) *Fact { return &c.GrowFrom }},
	{Name: "grow_best_c", Unit: "°C", Min: 10, Max: 35, What: "grows best from",
		number: func(c *Crop) *Fact { return &c.GrowBest }},
	{Name: "grow_max_c", Unit: "°C", Min: 20, Max: 60, What: "grows no more at",
		number: func(c *Crop) *Fact { return &c.GrowMax }},
	{Name: "grow_light", Unit: "MJ/m2 a °C-day", Min: 0, Max: 5, What: "light that growth wants",
		number: func(c *Crop) *Fact { return &c.GrowLight }},
	{Name: "growth_sown", Unit: "°C-days", Min: 20, Max: 4000, What: "effective day-degrees, coming up to first picking",
		number: func(c *Crop) *Fact { return &c.GrowthSown }},
	{Name: "growth_planted", Unit: "°C-days", Min: 20, Max: 4000, What: "effective day-degrees, planting out to first picking",
		number: func(c *Crop) *Fact { return &c.GrowthPlanted }},
	{Name: "cold_days", Unit: "days", Min: 1, Max: 150, What: "cold it must have first",
		number: func(c *Crop) *Fact { return &c.ColdDays }},
	{Name: "growth_after_cold", Unit: "°C-days", Min: 1, Max: 1000, What: "effective day-degrees after the cold",
		number: func(c *Crop) *Fact { return &c.GrowthAfterCold }},

	{Name: "base_c", Unit: "°C", Min: -5, Max: 20, What: "degree-days count above",
		number: func(c *Crop) *Fact { return &c.Base }},
	{Name: "upper_c", Unit: "°C", Min: 10, Max: 45, What: "degree-days count up to",
		number: func(c *Crop) *Fact { return &c.Upper }},
	{Name: "warmth_sown", Unit: "°C-days", Min: 50, Max: 6000, What: "degree-days, sowing in place to first picking",
		number: func(c *Crop) *Fact { return &c.WarmthSown }},
	{Name: "warmth_planted", Unit: "°C-days", Min: 50, Max: 6000, What: "degree-days, planting out to first picking",
		number: func(c *Crop) *Fact { return &c.WarmthPlanted }},
	{Name: "days_sown", Unit: "days", Min: 10, Max: 450, What: "days, sowing in place to first picking",
		number: func(c *Crop) *Fact { return &c.DaysSown }},
	{Name: "days_planted", Unit: "days", Min: 10, Max: 450, What: "days, planting out to first picking",
		number: func(c *Crop) *Fact { return &c.DaysPlanted }},
	{Name: "picking_days", Unit: "days", Min: 1, Max: 365, What: "picking lasts",
		number: func(c *Crop) *Fact { return &c.PickingDays }},
	{Name: "stand_days", Unit: "days", Min: 0, Max: 300, What: "stands ready in the bed",
		number: func(c *Crop) *Fact { return &c.StandDays }},

	{Name: "germ_min_c", Unit: "°C", Min: -2, Max: 25, What: "germinates in soil from",
		number: func(c *Crop) *Fact { return &c.GerminationMin }},
	{Name: "soil_opt_c", Unit: "°C", Min: 5, Max: 40, What: "germinates best at",
		number: func(c *Crop) *Fact { return &c.GerminationOpt }},
	{Name: "germ_max_c", Unit: "°C", Min: 15, Max: 50, What: "germinates in soil up to",
		number: func(c *Crop) *Fact { return &c.GerminationMax }},
	{Name: "emerge_base_c", Unit: "°C", Min: -5, Max: 20, What: "emergence counts soil above",
		number: func(c *Crop) *Fact { return &c.EmergenceBase }},
	{Name: "emerge_sum", Unit: "°C-days", Min: 5, Max: 1000, What: "soil warmth to emergence",
		number: func(c *Crop) *Fact { return &c.EmergenceSum }},

	{Name: "weeks_under_cover", Unit: "weeks", Min: 0, Max: 30, What: "under cover before planting out",
		number: func(c *Crop) *Fact { return &c.WeeksUnderCover }},
	{Name: "harden_days", Unit: "days", Min: 0, Max: 40, What: "hardening off",
		number: func(c *Crop) *Fact { return &c.HardeningDays }},
	{Name: "light_hours", Unit: "hours", Min: 0, Max: 16, What: "growth all but stops below a day of",
		number: func(c *Crop) *Fact { return &c.LightHours }},
	{Name: "out_from", Unit: "season day", Min: 0, Max: 364, What: "customary into open ground from",
		number: func(c *Crop) *Fact { return &c.OutFrom }},
	{Name: "out_to", Unit: "season day", Min: 0, Max: 364, What: "customary into open ground to",
		number: func(c *Crop) *Fact { return &c.OutTo }},
}

// Keys lists the keys of the catalogue in the order in which facts are shown.
func Keys() []Key { return append([]Key(nil), keys...) }

var keyIndex = func() map[string]int {
	m := make(map[string]int, len(keys))
	for i, k := range keys {
		m[k.Name] = i
	}
	return m
}()

func keyNames() []string {
	names := make([]string, len(keys))
	for i, k := range keys {
		names[i] = k.Name
	}
	return names
}

// blank returns a crop of which nothing is known but its name.
func blank(name, class string) Crop {
	c := Crop{Name: name, Class: class, StartsFrom: "seed"}
	for _, k := range keys {
		if k.number != nil {
			*k.number(&c) = Unknown()
		}
	}
	return c
}
