//go:build long

package quality

import (
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"frostward/climate"
)

func seven(t *testing.T) map[string]climate.Series {
	return checked(t, map[string]string{
		"Badajoz":     "../../testdata/stations/badajoz.csv",
		"invented":    "../../cmd/internal/demo/garden/record.csv",
		"Boulder":     "../../../shared/data/boulder-daily-c.csv",
		"KNMI 283":    "../../../shared/data/knmi-daily-283.txt",
		"USW00003870": "../../../shared/data/ghcnd-USW00003870.dly",
		"USW00004848": "../../../shared/data/ghcnd-access-USW00004848.csv",
		"USC00200228": "../../../shared/data/ghcnd-access-USC00200228.csv",
	})
}

// TestShiftsAreFewEverywhere does it with the shared records too.
func TestShiftsAreFewEverywhere(t *testing.T) { fewAsked(t, seven(t), countShifts, 24, 1.5) }

// TestShiftPowerEverywhere says how much 90 days that were moved tell by themselves, in how many
// of them that is enough, and how many are asked about: with the days beside that chance adds to
// a stretch, a few more. What does not tell enough, no limit finds that asks as seldom.
func TestShiftPowerEverywhere(t *testing.T) {
	const days = 90
	var all []float64
	found, n := 0, 0
	records := seven(t)
	for _, name := range slices.Sorted(maps.Keys(records)) {
		s := records[name]
		rng := rand.New(rand.NewPCG(9, 9))
		var sums []float64
		hits := 0
		for range 30 {
			moved := s.Clone()
			var at, by []int
			for from := 400 + rng.IntN(2000); from+days+400 < s.Len(); from += 1500 + rng.IntN(1500) {
				if measured(s, from, days)*10 < days*9 {
					continue
				}
				k := 2*rng.IntN(2) - 1
				at, by = append(at, from), append(by, k)
				copy(moved.Tmax[from:from+days], s.Tmax[from-k:])
			}
			r := newRecord(moved)
			evidence := r.shiftEvidence()
			asked := r.shifts()
			for j, from := range at {
				sum := 0.0
				for _, v := range evidence[1-by[j]][from : from+days] {
					if v == v {
						sum += v
					}
				}
				sums = append(sums, sum)
				for _, q := range asked {
					a, b := int(q.From-s.First), int(q.To-s.First)
					if 2*(min(b+1, from+days)-max(a, from)) >= days {
						hits++
						break
					}
				}
			}
		}
		slices.Sort(sums)
		t.Logf("%-12s %4d stretches: evidence of their days %5.1f, of one in ten less than %4.1f; %3.0f %% have enough, %3.0f %% asked about",
			name, len(sums), mean(sums), sums[len(sums)/10], tellEnough(sums), 100*float64(hits)/float64(len(sums)))
		all, found, n = append(all, sums...), found+hits, n+len(sums)
	}
	got := 100 * float64(found) / float64(n)
	t.Logf("%d stretches: %.1f %% have enough, %.1f %% asked about", n, tellEnough(all), got)
	assert.GreaterOrEqual(t, got, 83.0)
}

func tellEnough(sums []float64) float64 {
	n := 0
	for _, v := range sums {
		if v >= shiftEvidence {
			n++
		}
	}
	return 100 * float64(n) / float64(len(sums))
}

func mean(v []float64) (m float64) {
	for _, x := range v {
		m += x / float64(len(v))
	}
	return m
}
