package risk

import (
	"math"
	"slices"

	"frostward/climate"
	"frostward/climate/stat"
)

// Tried is a planting tried on every starting day of a window.
type Tried struct {
	Days     []Counts         // by starting day, both ends of the window included
	Succeeds []climate.Chance // the same
	Choice                    // indexes into them

	// At is of the best day; the zero Result where there is none. Whether light is why a season
	// fails is not looked into.
	At Result
}

// TryAll plays some plantings, each for itself, from every starting day of a window. It goes
// through the seasons once and not once a crop. What it returns is good until the next call.
func (g *Ground) TryAll(list []Planting, w climate.Window, aim float64, seed uint64) []Tried {
	if g.e.By == climate.ByWeather {
		panic("risk: Ground.TryAll is for recorded seasons")
	}
	fields := make([]*Field, len(list))
	for k, p := range list {
		fields[k] = g.Field(g.e, p.Crop, p.Raised, seed)
	}
	for len(g.tried) < len(list) {
		g.tried = append(g.tried, Tried{})
	}
	all := g.tried[:len(list)]
	g.count(fields, list, w, all)
	for k := range all {
		t := &all[k]
		days, fates := t.Days, t.At.Fates
		*t = Tried{Days: days, Succeeds: slices.Grow(t.Succeeds[:0], len(days))[:len(days)], Choice: noChoice}
		for i, n := range days {
			t.Succeeds[i] = chanceOfCount(n.Succeeds, n.Known, len(g.e.Seasons))
			t.take(i, t.Succeeds[i], aim)
		}
		if t.Best >= 0 {
			t.At = Result{Planting: list[k].At(w.From + climate.SeasonDay(t.Best)), Fates: slices.Grow(fates[:0], len(g.e.Seasons))[:len(g.e.Seasons)]}
		}
	}
	for i := range g.e.Seasons {
		for k := range all {
			if r := &all[k].At; r.Fates != nil {
				r.Fates[i] = g.fate(k, fields[k], i, r.Planting)
			}
		}
	}
	for k := range all {
		if r := &all[k].At; r.Fates != nil {
			*r = Count(g.e, r.Planting, r.Fates)
			r.Light = climate.Chance{}
		}
	}
	return all
}

// fate is the day loop's Play of a start of planting k that count has counted, but for Light; for
// one start quicker than a sweep.
func (g *Ground) fate(k int, f *Field, i int, p Planting) Fate {
	if b := &g.bulks[k]; b.used {
		g.common.take(i)
		if told, ok := b.fate(int(p.Start - climate.SpanFrom)); ok {
			return told
		}
	}
	played := f.Play(i, p)
	played.Light = false
	return played
}

// count is the sweep's Count of some plantings, by the stretch where that can be done.
func (g *Ground) count(fields []*Field, list []Planting, w climate.Window, all []Tried) {
	from, to := int(w.From-climate.SpanFrom), int(w.To-climate.SpanFrom)
	line := math.Inf(-1)
	for len(g.bulks) < len(list) {
		g.bulks = append(g.bulks, bulk{})
	}
	for k, f := range fields {
		p, b := &list[k], &g.bulks[k]
		h := g.homes[homeKey{p.Crop.Label(), p.Raised}]
		b.used = p.Raised && p.Cover.Name == "" && h.light > 0 && !f.dark() && from > 0 && to >= from && to < climate.SpanLen
		if b.used {
			b.set(f, p, &g.common, g.litSums(f, from), h.light, to-from+1)
			line = max(line, orElse(b.harm, line))
		}
	}
	g.common.reset(g.e.Seasons, from, line)
	for i := range g.e.Seasons {
		g.common.take(i)
		for k := range list {
			if g.bulks[k].used {
				g.bulks[k].season(from, to)
			}
		}
	}
	for k, f := range fields {
		b, t := &g.bulks[k], &all[k]
		if !b.used {
			g.sweep.Set(f, list[k])
			t.Days = g.sweep.Count(w, 1, t.Days)
			continue
		}
		t.Days = slices.Grow(t.Days[:0], to-from+1)[:to-from+1]
		clear(t.Days)
		g.countOdd(f, list[k], b.odd, w, t.Days)
		b.into(t.Days)
	}
}

// countOdd counts by the sweep what counting by the stretch has left for it.
func (g *Ground) countOdd(f *Field, p Planting, odd []leftStart, w climate.Window, dst []Counts) {
	season := int16(-1)
	for _, o := range odd {
		if season < 0 {
			g.sweep.Set(f, p)
		}
		if o.season != season {
			season = o.season
			g.sweep.begin(int(season), w.From)
		}
		sd := climate.SpanFrom + climate.SeasonDay(o.at)
		g.sweep.count(sd, &dst[sd-w.From])
	}
}

// litSums returns the sums of the crops that a field's is like, from a day on.
func (g *Ground) litSums(f *Field, from int) *litSums {
	k := sumsKey{f.rows.key, lightHours(f.Crop)}
	s := g.sums[k]
	if s == nil {
		s = &litSums{key: k.warmth, warm: f.rows.degrees, stale: true}
		g.sums[k] = s
	}
	if s.stale || s.from != from {
		line := g.line(f.Crop)
		s.reset(len(g.e.Seasons), &g.usual, &line, from)
	}
	return s
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
