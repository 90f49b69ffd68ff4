package main

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/crops"
	"frostward/risk"
)

// Laws that hold from the file to the answer, whatever the weather: each draws a record, writes
// it as a file, and asks the program itself.

// few checks are enough, since each plays a whole plan: the parts have their own laws.
func fewChecks(t *testing.T) {
	for name, value := range map[string]string{"rapid.checks": "8", "rapid.nofailfile": "true", "rapid.shrinktime": "5s"} {
		f := flag.Lookup(name)
		old := f.Value.String()
		require.NoError(t, f.Value.Set(value))
		t.Cleanup(func() { _ = f.Value.Set(old) })
	}
}

// weather is an invented record: a yearly wave, anomalies with a memory of some days, and days
// that differ in range. No night is warmer than the day before, so nothing in it is doubted.
type weather struct {
	level, rough float64
	seed         uint64
	seasons      int
}

func someWeather(t *rapid.T) weather {
	return weather{
		level:   rapid.Float64Range(6, 13).Draw(t, "level"),
		rough:   rapid.Float64Range(0.8, 2).Draw(t, "rough"),
		seed:    rapid.Uint64Range(1, 1<<40).Draw(t, "seed"),
		seasons: rapid.IntRange(7, 10).Draw(t, "seasons"),
	}
}

// bySeasonDay returns the weather as one long row of season days, a year before the first
// season and a year after the last.
func (w weather) bySeasonDay() (tmin, tmax []float64) {
	rng := rand.New(rand.NewPCG(w.seed, 1))
	anomaly := 0.0
	for i := range (w.seasons + 2) * climate.YearDays {
		anomaly = 0.7*anomaly + w.rough*rng.NormFloat64()
		mid := w.level - 8.5*math.Cos(2*math.Pi*float64(i%climate.YearDays-20)/climate.YearDays) + anomaly
		half := 5.5 + math.Tanh(rng.NormFloat64())
		n, x := math.Round(10*(mid-half))/10, math.Round(10*(mid+half))/10
		if i > 0 {
			n = min(n, tmax[i-1])
		}
		tmin, tmax = append(tmin, n), append(tmax, x)
	}
	return tmin, tmax
}

// on lays the weather on the calendar, the first whole season starting in a year. 29 February
// has the values of the 28th.
func (w weather) on(c climate.Calendar, year int) (days []climate.Day, tmin, tmax []float64) {
	n, x := w.bySeasonDay()
	for i := range n {
		d := c.Day(year-1, climate.SeasonDay(i))
		days, tmin, tmax = append(days, d), append(tmin, n[i]), append(tmax, x[i])
		if _, m, md := d.Date(); m == 2 && md == 28 && climate.IsLeap(d.Year()) {
			days, tmin, tmax = append(days, d+1), append(tmin, n[i]), append(tmax, x[i])
		}
	}
	return days, tmin, tmax
}

// record writes a file; unit heads its columns and value writes its numbers.
func record(t *rapid.T, days []climate.Day, tmin, tmax []float64, unit string, value func(celsius float64) string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "date,tmin_%s,tmax_%s\n", unit, unit)
	for i, d := range days {
		fmt.Fprintf(&b, "%v,%s,%s\n", d, value(tmin[i]), value(tmax[i]))
	}
	return file(t, "record.csv", b.String())
}

func tenths(v float64) string { return fmt.Sprintf("%.1f", v) }

// folder is where the files of a test lie; it is set by each test.
var folder string

func file(t *rapid.T, name, text string) string {
	dir, err := os.MkdirTemp(folder, "law")
	require.NoError(t, err)
	name = filepath.Join(dir, name)
	require.NoError(t, os.WriteFile(name, []byte(text), 0o600))
	return name
}

// plantings are raised and sown, tender and hardy; dates are season days from midwinter.
func plantings(t *rapid.T, c climate.Calendar, spot string) string {
	var b strings.Builder
	b.WriteString("name,crop,spot,sow,plant_out\n")
	for _, r := range []struct {
		crop     string
		sow, out climate.SeasonDay
	}{{"courgette", 110, 150}, {"sweet corn", 115, 155}, {"lettuce", 60, 95}, {"tomato", 80, 148}} {
		fmt.Fprintf(&b, "%s,%s,%s,%s,%s\n", r.crop, r.crop, spot, c.Format(r.sow), c.Format(r.out))
	}
	for _, crop := range []string{"French bean", "carrot", "pea"} {
		fmt.Fprintf(&b, "%s,%s,%s,%s,\n", crop, crop, spot, c.Format(128))
	}
	return file(t, "plan.csv", b.String())
}

