package opened

import (
	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/crops"
	"frostward/risk"
)

// Tryout is a crop that is not in the plan, to be tried at a spot.
type Tryout struct {
	risk.Planting
	Where garden.Spot
	Usual climate.Window // the customary days, and a month on either side
}

// Tryout makes one from names; a crop that is raised under cover is, unless it is sown in place.
func (g *Garden) Tryout(crop crops.Crop, spot, cover string, sown bool) (t Tryout, err error) {
	if t.Where, err = g.Settings.Spot(spot); err != nil {
		return t, UsageError{err}
	}
	over, err := g.Cover(cover)
	if err != nil {
		return t, UsageError{err}
	}
	t.Planting = risk.Planting{Crop: crop, Spot: t.Where.Name, Cover: over, Raised: !sown && WeeksUnderCover(crop) > 0}
	if t.Raised {
		t.Sow = -climate.SeasonDay(7 * WeeksUnderCover(crop))
	}
	_, t.Usual = risk.Customary(crop)
	return t, t.Check()
}
