package quality_test

import (
	"math"
	"math/rand/v2"

	"frostward/climate"
	"frostward/climate/quality"
)

// planted is one known fault: days of a record, both ends included, and the element at fault.
type planted struct {
	from, to int
	element  quality.Element
}

// planter puts known faults into a copy of a clean record.
type planter struct {
	s     climate.Series // the copy
	clean climate.Series
	rng   *rand.Rand
	out   []planted
	taken []bool // days that have a fault, or lie beside one
}

func newPlanter(clean climate.Series, seed uint64) *planter {
	return &planter{s: clean.Clone(), clean: clean, rng: rand.New(rand.NewPCG(seed, 20)), taken: make([]bool, clean.Len())}
}

// free finds a place for a fault of some days, all measured, away from the others.
func (p *planter) free(days int, good func(from int) bool) (from int, ok bool) {
	for range 5000 {
		if p.s.Len() <= days+6 {
			break
		}
		from = 3 + p.rng.IntN(p.s.Len()-days-6)
		if !p.whole(from-3, from+days+2) || good != nil && !good(from) {
			continue
		}
		for i := from - 3; i < from+days+3; i++ {
			p.taken[i] = true
		}
		return from, true
	}
	return 0, false
}

// whole says whether the days are measured, nine in ten of a long run, and not taken.
func (p *planter) whole(from, to int) bool {
	missing := 0
	for i := from; i <= to; i++ {
		if p.taken[i] {
			return false
		}
		if math.IsNaN(p.s.Tmin[i] + p.s.Tmax[i]) {
			missing++
		}
	}
	return missing*10 < to-from-5 // of them three to either side
}

// doseDays is the length of record that the numbers of faults below are for: 55 years.
const doseDays = 20000

// each plants a fault of some days n times, or fewer in a shorter record: change is given each
// of its days.
func (p *planter) each(n, days int, e func() quality.Element, good func(from int) bool, change func(i int, e quality.Element)) {
	for range max(1, n*p.s.Len()/doseDays) {
		from, ok := p.free(days, good)
		if !ok {
			return
		}
		element := e()
		for i := from; i < from+days; i++ {
			change(i, element)
		}
		p.out = append(p.out, planted{from, from + days - 1, element})
	}
}

func (p *planter) either() quality.Element { return quality.Element(p.rng.IntN(2)) }
func both() quality.Element                { return quality.Both }
func only(e quality.Element) func() quality.Element {
	return func() quality.Element { return e }
}

// values returns an element's values of the copy.
func (p *planter) values(e quality.Element) []float64 {
	if e == quality.Tmin {
		return p.s.Tmin
	}
	return p.s.Tmax
}

// to changes a day's values, one element or both, rounded to tenths as files are.
func (p *planter) to(f func(v float64) float64) func(i int, e quality.Element) {
	return func(i int, e quality.Element) {
		for _, k := range []quality.Element{quality.Tmin, quality.Tmax} {
			if e == k || e == quality.Both {
				v := p.values(k)
				v[i] = math.Round(10*f(v[i])) / 10
			}
		}
	}
}

func (p *planter) month(i int) int {
	_, m, _ := (p.s.First + climate.Day(i)).Date()
	return int(m)
}

// kind is one kind of fault.
type kind struct {
	name  string
	gross bool    // held to 98 % found, and the checked medians to within a day
	asked float64 // held to this share found or asked about, %
	plant func(p *planter)
}

