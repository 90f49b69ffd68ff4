package quality

import (
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/daily"
)

// TestShiftsAreFew holds the questions about shifts to one in 50 years of records in which
// nothing is moved: records made of pieces of those that ship.
func TestShiftsAreFew(t *testing.T) {
	fewAsked(t, checked(t, ships), countShifts, 4, 2)
}

func countShifts(s climate.Series) int { return len(newRecord(s).shifts()) }

// ships are the records that ship.
var ships = map[string]string{
	"Badajoz":  "../../testdata/stations/badajoz.csv",
	"invented": "../../cmd/internal/demo/garden/record.csv",
}

// checked reads records, those that are on this machine, and takes out what is doubtful.
func checked(t *testing.T, paths map[string]string) map[string]climate.Series {
	out := map[string]climate.Series{}
	for name, path := range paths {
		f, err := os.Open(path)
		if err != nil {
			t.Logf("%s is not on this machine", path)
			continue
		}
		s, _, err := daily.Read(f, filepath.Base(path), daily.Options{})
		f.Close()
		require.NoError(t, err)
		if name == "Boulder" { // before, its hours of reading changed, and stretches do seem moved
			s = s.Between(climate.NewDay(1950, 1, 1), s.Last())
		}
		out[name] = Mask(s, slices.DeleteFunc(Check(s), func(f Flag) bool { return f.Rule == "lost sign" })) // whose finds are counted
	}
	return out
}

// pieces makes a record of pieces of the years of another, each about four months at its time of
// the year: whatever goes with what in a day and the days beside stays, and no stretch is longer.
func pieces(s climate.Series, rng *rand.Rand) climate.Series {
	out := s.Clone()
	n := s.Len()
	for i := 0; i < n; {
		days := min(60+rng.IntN(120), n-i)
		from := -1
		for try := 0; from < 0 || from+days > n || try < 50 && gaps20(s, from, days); try++ {
			from = i + int(math.Round(float64(rng.IntN(n/365)-rng.IntN(n/365))*365.2425))
		}
		copy(out.Tmin[i:i+days], s.Tmin[from:])
		copy(out.Tmax[i:i+days], s.Tmax[from:])
		i += days
	}
	return out
}

// gaps20 tells whether more than a fifth of some days is missing.
func gaps20(s climate.Series, from, days int) bool { return measured(s, from, days)*5 < days*4 }

func measured(s climate.Series, from, days int) (n int) {
	for i := from; i < from+days; i++ {
		if !math.IsNaN(s.Tmin[i] + s.Tmax[i]) {
			n++
		}
	}
	return n
}

// fewAsked counts questions of a kind in the records and in ones made of their pieces, and holds
// the latter's to a number in a hundred years.
func fewAsked(t *testing.T, records map[string]climate.Series, count func(climate.Series) int, times int, most float64) {
	years, asked, made := 0.0, 0, 0
	for _, name := range slices.Sorted(maps.Keys(records)) {
		s := records[name]
		y, a, m := float64(measured(s, 0, s.Len()))/365.25, count(s), 0
		for k := range times {
			m += count(pieces(s, rand.New(rand.NewPCG(uint64(k), 7))))
		}
		t.Logf("%-12s %3.0f years: %d questions; of pieces: %.2f in a hundred years", name, y, a, 100*float64(m)/y/float64(times))
		years, asked, made = years+y, asked+a, made+m
	}
	rate := 100 * float64(made) / years / float64(times)
	t.Logf("%.0f years: %d questions; of pieces, %d in %.0f years: %.2f in a hundred", years, asked, made, years*float64(times), rate)
	assert.LessOrEqual(t, rate, most)
	assert.LessOrEqual(t, float64(asked), 1+most*years/100)
}
