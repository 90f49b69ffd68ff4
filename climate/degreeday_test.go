package climate

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// published reads a table of testdata/published: lines after # are for people, the
// first other line is the header.
func published(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../testdata/published/" + name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 1, "%s has no rows", name)
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, v := range row {
			m[rows[0][i]] = v
		}
		require.NotEmpty(t, m["source"], "%s: a row without its source: %v", name, row)
		out = append(out, m)
	}
	return out
}

// number is the number in a cell, NaN where the cell is empty.
func number(t *testing.T, s string) float64 {
	t.Helper()
	if s == "" {
		return math.NaN()
	}
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return v
}

func TestDegreeDaysPublished(t *testing.T) {
	sines := 0
	for _, r := range published(t, "degree-days.csv") {
		m, err := ParseMethod(r["method"])
		require.NoError(t, err)
		l, err := ParseUpperLimit(r["limit"])
		require.NoError(t, err)
		g := DegreeDays{Base: number(t, r["base"]), Upper: number(t, r["upper"]), Method: m, Limit: l}
		got := g.Day(number(t, r["tmin"]), number(t, r["tmax"]), math.NaN())
		tolerance := 0.005
		if m == SingleSine && r["unit"] == "c" {
			tolerance = 0.016 // see the file
		}
		assert.InDelta(t, number(t, r["degree_days"]), got, tolerance, "%v: %s", g, r["source"])
		if m == SingleSine {
			sines++
		}
	}
	assert.GreaterOrEqual(t, sines, 16, "the catalogue's own method")
}

func allWays(base, upper float64) []DegreeDays {
	var ways []DegreeDays
	for m := range methodNames {
		for l := range limitNames {
			ways = append(ways, DegreeDays{Base: base, Upper: upper, Method: Method(m), Limit: UpperLimit(l)})
		}
	}
	return ways
}

// worth is what a moment at temperature t is worth: the definition that the closed
// forms are integrals of.
func worth(g DegreeDays, t float64) float64 {
	d := max(0, t-g.Base)
	if t <= g.Upper {
		return d
	}
	switch g.Limit {
	case Horizontal:
		return g.Upper - g.Base
	case Intermediate:
		return (g.Upper - g.Base) - (t - g.Upper)
	case Vertical:
		return 0
	}
	return d
}

// integrate is the oracle: it walks the day in small steps.
func integrate(g DegreeDays, tmin, tmax, next float64) float64 {
	const n = 4000
	var sum float64
	half := func(from, to float64) {
		for i := 0; i < n; i++ {
			u := (float64(i) + 0.5) / n
			if g.Method == SingleSine || g.Method == DoubleSine {
				u = (1 - math.Cos(math.Pi*u)) / 2
			}
			sum += worth(g, from+(to-from)*u) / (2 * n)
		}
	}
	switch g.Method {
	case Average:
		sum = worth(g, (tmin+tmax)/2)
	case AverageClipped:
		sum = (worth(g, tmin) + worth(g, tmax)) / 2
	case DoubleSine, DoubleTriangle:
		half(tmin, tmax)
		half(tmax, next)
	default:
		half(tmin, tmax)
		half(tmax, tmin)
	}
	return max(0, sum)
}

func TestDegreeDaysAgainstIntegration(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2, 5))
	for i := 0; i < 60; i++ {
		base := rnd.Float64()*15 - 2
		upper := base + 5 + rnd.Float64()*20
		tmin := rnd.Float64()*40 - 12
		tmax := tmin + rnd.Float64()*25
		next := tmin + rnd.NormFloat64()*6 // now and then above tmax
		for _, g := range allWays(base, upper) {
			want := integrate(g, tmin, tmax, next)
			// The vertical limit jumps by U-L: a step of 1/8000 day may fall either side
			// of each of at most two crossings. The rest only have kinks.
			tol := 1e-4
			if g.Limit == Vertical {
				tol += (upper - base) * 2 / 8000
			}
			require.InDelta(t, want, g.Day(tmin, tmax, next), tol,
				"%v %v base %v upper %v: %v %v %v", g.Method, g.Limit, base, upper, tmin, tmax, next)
		}
	}
}

