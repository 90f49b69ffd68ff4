package quality_test

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/climate/quality"
)

// The records that faults are planted in. What Check doubts in them is taken out first, so that
// what it doubts afterwards is by the planting.
var (
	shipped = map[string]string{
		"Badajoz":  "../../testdata/stations/badajoz.csv",
		"invented": "../../cmd/internal/demo/garden/record.csv",
	}
	shared = map[string]string{
		"Boulder":     "../../../shared/data/boulder-daily-c.csv",
		"KNMI 283":    "../../../shared/data/knmi-daily-283.txt",
		"USW00003870": "../../../shared/data/ghcnd-USW00003870.dly",
		"USW00004848": "../../../shared/data/ghcnd-access-USW00004848.csv",
		"USC00200228": "../../../shared/data/ghcnd-access-USC00200228.csv",
	}
)

func monthOf(d climate.Day) time.Month { _, m, _ := d.Date(); return m }

// read reads a record, or skips where it is not on this machine.
func read(t *testing.T, path string) climate.Series {
	t.Helper()
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		t.Skipf("%s is not on this machine", path)
	}
	require.NoError(t, err)
	defer f.Close()
	s, _, err := daily.Read(f, filepath.Base(path), daily.Options{})
	require.NoError(t, err)
	return s
}

// tally is what became of one kind of fault.
type tally struct {
	planted, found, asked int     // faults; asked: found or asked about
	cleanDays, cleanFlags int     // days without a fault, and those of them that were flagged
	before, after         float64 // the largest change of a median frost date, days: unchecked, checked
	same                  float64 // likewise checked, against the clean record's median over the same seasons
	compared, within      int     // plantings whose medians were compared so, and those within a day
}

func (t *tally) add(o tally) {
	t.planted += o.planted
	t.found += o.found
	t.asked += o.asked
	t.cleanDays += o.cleanDays
	t.cleanFlags += o.cleanFlags
	t.compared += o.compared
	t.within += o.within
	t.before, t.after, t.same = max(t.before, o.before), max(t.after, o.after), max(t.same, o.same)
}

// longEnough is the length from which a record's medians are compared, 30 years: in a shorter
// one the dates to either side of the median lie days apart, and leaving out any one season
// moves it.
const longEnough = 30 * 365

// plant plants one kind of fault in a clean record and sees what the checks make of it.
func plant(clean climate.Series, k kind, seed uint64) tally {
	p := newPlanter(clean, seed)
	k.plant(p)
	flags := quality.Check(p.s)
	questions := quality.Ask(p.s)
	flagged := [2][]bool{make([]bool, p.s.Len()), make([]bool, p.s.Len())}
	for _, f := range flags {
		for e := range flagged {
			if f.Element == quality.Both || int(f.Element) == e {
				flagged[e][f.Day-p.s.First] = true
			}
		}
	}
	t := tally{planted: len(p.out)}
	for _, f := range p.out {
		hit, days := 0, 0
		for i := f.from; i <= f.to; i++ {
			if math.IsNaN(p.s.Tmin[i] + p.s.Tmax[i]) {
				continue
			}
			days++
			if flagged[0][i] && f.element != quality.Tmax || flagged[1][i] && f.element != quality.Tmin {
				hit++
			}
		}
		found := hit*10 >= days*9 // nine days in ten of a run
		if found {
			t.found++
		}
		if found || asks(questions, p.s.First, f) {
			t.asked++
		}
	}
	for i, taken := range p.taken {
		if taken || math.IsNaN(p.s.Tmin[i]) && math.IsNaN(p.s.Tmax[i]) {
			continue
		}
		t.cleanDays++
		if flagged[0][i] || flagged[1][i] {
			t.cleanFlags++
		}
	}
	if clean.Len() < longEnough {
		return t
	}
	is, checked := dates(clean), dates(quality.Mask(p.s, flags))
	t.before = apart(is.medians(is), dates(p.s).medians(is))
	t.after = apart(is.medians(is), checked.medians(checked))
	t.same = apart(is.medians(checked), checked.medians(checked))
	t.compared = 1
	if t.same <= 1 {
		t.within = 1
	}
	return t
}

