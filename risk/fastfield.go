package risk

import (
	"math"

	"frostward/climate"
	"frostward/climate/stat"
	"frostward/crops"
)

// Ground is an ensemble of recorded seasons made ready for many crops on many starting days.
// What the crops share is worked out once, and no further than it is wanted: the warmth of
// days, by the base and limit it is counted with (a dozen crops have about six), and the
// light. It gives what Field and Try give. It keeps its memory for the next station, and is
// for one goroutine.
type Ground struct {
	e      climate.Ensemble
	usual  [climate.YearDays]float64
	lit    bool // usual is there
	lines  map[float64][climate.YearDays]float64
	rows   map[warmthKey]*warmthRows
	homes  map[homeKey]float64
	soil   [][]float64
	sweep  Sweep
	counts []Counts
}

type homeKey struct {
	crop   string
	raised bool
}

// NewGround returns a Ground without seasons.
func NewGround() *Ground {
	return &Ground{rows: map[warmthKey]*warmthRows{}, homes: map[homeKey]float64{}}
}

// Reset takes the seasons of another station. They must be recorded ones.
func (g *Ground) Reset(e climate.Ensemble) {
	if e.By == climate.ByWeather {
		panic("risk: a Ground is for recorded seasons")
	}
	g.e, g.lit, g.lines, g.soil = e, false, map[float64][climate.YearDays]float64{}, nil
	for _, r := range g.rows {
		r.reset(e.Seasons)
	}
}

// field is NewField with its warmth yet to be worked out.
func (g *Ground) field(c crops.Crop, raised bool, seed uint64) *Field {
	k := keyOf(c, raised)
	r := g.rows[k]
	if r == nil {
		r = newWarmthRows(c, raised)
		r.reset(g.e.Seasons)
		g.rows[k] = r
	}
	if !g.lit {
		g.usual, g.lit = usualLightOn(g.e), true
	}
	line, ok := g.lines[c.LightHours.Value] // NaN, for none, is never found, and costs nothing
	if !ok {
		line = lineOf(g.e, c)
		g.lines[c.LightHours.Value] = line
	}
	h := homeKey{c.Label(), raised}
	home, ok := g.homes[h]
	if !ok {
		home = usualLight(c, raised)
		g.homes[h] = home
	}
	need, _ := warmthOf(c, raised)
	f := &Field{Ensemble: g.e, Crop: c, Raised: raised, need: need, gain: normals{seed},
		light: lightFrom(&g.usual, line, home), warmth: r.rows, rows: r}
	if !raised {
		if g.soil == nil {
			for _, s := range g.e.Seasons {
				g.soil = append(g.soil, climate.SoilTemperatures(nil, s, SowingDepth))
			}
		}
		f.soil = g.soil
		r.fillAll() // the day loop plays sowings
	}
	return f
}

// Tried is a planting tried on every starting day of a window.
type Tried struct {
	Days     []Counts         // good until the next Try
	Succeeds []climate.Chance // by starting day, both ends of the window included
	Choice                    // indexes into them
	At       Result           // of the best day; the zero Result where there is none
}

// Try plays a planting from every starting day of a window.
func (g *Ground) Try(p Planting, w climate.Window, aim float64, seed uint64) Tried {
	f := g.field(p.Crop, p.Raised, seed)
	g.sweep.Set(f, p)
	g.counts = g.sweep.Count(w, 1, g.counts)
	t := Tried{Days: g.counts, Succeeds: make([]climate.Chance, len(g.counts)), Choice: noChoice}
	for i, n := range g.counts {
		t.Succeeds[i] = chanceOfCount(n.Succeeds, n.Known, len(g.e.Seasons))
		t.take(i, t.Succeeds[i], aim)
	}
	if t.Best >= 0 {
		start := w.From + climate.SeasonDay(t.Best)
		fates := make([]Fate, len(g.e.Seasons))
		for i := range fates {
			fates[i] = g.sweep.Play(i, climate.Window{From: start, To: start}, 1)[0]
		}
		t.At = Count(g.e, p.At(start), fates)
	}
	return t
}

// chanceOfCount is Ensemble.Chance of recorded seasons from its counts.
func chanceOfCount(yes, known, seasons int) climate.Chance {
	c := climate.Chance{Seasons: known, LeftOut: seasons - known}
	if known < climate.MinSeasons {
		return c
	}
	c.Known, c.Share = true, float64(yes)/float64(known)
	c.Low, c.High = stat.Wilson(yes, known, climate.Level)
	return c
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

// warmthRows works out the warmth of days, season by season from the start of the span or a
// later day on, as far as it is wanted.
type warmthRows struct {
	worth   func(tmin, tmax float64) float64
	seasons []climate.Season
	rows    [][]float64
	done    []int // up to this day, not included
	memory  []float64

	// A station's days repeat the same pairs of temperatures, in tenths of a degree, thousands
	// of times, and its neighbours' do; the sine's arc cosine and root cost ten times a look
	// into a small table that holds the last pair with each of its keys.
	memo [memoSize]struct{ tmin, tmax, worth float64 }
}

const (
	memoBits = 13
	memoSize = 1 << memoBits
)

func newWarmthRows(c crops.Crop, raised bool) *warmthRows {
	_, worth := warmthOf(c, raised)
	r := &warmthRows{worth: worth}
	for i := range r.memo {
		r.memo[i].tmin = math.NaN() // equal to nothing
	}
	return r
}

func (r *warmthRows) reset(seasons []climate.Season) {
	n := len(seasons)
	if cap(r.memory) < n*climate.SpanLen {
		r.memory = make([]float64, n*climate.SpanLen)
	}
	r.seasons, r.rows, r.done = seasons, r.rows[:0], append(r.done[:0], make([]int, n)...)
	for i := range n {
		r.rows = append(r.rows, r.memory[i*climate.SpanLen:(i+1)*climate.SpanLen:(i+1)*climate.SpanLen])
	}
}

// fill works out a season's days up to one, not included.
func (r *warmthRows) fill(i, to int) {
	from := r.done[i]
	if to <= from {
		return
	}
	r.done[i] = to
	tmin, tmax, row := r.seasons[i].Tmin[:to], r.seasons[i].Tmax[:to], r.rows[i][:to]
	for d := from; d < to; d++ {
		low, high := tmin[d], tmax[d]
		m := &r.memo[(math.Float64bits(low)*0x9E3779B97F4A7C15^math.Float64bits(high)*0xD1B54A32D192ED03)>>(64-memoBits)]
		if m.tmin != low || m.tmax != high {
			m.tmin, m.tmax, m.worth = low, high, r.worth(low, high)
		}
		row[d] = m.worth
	}
}

func (r *warmthRows) fillAll() {
	for i := range r.seasons {
		r.fill(i, climate.SpanLen)
	}
}
