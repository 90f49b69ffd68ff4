package opened

import (
	"math"
	"slices"
	"sync"

	"frostward/climate"
	"frostward/climate/site"
	"frostward/cmd/internal/garden"
	"frostward/crops"
	"frostward/risk"
)

// Fields makes and keeps the seasons at each spot and as each crop meets them there, so
// that plantings share them.
type Fields struct {
	*Spots
	Base   climate.Ensemble // at the station
	mu     *sync.Mutex      // guards what is made when it is first asked for
	spots  map[string]*atSpot
	before map[string]*atSpot // of the garden as it was opened before, see Keep; nil: none
	byCrop map[fieldKey]*risk.Field
	ground *risk.Ground       // what fields share in the station's air
	own    map[string]OwnCrop // what the diary has shown of the garden's crops
}

// atSpot is the seasons at a spot.
type atSpot struct {
	climate.Ensemble
	model  site.Model   // by which they were taken there
	ground *risk.Ground // its own where its air is: under glass, by a wall, at another height
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
	ground := risk.NewGround()
	ground.Reset(e)
	return &Fields{Spots: s, Base: e, mu: new(sync.Mutex), spots: map[string]*atSpot{}, byCrop: map[fieldKey]*risk.Field{}, ground: ground}, err
}

// At is the seasons at a spot.
func (f *Fields) At(spot garden.Spot) climate.Ensemble {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.at(spot).Ensemble
}

func (f *Fields) at(spot garden.Spot) *atSpot {
	s := f.spots[spot.Name]
	if s != nil {
		return s
	}
	m := f.mover(spot)
	if s = f.before[spot.Name]; s == nil || s.model != m {
		s = &atSpot{m.ToSpot(f.Base, f.g.Options.Seed), m, f.ground}
		if len(s.Seasons) > 0 && s.Seasons[0].AirMax != nil {
			s.ground = risk.NewGround()
			s.ground.Reset(s.Ensemble)
		}
	}
	f.spots[spot.Name] = s
	return s
}

// Field is the seasons as a crop meets them at a spot, raised under cover or sown in place.
func (f *Fields) Field(spot garden.Spot, c crops.Crop, raised bool) *risk.Field {
	f.mu.Lock()
	defer f.mu.Unlock()
	k := fieldKey{spot.Name, c.Label(), raised}
	if f.byCrop[k] == nil {
		at := f.at(spot)
		f.byCrop[k] = at.ground.Field(at.Ensemble, f.own[k.crop].Of(c), raised, f.g.Options.Seed)
	}
	return f.byCrop[k]
}

// Keep takes over from the garden as it was opened before, where the record is the same, what hangs on that: the seasons
// and, at each spot that the log moves no further, those there. It comes before anything is asked of g.
func (g *Garden) Keep(old *Garden) {
	s, err := old.Seasons()
	if err != nil || !g.SameRecord(old) {
		return
	}
	g.seasons = func() (*Seasons, error) { return s, nil }
	was, err := old.Fields()
	if err != nil {
		return
	}
	mu, before, ground := was.mu, was.spots, was.ground // and not the old garden with its own before
	g.fields = sync.OnceValues(func() (*Fields, error) {
		f, err := g.makeFields()
		if err == nil {
			f.mu, f.before, f.ground = mu, before, ground
		}
		return f, err
	})
}

// SameRecord says whether another opening of a garden found the same record, and uses the same of it.
func (g *Garden) SameRecord(old *Garden) bool {
	same := func(a, b float64) bool { return a == b || a != a && b != b }
	return g.Options.By == old.Options.By && g.Options.Seed == old.Options.Seed && g.Settings.Latitude == old.Settings.Latitude &&
		g.First == old.First && g.Last == old.Last && g.Masked.First == old.Masked.First &&
		slices.EqualFunc(g.Masked.Tmin, old.Masked.Tmin, same) && slices.EqualFunc(g.Masked.Tmax, old.Masked.Tmax, same)
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