// asked is what the program makes of a record: its frosts by season and its plan.
type asked struct {
	first  int
	frosts climate.FrostDates
	plan   []risk.Assessment
	scaled func(planting int, by float64) []risk.Outcome // of a crop that wants so many times its growth
}

// ask goes from the file to the answers, counting recorded seasons.
func ask(t *rapid.T, history, plan string, latitude float64, years string) asked {
	return askAt(t, "", history, plan, latitude, years)
}

// askAt is ask for a garden's folder; "" is the built-in one.
func askAt(t *rapid.T, dir, history, plan string, latitude float64, years string) asked {
	var o, e strings.Builder
	a := &app{world: world{in: strings.NewReader(""), out: &o, err: &e, getenv: func(string) string { return "" },
		today: func() climate.Day { return climate.NewDay(2026, 5, 16) }}}
	newRoot(a)
	a.garden, a.history, a.plan, a.by, a.years = dir, []string{history}, plan, "record", years
	a.latitude = fmt.Sprint(latitude)
	// The laws are of what seasons say. Now and then a check doubts a day of made-up weather, and a
	// day left out obeys no law.
	choice := a.choice()
	choice.Unchecked = true
	s, err := opened.Open(choice)
	require.NoError(t, err, e.String())
	planned, assessed, err := s.AssessPlan()
	require.NoError(t, err)
	recorded := climate.Recorded(s.Masked, s.Settings.Latitude, s.First, s.Last)
	scaled := func(planting int, by float64) []risk.Outcome {
		fields, err := s.FieldsOf(recorded)
		require.NoError(t, err)
		p := planned[planting]
		for _, sum := range []*crops.Fact{&p.Crop.GrowthSown, &p.Crop.GrowthPlanted} {
			sum.Value, sum.Low, sum.High = by*sum.Value, by*sum.Low, by*sum.High
		}
		return risk.ScoreAfter(fields.Field(p.Where, p.Crop, p.Raised), p.Planting, nil).Outcomes
	}
	return asked{s.First, climate.DatesOf(recorded, 0, climate.WMO), assessed, scaled}
}

// noLater says whether a is not after b where both are known. No frost at all is the best that
// can be: before every date in spring, after every date in autumn.
func noLater(a, b []float64) bool {
	for i := range a {
		if a[i] > b[i] {
			return false
		}
	}
	return true
}

func setUp(t *testing.T) {
	fewChecks(t)
	folder = t.TempDir()
}

// Adding warmth never makes a last frost later, a first one earlier or a crop riper later, and
// kills no raised planting that lived. (A sowing may come up into a frost that would have found
// it safe in the ground.)
func TestLawWarmthNeverHurts(t *testing.T) {
	setUp(t)
	rapid.Check(t, func(t *rapid.T) {
		w := someWeather(t)
		by := float64(rapid.IntRange(1, 40).Draw(t, "tenths")) / 10
		days, n, x := w.on(climate.Calendar{}, 1990)
		plan := plantings(t, climate.Calendar{}, "open bed")
		cold := ask(t, record(t, days, n, x, "c", tenths), plan, 53, "1990-2020")
		warmer := func(v float64) string { return tenths(v + by) }
		warm := ask(t, record(t, days, n, x, "c", warmer), plan, 53, "1990-2020")
		// Completeness is not in play: no day is missing, so every season counts in both.
		if !noLater(climate.Earliest(warm.frosts.Spring), climate.Earliest(cold.frosts.Spring)) {
			t.Fatalf("warmth made a last frost later:\n%v\n%v", cold.frosts.Spring, warm.frosts.Spring)
		}
		if !noLater(cold.frosts.Autumn, warm.frosts.Autumn) {
			t.Fatalf("warmth made a first frost earlier:\n%v\n%v", cold.frosts.Autumn, warm.frosts.Autumn)
		}
		for i, p := range cold.plan {
			for k, f := range p.Result.Outcomes {
				g := warm.plan[i].Result.Outcomes[k]
				if !f.Known || !g.Known {
					continue
				}
				raised := p.Result.Planting.Raised
				if raised && g.ReadyOn > f.ReadyOn {
					t.Fatalf("%s: warmth made it riper later: %v, not %v", p.Result.Planting.Name, g.ReadyOn, f.ReadyOn)
				}
				if raised && g.Lost && !f.Lost {
					t.Fatalf("%s: warmth killed it", p.Result.Planting.Name)
				}
			}
		}
	})
}

