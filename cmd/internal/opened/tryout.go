package opened

import (
	"sort"

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
	sown  bool           // in place, though it may be raised
}

// Tryout makes one from names; a crop that is raised under cover is, unless it is sown in place.
func (g *Garden) Tryout(crop crops.Crop, spot, cover string, sown bool) (t Tryout, err error) {
	t.sown = sown
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

// Class is a variety class of a crop from its own best day.
type Class struct {
	Planting risk.Planting
	Best     risk.Result
	Known    bool
	need     float64 // degree-days to first picking
}

// Classes tries every class of a crop as one of them is tried, the quickest first; none where it has fewer than two.
// Those that are not raised so, or have no day to be tried on, are passed over.
func (g *Garden) Classes(like Tryout, days func(usual climate.Window) (climate.Window, error), step int, aim float64) ([]Class, error) {
	cat, err := g.Catalogue()
	if err != nil {
		return nil, err
	}
	all := cat.Classes(like.Crop.Name)
	if len(all) < 2 {
		return nil, nil
	}
	fields, err := g.Fields()
	if err != nil {
		return nil, err
	}
	out := []Class{}
	for _, class := range all {
		crop, err := cat.Find(like.Crop.Name, class)
		if err != nil {
			continue
		}
		t, err := g.Tryout(crop, like.Where.Name, like.Cover.Name, like.sown)
		if err != nil {
			continue
		}
		w, err := days(t.Usual)
		if err != nil {
			continue
		}
		tried := risk.Try(fields.Field(t.Where, t.Crop, t.Raised), t.Planting, w, step, aim)
		c := Class{Planting: t.Planting, need: t.Crop.WarmthSown.Value}
		if t.Raised {
			c.need = t.Crop.WarmthPlanted.Value
		}
		if tried.Best >= 0 {
			c.Best, c.Known = tried.Result(tried.Best), true
		}
		out = append(out, c)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].need < out[j].need })
	return out, nil
}
