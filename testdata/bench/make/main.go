// Command make writes the invented records that the benchmarks read. Nothing in them was
// measured. The same numbers give the same files.
//
//	go run ./testdata/bench/make -stations 100 -dir /tmp/records     one CSV file a station
//	go run ./testdata/bench/make -stations 100 -keyed /tmp/long.csv  one long file keyed by station
package main

import (
	"bufio"
	"flag"
	"fmt"
	"log"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"time"
)

func main() {
	stations := flag.Int("stations", 20, "stations")
	years := flag.Int("years", 61, "years a station; 61 hold 60 whole seasons")
	dir := flag.String("dir", "", "folder for one CSV file a station")
	keyed := flag.String("keyed", "", "file for all stations, keyed by station")
	flag.Parse()
	if *dir != "" {
		must(os.MkdirAll(*dir, 0o755))
		for k := range *stations {
			write(filepath.Join(*dir, fmt.Sprintf("INV%08d.csv", k)), func(w *bufio.Writer) {
				w.WriteString("date,tmin_c,tmax_c\n")
				each(k, *years, func(day time.Time, tmin, tmax int) {
					w.Write(day.AppendFormat(w.AvailableBuffer(), time.DateOnly))
					fmt.Fprintf(w, ",%.1f,%.1f\n", float64(tmin)/10, float64(tmax)/10)
				})
			})
		}
	}
	if *keyed != "" {
		write(*keyed, func(w *bufio.Writer) {
			for k := range *stations {
				each(k, *years, func(day time.Time, tmin, tmax int) {
					d := day.Format("20060102")
					fmt.Fprintf(w, "INV%08d,%s,TMAX,%d,,,S,\nINV%08d,%s,TMIN,%d,,,S,\n", k, d, tmax, k, d, tmin)
				})
			}
		})
	}
}

// latitude is a station's: 44 to 60 degrees.
func latitude(k int) float64 { return 44 + float64(k*7%161)/10 }

// each makes the days of an invented station, in tenths of a degree: a wave over the year, an
// anomaly that fades over some days, a cloudiness that sets the day's range; now and then a
// day is missing. Every third station has some faults: values exchanged, and far off.
func each(k, years int, day func(d time.Time, tmin, tmax int)) {
	rng := rand.New(rand.NewPCG(uint64(k), 1))
	level := 16 - 0.15*latitude(k) + 1.5*rng.NormFloat64()
	wave := 7 + 3*rng.Float64()
	first := time.Date(1960, 1, 1, 0, 0, 0, 0, time.UTC)
	last := time.Date(1960+years, 1, 1, 0, 0, 0, 0, time.UTC)
	var anomaly, clear float64
	for i, d := 0, first; d.Before(last); i, d = i+1, d.AddDate(0, 0, 1) {
		anomaly = 0.72*anomaly + 2*rng.NormFloat64()
		clear = 0.6*clear + 0.8*rng.NormFloat64()
		mid := level - wave*math.Cos(2*math.Pi*(float64(d.YearDay())-20)/365.25) + anomaly
		half := 4.5 * math.Exp(0.35*clear)
		if rng.IntN(500) == 0 && i > 0 {
			continue
		}
		tmin, tmax := int(math.Round(10*(mid-half))), int(math.Round(10*(mid+half)))
		if fault := rng.IntN(16000); k%3 == 2 && fault < 4 {
			switch fault {
			case 0, 1:
				tmin, tmax = tmax, tmin
			case 2:
				tmax += 250
			case 3:
				tmin -= 250
			}
		}
		day(d, tmin, tmax)
	}
}

func write(name string, body func(*bufio.Writer)) {
	f, err := os.Create(name)
	must(err)
	w := bufio.NewWriterSize(f, 1<<20)
	body(w)
	must(w.Flush())
	must(f.Close())
}

func must(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
