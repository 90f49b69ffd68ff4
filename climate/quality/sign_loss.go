package quality

import (
	"math"
	"slices"
)

const (
	// signEvidence is the log likelihood ratio wanted of a stretch (our rule). Records made of
	// pieces of seven others, none of which lost a sign, then raise a question in signYears, and
	// one in e times as many for each 1 more; the seven themselves raise 2 in 306 years. Of
	// winters that lost the signs of 16 values or more, all are asked about; of 6 to 15 values,
	// most of them near naught, three quarters: the rest have less evidence than chance brings.
	// See the long tests.
	signEvidence = 8
	signYears    = 450
	signMost     = 3     // of one day: what is far off may be wrong in another way
	signDay      = -0.01 // of every day: a loss lasts a hundred days or so, and seldom over a summer
	signThere    = -18   // of a day with a value below naught
	signDrop     = 17    // less than one such
	signTwo      = 2     // by how much both elements must be the likelier to have lost theirs
	signTurned   = 0.002 // chance that a day begins a stretch in which the columns changed places
	signJoin     = 120   // days between two stretches that are asked about together
	signLow      = -7    // standard deviations below the usual that no reading is taken to be
)

// unsigned is a stretch in which some elements seem to have lost their minus signs.
type unsigned struct {
	segment
	lost     [2]bool
	evidence []float64 // by day of the record
}

func (u *unsigned) element() Element {
	switch u.lost {
	case [2]bool{true, true}:
		return Both
	case [2]bool{true, false}:
		return Tmin
	}
	return Tmax
}

// unsigned finds such stretches, of two that overlap the likelier.
func (r *record) unsigned() []unsigned {
	c := r.chain()
	if c == nil {
		return nil
	}
	var all []unsigned
	stands := c.read(signTurned, c.turned)
	for _, lost := range [][2]bool{{true, false}, {true, true}, {false, true}} {
		evidence := c.signEvidence(stands, lost)
		for _, s := range segments(evidence, signEvidence, signDrop) {
			all = append(all, unsigned{s, lost, evidence})
		}
	}
	weight := func(u unsigned) float64 {
		if u.element() == Both {
			return u.score - signTwo
		}
		return u.score
	}
	slices.SortStableFunc(all, func(a, b unsigned) int { return compare(weight(b), weight(a)) })
	var out []unsigned
	for _, u := range all {
		if !slices.ContainsFunc(out, func(o unsigned) bool { return o.overlaps(u.segment) }) {
			out = append(out, u)
		}
	}
	slices.SortFunc(out, func(a, b unsigned) int { return a.from - b.from })
	return out
}

// turned reads a day as it stands, or with its values the other way round where the minimum is
// above: columns that changed places must not look like lost signs.
func (c *chain) turned(i int, to []reading) []reading {
	to = append(to, c.reading(i))
	if n, x := c.r.v[Tmin][i], c.r.v[Tmax][i]; n > x {
		to = append(to, reading{c.r.z(Tmin, i, x), c.r.z(Tmax, i, n)})
	}
	return to
}

// signless reads a day in the ways in which its values can be without a sign.
func (c *chain) signless(lost [2]bool) func(i int, to []reading) []reading {
	return func(i int, to []reading) []reading {
		to = append(to, c.reading(i))
		for e := range lost {
			if v := c.r.v[e][i]; lost[e] && v > 0 {
				if z := c.r.z(Element(e), i, -v); z > signLow {
					for _, other := range to {
						other[e] = z
						to = append(to, other)
					}
				}
			}
		}
		return to
	}
}

// signEvidence returns what each day adds to some elements having lost their signs, as the
// logarithm of a likelihood ratio; NaN for a day that has none of them.
func (c *chain) signEvidence(stands []float64, lost [2]bool) []float64 {
	out := c.read(1, c.signless(lost))
	for i := range out {
		out[i] = min(out[i]-stands[i], signMost) + signDay
		known := false
		for e := range lost {
			v := c.r.v[e][i]
			known = known || lost[e] && v == v
			if lost[e] && v < 0 {
				out[i] = signThere
			}
		}
		if !known {
			out[i] = math.NaN()
		}
	}
	return out
}
