package risk

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"frostward/climate"
	"frostward/crops"
)

// inventedRecord is 61 years of an invented cool place, in tenths of a degree: a wave over the
// year and a daily anomaly that fades over some days.
func inventedRecord() climate.Series {
	rng := rand.New(rand.NewPCG(1, 1))
	first, last := climate.NewDay(1960, 1, 1), climate.NewDay(2020, 12, 31)
	s := climate.NewSeries(first, int(last-first)+1)
	var anomaly float64
	for i := range s.Tmin {
		anomaly = 0.72*anomaly + 2*rng.NormFloat64()
		mid := 9.5 - 8*math.Cos(2*math.Pi*(float64(i)-20)/365.25) + anomaly
		half := 2 + 5*rng.Float64()
		s.Tmin[i], s.Tmax[i] = math.Round((mid-half)*10)/10, math.Round((mid+half)*10)/10
	}
	return s
}

// benchCrops are twelve that are planted out.
func benchCrops(b *testing.B) []crops.Crop {
	var out []crops.Crop
	for _, name := range []string{"courgette", "winter squash, early", "cucumber, outdoor", "tomato, early", "sweet pepper", "sweet corn, early",
		"French bean, dwarf", "runner bean", "pea, early", "lettuce, main", "calabrese", "leek, early"} {
		name, class, _ := strings.Cut(name, ", ")
		c, err := crops.Builtin().Find(name, class)
		if err != nil {
			b.Fatal(err)
		}
		out = append(out, c)
	}
	return out
}

// One crop on every starting day from April to July of 60 seasons, by the day loop and by the
// fast form.
func BenchmarkStarts(b *testing.B) {
	e := climate.Recorded(inventedRecord(), 52, 1960, 2019)
	var fields []*Field
	for _, c := range benchCrops(b) {
		fields = append(fields, NewField(e, c, true, 1))
	}
	w := climate.Window{From: on(4, 1), To: on(7, 31)}
	outcomes := float64(len(e.Seasons) * (int(w.To-w.From) + 1))
	b.Run("loop", func(b *testing.B) {
		n := 0
		for b.Loop() {
			f := fields[n%len(fields)]
			n++
			for i := range e.Seasons {
				for sd := w.From; sd <= w.To; sd++ {
					f.Play(i, Planting{Crop: f.Crop, Start: sd, Raised: true})
				}
			}
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/outcomes, "ns/outcome")
	})
	b.Run("sweep", func(b *testing.B) {
		n := 0
		var s Sweep
		b.ReportAllocs()
		for b.Loop() {
			f := fields[n%len(fields)]
			n++
			s.set(f, Planting{Crop: f.Crop, Start: w.From, Raised: true})
			for i := range e.Seasons {
				s.play(i, w, 1)
			}
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/outcomes, "ns/outcome")
	})
	b.Run("count", func(b *testing.B) {
		n := 0
		var s Sweep
		var counts []Counts
		b.ReportAllocs()
		for b.Loop() {
			f := fields[n%len(fields)]
			n++
			s.set(f, Planting{Crop: f.Crop, Start: w.From, Raised: true})
			counts = s.count(w, 1, counts, nil)
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/outcomes, "ns/outcome")
	})
}
