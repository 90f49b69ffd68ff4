package climate

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRadiationPublished(t *testing.T) {
	for _, r := range published(t, "radiation.csv") {
		got := extraterrestrial(number(t, r["latitude"]), int(number(t, r["year_day"])))
		if r["what"] == "rs" {
			got = SolarRadiation(number(t, r["k"]), number(t, r["tmin"]), number(t, r["tmax"]), got)
		}
		assert.InDelta(t, number(t, r["value"]), got, number(t, r["tolerance"]), r["source"])
	}
}

func TestRadiationEdges(t *testing.T) {
	assert.Zero(t, extraterrestrial(75, 355), "polar night")
	assert.Greater(t, extraterrestrial(75, 172), 40., "midnight sun")
	assert.InDelta(t, 30, SolarRadiation(Inland, 0, 39, 40), 1e-9, "no brighter than a clear sky: 0.75 of 40")
	assert.Zero(t, SolarRadiation(Inland, 12, 11, 40))
	assert.True(t, math.IsNaN(SolarRadiation(Inland, math.NaN(), 11, 40)) && math.IsNaN(SolarRadiation(Inland, 1, math.NaN(), 40)))
	north := CalendarAt(52).ExtraterrestrialRadiations(52)
	assert.InDelta(t, extraterrestrial(52, 172), north[CalendarAt(52).Of(time.June, 21)], 1e-12)
	south := CalendarAt(-52).ExtraterrestrialRadiations(-52)
	assert.InDelta(t, extraterrestrial(-52, 355), south[CalendarAt(-52).Of(time.December, 21)], 1e-12)
}

func TestEffectiveDegreeDay(t *testing.T) {
	for d := 0.5; d < 30; d += 0.5 {
		for r := 0.2; r < 30; r += 0.7 {
			for _, f := range []float64{0.35, 1, 2} {
				e := EffectiveDegreeDay(d, r, f)
				require.InDelta(t, 1/e, 1/d+f/r, 1e-9, "Scaife, Cox and Morris 1987")
				require.Less(t, e, EffectiveDegreeDay(d, r+0.1, f), "more light is never worse")
				c := Response{Base: 0, Optimum: 40, Ceiling: 60, Light: f}
				if r < fullLight {
					require.InDelta(t, EffectiveDegreeDay(d, fullLight, f), c.InFullLight(e, r), 1e-9)
				} else {
					require.Equal(t, e, c.InFullLight(e, r), "no day was better for less light")
				}
			}
		}
	}
	assert.InDelta(t, 20, EffectiveDegreeDay(20, 1e9, 1), 1e-4, "plenty of light: D")
	assert.InDelta(t, 3.5, EffectiveDegreeDay(1e9, 7, 2), 1e-4, "plenty of warmth: R/f")
	assert.Zero(t, EffectiveDegreeDay(0, 10, 1))
	assert.Zero(t, EffectiveDegreeDay(10, 0, 1))
	assert.True(t, math.IsNaN(EffectiveDegreeDay(math.NaN(), 9, 1)))
}

// measured is a day of KNMI station 283.
type measured struct{ tmin, tmax, radiation float64 }

// knmi reads minima, maxima and radiation (MJ/m2) of the reference record, if it is here.
func knmi(t *testing.T) map[Day]measured {
	t.Helper()
	f, err := os.Open("../../shared/data/knmi-daily-283.txt")
	if err != nil {
		t.Skip("needs the reference record knmi-daily-283.txt, which is not part of the repository")
	}
	defer f.Close()
	out := map[Day]measured{}
	col := map[string]int{}
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		cells := strings.Split(strings.TrimPrefix(sc.Text(), "# "), ",")
		if len(cells) < 30 {
			continue
		}
		if len(col) == 0 {
			for i, c := range cells {
				col[strings.TrimSpace(c)] = i
			}
			continue
		}
		var v [4]float64
		ok := true
		for i, name := range []string{"YYYYMMDD", "TN", "TX", "Q"} {
			v[i], err = strconv.ParseFloat(strings.TrimSpace(cells[col[name]]), 64)
			ok = ok && err == nil
		}
		if ymd := int(v[0]); ok {
			out[NewDay(ymd/10000, time.Month(ymd/100%100), ymd%100)] = measured{v[1] / 10, v[2] / 10, v[3] / 100}
		}
	}
	require.NoError(t, sc.Err())
	require.Greater(t, len(out), 13000)
	return out
}

