//go:build long

package quality

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"frostward/climate"
)

// TestSignsAreFewEverywhere does it with the shared records too.
func TestSignsAreFewEverywhere(t *testing.T) { fewAsked(t, seven(t), countSigns, 24, 1) }

// TestSignPowerEverywhere takes the signs of a winter from the records, of the minima and of
// both, and says by how many values were below naught how many of them are asked about, and how
// many values below some depths are hidden by those that are not.
func TestSignPowerEverywhere(t *testing.T) {
	records := seven(t)
	lots := []string{"1 to 5", "6 to 15", "16 to 40", "more"}
	var asked, half, all, twice [4]int
	var hidden, frosts [3]int
	for _, name := range slices.Sorted(maps.Keys(records)) {
		before := Ask(records[name])
		var a, n [4]int
		for k := range 60 {
			w := winterWithout(records[name], k%2 == 1, rand.New(rand.NewPCG(uint64(k), 11)))
			if w.below == 0 {
				continue
			}
			lot := 0
			for lot < 3 && w.below > []int{5, 15, 40}[lot] {
				lot++
			}
			n[lot]++
			all[lot]++
			covered, questions := w.covered(slices.DeleteFunc(Ask(w.s), func(q Question) bool {
				return q.Kind == "shift" && slices.ContainsFunc(before, func(b Question) bool { return b.Kind == q.Kind && b.From <= q.To && q.From <= b.To })
			}))
			if questions > 1 {
				twice[lot]++
			}
			if covered > 0 {
				a[lot]++
				asked[lot]++
			}
			if 2*covered >= w.days {
				half[lot]++
			}
			for d := range hidden {
				frosts[d] += w.deeper[d]
				if covered == 0 {
					hidden[d] += w.deeper[d]
				}
			}
		}
		t.Logf("%-12s asked about, of winters with 1-5, 6-15, 16-40, more values below naught: %v of %v", name, a, n)
	}
	for k, lot := range lots {
		t.Logf("%-8s below naught: %3d winters, %3d asked about, %3d over half their days, %d with two questions", lot, all[k], asked[k], half[k], twice[k])
	}
	t.Logf("frosts below 0, -2, -4 °C hidden by losses that are not asked about: %v of %v", hidden, frosts)
	many, found := all[1]+all[2]+all[3], asked[1]+asked[2]+asked[3]
	assert.GreaterOrEqual(t, 100*float64(found)/float64(many), 95.0)
}

// winter is a record without the signs of one.
type winter struct {
	s          climate.Series
	from, days int
	below      int    // values that were below naught
	deeper     [3]int // minima below 0, -2, -4 °C
}

func winterWithout(s climate.Series, both bool, rng *rand.Rand) winter {
	w := winter{days: 120}
	for w.from == 0 || w.from+w.days > s.Len() || measured(s, w.from, w.days) < 108 {
		year := s.First.Year() + rng.IntN(s.Last().Year()-s.First.Year())
		w.from = int(climate.NewDay(year, 12, 1)-s.First) + rng.IntN(31)
	}
	w.s = s.Clone()
	for i := w.from; i < w.from+w.days; i++ {
		for d, depth := range []float64{0, -2, -4} {
			if s.Tmin[i] < depth {
				w.deeper[d]++
			}
		}
		w.s.Tmin[i] = math.Abs(s.Tmin[i])
		if both {
			w.s.Tmax[i] = math.Abs(s.Tmax[i])
		}
	}
	w.below = w.deeper[0]
	return w
}

// covered returns how many of its days are asked about as such, and how many questions touch it.
func (w *winter) covered(qs []Question) (days, questions int) {
	for _, q := range qs {
		n := min(w.from+w.days, int(q.To-w.s.First)+1) - max(w.from, int(q.From-w.s.First))
		if n <= 0 {
			continue
		}
		questions++
		if q.Ask == askSign {
			days += n
		}
	}
	return days, questions
}
