package risk

import (
	"math"
	"slices"

	"frostward/climate"
)

// departureAt is how far the days of a season before index d stood from normal. Days before
// the season's span are not looked at: its first days know only what has been of it.
func (f *Fading) departureAt(s climate.Season, d int) departure {
	var out departure
	for v, t := range [2][]float64{s.Tmin, s.Tmax} {
		for j, back := range lagDays {
			var sum, n float64
			for i := max(0, d-back); i < d; i++ {
				if x := t[i] - f.normal[v][(climate.SpanFrom+climate.SeasonDay(i)).Fold()]; !math.IsNaN(x) {
					sum += x
					n++
				}
			}
			out[v][j] = math.NaN()
			if 2*n >= float64(min(back, d)) && n > 0 {
				out[v][j] = sum / n
			}
		}
	}
	return out
}

// Splice returns the ensemble with this season's days in place up to and with upTo. Each season
// goes on as it did, moved by the difference between what this season's days before and its own
// let expect, as that fades. A day missing so far is each season's own.
func (f *Fading) Splice(e climate.Ensemble, now climate.Season, upTo climate.SeasonDay) climate.Ensemble {
	from := int(upTo-climate.SpanFrom) + 1
	from = min(max(from, 0), climate.SpanLen)
	here := f.departureAt(now, from)
	out := e
	out.Seasons = make([]climate.Season, len(e.Seasons))
	for i, s := range e.Seasons {
		n := climate.NewSeason(now.Year)
		n.World = s.World
		if n.Snow = slices.Clone(s.Snow); n.Snow != nil && now.Snow != nil {
			copy(n.Snow[:from], now.Snow)
		}
		for d := range from {
			n.Tmin[d], n.Tmax[d] = now.Tmin[d], now.Tmax[d]
			if math.IsNaN(now.Tmin[d]) || math.IsNaN(now.Tmax[d]) {
				n.Tmin[d], n.Tmax[d] = fill(now.Tmin[d], now.Tmax[d], s.Tmin[d], s.Tmax[d])
			}
		}
		there := f.departureAt(s, from)
		move := func(v, k int) float64 {
			var m float64
			for j := range lags {
				if d := here[v][j] - there[v][j]; !math.IsNaN(d) {
					m += f.part[v][min(k, fadeDays-1)][j] * d
				}
			}
			return m
		}
		for d := from; d < climate.SpanLen; d++ {
			lo, hi := s.Tmin[d]+move(0, d-from), s.Tmax[d]+move(1, d-from)
			if lo > hi {
				lo = (lo + hi) / 2
				hi = lo
			}
			n.Tmin[d], n.Tmax[d] = lo, hi
		}
		out.Seasons[i] = n
	}
	return out
}

// fill gives what is missing of a day from another season's, never upside down.
func fill(tmin, tmax, otherMin, otherMax float64) (lo, hi float64) {
	switch {
	case math.IsNaN(tmin) && math.IsNaN(tmax):
		return otherMin, otherMax
	case math.IsNaN(tmin):
		return min(otherMin, tmax), tmax
	default:
		return tmin, max(otherMax, tmin)
	}
}