func TestDegreeDaysLaws(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 1))
	for i := 0; i < 1000; i++ {
		tmin := rnd.Float64()*45 - 12
		tmax := tmin + rnd.Float64()*25
		next := tmin + rnd.NormFloat64()*6
		shift := rnd.Float64()*20 - 10
		for _, g := range allWays(10, 26) {
			d := g.Day(tmin, tmax, next)
			require.False(t, math.IsNaN(d) || d < 0, "%v: %v", g, d)
			if g.Limit == NoLimit || g.Limit == Horizontal {
				require.GreaterOrEqual(t, g.Day(tmin+1, tmax+1, next+1), d-1e-12, "%v: a warmer day is worth less", g)
			}
			if g.Limit == Horizontal {
				require.LessOrEqual(t, d, 16+1e-12, "%v", g)
			}
			if !g.Method.double() { // there the second half would run from the minimum
				require.InDelta(t, d, g.Day(tmax, tmin, next), 1e-9, "%v: readings exchanged", g)
			}
			moved := g
			moved.Base, moved.Upper = g.Base+shift, g.Upper+shift
			require.InDelta(t, d, moved.Day(tmin+shift, tmax+shift, next+shift), 1e-4, "%v: shifted", g)
			scaled := g // the same day in °F
			scaled.Base, scaled.Upper = Fahrenheit(g.Base), Fahrenheit(g.Upper)
			require.InDelta(t, d*1.8, scaled.Day(Fahrenheit(tmin), Fahrenheit(tmax), Fahrenheit(next)), 1e-4, "%v: °F", g)
		}
	}
}

func TestDegreeDaysEdges(t *testing.T) {
	nan := math.NaN()
	tests := []struct {
		name             string
		g                DegreeDays
		tmin, tmax, next float64
		want             float64
		from             string
	}{
		{"maximum at the base", DegreeDays{Base: 10}, 0, 10, nan, 0, "nothing is above 10"},
		{"minimum at the base", DegreeDays{Base: 10}, 10, 20, nan, 5, "by hand: 15 - 10"},
		{"flat day", DegreeDays{Base: 10}, 14, 14, nan, 4, "by hand"},
		{"base in the middle", DegreeDays{Base: 10}, 5, 15, nan, 5 / math.Pi, "a cos(0)/pi, Baskerville and Emin 1969"},
		{"base in the middle of the triangle", DegreeDays{Base: 10, Method: SingleTriangle}, 5, 15, nan, 1.25, "25/(2*10)"},
		{"maximum at the upper limit", DegreeDays{Base: 10, Upper: 30, Limit: Vertical}, 10, 30, nan, 10, "by hand: 20 - 10"},
		{"all above, vertical", DegreeDays{Base: 10, Upper: 30, Limit: Vertical}, 31, 40, nan, 0, "stops above 30"},
		{"all above, horizontal", DegreeDays{Base: 10, Upper: 30, Limit: Horizontal}, 31, 40, nan, 20, "30 - 10"},
		{"all above, intermediate", DegreeDays{Base: 10, Upper: 30, Limit: Intermediate}, 31, 41, nan, 14, "26 - 2*6"},
		{"far above, intermediate", DegreeDays{Base: 10, Upper: 15, Limit: Intermediate}, 35, 45, nan, 0, "30 - 2*25 is below 0"},
		{"mean at the upper limit, vertical", DegreeDays{Base: 10, Upper: 30, Method: Average, Limit: Vertical}, 20, 40, nan, 20, "30 is not above 30"},
		{"unknown upper limit", DegreeDays{Base: 10, Upper: nan, Limit: Horizontal}, 20, 40, nan, 20, "30 - 10"},
		{"no limit ignores upper", DegreeDays{Base: 10, Upper: 12}, 20, 40, nan, 20, "30 - 10"},
		{"cold night follows", DegreeDays{Base: 10, Method: DoubleSine}, 10, 20, 0, (5 + 10/math.Pi) / 2, "first half 15 - 10, second half a/pi with a = 10 and the base at the mean"},
	}
	for _, c := range tests {
		assert.InDelta(t, c.want, c.g.Day(c.tmin, c.tmax, c.next), 1e-12, "%s: %s", c.name, c.from)
	}
	for _, g := range allWays(10, 26) {
		assert.True(t, math.IsNaN(g.Day(nan, 20, 10)), "%v", g)
		assert.True(t, math.IsNaN(g.Day(10, nan, 10)), "%v", g)
		assert.Equal(t, g.Method.double(), math.IsNaN(g.Day(10, 20, nan)), "%v", g)
	}
	// Rounding: a base a hair below the maximum must not come out as NaN.
	for _, hi := range []float64{10.1, 17.3, 33.333, 1e6 + 0.1} {
		g := DegreeDays{Base: math.Nextafter(hi, 0), Upper: math.Nextafter(hi, 0), Limit: Vertical}
		assert.InDelta(t, 0, g.Day(hi-13.7, hi, nan), 1e-6)
	}
}

