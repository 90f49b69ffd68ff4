package opened

import (
	"math"
	"sync"

	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/crops"
	"frostward/risk"
)

// Fields makes and keeps the seasons at each spot and as each crop meets them there, so
// that plantings share them.
type Fields struct {
	*Spots
	mu     sync.Mutex       // guards what is made when it is first asked for
	Base   climate.Ensemble // at the station
	spots  map[string]climate.Ensemble
	byCrop map[fieldKey]*risk.Field
	ground *risk.Ground            // what fields share in the station's air; nil before the first
	roofed map[string]*risk.Ground // at spots with an air of their own: under glass, by a wall, at another height
	own    map[string]OwnCrop      // what the diary has shown of the garden's crops
}

type fieldKey struct {
	spot, crop string
	raised     bool
}

// Fields are the fields of the seasons in use, the same for all who ask.
func (g *Garden) Fields() (*Fields, error) { return g.fields() }

func (g *Garden) makeFields() (*Fields, error) {
	s, err := g.Seasons()
	if err != nil {
		return nil, err
	}
	if s.By == climate.ByCurve {
		return nil, usagef("--by curve fits frost dates only; plantings are played through seasons: wanted record or weather")
	}
	return g.FieldsOf(s.Ensemble)
}

// FieldsOf are the fields of other seasons at the station, with the garden's own crops as its diary has shown them.
func (g *Garden) FieldsOf(e climate.Ensemble) (*Fields, error) {
	f, err := g.catalogueFields(e)
	if err == nil {
		f.own, err = g.Learned()
	}
	return f, err
}

// catalogueFields are the fields of crops as the catalogue has them.
func (g *Garden) catalogueFields(e climate.Ensemble) (*Fields, error) {
	s, err := g.Spots()
	return &Fields{Spots: s, Base: e, spots: map[string]climate.Ensemble{}, byCrop: map[fieldKey]*risk.Field{}, roofed: map[string]*risk.Ground{}}, err
}

// At is the seasons at a spot.
func (f *Fields) At(spot garden.Spot) climate.Ensemble {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.at(spot)
}

func (f *Fields) at(spot garden.Spot) climate.Ensemble {
	e, ok := f.spots[spot.Name]
	if !ok {
		e = f.Move(f.Base, spot)
		f.spots[spot.Name] = e
	}
	return e
}

// Field is the seasons as a crop meets them at a spot, raised under cover or sown in place.
func (f *Fields) Field(spot garden.Spot, c crops.Crop, raised bool) *risk.Field {
	f.mu.Lock()
	defer f.mu.Unlock()
	k := fieldKey{spot.Name, c.Label(), raised}
	if f.byCrop[k] == nil {
		f.byCrop[k] = f.groundAt(spot).Field(f.at(spot), f.own[k.crop].Of(c), raised, f.g.Options.Seed)
	}
	return f.byCrop[k]
}

func (f *Fields) groundAt(spot garden.Spot) *risk.Ground {
	if at := f.at(spot); len(at.Seasons) > 0 && at.Seasons[0].AirMax != nil {
		if f.roofed[spot.Name] == nil {
			f.roofed[spot.Name] = risk.NewGround()
			f.roofed[spot.Name].Reset(at)
		}
		return f.roofed[spot.Name]
	}
	if f.ground == nil {
		f.ground = risk.NewGround()
		f.ground.Reset(f.Base)
	}
	return f.ground
}

// knowLogged puts the garden log's own readings of a season's nights, up to a day, in the
// place of drawn ones at their spots. Readings under a cover tell of the cover.
func (f *Fields) knowLogged(season int, asOf climate.Day) {
	for _, e := range f.log.Nights() {
		spot, err := f.g.Settings.Spot(e.Spot)
		d := int(f.g.SeasonDay(season, e.Day) - climate.SpanFrom)
		if err != nil || e.Day > asOf || e.Covered != "" || math.IsNaN(e.Tmin) || d < 0 || d >= climate.SpanLen {
			continue
		}
		for _, s := range f.At(spot).Seasons {
			if s.Night != nil { // made for this spot alone by Move
				s.Night[d] = e.Tmin
			}
		}
	}
}
