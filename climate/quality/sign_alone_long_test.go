//go:build long

package quality

import (
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"frostward/climate"
)

// aloneDepths are the depths, °C, below which frosts are counted by what is found of them.
var aloneDepths = []float64{0, 1, 2, 4, 6, math.Inf(1)}

// alone is what a limit finds in a record: of its minima as they stand, and of those below naught
// if they had lost their signs, one at a time.
type alone struct {
	days, wrong int
	frosts, hit [5]int // by depth
}

func aloneIn(s climate.Series, limit float64) (a alone) {
	r := newRecord(s)
	b := r.hoods()
	gain := func(off, as float64) bool { return (off*off-as*as)/2 >= limit && math.Abs(as) <= signFits }
	for i, v := range r.v[Tmin] {
		if v != v {
			continue
		}
		a.days++
		if v > 0 {
			if gain(b.unsigned(i)) {
				a.wrong++
			}
			continue
		}
		depth := 0
		for depth < 4 && -v > aloneDepths[depth+1] {
			depth++
		}
		a.frosts[depth]++
		r.v[Tmin][i] = -v
		was := b.z[Tmin][i]
		b.z[Tmin][i] = r.z(Tmin, i, -v)
		off, as := b.unsigned(i)
		if gain(off, as) || math.Abs(off) >= loneZ {
			a.hit[depth]++
		}
		r.v[Tmin][i], b.z[Tmin][i] = v, was
	}
	return a
}

func (a *alone) add(o alone) {
	a.days, a.wrong = a.days+o.days, a.wrong+o.wrong
	for d := range a.frosts {
		a.frosts[d], a.hit[d] = a.frosts[d]+o.frosts[d], a.hit[d]+o.hit[d]
	}
}

func (a *alone) shares() (wrong float64, hit [5]float64) {
	for d := range hit {
		hit[d] = math.Round(100 * float64(a.hit[d]) / float64(max(1, a.frosts[d])))
	}
	return 100 * float64(a.wrong) / float64(a.days), hit
}

// TestLostSignsAloneEverywhere says what limits of the rule find and cost, and what the limit that
// would be chosen by all records but one does in that one: the lowest that flags at most 0.01 %
// of their days.
func TestLostSignsAloneEverywhere(t *testing.T) {
	records := seven(t)
	limits := []float64{3, 4, signAlone, 6, 7, math.Inf(1)}
	by := map[string][]alone{}
	names := slices.Sorted(maps.Keys(records))
	for k, limit := range limits {
		var all alone
		for _, name := range names {
			by[name] = append(by[name], aloneIn(records[name], limit))
			all.add(by[name][k])
		}
		wrong, hit := all.shares()
		t.Logf("limit %4.0f: %3d of %d clean days, %.4f %%; found of frosts to 1, 2, 4, 6 °C and below: %v %%", limit, all.wrong, all.days, wrong, hit)
		if limit == signAlone {
			assert.LessOrEqual(t, wrong, 0.02)
		}
	}
	var out alone
	for _, name := range names {
		chosen := 0
		for k := range limits {
			var others alone
			for _, o := range names {
				if o != name {
					others.add(by[o][k])
				}
			}
			chosen = k
			if wrong, _ := others.shares(); wrong <= 0.01 {
				break
			}
		}
		wrong, hit := by[name][chosen].shares()
		t.Logf("%-12s by the others' limit of %.0f: %d of %d clean days, %.4f %%; found %v %%", name, limits[chosen], by[name][chosen].wrong, by[name][chosen].days, wrong, hit)
		out.add(by[name][chosen])
	}
	wrong, hit := out.shares()
	t.Logf("left out in turn: %.4f %% of clean days; found %v %%", wrong, hit)
	assert.LessOrEqual(t, wrong, 0.02)
	assert.GreaterOrEqual(t, hit[4], 85.0, "frosts below -6 °C, %%")
}
