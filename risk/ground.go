package risk

import (
	"sync"

	"frostward/climate"
	"frostward/crops"
)

// Ground is the weather of some seasons made ready for many crops. What the crops share is
// worked out once, and no further than it is wanted: the warmth of days, by the base and
// limit it is counted with (a dozen crops have about five), the soil, and the light. It keeps
// its memory for the next station. It is for one goroutine; its fields are for many.
type Ground struct {
	e     climate.Ensemble
	usual [climate.YearDays]float64
	lit   bool // usual is there
	lines map[float64][climate.YearDays]float64
	rows  map[warmthKey]*warmthRows
	homes map[homeKey]home
	soil  [][]float64
	tried []Tried
	sweep Sweep
}

type homeKey struct {
	crop   string
	raised bool
}

// NewGround returns a Ground without seasons.
func NewGround() *Ground {
	return &Ground{rows: map[warmthKey]*warmthRows{}, homes: map[homeKey]home{}}
}

// Reset takes other seasons. Fields made before are of no more use.
func (g *Ground) Reset(e climate.Ensemble) {
	g.e, g.lit, g.lines, g.soil = e, false, map[float64][climate.YearDays]float64{}, nil
	for _, r := range g.rows {
		r.reset(e.Seasons)
	}
}

// Field is NewField at a spot, whose ensemble differs from the ground's in its nights only, and not in its air.
func (g *Ground) Field(spot climate.Ensemble, c crops.Crop, raised bool, seed uint64) *Field {
	k := keyOf(c, raised)
	r := g.rows[k]
	if r == nil {
		r = newWarmthRows(c, k)
		r.reset(g.e.Seasons)
		g.rows[k] = r
	}
	if !g.lit {
		g.usual, g.lit = usualLightAt(g.e.Latitude), true
	}
	h := homeKey{c.Label(), raised}
	at, ok := g.homes[h]
	if !ok {
		at = homeOf(c, raised)
		g.homes[h] = at
	}
	need, _ := warmthOf(c, raised)
	f := &Field{Ensemble: spot, Crop: c, Raised: raised, need: need, gain: normals{seed},
		light: lightFrom(&g.usual, g.line(c), at), bolts: at.bolts, warmth: r.rows, rows: r}
	if !raised {
		if g.soil == nil {
			for _, s := range g.e.Seasons {
				g.soil = append(g.soil, climate.SoilTemperatures(nil, s, SowingDepth))
			}
		}
		f.soil = g.soil
	}
	return f
}

// line returns a crop's line of light, which those of like hours share.
func (g *Ground) line(c crops.Crop) [climate.YearDays]float64 {
	k := lightHours(c)
	line, ok := g.lines[k]
	if !ok {
		line = lineOf(g.e, c)
		g.lines[k] = line
	}
	return line
}

// lightHours are a crop's LightHours, -1 for none.
func lightHours(c crops.Crop) float64 { return orElse(c.LightHours.Value, -1) }

// row returns the warmth of season i, of which the days from one up to another, not included,
// are worked out.
func (f *Field) row(i, from, to int) []float64 {
	if f.rows != nil {
		f.rows.fill(i, from, to)
	}
	return f.warmth[i]
}

// warmthKey is how a crop's warmth is counted.
type warmthKey struct {
	days        bool
	base, upper float64 // -1000 for none
}

func keyOf(c crops.Crop, raised bool) warmthKey {
	warmth := c.WarmthSown
	if raised {
		warmth = c.WarmthPlanted
	}
	return warmthKey{!warmth.Known(), orElse(c.Base.Value, -1000), orElse(c.Upper.Value, -1000)}
}

// warmthRows works out the warmth of days, season by season, as far as it is wanted. It may
// be asked from several goroutines at once.
type warmthRows struct {
	key     warmthKey
	degrees climate.DegreeDays
	seasons []climate.Season
	rows    [][]float64
	filled  []filled
	memory  []float64
}

// filled tells which days of a season are worked out: from one up to another, not included.
type filled struct {
	mu       sync.Mutex
	from, to int
}

func newWarmthRows(c crops.Crop, k warmthKey) *warmthRows {
	return &warmthRows{key: k, degrees: degreeDaysOf(c)}
}

func (r *warmthRows) reset(seasons []climate.Season) {
	n := len(seasons)
	if cap(r.memory) < n*climate.SpanLen {
		r.memory = make([]float64, n*climate.SpanLen)
	}
	r.seasons, r.rows, r.filled = seasons, r.rows[:0], make([]filled, n)
	for i := range n {
		r.rows = append(r.rows, r.memory[i*climate.SpanLen:(i+1)*climate.SpanLen:(i+1)*climate.SpanLen])
	}
}

// fill works out a season's days from one up to another, not included, so far as they are not
// there. What is there stays one run of days: those between it and what is wanted come with it.
func (r *warmthRows) fill(i, from, to int) {
	f := &r.filled[i]
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.from == f.to {
		f.from, f.to = from, from
	}
	if from < f.from {
		r.work(i, from, f.from)
		f.from = from
	}
	if to > f.to {
		r.work(i, f.to, to)
		f.to = to
	}
}

func (r *warmthRows) work(i, from, to int) {
	lows, highs := r.seasons[i].Air()
	row, tmin, tmax := r.rows[i][from:to], lows[from:to], highs[from:to]
	if !r.key.days {
		r.degrees.Fill(row, tmin, tmax)
		return
	}
	for d := range row {
		row[d] = growingDay(tmin[d], tmax[d], r.degrees.Base)
	}
}
