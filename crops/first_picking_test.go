package crops_test

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/crops"
)

// The table of first pickings, testdata/published/first_picking.csv, against the catalogue's
// sums and the response of growth to temperature and light.
//
// Not trusted are: the diary's main tomatoes of 2021, which took 1.2 times as long as the same
// seven varieties in 2020 in that garden; its spinach, sown two and three times; a mangetout
// read as a snap pea; carrots of 2020, thinnings. They are in the table and not in the sums.
type pickedRow struct {
	crop           crops.Crop
	sown           bool
	place          string
	start, picked  climate.SeasonDay
	source         string
	trusted, diary bool
}

func firstPickings(t *testing.T) (rows []pickedRow) {
	t.Helper()
	f, err := os.Open("../testdata/published/first_picking.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	require.NoError(t, err)
	for _, l := range lines[1:] {
		p := pickedRow{crop: find(t, l[0], l[1]), sown: l[2] == "sown", place: l[3], start: on(t, l[4]), picked: on(t, l[5]), source: l[6], trusted: l[7] == "yes"}
		if p.picked <= p.start {
			p.picked += climate.YearDays
		}
		p.diary = p.place == "P" || p.place == "Q"
		rows = append(rows, p)
	}
	return rows
}

// place is a climate to play a crop in.
type place struct {
	latitude float64
	season   climate.Season
	swing    float64 // °C about mean temperatures from day to day; 0 for a record
	soil     []float64
	ra       [climate.YearDays]float64
}

func newPlace(latitude, swing float64, s climate.Season) *place {
	return &place{latitude, s, swing, climate.SoilTemperatures(nil, s, 5), north.ExtraterrestrialRadiations(latitude)}
}

func meanPlace(latitude, swing float64, y year) *place {
	s := climate.NewSeason(2001)
	for i := range s.Tmin {
		s.Tmin[i], s.Tmax[i] = y.day(climate.SpanFrom + climate.SeasonDay(i))
	}
	return newPlace(latitude, swing, s)
}

// places are the table's: monthly means from memory, but for June 2020 in St Paul (four °F above
// normal, MPR News, 1 July 2020); the diary's own record of 2021 where it is at hand.
func places(t *testing.T) map[string]*place {
	p := map[string]*place{
		"S": meanPlace(51.5, 3, southernEngland),
		"W": meanPlace(43.1, 4, year{[12]float64{-11.5, -9.7, -4, 2, 8, 13.6, 16, 15, 10.3, 4.2, -1.5, -8.3},
			[12]float64{-3, -1, 6, 14, 20.5, 25.7, 27.8, 26.5, 22.5, 15, 7, -0.5}}),
		"Q": meanPlace(45, 3, year{[12]float64{-10.5, -13, -3, .8, 8.6, 17.3, 19.6, 17.8, 10, 2.5, -1, -7},
			[12]float64{-3, -4, 5, 12.2, 19.6, 28.4, 30.3, 28.4, 21, 11.5, 8, 0}}),
	}
	f, err := os.Open("../../shared/data/diary/st-paul-2021-record.csv")
	if err != nil {
		t.Log("the record of the diary of St Paul, 2021, is not part of the repository: its rows are left out")
		return p
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	rec := climate.NewSeries(climate.NewDay(2020, time.August, 1), 883)
	for _, l := range lines[1:] {
		d, err := climate.ParseDay(l[0])
		require.NoError(t, err)
		lo, err1 := strconv.ParseFloat(l[1], 64)
		hi, err2 := strconv.ParseFloat(l[2], 64)
		if err1 == nil && err2 == nil && d <= rec.Last() {
			rec.Tmin[d-rec.First], rec.Tmax[d-rec.First] = min(lo, hi), max(lo, hi)
		}
	}
	p["P"] = newPlace(45, 0, climate.SeasonOf(rec, north, 2021))
	return p
}

// Gauss and Hermite's five points and weights for a normal distribution.
var (
	hermite = [5]float64{-2.857, -1.356, 0, 1.356, 2.857}
	weight  = [5]float64{.01126, .22208, .53333, .22208, .01126}
)

// growth is a day's effective day-degrees.
func (p *place) growth(c crops.Crop, sd climate.SeasonDay) float64 {
	r := climate.Response{Base: c.GrowFrom.Value, Optimum: c.GrowBest.Value, Ceiling: c.GrowMax.Value, Light: c.GrowLight.Value}
	lo, hi := p.season.At(sd)
	sun := climate.SolarRadiation(climate.Inland, lo, hi, p.ra[sd.Fold()])
	if p.swing == 0 {
		return r.Effective(lo, hi, sun)
	}
	sum := 0.0
	for k, h := range hermite {
		sum += weight[k] * r.Effective(lo+h*p.swing, hi+h*p.swing, sun)
	}
	return sum
}

// begins is the day from which a planting grows.
func (p *place) begins(r pickedRow) climate.SeasonDay {
	if !r.sown {
		return r.start
	}
	way := 0.0
	started := false
	for sd := r.start; sd < climate.SpanTo; sd++ {
		soil := p.soil[sd-climate.SpanFrom]
		started = started || soil >= r.crop.GerminationMin.Value
		if started {
			if way += r.crop.EmergenceRate(soil); way >= 1 {
				return sd + 1
			}
		}
	}
	return climate.SpanTo
}

// ready is the day by whose end the crop has a sum.
func (p *place) ready(r pickedRow, need float64) climate.SeasonDay {
	sum := 0.0
	for sd := p.begins(r); sd < climate.SpanTo; sd++ {
		if g := p.growth(r.crop, sd); g == g {
			sum += g
		}
		if sum >= need {
			return max(sd, p.afterCold(r))
		}
	}
	return climate.SpanTo
}

// afterCold is the day on which a crop that must have cold first has had it, and grown enough
// after it.
func (p *place) afterCold(r pickedRow) climate.SeasonDay {
	if !r.crop.ColdDays.Known() {
		return r.start
	}
	var cold, after float64
	for sd := climate.SeasonDay(243); sd < climate.SpanTo; sd++ {
		lo, hi := p.season.At(sd)
		if cold < r.crop.ColdDays.Value {
			for k, h := range hermite {
				cold += weight[k] * climate.Chilling((lo+hi)/2+h*p.swing)
			}
			continue
		}
		if after += p.growth(r.crop, sd); after >= r.crop.GrowthAfterCold.Value {
			return sd
		}
	}
	return climate.SpanTo
}

// sum is what the crop had by the day before it was picked.
func (p *place) sum(r pickedRow) (sum float64) {
	for sd := p.begins(r); sd < r.picked; sd++ {
		if g := p.growth(r.crop, sd); g == g {
			sum += g
		}
	}
	return sum
}

func (r pickedRow) need() crops.Fact {
	if r.sown {
		return r.crop.GrowthSown
	}
	return r.crop.GrowthPlanted
}

// What the catalogue says is what people find: every trusted row within 14 days, the mean error
// within 3, four in five inside the stated range of 8 in 10. The sums are fitted to these rows,
// so this holds the catalogue to them and says nothing of the unseen; that is the next test.
func TestFirstPickings(t *testing.T) {
	at := places(t)
	var n, inside int
	var sum, off float64
	where, sourced := map[string]map[string]bool{}, map[bool]map[string]bool{true: {}, false: {}} // in southern England or not
	published := 0
	for _, r := range firstPickings(t) {
		p := at[r.place]
		if p == nil || !r.trusted {
			continue
		}
		got := p.ready(r, r.need().Value)
		miss := float64(got - r.picked)
		assert.LessOrEqual(t, math.Abs(miss), 14.0, "%s in %s from %s: %s, found %s (%s)", r.crop.Label(), r.place, north.Words(r.start),
			north.Words(got), north.Words(r.picked), r.source)
		if p.ready(r, r.need().Low) <= r.picked && r.picked <= p.ready(r, r.need().High) {
			inside++
		}
		n++
		sum += miss
		off += math.Abs(miss)
		if where[r.place] == nil {
			where[r.place] = map[string]bool{}
		}
		where[r.place][r.crop.Label()] = true
		if r.source != "common practice, no source" {
			published++
			sourced[r.place == "S"][r.crop.Label()] = true
		}
	}
	t.Logf("%d rows, %d of them published; mean error %.1f, mean absolute %.1f days; inside %d; crops: S %d, W %d, P %d, Q %d; published: S %d, elsewhere %d", n, published, sum/float64(n),
		off/float64(n), inside, len(where["S"]), len(where["W"]), len(where["P"]), len(where["Q"]), len(sourced[true]), len(sourced[false]))
	assert.InDelta(t, 0, sum/float64(n), 3)
	assert.GreaterOrEqual(t, float64(inside), 0.8*float64(n))
	assert.GreaterOrEqual(t, len(where["S"]), 40)
	assert.GreaterOrEqual(t, len(sourced[true]), 40, "of them with a published source")
	if at["P"] != nil {
		assert.GreaterOrEqual(t, len(sourced[false]), 15)
	}
}

// The unseen: the diary of St Paul told from the sums of every other place, and each trusted row
// of a crop with more than one told from its others.
func TestFirstPickingsUnseen(t *testing.T) {
	at := places(t)
	rows := firstPickings(t)
	told := func(r pickedRow, from func(pickedRow) bool) (miss float64, in, ok bool) {
		var logs []float64
		for _, q := range rows {
			if q.trusted && q.crop.Label() == r.crop.Label() && q.sown == r.sown && at[q.place] != nil && from(q) {
				logs = append(logs, math.Log(at[q.place].sum(q)))
			}
		}
		if len(logs) == 0 {
			return 0, false, false
		}
		mean := 0.0
		for _, l := range logs {
			mean += l / float64(len(logs))
		}
		need, spread := math.Exp(mean), r.need()
		p := at[r.place]
		return float64(p.ready(r, need) - r.picked),
			p.ready(r, need*spread.Low/spread.Value) <= r.picked && r.picked <= p.ready(r, need*spread.High/spread.Value), true
	}
	score := func(name string, keep func(pickedRow) bool, from func(r pickedRow) func(pickedRow) bool) (mae, inside float64) {
		var all []float64
		in := 0
		for _, r := range rows {
			if at[r.place] == nil || !keep(r) {
				continue
			}
			if miss, ok, known := told(r, from(r)); known {
				all = append(all, math.Abs(miss))
				if ok {
					in++
				}
				t.Logf("%s: %s %s from %s: %+.0f", name, r.place, r.crop.Label(), north.Words(r.start), miss)
			}
		}
		require.NotEmpty(t, all)
		for _, a := range all {
			mae += a / float64(len(all))
		}
		slices.Sort(all)
		inside = float64(in) / float64(len(all))
		t.Logf("%s: %d dates, mean absolute error %.1f days, worst %.0f, inside the stated range %.2f", name, len(all), mae, all[len(all)-1], inside)
		return mae, inside
	}
	mae, inside := score("diary", func(r pickedRow) bool { return r.diary && r.trusted },
		func(pickedRow) func(pickedRow) bool { return func(q pickedRow) bool { return !q.diary } })
	assert.Less(t, mae, 7.0)
	assert.GreaterOrEqual(t, inside, 0.7)
	mae, inside = score("left out", func(r pickedRow) bool { return r.trusted },
		func(r pickedRow) func(pickedRow) bool {
			return func(q pickedRow) bool { return q.place != r.place || q.start != r.start || q.picked != r.picked }
		})
	assert.Less(t, mae, 7.0)
	assert.GreaterOrEqual(t, inside, 0.7)
	// With the diary's doubtful dates as well: no form of the curve gets the tomatoes of 2021.
	score("diary, doubtful dates too", func(r pickedRow) bool { return r.diary },
		func(pickedRow) func(pickedRow) bool { return func(q pickedRow) bool { return !q.diary } })
}
