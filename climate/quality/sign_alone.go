package quality

import (
	"fmt"
	"math"
	"slices"
)

const (
	// signAlone is the log likelihood ratio wanted for a minimum to be taken for one that lost its
	// sign: less than a value is wanted to be far off that may be wrong in any way, as the other
	// reading must fit (our rule; see sign_alone_long_test.go for what it finds and costs).
	signAlone = 5
	signFits  = 3 // standard deviations from its expectation that the other reading may be
)

// signOff is how far off, in standard deviations, a value must be for another to be so much the
// likelier: the best one could do is to be as expected.
var signOff = math.Sqrt(2 * signAlone)

// lostSignValues flags minima above naught that neither their day nor the days beside bear out,
// and that they would bear out below naught. Where one is flagged, those beside are looked at
// without it.
func lostSignValues(r *record) []Flag {
	b := r.hoods()
	b.look()
	return b.signless()
}

// signless flags what is doubted, the farthest off first.
func (b *hoods) signless() (out []Flag) {
	todo := b.losses
	slices.SortStableFunc(todo, func(a, b doubt) int { return compare(b.off, a.off) })
	for k := 0; k < len(todo); k++ {
		i := todo[k].i
		off, as := b.unsigned(i)
		if !((off*off-as*as)/2 >= signAlone && math.Abs(as) <= signFits) {
			continue
		}
		v := b.r.v[Tmin][i]
		out = append(out, b.r.flag(i, Tmin, fmt.Sprintf("%.1f °C is %.1f s.d. from what the values beside lead to expect, and -%.1f °C would be %.1f", v, off, v, math.Abs(as))))
		b.z[Tmin][i] = math.NaN()
		for _, j := range []int{i - 1, i + 1} {
			if j >= 0 && j < b.r.len() {
				todo = append(todo, doubt{i: j})
			}
		}
	}
	b.losses = todo // its memory
	return out
}

// unsigned returns how far a minimum is from its expectation, as it stands and below naught; NaN
// where it is not above naught or that is not known.
func (b *hoods) unsigned(i int) (off, as float64) {
	v := b.r.v[Tmin][i]
	if !(v > 0) {
		return math.NaN(), math.NaN()
	}
	x, h := &b.months[b.r.month[i]], b.z.around(i)
	off = x.off(h, Tmin)
	if off == off {
		h[2] = b.r.z(Tmin, i, -v)
	}
	return off, x.off(h, Tmin)
}
