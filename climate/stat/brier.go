package stat

import (
	"math"
	"slices"
)

// Brier is the mean squared difference between the chances issued and what came (1 or 0),
// and Murphy's parts of it (Brier 1950, Mon. Wea. Rev. 78, 1-3; Murphy 1973, J. Appl.
// Meteorol. 12, 595-600): Score = Reliability - Resolution + Uncertainty. The sum is exact
// because seasons are grouped by the very chance issued; with bins two more terms would be
// needed (Stephenson, Coelho and Jolliffe 2008, Wea. Forecasting 23, 752-757).
type Brier struct {
	N           int
	Score       float64
	Reliability float64 // 0 is best: chances came true as often as they said
	Resolution  float64 // more is better: they separated seasons
	Uncertainty float64 // what the climate gives to anybody
	BaseRate    float64 // how often the event came
}

// Skill is the gain over issuing the base rate each time: 1 is perfect, 0 none. It is NaN
// where the event always or never came.
func (b Brier) Skill() float64 { return 1 - b.Score/b.Uncertainty }

// NewBrier scores chances against what came.
func NewBrier(chance []float64, came []bool) Brier {
	return murphy(groupByChance(chance, came))
}

// Issued is the seasons for which one chance was issued.
type Issued struct {
	Chance float64
	N      float64 // seasons, or a share of them
	Came   float64 // of them, with the event
}

// groupByChance gathers seasons with identical chances, in rising order.
func groupByChance(chance []float64, came []bool) []Issued {
	if len(chance) != len(came) {
		panic("stat: wants one outcome a chance")
	}
	at := map[float64]int{}
	var groups []Issued
	for i, c := range chance {
		k, seen := at[c]
		if !seen {
			k = len(groups)
			at[c] = k
			groups = append(groups, Issued{Chance: c})
		}
		groups[k].N++
		if came[i] {
			groups[k].Came++
		}
	}
	slices.SortFunc(groups, func(a, b Issued) int { return compare(a.Chance, b.Chance) })
	return groups
}

func murphy(groups []Issued) Brier {
	var n, came float64
	for _, g := range groups {
		n += g.N
		came += g.Came
	}
	b := Brier{N: int(math.Round(n)), BaseRate: came / n}
	for _, g := range groups {
		o := g.Came / g.N
		b.Score += (g.Came*(1-g.Chance)*(1-g.Chance) + (g.N-g.Came)*g.Chance*g.Chance) / n
		b.Reliability += g.N / n * (g.Chance - o) * (g.Chance - o)
		b.Resolution += g.N / n * (o - b.BaseRate) * (o - b.BaseRate)
	}
	b.Uncertainty = b.BaseRate * (1 - b.BaseRate)
	return b
}

// ReliabilityTable gathers seasons into bins of equal width by the chance issued: for each
// bin that has any, the mean chance issued and how often the event came. A reliable method
// has the two alike.
func ReliabilityTable(chance []float64, came []bool, bins int) []Issued {
	table := make([]Issued, bins)
	for i, c := range chance {
		b := &table[min(int(c*float64(bins)), bins-1)]
		b.Chance += c
		b.N++
		if came[i] {
			b.Came++
		}
	}
	out := table[:0]
	for _, b := range table {
		if b.N > 0 {
			b.Chance /= b.N
			out = append(out, b)
		}
	}
	return out
}