// kinds are the faults. Gross are those that no reader of the file would doubt once pointed
// at: spikes of 25 °C and more, swapped values, runs of 10 days or more in another unit,
// values 20 days the same, copied months.
var kinds = []kind{
	{"spike of 5 °C", false, 0, spike(5)},
	{"spike of 10 °C", false, 0, spike(10)},
	{"spike of 15 °C", false, 0, spike(15)},
	{"spike of 20 °C", false, 0, spike(20)},
	{"spike of 25 °C", true, 0, spike(25)},
	{"spike of 30 °C", true, 0, spike(30)},
	{"swapped, single days", true, 0, func(p *planter) { p.each(40, 1, both, p.differ, p.swap) }},
	{"swapped, 60 days (columns changed)", true, 95, func(p *planter) { p.each(2, 60, both, nil, p.swap) }},
	{"°F, single days", false, 0, func(p *planter) { p.each(40, 1, both, nil, p.to(climate.Fahrenheit)) }},
	{"°F, 10 days", true, 95, func(p *planter) { p.each(6, 10, both, nil, p.to(climate.Fahrenheit)) }},
	{"°F, 60 days", true, 95, func(p *planter) { p.each(2, 60, both, nil, p.to(climate.Fahrenheit)) }},
	{"°F, a year", true, 95, func(p *planter) { p.each(1, 365, both, nil, p.to(climate.Fahrenheit)) }},
	{"°C taken for °F, 60 days", false, 95, func(p *planter) { p.each(2, 60, both, nil, p.to(climate.Celsius)) }},
	{"tenths, single days", false, 0, func(p *planter) { p.each(40, 1, both, nil, p.to(times(10))) }},
	{"tenths, 10 days", true, 95, func(p *planter) { p.each(6, 10, both, p.notZero(10), p.to(times(10))) }},
	{"tenths, 60 days", true, 95, func(p *planter) { p.each(2, 60, both, nil, p.to(times(10))) }},
	{"divided by 10, single minima", false, 60, func(p *planter) { p.each(40, 1, only(quality.Tmin), p.apart, p.to(times(0.1))) }},
	{"divided by 10, single maxima", false, 75, func(p *planter) { p.each(40, 1, only(quality.Tmax), p.apart, p.to(times(0.1))) }},
	{"divided by 10, single days", false, 75, func(p *planter) { p.each(40, 1, both, p.apart, p.to(times(0.1))) }},
	{"sign lost, single minima", false, 0, func(p *planter) { p.each(40, 1, only(quality.Tmin), p.below, p.to(math.Abs)) }},
	{"sign lost, a winter", false, 90, func(p *planter) { p.each(1, 120, both, p.winter(31, 120), p.to(math.Abs)) }},
	{"sign lost, a winter's minima", false, 90, func(p *planter) { p.each(1, 120, only(quality.Tmin), p.winter(31, 120), p.to(math.Abs)) }},
	{"sign lost, 16 to 30 frosts", false, 75, func(p *planter) { p.each(1, 120, only(quality.Tmin), p.winter(16, 30), p.to(math.Abs)) }},
	{"sign lost, 6 to 15 frosts", false, 0, func(p *planter) { p.each(1, 120, only(quality.Tmin), p.winter(6, 15), p.to(math.Abs)) }},
	{"one value, 6 days", false, 0, func(p *planter) { p.each(6, 6, p.either, nil, p.flat()) }},
	{"one value, 10 days", true, 0, func(p *planter) { p.each(6, 10, p.either, nil, p.flat()) }},
	{"one value, 20 days", true, 0, func(p *planter) { p.each(6, 20, p.either, nil, p.flat()) }},
	{"one value, 40 days", true, 0, func(p *planter) { p.each(3, 40, p.either, nil, p.flat()) }},
	{"same two values, 7 days", false, 0, func(p *planter) { p.each(20, 7, both, nil, p.flat()) }},
	{"month of another year", false, 85, repeated(true)},
	{"month of the same year", false, 90, repeated(false)},
	{"25 days copied", false, 85, copied(25)},
	{"maxima a day off, 90 days", false, 0, shifted(90, 12)},
	{"maxima a day off, a year", false, 75, shifted(365, 2)},
	{"maxima a day off, 2 years", false, 97, shifted(2*365, 1)},
	{"maxima a day off, 4 years", false, 97, shifted(4*365, 1)},
}

func times(k float64) func(float64) float64 { return func(v float64) float64 { return k * v } }

func spike(size float64) func(p *planter) {
	return func(p *planter) {
		p.each(40, 1, p.either, nil, func(i int, e quality.Element) {
			p.values(e)[i] += size * float64(2*p.rng.IntN(2)-1)
		})
	}
}