// The four cases by which Met Éireann counts degree-days (McVicker's, met.ie) join
// three points of the triangle's curve with straight lines: base at the minimum, at
// the mean and at the maximum. So they are equal there and a little more in between,
// at most a/16 for a half-range a: the triangle is a(1-x)²/4 with x = (T-m)/a, the
// chords a(1-3x)/4 and a(1-x)/4, and a|x|(1-|x|)/4 is most at x = ±1/2.
func TestSingleTriangleAgainstMetEireann(t *testing.T) {
	cases := func(lo, hi, b float64) float64 {
		switch m := (lo + hi) / 2; {
		case lo >= b:
			return m - b
		case hi <= b:
			return 0
		case m > b:
			return 0.5*(hi-b) - 0.25*(b-lo)
		default:
			return 0.25 * (hi - b)
		}
	}
	tri := DegreeDays{Base: 15.5, Method: SingleTriangle} // 15.5 °C is their base
	rnd := rand.New(rand.NewPCG(4, 4))
	for i := 0; i < 2000; i++ {
		lo := rnd.Float64() * 20
		hi := lo + rnd.Float64()*16
		extra := cases(lo, hi, 15.5) - tri.Day(lo, hi, math.NaN())
		require.GreaterOrEqual(t, extra, -1e-12)
		require.LessOrEqual(t, extra, (hi-lo)/32+1e-12)
	}
	for _, c := range [][2]float64{{15.5, 22}, {12.5, 18.5}, {9, 15.5}, {17, 25}, {2, 9}} {
		assert.InDelta(t, cases(c[0], c[1], 15.5), tri.Day(c[0], c[1], math.NaN()), 1e-12)
	}
	// half-way between, the whole a/16
	assert.InDelta(t, 8.0/16, cases(3.5, 19.5, 15.5)-tri.Day(3.5, 19.5, math.NaN()), 1e-12)
}

// Baskerville and Emin 1969 as written, against the table.
func TestSineTable(t *testing.T) {
	worst := 0.0
	for i := 0; i <= 1_000_000; i++ {
		x := float64(i)/500_000 - 1
		worst = max(worst, math.Abs(sineAbove(x)-exactSineAbove(x)))
	}
	assert.Less(t, worst, 2e-6)
	t.Logf("at most %.2g off", worst)
	assert.Zero(t, sineAbove(1+1e-15))
	assert.InDelta(t, 1, sineAbove(-1-1e-15), 1e-12)
	rnd := rand.New(rand.NewPCG(9, 9))
	for i := 0; i < 20000; i++ {
		lo := rnd.Float64()*20 - 5
		hi := lo + rnd.Float64()*20
		base := lo + rnd.Float64()*(hi-lo)
		m, a := (lo+hi)/2, (hi-lo)/2
		th := math.Asin((base - m) / a)
		want := ((m-base)*(math.Pi/2-th) + a*math.Cos(th)) / math.Pi
		require.InDelta(t, want, DegreeDays{Base: base}.Day(lo, hi, math.NaN()), 2e-6*a+1e-12)
	}
}

func TestParseMethods(t *testing.T) {
	for i := range methodNames {
		m, err := ParseMethod(Method(i).String())
		require.NoError(t, err)
		require.Equal(t, Method(i), m)
	}
	for i := range limitNames {
		l, err := ParseUpperLimit(UpperLimit(i).String())
		require.NoError(t, err)
		require.Equal(t, UpperLimit(i), l)
	}
	_, err := ParseMethod("sine")
	require.ErrorContains(t, err, `"sine" is not a method; wanted one of single-sine,`)
	_, err = ParseUpperLimit("flat")
	require.ErrorContains(t, err, `"flat" is not an upper limit`)
}

func BenchmarkDegreeDay(b *testing.B) {
	rnd := rand.New(rand.NewPCG(1, 1))
	var lo, hi [1024]float64
	for i := range lo {
		lo[i] = rnd.Float64()*20 - 4
		hi[i] = lo[i] + rnd.Float64()*18
	}
	for _, g := range allWays(8, 24) {
		b.Run(g.Method.String()+"/"+g.Limit.String(), func(b *testing.B) {
			var sum float64
			for i := 0; i < b.N; i++ {
				j := i & 1023
				sum += g.Day(lo[j], hi[j], lo[(j+1)&1023])
			}
			if math.IsNaN(sum) {
				b.Fatal("NaN")
			}
		})
	}
}

// double says whether the method needs the next day's minimum.
func (m Method) double() bool { return m == DoubleSine || m == DoubleTriangle }
