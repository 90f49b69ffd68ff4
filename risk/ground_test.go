package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/crops"
)

// A Ground gives for crops what the day loop and Score do, raised and sown, with gaps in the
// record, and after another station.
func TestGroundIsTry(t *testing.T) {
	rec := inventedRecord()
	for d := climate.NewDay(1970, 5, 1); d < climate.NewDay(1970, 5, 20); d++ {
		rec.Tmin[d-rec.First] = climate.Never - climate.Never // NaN
	}
	g := NewGround()
	w := climate.Window{From: on(4, 1), To: on(7, 31)}
	for _, e := range []climate.Ensemble{
		climate.Recorded(rec, 52, 1988, 1996), climate.Recorded(rec, -40, 1964, 1976), climate.Recorded(rec, 59, 1969, 1980),
	} {
		g.Reset(e)
		n := 0
		for k, c := range crops.Builtin().All() {
			for _, raised := range []bool{true, false} {
				p := Planting{Crop: c, Start: w.From, Raised: raised}
				if p.Check() != nil || !raised && k%9 > 0 || k%2 > 0 { // a few will do; the day loop plays sowings
					continue
				}
				n++
				f := NewField(e, c, raised, 1)
				got := g.TryAll([]Planting{p}, w, 0.8, 1)[0]
				want := noChoice
				for i, chance := range got.Succeeds {
					outcomes := make([]Outcome, len(e.Seasons))
					for y := range outcomes {
						outcomes[y] = f.Play(y, p.At(w.From+climate.SeasonDay(i)))
					}
					require.Equal(t, chanceOf(e, outcomes, func(f Outcome) climate.Answer { return known(f, f.Succeeds()) }), chance, c.Label())
					want.take(i, chance, 0.8)
				}
				if want.Best >= 0 { // and the best day is that of every other screen
					want = Try(f, p, w, 1, 0.8).Choice
				}
				require.Equal(t, want, got.Choice, c.Label())
				if got.Best >= 0 {
					best := score(f, p.At(w.From+climate.SeasonDay(got.Best)))
					require.Equal(t, best.Outcomes, got.At.Outcomes, c.Label())
					require.Equal(t, best.Harvest, got.At.Harvest, c.Label())
					require.Equal(t, best.Light, got.At.Light, c.Label())
				}
			}
		}
		assert.Greater(t, n, 30)
	}
}

// chanceOf counts outcomes by the way every other chance is counted.
func chanceOf(e climate.Ensemble, outcomes []Outcome, ask func(Outcome) climate.Answer) climate.Chance {
	out := make([]climate.Answer, len(outcomes))
	for i, f := range outcomes {
		out[i] = ask(f)
	}
	return e.Chance(out)
}

// A dozen crops on every starting day from April to July of 60 seasons, as for one station of
// many, on ground that keeps its memory.
func BenchmarkGround(b *testing.B) {
	e := climate.Recorded(inventedRecord(), 52, 1960, 2019)
	w := climate.Window{From: on(4, 1), To: on(7, 31)}
	var list []Planting
	for _, c := range benchCrops(b) {
		list = append(list, Planting{Crop: c, Start: w.From, Raised: true})
	}
	g := NewGround()
	b.ReportAllocs()
	for b.Loop() {
		g.Reset(e)
		g.TryAll(list, w, 0.8, 1)
	}
}