func (p *planter) swap(i int, _ quality.Element) { p.s.Tmin[i], p.s.Tmax[i] = p.s.Tmax[i], p.s.Tmin[i] }
func (p *planter) differ(i int) bool             { return p.s.Tmin[i] < p.s.Tmax[i] }
func (p *planter) apart(i int) bool              { return math.Abs(p.s.Tmin[i]) >= 5 && math.Abs(p.s.Tmax[i]) >= 5 }
func (p *planter) below(i int) bool              { return p.s.Tmin[i] < 0 }

// winter starts in December, in the north, as all records here are, and has some number of minima
// below zero within 120 days.
func (p *planter) winter(least, most int) func(i int) bool {
	return func(i int) bool {
		below := 0
		for _, v := range p.clean.Tmin[i : i+120] {
			if v < 0 {
				below++
			}
		}
		return p.month(i) == 12 && least <= below && below <= most
	}
}

// notZero leaves out days that ten times the value leaves as they are.
func (p *planter) notZero(days int) func(int) bool {
	return func(from int) bool {
		for i := from; i < from+days; i++ {
			if p.s.Tmin[i] == 0 && p.s.Tmax[i] == 0 {
				return false
			}
		}
		return true
	}
}

// flat repeats the value before.
func (p *planter) flat() func(i int, e quality.Element) {
	return func(i int, e quality.Element) {
		for _, k := range []quality.Element{quality.Tmin, quality.Tmax} {
			if e == k || e == quality.Both {
				p.values(k)[i] = p.values(k)[i-1]
			}
		}
	}
}

// repeated copies whole months over others: of the same name, or of the same year.
func repeated(otherYear bool) func(p *planter) {
	return func(p *planter) {
		for range max(1, 3*p.s.Len()/doseDays) {
			from, ok := p.free(31, func(i int) bool {
				y, m, d := (p.s.First + climate.Day(i)).Date()
				return d == 1 && m < 11 && climate.DaysIn(y, m) == 31 && i > 400
			})
			if !ok {
				return
			}
			y, m, _ := (p.s.First + climate.Day(from)).Date()
			source := climate.NewDay(y-1, m, 1)
			if !otherYear {
				source = climate.NewDay(y, m+2, 1)
			}
			at := int(source - p.s.First)
			if at+31 > p.s.Len() || !p.whole(at, at+30) {
				continue
			}
			for i := at; i <= at+30; i++ {
				p.taken[i] = true // its own days will be flagged too, since which is the copy is not known
			}
			n := climate.DaysIn(source.Year(), monthOf(source))
			copy(p.s.Tmin[from:from+min(n, 31)], p.s.Tmin[at:at+min(n, 31)])
			copy(p.s.Tmax[from:from+min(n, 31)], p.s.Tmax[at:at+min(n, 31)])
			p.out = append(p.out, planted{from, from + min(n, 31) - 1, quality.Both})
		}
	}
}

// copied puts a run from elsewhere over another.
func copied(days int) func(p *planter) {
	return func(p *planter) {
		for range max(1, 3*p.s.Len()/doseDays) {
			source, ok := p.free(days, nil)
			from, ok2 := p.free(days, nil)
			if !ok || !ok2 {
				return
			}
			copy(p.s.Tmin[from:from+days], p.s.Tmin[source:source+days])
			copy(p.s.Tmax[from:from+days], p.s.Tmax[source:source+days])
			p.out = append(p.out, planted{from, from + days - 1, quality.Both})
		}
	}
}

// shifted moves the maxima of a run a day on or back.
func shifted(days, n int) func(p *planter) {
	return func(p *planter) {
		for range n {
			from, ok := p.free(days, nil)
			if !ok {
				return
			}
			by := 2*p.rng.IntN(2) - 1
			copy(p.s.Tmax[from:from+days], p.clean.Tmax[from-by:from-by+days])
			p.out = append(p.out, planted{from, from + days - 1, quality.Tmax})
		}
	}
}
