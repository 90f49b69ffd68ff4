//go:build ignore

// Command make writes the weather of the invented garden: record.csv and log.csv. Nothing
// in it was measured. Run it with "go generate ./cmd/internal/demo".
//
// The station: monthly means of a cool upland valley, a cloudiness that lasts some days and
// sets how far day and night lie apart, a daily anomaly that fades with a memory of about
// three days, a year's own anomaly, and a warming of 0.3 °C a decade. The bed: colder than
// the screen on clear still nights, by an amount that grows with the day's range.
package main

import (
	"bufio"
	"fmt"
	"log"
	"math"
	"math/rand/v2"
	"os"

	"frostward/climate"
)

var (
	first = climate.NewDay(1981, 1, 1)
	last  = climate.NewDay(2026, 5, 16)
	// °C in the middle of each month.
	highs = [12]float64{6.3, 6.9, 9.2, 12.1, 15.6, 18.2, 20.1, 19.8, 17.0, 13.1, 9.1, 6.7}
	lows  = [12]float64{1.0, 1.0, 2.1, 3.6, 6.4, 9.3, 11.3, 11.2, 9.1, 6.5, 3.4, 1.3}
)

// between interpolates monthly values to a day of the year.
func between(v [12]float64, yearDay int) float64 {
	x := (float64(yearDay)+0.5)*12/365 - 0.5
	i := int(math.Floor(x))
	f := x - float64(i)
	return v[(i+12)%12]*(1-f) + v[(i+13)%12]*f
}

func main() {
	rng := rand.New(rand.NewPCG(20260516, 1))
	n := int(last-first) + 1
	tmin, tmax := make([]float64, n), make([]float64, n)
	var anomaly, clear float64
	yearly := rng.NormFloat64() * 0.5
	for i := range tmin {
		day := first + climate.Day(i)
		_, sd := climate.Calendar{}.Locate(day)
		if sd == 0 {
			yearly = rng.NormFloat64() * 0.5
		}
		season := 0.5 * (1 + math.Cos(2*math.Pi*float64(sd-15)/365)) // 1 in midwinter
		anomaly = 0.72*anomaly + rng.NormFloat64()*(1.55+0.75*season)
		clear = 0.6*clear + rng.NormFloat64()*0.8
		mid := (between(highs, int(sd))+between(lows, int(sd)))/2 + yearly + 0.03*(float64(i)/365.25-22.5)
		half := (between(highs, int(sd)) - between(lows, int(sd))) / 2 * math.Exp(0.33*clear-0.05)
		// Clear weather warms a summer and cools a winter.
		mid += anomaly + clear*(0.6-1.6*season)
		tmin[i], tmax[i] = mid-half, mid+half
		if i > 0 && tmin[i] > tmax[i-1] { // a night is no warmer than the day before it
			tmin[i] = tmax[i-1]
		}
	}
	write("garden/record.csv", func(w *bufio.Writer) {
		fmt.Fprintln(w, "date,tmin,tmax")
		for i := range tmin {
			day := first + climate.Day(i)
			switch {
			case day >= climate.NewDay(1987, 8, 3) && day <= climate.NewDay(1987, 9, 20):
				fmt.Fprintf(w, "%v,,\n", day) // the invented observer was away
			case rng.Float64() < 0.002:
				fmt.Fprintf(w, "%v,,%.1f\n", day, tmax[i])
			default:
				fmt.Fprintf(w, "%v,%.1f,%.1f\n", day, tmin[i], tmax[i])
			}
		}
	})
	write("garden/log.csv", func(w *bufio.Writer) {
		fmt.Fprintln(w, "date,spot,tmin_c,evening_c,dew_point_c,humidity_pct,cloud,wind,forecast_c,covered,damage,note")
		for i := n - 60; i < n; i++ {
			day := first + climate.Day(i)
			span := tmax[i] - tmin[i]
			if rng.Float64() < 0.72 {
				bed := tmin[i] + 0.9 - 0.33*span + rng.NormFloat64()*0.7
				fmt.Fprintf(w, "%v,open bed,%.1f,,,,,,%.1f,,,\n", day, bed, tmin[i]+rng.NormFloat64()*1.3)
			}
			if rng.Float64() < 0.4 {
				glass := tmin[i] + 1.6 - 0.04*span + rng.NormFloat64()*0.5
				fmt.Fprintf(w, "%v,glasshouse,%.1f,,,,,,,,,\n", day, glass)
			}
		}
	})
}

func write(name string, fill func(*bufio.Writer)) {
	f, err := os.Create(name)
	if err != nil {
		log.Fatal(err)
	}
	w := bufio.NewWriter(f)
	fill(w)
	if err := w.Flush(); err != nil {
		log.Fatal(err)
	}
	if err := f.Close(); err != nil {
		log.Fatal(err)
	}
}