// A better cover of the same kind kills no planting that lived under the lesser one, and makes
// none riper later.
func TestLawMoreCoverNeverHurts(t *testing.T) {
	setUp(t)
	rapid.Check(t, func(t *rapid.T) {
		w := someWeather(t)
		days, n, x := w.on(climate.Calendar{}, 1990)
		history := record(t, days, n, x, "c", tenths)
		gain, more := rapid.Float64Range(0, 3).Draw(t, "gain"), rapid.Float64Range(0.1, 3).Draw(t, "more")
		under := func(gain float64) asked {
			dir := filepath.Dir(file(t, "garden.yaml", fmt.Sprintf("latitude: 53\ncovers: [{name: sheet, gain: %.2f, spread: 1}]\n", gain)))
			return askAt(t, dir, history, file(t, "plan.csv", "crop,plant_out,cover\ncourgette,04-28,sheet\nsweet corn,05-02,sheet\ntomato,05-06,sheet\n"), 53, "1990-2020")
		}
		thin, thick := under(gain), under(gain+more)
		for i, p := range thin.plan {
			for k, f := range p.Result.Outcomes {
				g := thick.plan[i].Result.Outcomes[k]
				if f.Known && g.Known && (g.Lost && !f.Lost || g.ReadyOn > f.ReadyOn) {
					t.Fatalf("%s: more cover hurt: %+v, %+v", p.Result.Planting.Crop.Name, f, g)
				}
			}
		}
	})
}

// Dropping a season moves a share by at most 1/n, at a spot too: its nights are drawn by the
// year of the season.
func TestLawOneSeasonMovesAShareLittle(t *testing.T) {
	setUp(t)
	rapid.Check(t, func(t *rapid.T) {
		w := someWeather(t)
		days, n, x := w.on(climate.Calendar{}, 1990)
		history, plan := record(t, days, n, x, "c", tenths), plantings(t, climate.Calendar{}, "open bed")
		years := func(from int) string { return fmt.Sprintf("%d-%d", from, 1990+w.seasons-1) }
		all, less := ask(t, history, plan, 53, years(1990)), ask(t, history, plan, 53, years(1991))
		limit := 1/float64(w.seasons) + 1e-12
		for i, a := range all.plan {
			b := less.plan[i]
			for what, pair := range map[string][2]climate.Chance{
				"survives": {a.Result.Survives, b.Result.Survives},
				"ripens":   {a.Result.Ripens, b.Result.Ripens},
				"succeeds": {a.Result.Succeeds, b.Result.Succeeds},
			} {
				if pair[0].Seasons != w.seasons || pair[1].Seasons != w.seasons-1 {
					t.Fatalf("%d and %d seasons, wanted %d and one less", pair[0].Seasons, pair[1].Seasons, w.seasons)
				}
				if math.Abs(pair[0].Share-pair[1].Share) > limit {
					t.Fatalf("%s: %s moved from %v to %v", a.Result.Planting.Name, what, pair[0].Share, pair[1].Share)
				}
			}
		}
	})
}

// The same weather, moved half a year on in the south, gives the same season days. Frosts are
// the same to the day; ripening differs by what the sun does: 1 July is not as long after the
// shortest day as 1 January is, and the south's summer has 7 % more of it. So a crop that wants a tenth
// less growth is ready no later than the other half's crop, however cold the spell that parts them,
// and one that wants a tenth more no earlier. Left out are days of autumn too short to grow in.
func TestLawHemispheresMirror(t *testing.T) {
	setUp(t)
	rapid.Check(t, func(t *rapid.T) {
		w := someWeather(t)
		at := func(c climate.Calendar, latitude float64) asked {
			days, n, x := w.on(c, 1990)
			return ask(t, record(t, days, n, x, "c", tenths), plantings(t, c, "open bed"), latitude, fmt.Sprintf("1990-%d", 1990+w.seasons-1))
		}
		north, south := at(climate.Calendar{}, 53), at(climate.Calendar{South: true}, -53)
		require.Equal(t, north.frosts.Spring, south.frosts.Spring)
		require.Equal(t, north.frosts.Autumn, south.frosts.Autumn)
		require.Equal(t, north.frosts.Free, south.frosts.Free)
		for i, a := range north.plan {
			less, more := north.scaled(i, 0.9), north.scaled(i, 1.1)
			for k, f := range a.Result.Outcomes {
				g := south.plan[i].Result.Outcomes[k]
				require.Equal(t, f.Known, g.Known)
				if !f.Known || max(f.ReadyOn, g.ReadyOn) > 230 { // mid August, in the north
					continue
				}
				// A frost between the two ready days kills the one and finds the other ready.
				if f.Lost != g.Lost && min(f.KilledOn, g.KilledOn) < min(f.ReadyOn, g.ReadyOn) {
					t.Fatalf("%s: lost %v in the north and %v in the south", a.Result.Planting.Name, f.Lost, g.Lost)
				}
				if g.ReadyOn < less[k].ReadyOn || g.ReadyOn > more[k].ReadyOn {
					t.Fatalf("%s: ready on %v in the north and %v in the south", a.Result.Planting.Name, f.ReadyOn, g.ReadyOn)
				}
			}
		}
	})
}

