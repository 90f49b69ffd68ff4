package quality

import (
	"fmt"
	"math"
	"slices"

	"frostward/climate"
)

// plainly is Check as it reads: every rule made, none screened, and what is usual and what is
// to be expected worked out value by value. It also returns what a screen would have hidden,
// and how often each said that there is nothing to find.
func plainly(s climate.Series, quiet map[string]int) (flags []Flag, hidden string) {
	r := newRecord(s)
	var b *hoods
	for _, rule := range Rules {
		if rule.Name == "swapped" { // the first that asks for it
			r.plainUsuals()
		}
		calm := rule.quiet != nil && rule.quiet(r)
		find := rule.find
		switch rule.Name {
		case "lost sign":
			b = r.plainHoods()
			find = func(*record) []Flag { return b.plainLostSigns() }
		case "lone value":
			b.z = r.plainStandard()
			find = func(*record) []Flag { return b.plainLoneValues() }
		}
		found := find(r)
		if calm {
			quiet[rule.Name]++
			if len(found) > 0 {
				hidden = fmt.Sprintf("the screen of %q hides %v", rule.Name, found[0])
			}
		}
		for i := range found {
			found[i].Rule = rule.Name
		}
		r.mask(found)
		flags = append(flags, found...)
	}
	sortFlags(flags)
	return flags, hidden
}

// Disagreement compares a checker with the plain rules on a record, and returns in words where
// they differ; "" where they do not.
func Disagreement(c *Checker, s climate.Series, quiet map[string]int) string {
	plain, hidden := plainly(s, quiet)
	flags, masked := c.Masked(s)
	if !slices.Equal(flags, plain) {
		return fmt.Sprintf("%d flags instead of %d; %s\n%.3v\n%.3v", len(flags), len(plain), hidden, flags, plain)
	}
	want := Mask(s, plain)
	same := func(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }
	if masked.First != s.First || !slices.EqualFunc(masked.Tmin, want.Tmin, same) || !slices.EqualFunc(masked.Tmax, want.Tmax, same) {
		return "the record without the flagged values is not that of Mask"
	}
	return hidden
}

// plainUsuals works out what is usual as the formula reads.
func (r *record) plainUsuals() {
	r.known = new(usuals)
	for e := range r.v {
		var byDay [climate.YearDays][]float64
		for i, v := range r.v[e] {
			if inWorld(v) {
				byDay[r.day[i]] = append(byDay[r.day[i]], v)
			}
		}
		for d := range byDay {
			t := newTenths()
			for k := d - outlierWindow; k <= d+outlierWindow; k++ {
				for _, v := range byDay[(k+climate.YearDays)%climate.YearDays] {
					t.add(v, 1)
				}
			}
			mean, sd := math.NaN(), math.NaN()
			if t.n >= outlierValues {
				mean, sd = t.plainBiweight()
			}
			r.known.mean[e][d], r.known.sd[e][d], r.known.per[e][d] = mean, sd, 1/sd
		}
	}
}

func (t *tenths) plainBiweight() (mean, sd float64) {
	mid := t.median()
	mad := float64(t.mad(mid))
	if mad == 0 {
		return value(mid), math.NaN()
	}
	var sw, swx, num, den float64
	for b := t.from; b < t.to; b++ {
		n, x := float64(t.count[b]), float64(b-mid)
		u := x / (biweightC * mad)
		if v := 1 - u*u; n > 0 && v > 0 {
			sw += n * v * v
			swx += n * v * v * x
			num += n * x * x * v * v * v * v
			den += n * v * (1 - 5*u*u)
		}
	}
	return value(mid) + swx/sw/10, math.Sqrt(float64(t.n)*num) / math.Abs(den) / 10
}

// plainHoods counts every neighbourhood by itself.
func (r *record) plainHoods() *hoods {
	b := &hoods{r: r, z: r.plainStandard()}
	for i := 1; i+1 < r.len(); i += max(1, r.len()/enoughHoods) {
		b.months[r.month[i]].take(b.z.around(i))
	}
	return b
}

func (r *record) plainStandard() (z standard) {
	for e := range z {
		for i, v := range r.v[e] {
			z[e] = append(z[e], r.z(Element(e), i, v))
		}
	}
	return z
}

// plainLoneValues asks of every value.
func (b *hoods) plainLoneValues() []Flag {
	for i := range b.r.len() {
		for e := Tmin; e <= Tmax; e++ {
			if o := b.off(e, i); math.Abs(o) >= loneZ {
				b.found = append(b.found, doubt{i, e, o})
			}
		}
	}
	return b.worstFirst()
}

// plainLostSigns asks of every minimum.
func (b *hoods) plainLostSigns() []Flag {
	for i := range b.r.len() {
		if o := b.off(Tmin, i); o >= signOff {
			b.losses = append(b.losses, doubt{i, Tmin, o})
		}
	}
	return b.signless()
}
