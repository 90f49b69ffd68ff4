package quality_test

import (
	"math"
	"math/rand/v2"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/quality"
)

// neighbours are sets of stations near each other: eight of one upland 4 to 50 km apart, by which the limits were set, and,
// unseen by that, eight of the North German plain and three of Ireland, 60 to 250 km apart; where they are not on
// this machine, three invented ones.
func neighbours(t *testing.T) map[string][]climate.Series {
	out := map[string][]climate.Series{}
	for set, globs := range map[string][]string{
		"upland":  {"near/forest-*"},
		"plain":   {"bed/dwd-00044", "bed/dwd-00850", "bed/dwd-01329", "near/dwd-00243-*", "near/dwd-01266-*", "near/dwd-01667-*", "near/dwd-01736-*", "near/dwd-01987-*"},
		"Ireland": {"soil/*"},
	} {
		for _, g := range globs {
			files, _ := filepath.Glob("../../../shared/data/" + g + ".csv.gz")
			for _, f := range files {
				s := read(t, f)
				out[set] = append(out[set], quality.Mask(s, quality.Check(s)))
			}
		}
	}
	if len(out) > 0 {
		return out
	}
	t.Log("the open records are not on this machine: three invented ones")
	clean := cleanOf(t, shipped)["Badajoz"]
	rng := rand.New(rand.NewPCG(8, 8))
	for k := range 3 {
		s := clean.Clone()
		for i := range s.Tmin {
			s.Tmin[i] += 0.8*rng.NormFloat64() - float64(2*k)
			s.Tmax[i] += 0.8*rng.NormFloat64() - float64(2*k)
		}
		out["invented"] = append(out["invented"], s)
	}
	return out
}

// TestNeighboursFind plants faults in one record after another and holds the check by the others to
// what it finds, and to what it doubts in the records as they are.
func TestNeighboursFind(t *testing.T) {
	least := map[string][4]float64{ // per cent found; three Irish winters have 20 frosts, few of them below -2 °C
		"upland": {65, 90, 60, 70}, "plain": {85, 90, 85, 80}, "Ireland": {65, 0, 65, 50}, "invented": {65, 90, 60, 65}}
	for set, all := range neighbours(t) {
		t.Run(set, func(t *testing.T) { neighboursFind(t, all, least[set]) })
	}
}

func neighboursFind(t *testing.T, all []climate.Series, least [4]float64) {
	rng := rand.New(rand.NewPCG(15, 15))
	var planted, found [4]int
	flags, days, questions := 0, 0, 0
	for k, s := range all {
		var others []climate.Series
		for j, o := range all {
			if j != k {
				others = append(others, o)
			}
		}
		f, q, _ := quality.Neighbours(s, others)
		flags, days, questions = flags+len(f), days+s.Len(), questions+len(q)
		for _, o := range q {
			t.Log(k, o)
		}
		for rep := range 12 {
			n := rep % 4
			winter := climate.NewDay(s.First.Year()+4+rng.IntN(s.Last().Year()-s.First.Year()-8), 12, 1)
			from := int(winter - s.First)
			known, frosts := 0, 0
			for i := from; i < from+90; i++ {
				if !math.IsNaN(s.Tmin[i] + s.Tmax[i]) {
					known++
				}
				if s.Tmin[i] < 0 {
					frosts++
				}
			}
			if known < 80 {
				continue
			}
			c := s.Clone()
			switch n {
			case 0: // both a day late for 60 days
				copy(c.Tmin[from:from+60], s.Tmin[from-1:])
				copy(c.Tmax[from:from+60], s.Tmax[from-1:])
			case 1: // signs
				if frosts < 20 {
					continue
				}
				for i := from; i < from+90; i++ {
					c.Tmin[i] = math.Abs(c.Tmin[i])
				}
			case 2: // a thermometer moved, 1 °C
				for i := from; i < s.Len(); i++ {
					c.Tmin[i]++
				}
			case 3: // a value 10 °C off
				c.Tmin[from+20] += 10
			}
			planted[n]++
			f, q, steps := quality.Neighbours(c, others)
			hit := false
			for _, o := range q {
				hit = hit || n == map[string]int{"both-late": 0, "no-signs:tmin": 1}[o.About] && math.Abs(float64(o.From-winter)) < 40
			}
			for _, o := range steps {
				hit = hit || n == 2 && o.Of == "tmin" && o.Kept() && math.Abs(float64(o.Date-winter)) < 2*365
			}
			for _, o := range f {
				hit = hit || n == 3 && o.Day == winter+20
			}
			if hit {
				found[n]++
			}
		}
	}
	years := float64(days) / 365.25
	t.Logf("planted %v (both a day late, signs of a winter, moved by 1 °C, 10 °C off), found %v; as they are: %.2f flags a station-year, %d questions in %.0f years",
		planted, found, float64(flags)/years, questions, years)
	require.Positive(t, planted[0])
	for n, l := range least {
		assert.GreaterOrEqual(t, share(found[n], planted[n]), l, "kind %d", n)
	}
	assert.LessOrEqual(t, float64(flags)/years, 0.15)
	assert.LessOrEqual(t, float64(questions), years/100)
}
