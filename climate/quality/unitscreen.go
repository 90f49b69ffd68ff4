package quality

import (
	"math"

	"frostward/climate"
)

// calm bounds the standardised values, on a season day, that do not speak for any of the other
// units: nearly all, so that the evidence of five units need seldom be worked out.
type calm struct {
	low, high float64 // low above high where there are none
}

// calms are the bounds of a record.
type calms [2][climate.YearDays]calm

func (c *calm) holds(z float64) bool { return z >= c.low && z <= c.high }

// calmZ is the furthest that a calm value is from the usual: beyond, tails are cut off, and the
// formulas of calmAt do not hold.
const calmZ = 5.0

// anyUnitStretch tells, without keeping the evidence, whether there may be any to be found. The
// running sums that segments looks at stand at naught most of the time, and stay there on a day
// of calm values. That of both elements is never above those of the two together.
func (r *record) anyUnitStretch() bool {
	u, in := r.usuals(), r.calm()
	z := r.standardised()
	zn, zx := z[Tmin], z[Tmax]
	var n, x unitSums
	for i, d := range r.day {
		z := zn[i]
		moved := false
		if z == z && (n.most > 0 || !in[Tmin][d].holds(z)) {
			n.add(r.v[Tmin][i], z, u.mean[Tmin][d], u.per[Tmin][d])
			moved = true
		}
		z = zx[i]
		if z == z && (x.most > 0 || !in[Tmax][d].holds(z)) {
			x.add(r.v[Tmax][i], z, u.mean[Tmax][d], u.per[Tmax][d])
			moved = true
		}
		if moved && n.most+x.most > leastUnits && enough(&n, &x) {
			return true
		}
	}
	return false
}

// unitSums are the running sums of an element, by unit.
type unitSums struct {
	of   [len(otherUnits)]float64
	most float64
}

// add adds the evidence of a value, z standardised.
func (s *unitSums) add(v, z, mean, per float64) {
	is, most := min(z*z/2, 18), 0.0
	for k := range otherUnits {
		o := &otherUnits[k]
		as := (o.scale*v + o.offset - mean) * per
		x := stretches[k] + is - min(as*as/2, 18) // by logDensity, without its branch
		if o.scale < 0 && v < 0 {                 // it has its sign
			x = -18
		}
		sum := max(s.of[k]+x, 0)
		s.of[k] = sum
		most = max(most, sum)
	}
	s.most = most
}

// leastUnits is what the least of the units wants, less a little for what is rounded otherwise.
const leastUnits = 0.999 * unitsEvidence

// enough tells whether the sums of both elements, of one unit, may be what it wants.
func enough(n, x *unitSums) bool {
	for k := range otherUnits {
		if n.of[k]+x.of[k] >= 0.999*otherUnits[k].evidence {
			return true
		}
	}
	return false
}

// calm works out the bounds.
func (r *record) calm() *calms {
	u, c := r.usuals(), &r.work.calm
	for e := range c {
		for d := range c[e] {
			c[e][d] = calmAt(u.mean[e][d], u.per[e][d])
		}
	}
	return c
}

// calmAt works out the bounds from the usual. With z the standardised value, a value in another
// unit would be standardised to scale*z + g, and its evidence is
// log|scale| + (z² - (scale*z + g)²)/2: a parabola, which must not be above naught. A lost sign
// has none: it speaks for values above 0 °C where the mean is below, -2 v mean / sd², and those
// lie beyond the values divided by 10, around 0 °C, at which calm ends.
func calmAt(mean, per float64) calm {
	none := calm{1, -1}
	if math.IsNaN(per) {
		return none
	}
	c := calm{-calmZ, calmZ}
	for k := range parabolas {
		o, p := &otherUnits[k], &parabolas[k]
		if p.a == 0 {
			continue
		}
		g := ((o.scale-1)*mean + o.offset) * per
		b := -o.scale * g
		root := math.Sqrt(b*b - 4*p.a*(stretches[k]-g*g/2+1e-6)) // the little is for rounding; NaN where there is no root
		first, last := (-b-root)*p.half, (-b+root)*p.half
		switch {
		case p.a > 0: // calm between the roots
			if math.IsNaN(root) {
				return none
			}
			c.low, c.high = max(c.low, first), min(c.high, last)
		case math.IsNaN(root): // calm everywhere
		case first < 0: // calm outside them, of which the first is the higher
			c.low = max(c.low, first)
		default:
			c.high = min(c.high, last)
		}
	}
	return c
}

// parabolas are the factors of z² in calmAt, and half their inverses; 0 for a lost sign, which
// has none.
var parabolas = func() (out [len(otherUnits)]struct{ a, half float64 }) {
	for k, o := range otherUnits {
		if o.scale > 0 {
			out[k].a = (1 - o.scale*o.scale) / 2
			out[k].half = 1 / (2 * out[k].a)
		}
	}
	return out
}()