// SolarRadiation against a pyranometer: what its comment claims, month by month.
func TestSolarRadiationMeasured(t *testing.T) {
	var est, got, n [13]float64
	for d, m := range knmi(t) {
		y, mo, _ := d.Date()
		est[mo] += SolarRadiation(Inland, m.tmin, m.tmax, extraterrestrial(52.07, int(d-NewDay(y, 1, 1))+1))
		got[mo] += m.radiation
		n[mo]++
	}
	for mo := 1; mo <= 12; mo++ {
		ratio := est[mo] / got[mo]
		t.Logf("%2d: measured %5.2f MJ/m2, estimate over it %.3f", mo, got[mo]/n[mo], ratio)
		if mo >= 2 && mo <= 10 {
			assert.True(t, ratio > 1.10 && ratio < 1.15, "month %d: %.3f", mo, ratio)
		} else {
			assert.True(t, ratio > 1.05 && ratio < 1.30, "month %d: %.3f", mo, ratio)
		}
	}
}

// Crisp lettuce at a fixed sum takes fewest days when planted around the middle of June
// (Wurr, Fellows and Suckling 1988, J. Agric. Sci. 111, 481-486, from memory), and its sum is
// 589 effective degree-days above 0 °C, s.d. 39.5: with f 0.35 that is met by KNMI's own
// radiation. Days against planting date follow a quadratic in their paper, and here.
func TestLettuceIsFastestFromMidJune(t *testing.T) {
	days := knmi(t)
	var x, y []float64
	for plant := NewDay(2001, time.April, 1); plant <= NewDay(2001, time.August, 12); plant += 10 {
		_, mo, md := plant.Date()
		x = append(x, float64(plant-NewDay(2001, time.June, 15)))
		y = append(y, lettuce(t, days, mo, md))
	}
	_, b, c := quadratic(x, y)
	vertex := -b / (2 * c)
	t.Logf("fewest days for planting on %v", NewDay(2001, time.June, 15)+Day(math.Round(vertex)))
	assert.InDelta(t, 0, vertex, 8, "days from 15 June")
	assert.Positive(t, c)
}

// lettuce returns the median days from a planting date to 589 effective degree-days above
// 0 °C, of daily means.
func lettuce(t *testing.T, days map[Day]measured, mo time.Month, md int) (took float64) {
	t.Helper()
	var n []float64
	for year := 1990; year <= 2025; year++ {
		sum, d := 0.0, NewDay(year, mo, md)
		for ; sum < 589; d++ {
			m, ok := days[d]
			if !ok {
				break
			}
			mean := max(0, (m.tmin+m.tmax)/2)
			sum += EffectiveDegreeDay(mean, m.radiation, 0.35)
		}
		if sum >= 589 {
			n = append(n, float64(d-NewDay(year, mo, md)))
		}
	}
	require.Greater(t, len(n), 25)
	return median(n)
}

func median(x []float64) float64 {
	e := Ensemble{Seasons: make([]Season, len(x))}
	return e.Quantile(x, 0.5).Value
}

// quadratic returns the least-squares a + b x + c x^2, by the normal equations.
func quadratic(x, y []float64) (a, b, c float64) {
	var m [3][4]float64
	for i := range x {
		p := [3]float64{1, x[i], x[i] * x[i]}
		for r := range m {
			for k := range p {
				m[r][k] += p[r] * p[k]
			}
			m[r][3] += p[r] * y[i]
		}
	}
	for i := range m {
		for r := range m {
			if f := m[r][i] / m[i][i]; r != i {
				for k := range m[r] {
					m[r][k] -= f * m[i][k]
				}
			}
		}
	}
	return m[0][3] / m[0][0], m[1][3] / m[1][1], m[2][3] / m[2][2]
}

func TestQuadratic(t *testing.T) {
	a, b, c := quadratic([]float64{-1, 0, 2, 5}, []float64{6, 1, 3, 36}) // 1 - 3x + 2x^2
	assert.Equal(t, "1.0000 -3.0000 2.0000", fmt.Sprintf("%.4f %.4f %.4f", a, b, c))
}
