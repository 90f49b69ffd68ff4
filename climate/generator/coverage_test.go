package generator

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/climate/stat"
)

// coverage is how often stated 90 % intervals held the truth of the invented climate, which is
// known from 20,000 seasons of it.
type coverage struct{ dates, chances tally }

type tally struct{ in, of float64 }

func (s *tally) count(low, truth, high float64) {
	s.of++
	if low <= truth && truth <= high {
		s.in++
	}
}

func (s tally) percent() float64 { return 100 * s.in / s.of }

func (s *tally) add(o tally) { s.in, s.of = s.in+o.in, s.of+o.of }

// target is a question with the truth at one chance: the date, and its chance as it is, which
// is not quite the one asked for since dates are whole.
type target struct {
	question        int
	p, value, share float64
}

func targets() []target {
	v := newInvented(99)
	truth := make([][]float64, len(questions))
	for range 20000 {
		s := v.season()
		for q := range questions {
			truth[q] = append(truth[q], questions[q].of(s))
		}
	}
	var out []target
	for q, x := range truth {
		for _, p := range []float64{.1, .2, .5, .8, .9} {
			t := target{question: q, p: p, value: stat.Quantile(x, p)}
			for _, v := range x {
				if v <= t.value {
					t.share += 1 / float64(len(x))
				}
			}
			out = append(out, t)
		}
	}
	return out
}

// measure records seasons of the invented climate, makes an ensemble of each record and asks
// it everything.
func measure(t testing.TB, by climate.By, targets []target, seasons, samples int) []coverage {
	out := make([]coverage, len(questions))
	for i := range samples {
		rec := newInvented(uint64(1000*seasons + i)).record(seasons + 1)
		// The first season lacks the autumn before it, and is not asked.
		e := climate.Recorded(rec, 50, 2002, 2001+seasons)
		e.By = by
		if by == climate.ByWeather {
			m, err := Fit(rec.Between(climate.Calendar{}.Day(2002, 0), rec.Last()), climate.Calendar{}, DefaultOptions)
			require.NoError(t, err)
			e = m.Ensemble(uint64(i), 25, 20, 50)
		}
		values := make([][]float64, len(questions))
		for q := range questions {
			values[q] = make([]float64, len(e.Seasons))
			for j, s := range e.Seasons {
				values[q][j] = questions[q].of(s)
			}
		}
		answers := make([]climate.Answer, len(e.Seasons))
		for _, g := range targets {
			c := &out[g.question]
			d := e.Quantile(values[g.question], g.p)
			c.dates.count(d.Low, g.value, d.High)
			for j, v := range values[g.question] {
				answers[j] = climate.AnswerOf(v <= g.value)
			}
			p := e.Chance(answers)
			c.chances.count(p.Low, g.share, p.High)
		}
	}
	return out
}

// BenchmarkCoverage measures the coverage of the 90 % intervals on dates and chances over 200
// records each of 10, 20 and 40 seasons of a climate of known laws, by each way to chances: run
// with -bench Coverage -benchtime 1x -v. Over all questions it has to lie between 85 and 95 %.
// The five chances of a question rise and fall together and the questions do so in part, so that
// 200 records are worth some 500 independent trials, with a standard error of 1.3 points: the
// measured figures, of 88 to 94 %, would have to move by one to three of them to fail by the
// draw of the seed, and the seed is fixed.
//
// Single questions are reported, not held to the same bounds: the coldest night of ten winters
// (80 % for its temperature) is one night a winter, and no resampling knows what it has not seen.
func BenchmarkCoverage(b *testing.B) {
	targets := targets()
	for _, by := range []climate.By{climate.ByRecord, climate.ByCurve, climate.ByWeather} {
		for _, n := range []int{10, 20, 40} {
			b.Run(fmt.Sprintf("by=%s/seasons=%d", by, n), func(b *testing.B) {
				for b.Loop() {
					var all coverage
					for q, c := range measure(b, by, targets, n, 200) {
						b.Logf("%-25s dates %.1f %%, chances %.1f %%", questions[q].name, c.dates.percent(), c.chances.percent())
						all.dates.add(c.dates)
						all.chances.add(c.chances)
					}
					b.ReportMetric(all.dates.percent(), "%dates")
					b.ReportMetric(all.chances.percent(), "%chances")
					assert.InDelta(b, 90, all.dates.percent(), 5, "dates")
					assert.InDelta(b, 90, all.chances.percent(), 5, "chances")
				}
			})
		}
	}
}

// The same with 24 records, to be run each time. They are worth some 60 independent trials
// with a standard error of 3.9 points: 90 give or take 10 is two and a half of them, and
// catches intervals of half or twice the width (coverage about 60 and 99.9 %).
func TestCoverage(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	targets := targets()
	for _, by := range []climate.By{climate.ByRecord, climate.ByCurve, climate.ByWeather} {
		var all coverage
		for _, c := range measure(t, by, targets, 20, 24) {
			all.dates.add(c.dates)
			all.chances.add(c.chances)
		}
		t.Logf("by %s: dates %.1f %%, chances %.1f %%", by, all.dates.percent(), all.chances.percent())
		assert.InDelta(t, 90, all.dates.percent(), 9.9, by)
		assert.InDelta(t, 90, all.chances.percent(), 9.9, by)
	}
}
