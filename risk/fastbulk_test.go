package risk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/climate"
	"frostward/crops"
)

// Counting by the stretch comes to what the day loop does, for any crop in any seasons, one
// crop after another and one station after another on the same ground.
func TestBulkIsTheDayLoop(t *testing.T) {
	g := NewGround()
	played := 0
	rapid.Check(t, func(t *rapid.T) {
		e := climate.Ensemble{Latitude: rapid.SampledFrom([]float64{35, 52, 62}).Draw(t, "latitude"), By: climate.ByRecord,
			Seasons: []climate.Season{roughSeason(t), someSeason(t), someSeason(t)}}
		e.Rests = len(e.Seasons)
		for i := range e.Seasons {
			e.Seasons[i].Year = 1990 + i
		}
		g.Reset(e)
		from := climate.SeasonDay(rapid.IntRange(-150, 300).Draw(t, "from"))
		w := climate.Window{From: from, To: from + climate.SeasonDay(rapid.IntRange(0, 175).Draw(t, "days"))}
		for range rapid.IntRange(1, 3).Draw(t, "crops") {
			c := roughCrop(t)
			g.homes = map[homeKey]home{} // the crops are all of one name
			p := out(c, from)
			f := NewField(e, c, true, 1)
			fast := g.Field(e, c, true, 1)
			tried := make([]Tried, 1)
			g.count([]*Field{fast}, []Planting{p}, w, tried)
			got := tried[0].Days
			require.Len(t, got, int(w.To-w.From)+1)
			for k := range got {
				var want Counts
				for i := range e.Seasons {
					played := f.Play(i, p.At(from+climate.SeasonDay(k)))
					if played.Known {
						want.add(!played.Lost, played.Ripens)
					}
					played.Light = false
					if told := g.fate(0, fast, i, p.At(from+climate.SeasonDay(k))); told != played {
						t.Fatalf("season %d, start %d:\n%+v\n%+v", i, k, told, played)
					}
				}
				if got[k] != want {
					t.Fatalf("start %d: counted %+v, wanted %+v", k, got[k], want)
				}
			}
			played++
		}
	})
	require.Positive(t, played)
}

// In an ordinary record nearly every start is told by the stretch: else it would not be fast.
func TestBulkLeavesLittle(t *testing.T) {
	e := climate.Recorded(inventedRecord(), 52, 1961, 2018)
	g := NewGround()
	g.Reset(e)
	w := climate.Window{From: on(4, 1), To: on(7, 31)}
	var fields []*Field
	var list []Planting
	for _, c := range crops.Builtin().All() {
		p := Planting{Crop: c, Start: w.From, Raised: true}
		if p.Check() == nil {
			fields, list = append(fields, g.Field(e, c, true, 1)), append(list, p)
		}
	}
	g.count(fields, list, w, make([]Tried, len(list)))
	left, all := 0, len(list)*len(e.Seasons)*(int(w.To-w.From)+1)
	for k := range list {
		require.True(t, g.bulks[k].used)
		left += len(g.bulks[k].odd)
	}
	t.Logf("%d of %d starts are left to the sweep", left, all)
	assert.Less(t, float64(left), 0.01*float64(all))
}