// asks says whether a question covers at least half of a fault.
func asks(qs []quality.Question, first climate.Day, f planted) bool {
	covered := 0
	for _, q := range qs {
		covered += max(0, min(f.to, int(q.To-first))-max(f.from, int(q.From-first))+1)
	}
	return 2*covered >= f.to-f.from+1
}

// frosts are the dates of the last spring and first autumn frost at 0 °C, a season each.
type frosts struct {
	e climate.Ensemble
	d climate.FrostDates
}

func dates(s climate.Series) frosts {
	first, last := climate.SeasonsIn(s, climate.Calendar{})
	e := climate.Recorded(s, 50, first, last)
	return frosts{e, climate.DatesOf(e, 0, climate.WMO)}
}

// medians returns the median dates, over the seasons that count in o too. Faults before the
// first day or after the last leave no season out: every record here keeps its ends.
func (f frosts) medians(o frosts) (m [2]float64) {
	for h, pair := range [][2][]float64{{f.d.Spring, o.d.Spring}, {f.d.Autumn, o.d.Autumn}} {
		v := slices.Clone(pair[0])
		for i := range v {
			if math.IsNaN(pair[1][i]) {
				v[i] = math.NaN()
			}
		}
		if h == 0 {
			v = climate.Earliest(v)
		}
		m[h] = f.e.Quantile(v, 0.5).Value
	}
	return m
}

func apart(a, b [2]float64) float64 {
	worst := 0.0
	for i := range a {
		if a[i] != b[i] { // equal infinities are no days apart
			worst = max(worst, math.Abs(a[i]-b[i]))
		}
	}
	return worst
}

// seed plants every kind of fault in the records and holds the checks to what they must reach.
func seed(t *testing.T, records map[string]climate.Series, seeds uint64) {
	var b strings.Builder
	fmt.Fprintf(&b, "\n%-36s %7s %8s %9s %9s   %s\n", "", "", "", "or asked", "clean", "median frosts move at most, days")
	fmt.Fprintf(&b, "%-36s %7s %8s %9s %9s   %9s %8s %13s %12s\n", "fault", "planted", "found", "about", "flagged", "unchecked", "checked", "same seasons", "within a day")
	for _, k := range kinds {
		var sum tally
		for _, s := range records {
			for n := range seeds {
				sum.add(plant(s, k, n+1))
			}
		}
		found, asked := share(sum.found, sum.planted), share(sum.asked, sum.planted)
		clean := share(sum.cleanFlags, sum.cleanDays)
		within := share(sum.within, sum.compared)
		fmt.Fprintf(&b, "%-36s %7d %6.1f %% %7.1f %% %7.4f %%   %9.1f %8.1f %13.1f %10.0f %%\n",
			k.name, sum.planted, found, asked, clean, sum.before, sum.after, sum.same, within)
		require.Positive(t, sum.planted, k.name)
		assert.LessOrEqual(t, clean, 0.1, "%s: clean days flagged, %%", k.name)
		if k.gross {
			assert.GreaterOrEqual(t, found, 98.0, "%s: found, %%", k.name)
			assert.GreaterOrEqual(t, within, 95.0, "%s: checked medians within a day, %%", k.name)
		}
		assert.GreaterOrEqual(t, asked, k.asked, "%s: found or asked about, %%", k.name)
	}
	t.Log(b.String())
}

func share(k, n int) float64 { return 100 * float64(k) / float64(max(n, 1)) }

// cleanOf reads records and takes out what is doubtful in them.
func cleanOf(t *testing.T, paths map[string]string) map[string]climate.Series {
	out := map[string]climate.Series{}
	for name, path := range paths {
		if _, err := os.Stat(path); err != nil {
			continue
		}
		s := read(t, path)
		out[name] = quality.Mask(s, quality.Check(s))
	}
	return out
}

// TestSeededFaults prints, under -v, how many faults of each kind are found, what that costs in
// clean days, and what the faults do to the median frost dates without and with the checks.
func TestSeededFaults(t *testing.T) { seed(t, cleanOf(t, shipped), 1) }