func apart(a, b climate.SeasonDay) climate.SeasonDay { return max(a-b, b-a) }

// Leap days shift nothing: the same weather a year on, with its leap days in other seasons,
// gives the same frosts, and a record without any 29 February the same days of the season. (A
// year on, the doubt about crops and a spot's nights are drawn anew.)
func TestLawLeapDaysShiftNothing(t *testing.T) {
	setUp(t)
	rapid.Check(t, func(t *rapid.T) {
		w := someWeather(t)
		south := rapid.Bool().Draw(t, "south")
		c, latitude := climate.Calendar{South: south}, 53.0
		if south {
			latitude = -53
		}
		spot := "station"
		from := func(year int, leap bool) asked {
			plan := plantings(t, c, spot)
			days, n, x := w.on(c, year)
			if !leap {
				kept := 0
				for i, d := range days {
					if _, m, md := d.Date(); m != 2 || md != 29 {
						days[kept], n[kept], x[kept] = days[i], n[i], x[i]
						kept++
					}
				}
				days, n, x = days[:kept], n[:kept], x[:kept]
			}
			return ask(t, record(t, days, n, x, "c", tenths), plan, latitude, fmt.Sprintf("%d-%d", year, year+w.seasons-1))
		}
		frosts := func(name string, is, other asked) {
			require.Equal(t, is.frosts.Spring, other.frosts.Spring, name)
			require.Equal(t, is.frosts.Autumn, other.frosts.Autumn, name)
		}
		same := func(name string, is, other asked) {
			frosts(name, is, other)
			for i := range is.plan {
				for k, f := range is.plan[i].Result.Outcomes {
					g := other.plan[i].Result.Outcomes[k]
					// What is usual at a spot is found from the record, which is some days shorter without
					// them: a sum that comes to what a crop needs by a hair may do so a day apart.
					require.LessOrEqual(t, apart(f.ReadyOn, g.ReadyOn), climate.SeasonDay(1), "%s: %s", name, is.plan[i].Result.Planting.Name)
					require.Equal(t, f.Lost, g.Lost, "%s: %s", name, is.plan[i].Result.Planting.Name)
				}
			}
		}
		frosts("a year on", from(1990, true), from(1991, true))
		spot = "open bed"
		same("no 29 February", from(1990, true), from(1990, false))
	})
}

// The °F and the °C copy of a record in whole °F give the same answers, to the letter.
func TestLawUnitsChangeNothing(t *testing.T) {
	setUp(t)
	rapid.Check(t, func(t *rapid.T) {
		w := someWeather(t)
		days, n, x := w.on(climate.Calendar{}, 1990)
		whole := func(v float64) float64 { return math.Round(climate.Fahrenheit(v)) }
		inF := record(t, days, n, x, "f", func(v float64) string { return fmt.Sprint(whole(v)) })
		inC := record(t, days, n, x, "c", func(v float64) string { return fmt.Sprintf("%.9f", climate.Celsius(whole(v))) })
		plan := plantings(t, climate.Calendar{}, "open bed")
		for _, command := range [][]string{{"frosts", "--at", "0", "--at", "-2"}, {"plan", "--plan", plan}, {"warmth"}} {
			args := append(command, "--by", "record", "--latitude", "53", "--format", "json", "--history")
			f, errs, status := try(append(args, inF)...)
			require.Equal(t, exitDone, status, errs)
			c, errs, status := try(append(args, inC)...)
			require.Equal(t, exitDone, status, errs)
			if f != c {
				t.Fatalf("%s differs:\n%s\n%s", command[0], f, c)
			}
		}
	})
}
