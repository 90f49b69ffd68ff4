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

// uplands are neighbouring stations: eight of one upland where they are on this machine, else
// three invented ones.
func uplands(t *testing.T) (out []climate.Series) {
	files, _ := filepath.Glob("../../../shared/data/near/forest-*.csv.gz")
	for _, f := range files {
		s := read(t, f)
		out = append(out, quality.Mask(s, quality.Check(s)))
	}
	if len(out) > 0 {
		return out
	}
	t.Log("the upland's records are not on this machine: three invented ones")
	clean := cleanOf(t, shipped)["Badajoz"]
	rng := rand.New(rand.NewPCG(8, 8))
	for k := range 3 {
		s := clean.Clone()
		for i := range s.Tmin {
			s.Tmin[i] += 0.8*rng.NormFloat64() - float64(2*k)
			s.Tmax[i] += 0.8*rng.NormFloat64() - float64(2*k)
		}
		out = append(out, s)
	}
	return out
}

// TestNeighboursFind plants faults in one record after another and holds the check by the others to
// what it finds, and to what it doubts in the records as they are.
func TestNeighboursFind(t *testing.T) {
	all := uplands(t)
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
	t.Logf("planted %v (both a day late, signs of a winter, moved by 1 °C, 10 °C off), found %v; as they are: %d flags and %d questions in %d days", planted, found, flags, questions, days)
	require.Positive(t, planted[0])
	for n, least := range []float64{65, 90, 60, 65} {
		assert.GreaterOrEqual(t, share(found[n], planted[n]), least, "kind %d", n)
	}
	assert.LessOrEqual(t, share(flags, days), 0.05)
	assert.LessOrEqual(t, float64(questions), float64(days)/36525)
}