// TestRealRecordsPass holds the checks to flagging at most 0.1 % of the days of records that
// their keepers have checked. The one repeated month is real: Boulder's maxima of October 1939
// are those of November 1939, all thirty.
func TestRealRecordsPass(t *testing.T) {
	for name, path := range map[string]string{"Badajoz": shipped["Badajoz"], "Seattle": "../../testdata/stations/seattle-weather.csv",
		"Boulder": shared["Boulder"], "KNMI 283": shared["KNMI 283"], "USW00003870": shared["USW00003870"],
		"USW00004848": shared["USW00004848"], "USC00200228": shared["USC00200228"]} {
		t.Run(name, func(t *testing.T) {
			s := read(t, path)
			days := map[climate.Day]bool{}
			for _, f := range quality.Check(s) {
				if name == "Boulder" && f.Rule == "repeated month" {
					assert.Equal(t, 1939, f.Day.Year())
					continue
				}
				days[f.Day] = true
			}
			t.Logf("%d of %d days flagged, %.3f %%", len(days), s.Len(), share(len(days), s.Len()))
			assert.LessOrEqual(t, share(len(days), s.Len()), 0.1)
			for _, q := range quality.Ask(s) {
				t.Log(q)
			}
		})
	}
}

// TestSpikesThatDecideADate plants a dip in one night of each spring, a fortnight after the last
// frost, deep enough to put a false one there: 10 °C and as much more as that takes. What the
// rules let pass is to be asked about, since it moves a date by the fortnight.
func TestSpikesThatDecideADate(t *testing.T) {
	planted, flagged, asked := 0, 0, 0
	for _, clean := range cleanOf(t, shipped) {
		d := dates(clean)
		s := clean.Clone()
		var days []climate.Day
		for i, v := range d.d.Spring {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				continue
			}
			day := climate.Calendar{}.Day(d.e.Seasons[i].Year, climate.SeasonDay(v)+14)
			k := int(day - s.First)
			if k < 2 || k+2 >= s.Len() || math.IsNaN(s.Tmin[k]) {
				continue
			}
			s.Tmin[k] = min(s.Tmin[k]-10, -0.5)
			days = append(days, day)
		}
		out := map[climate.Day]bool{}
		flags := quality.Check(s)
		for _, f := range flags {
			if f.Element != quality.Tmax {
				out[f.Day] = true
			}
		}
		off := quality.Unborne(quality.Mask(s, flags), days)
		for i, day := range days {
			planted++
			switch {
			case out[day]:
				flagged++
			case off[i] <= -quality.UnborneZ:
				asked++
			}
		}
	}
	t.Logf("%d dips: %.0f %% left out, %.0f %% asked about", planted, share(flagged, planted), share(asked, planted))
	assert.GreaterOrEqual(t, share(flagged+asked, planted), 75.0)
}

// TestOriginalIsKept copies months over the same month of another year: it is the copy that is left
// out, and with it the original only where which is which is not clear.
func TestOriginalIsKept(t *testing.T) {
	planted, out, kept, wrong := 0, 0, 0, 0
	for _, clean := range cleanOf(t, shipped) {
		for year := clean.First.Year() + 2; year+3 < clean.Last().Year(); year += 2 {
			month := time.Month(1 + year%12)
			to, from := int(climate.NewDay(year, month, 1)-clean.First), int(climate.NewDay(year+1, month, 1)-clean.First)
			s := clean.Clone()
			copy(s.Tmin[to:to+28], clean.Tmin[from:])
			copy(s.Tmax[to:to+28], clean.Tmax[from:])
			m := quality.Mask(s, quality.Check(s))
			lost := func(i int) bool { return math.IsNaN(m.Tmin[i]+m.Tmax[i]) && !math.IsNaN(s.Tmin[i]+s.Tmax[i]) }
			if math.IsNaN(s.Tmin[to+5] + s.Tmax[to+5]) {
				continue
			}
			switch planted++; {
			case lost(to+5) && !lost(from+5):
				out++
			case lost(to + 5):
				kept++
			case lost(from + 5):
				wrong++
			}
		}
	}
	t.Logf("%d copies: %d left out alone, %d with the original, %d kept in its place", planted, out, kept, wrong)
	assert.GreaterOrEqual(t, share(out, planted), 60.0)
	assert.GreaterOrEqual(t, share(out+kept, planted), 85.0)
}
