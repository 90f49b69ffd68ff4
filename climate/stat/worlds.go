package stat

// Worlds states the uncertainty of a share counted over generated seasons.
//
// Each world is a set of seasons generated from its own resample of the seasons of
// record, so the spread of the shares between worlds, less what chance alone gives
// with so few seasons a world, is the variance of the share that comes of having a
// short record (analysis of variance with one random factor).
type Worlds struct {
	Yes, Of []int // a world: seasons with the event, seasons in which it is known
	Record  int   // seasons of record behind all of them
}

// priorSeasons is what n seasons of record are worth to the daily model, in counted seasons,
// before the worlds are looked at.
//
// A normal curve fitted to n dates knows its 0.5- and 0.1-quantile as well as a count over 1.6
// n would (variances 1/n and 1.82/n of the curve against 1.57/n and 2.92/n of the count, in
// units of the variance of a date), and the daily model, which draws on every day, does
// better still for dates that hang on a few weeks; but recent seasons weigh most in its level,
// so that it does not gain in step with a long record. Measured on invented weather of known
// laws, the worth lay between 14 and 36 counted seasons for 10 seasons of record, 24 and 63
// for 20, and 27 and 126 for 40, least for sums of warmth over a summer.
func priorSeasons(n float64) float64 { return 2 * n / (1 + n/50) }

// priorWorlds is how many worlds the prior counts as. Few worlds show the variance between
// them poorly: of 25, half the time not within a third.
const priorWorlds = 14

// worthLow bounds what the worlds may claim, in seasons of record, from below.
const worthLow = 0.3

// worthHigh bounds it from above: 3, and less where few seasons have shown the daily model its laws. On
// invented weather of the model's own kind, the 90 % intervals of 50 records of six seasons at 3 held the
// truth 94 times in 100; but that real weather keeps to those laws in its rarest seasons is
// nothing that six of them can show. At 1.5 for six, what came in all that was made of
// them has a lower end of 77 %.
func worthHigh(record float64) float64 { return min(3, 0.75+record/8) }

// share returns the share of seasons with the event over all worlds.
func (w Worlds) share() float64 {
	var k, n int
	for i := range w.Of {
		k += w.Yes[i]
		n += w.Of[i]
	}
	return float64(k) / float64(n)
}

// EffectiveSeasons returns the number of independent counted seasons that would know
// the share as well as the worlds do.
func (w Worlds) EffectiveSeasons() float64 {
	p := w.share()
	record := float64(w.Record)
	var worlds, total, ss, within, sq float64
	for i, of := range w.Of {
		if of < 2 {
			continue
		}
		n := float64(of)
		s := float64(w.Yes[i]) / n
		worlds++
		total += n
		sq += n * n
		ss += n * (s - p) * (s - p)
		within += n * s * (1 - s)
	}
	perSeason := 1 / priorSeasons(record) // variance of the share over p(1-p)
	if worlds > 1 && p > 0 && p < 1 {
		// Unbalanced one-way analysis of variance (Searle 1971, Linear Models, chapter
		// 11, from memory).
		msb := ss / (worlds - 1)
		msw := within / (total - worlds)
		n0 := (total - sq/total) / (worlds - 1)
		between := (msb - msw) / n0 / (p * (1 - p))
		perSeason = (priorWorlds*perSeason + (worlds-1)*between) / (priorWorlds + worlds - 1)
	}
	if total > 0 {
		// The generated seasons are themselves a sample.
		perSeason += 1 / total
	}
	return min(max(1/max(perSeason, 1e-9), worthLow*record), worthHigh(record)*record)
}

// Interval returns the interval of the share: Wilson's for the effective seasons.
func (w Worlds) Interval(level float64) (low, high float64) {
	return WilsonShare(w.share(), w.EffectiveSeasons(), level)
}
