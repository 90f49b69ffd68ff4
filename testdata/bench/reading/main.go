// Command reading measures how long reading a large date,tmin,tmax file takes beside
// `wc -l` on the same file, in one run, as ratios:
//
//	go run ./testdata/bench/reading [-mb 1000] [-rounds 7] [-file big.csv]
//
// Both read from the page cache; the best of the rounds counts, and the rounds of both
// alternate, so that other work on the machine weighs on both. Processor time is given
// beside the clock's, since it suffers less from that.
package main

import (
	"bufio"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"time"

	"frostward/climate"
	"frostward/climate/daily"
)

func main() {
	mb := flag.Int("mb", 1000, "size of the file to make, in millions of bytes")
	rounds := flag.Int("rounds", 7, "how often each is timed")
	file := flag.String("file", "", "a file to read instead of making one")
	flag.Parse()
	if err := run(*file, *mb, *rounds); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(file string, mb, rounds int) error {
	if file == "" {
		dir, err := os.MkdirTemp("", "reading")
		if err != nil {
			return err
		}
		defer os.RemoveAll(dir)
		file = filepath.Join(dir, "big.csv")
		if err := makeFile(file, mb*1_000_000); err != nil {
			return err
		}
	}
	wc := func() (time.Duration, error) {
		c := exec.Command("wc", "-l", file)
		err := c.Run()
		return c.ProcessState.UserTime() + c.ProcessState.SystemTime(), err
	}
	read := func(workers int) func() (time.Duration, error) {
		return func() (time.Duration, error) {
			before := processor()
			f, err := os.Open(file)
			if err != nil {
				return 0, err
			}
			defer f.Close()
			info, err := f.Stat()
			if err != nil {
				return 0, err
			}
			_, _, err = daily.ReadAt(f, info.Size(), file, daily.Options{Units: daily.Celsius, Workers: workers})
			return processor() - before, err
		}
	}
	jobs := []struct {
		name string
		do   func() (time.Duration, error)
		best [2]time.Duration // clock, processor
	}{{name: "wc -l", do: wc}, {name: "1 worker", do: read(1)}, {name: "2 workers", do: read(2)}}
	for range rounds {
		for i := range jobs {
			start := time.Now()
			used, err := jobs[i].do()
			if err != nil {
				return fmt.Errorf("%s: %w", jobs[i].name, err)
			}
			for k, d := range []time.Duration{time.Since(start), used} {
				if b := &jobs[i].best[k]; *b == 0 || d < *b {
					*b = d
				}
			}
		}
	}
	for _, j := range jobs {
		fmt.Printf("%-10s clock %6.3f s, %5.2f times wc; processor %6.3f s, %5.2f times wc\n", j.name,
			j.best[0].Seconds(), j.best[0].Seconds()/jobs[0].best[0].Seconds(),
			j.best[1].Seconds(), j.best[1].Seconds()/jobs[0].best[1].Seconds())
	}
	return nil
}

func processor() time.Duration {
	var r syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &r); err != nil {
		return 0
	}
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

// makeFile writes the days of 1900 to 2025 with invented temperatures, over and over:
// there are not days enough in the calendar for so many rows.
func makeFile(name string, size int) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	defer f.Close()
	w := bufio.NewWriterSize(f, 1<<20)
	rng := rand.New(rand.NewPCG(1, 2))
	first := climate.NewDay(1900, 1, 1)
	rows := make([]string, climate.NewDay(2026, 1, 1)-first)
	for i := range rows {
		low := rng.Float64()*45 - 20
		rows[i] = fmt.Sprintf("%s,%.1f,%.1f\n", first+climate.Day(i), low, low+1+rng.Float64()*18)
	}
	n, _ := w.WriteString("date,tmin,tmax\n")
	for i := 0; n < size; i++ {
		row := rows[i%len(rows)]
		if _, err := w.WriteString(row); err != nil {
			return err
		}
		n += len(row)
	}
	if err := w.Flush(); err != nil {
		return err
	}
	return f.Close()
}
