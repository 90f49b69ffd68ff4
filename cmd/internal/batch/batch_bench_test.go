package batch

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"frostward/climate/daily"
	"frostward/climate/quality"
	"frostward/crops"
)

// inventedFile is 61 years of an invented station.
func inventedFile(seed uint64, years int) []byte {
	rng := rand.New(rand.NewPCG(seed, 1))
	var b bytes.Buffer
	b.WriteString("date,tmin_c,tmax_c\n")
	var anomaly float64
	end := time.Date(1960+years, 1, 1, 0, 0, 0, 0, time.UTC)
	for d := time.Date(1960, 1, 1, 0, 0, 0, 0, time.UTC); d.Before(end); d = d.AddDate(0, 0, 1) {
		anomaly = 0.72*anomaly + 2*rng.NormFloat64()
		mid := 9.5 - 8*math.Cos(2*math.Pi*(float64(d.YearDay())-20)/365.25) + anomaly
		half := 2 + 5*rng.Float64()
		fmt.Fprintf(&b, "%s,%.1f,%.1f\n", d.Format(time.DateOnly), mid-half, mid+half)
	}
	return b.Bytes()
}

// benchSettings are the command's own.
func benchSettings() *Settings {
	s := &Settings{Thresholds: []float64{-4, -2, 0, 2}, From: 90, To: 211, Aim: 0.8, Latitude: 52}
	for _, name := range []string{"courgette", "winter squash, early", "cucumber, outdoor", "tomato, early", "sweet pepper", "sweet corn, early",
		"French bean, dwarf", "runner bean", "pea, early", "calabrese", "cabbage, summer", "leek, early"} {
		c, err := crops.Builtin().Find(name, "")
		if err != nil {
			panic(err)
		}
		s.Crops = append(s.Crops, Crop{c, PlantedOut(c)})
	}
	return s
}

// The whole job for a station of 60 seasons, and what its parts take of it.
func BenchmarkStation(b *testing.B) {
	var files [][]byte
	for k := range 8 { // several, as memory that remembers one station would flatter
		files = append(files, inventedFile(uint64(k), 61))
	}
	set := benchSettings()
	read := func(k int) daily.Station {
		s, rep, err := daily.Read(bytes.NewReader(files[k%len(files)]), "x", daily.Options{})
		if err != nil {
			b.Fatal(err)
		}
		return daily.Station{Series: s, Report: rep}
	}
	b.Run("whole", func(b *testing.B) {
		w := newWorker(set, CSV, set.columns())
		b.ReportAllocs()
		k := 0
		for b.Loop() {
			w.station("x", "x", read(k))
			k++
		}
	})
	b.Run("read", func(b *testing.B) {
		b.ReportAllocs()
		k := 0
		for b.Loop() {
			read(k)
			k++
		}
	})
	b.Run("quality", func(b *testing.B) {
		var all []daily.Station
		for k := range files {
			all = append(all, read(k))
		}
		b.ReportAllocs()
		k := 0
		for b.Loop() {
			s := all[k%len(all)].Series
			quality.Mask(s, quality.Check(s))
			k++
		}
	})
}
