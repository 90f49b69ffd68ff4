// Command measure runs the program beside other ways to do the same and prints ratios, each
// from one run on one machine; times differ between machines, ratios hardly do. Processor time
// is compared where one core is asked about, so that other work on the machine matters little.
//
// testdata/bench/run.sh builds what it needs and starts it.
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"

	"frostward/climate/daily"
)

var (
	program  = flag.String("program", "", "the built program, stripped")
	maker    = flag.String("make", "", "the built testdata/bench/make")
	scripts  = flag.String("scripts", "testdata/bench", "folder of job.py")
	python   = flag.String("python", "/usr/bin/python3", "python with pandas, numpy and scipy")
	size     = flag.Int64("size", 200<<20, "bytes of the file to read")
	stations = flag.Int("stations", 60, "stations of the whole job")
	rounds   = flag.Int("rounds", 5, "times that each is measured; the median is told")
)

func main() {
	flag.Parse()
	dir, err := os.MkdirTemp("", "frostward-bench-")
	must(err)
	defer os.RemoveAll(dir)
	fmt.Printf("%s/%s, %d cores, %s; medians of %d rounds\n", runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), runtime.Version(), *rounds)
	reading(dir)
	jobs(dir)
	plan()
	if info, err := os.Stat(*program); err == nil {
		fmt.Printf("binary, stripped: %.1f MB (limit 25)\n", float64(info.Size())/1e6)
	}
}

// spent is what a process took.
type spent struct {
	cpu, wall time.Duration
	peak      int64 // bytes
}

func run(stdout *bytes.Buffer, name string, args ...string) spent {
	c := exec.Command(name, args...)
	var stderr bytes.Buffer
	c.Stderr = &stderr
	if stdout != nil {
		c.Stdout = stdout
	}
	t := time.Now()
	if err := c.Run(); err != nil {
		log.Fatalf("%s: %v\n%s", name, err, stderr.String())
	}
	peak := int64(0)
	if r, ok := c.ProcessState.SysUsage().(*syscall.Rusage); ok {
		peak = r.Maxrss << 10
	}
	return spent{c.ProcessState.UserTime() + c.ProcessState.SystemTime(), time.Since(t), peak}
}

func median(x []float64) float64 {
	slices.Sort(x)
	return x[len(x)/2]
}

// reading compares the reader with wc -l on the same file.
func reading(dir string) {
	big := filepath.Join(dir, "big.csv")
	run(nil, *maker, "-size", strconv.FormatInt(*size, 10), "-big", big)
	defer os.Remove(big)
	var ratios []float64
	var allocs float64
	var rows int
	for range *rounds + 1 {
		wc := run(new(bytes.Buffer), "wc", "-l", big)
		cpu, n, a := read(big)
		rows, allocs = n, a
		ratios = append(ratios, float64(cpu)/float64(wc.cpu))
	}
	fmt.Printf("reading %d MB of date,tmin,tmax: %.1f times wc -l (processor time)\n", *size>>20, median(ratios[1:]))
	fmt.Printf("allocations: %.0f for %d rows\n", allocs, rows)
}

func read(name string) (cpu time.Duration, rows int, allocs float64) {
	f, err := os.Open(name)
	must(err)
	defer f.Close()
	var m0, m1 runtime.MemStats
	runtime.ReadMemStats(&m0)
	c := used()
	_, rep, err := daily.Read(f, name, daily.Options{})
	must(err)
	cpu = used() - c
	runtime.ReadMemStats(&m1)
	return cpu, rep.Rows, float64(m1.Mallocs - m0.Mallocs)
}

func used() time.Duration {
	var r syscall.Rusage
	must(syscall.Getrusage(syscall.RUSAGE_SELF, &r))
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

// jobs compares the whole job with job.py, two workers with one, and four times the stations
// with as many.
func jobs(dir string) {
	few, many, long := filepath.Join(dir, "few"), filepath.Join(dir, "many"), filepath.Join(dir, "long.csv")
	run(nil, *maker, "-stations", strconv.Itoa(*stations), "-dir", few)
	run(nil, *maker, "-stations", strconv.Itoa(4**stations), "-dir", many)
	run(nil, *maker, "-stations", strconv.Itoa(*stations), "-keyed", long)
	job := func(out string, workers int, input string, more ...string) spent {
		os.Remove(out)
		return run(nil, *program, append([]string{"stations", input, "--latitude", "52", "--quiet", "-o", out, "--workers", strconv.Itoa(workers)}, more...)...)
	}
	csv := func(k int) string { return filepath.Join(dir, fmt.Sprintf("out%d.csv", k)) }

	able := exec.Command(*python, "-c", "import pandas, scipy").Run() == nil
	if !able {
		fmt.Println("no pandas and scipy here (Debian's python3-pandas and python3-scipy): not compared")
	}
	var byStart, tuned, faster, rate []float64
	var peakFew, peakMany int64
	for range *rounds {
		one, oneMany := job(csv(1), 1, few), job(csv(3), 1, many)
		twoFew, twoMany := job(csv(2), 2, few), job(csv(4), 2, many)
		// The start of the program is left out, as the script's imports are.
		faster = append(faster, float64(oneMany.wall-one.wall)/float64(twoMany.wall-twoFew.wall))
		rate = append(rate, (oneMany.cpu-one.cpu).Seconds()/float64(3**stations))
		if able {
			tuned = append(tuned, script(few)/rate[len(rate)-1])
			byStart = append(byStart, script(few, "--by-start")/rate[len(rate)-1])
		}
		peakFew, peakMany = max(peakFew, twoFew.peak), max(peakMany, twoMany.peak)
	}
	fmt.Printf("whole job, one core: %.1f ms of processor time a station\n", 1000*median(rate))
	if able {
		fmt.Printf("that is %.0f times as fast as pandas, numpy and scipy, one planting-out day after another (goal 100)\n", median(byStart))
		fmt.Printf("and %.0f times as fast as the same script tuned: all planting-out days at once, what crops share kept\n", median(tuned))
	}
	fmt.Printf("whole job, two workers: %.2f times as fast as one (by the clock; goal 1.8)\n", median(faster))
	fmt.Printf("memory at its peak, two workers: %d MB for %d stations, %d MB for %d (goal: flat, and at most 64 MB a worker)\n",
		peakFew>>20, *stations, peakMany>>20, 4**stations)
	same(csv(1), csv(2))
	same(csv(3), csv(4))
	job(csv(5), 5, few)
	same(csv(1), csv(5))
	job(csv(6), 1, long)
	job(csv(7), 3, long)
	same(csv(6), csv(7))
	fmt.Println("same bytes for 1, 2, 3 and 5 workers: yes")
	if able {
		agree(few, dir)
	}
	// 40,000 stations with temperatures in GHCN-Daily.
	fmt.Printf("40,000 such stations on two cores: about %.0f minutes\n", median(rate)*40000/2/60)
}

// script runs job.py and returns its seconds a station.
func script(dir string, more ...string) float64 {
	said := python3("job.py", append(append([]string{"--latitude", "52"}, more...), someOf(dir)...)...)
	v, err := strconv.ParseFloat(strings.TrimSpace(said), 64)
	must(err)
	return v
}

// someOf are the stations that the script is given.
func someOf(dir string) []string {
	files, err := filepath.Glob(filepath.Join(dir, "*.csv"))
	must(err)
	return files[:min(8, len(files))]
}

// python3 runs one of the scripts and returns what it says.
func python3(name string, args ...string) string {
	var out bytes.Buffer
	run(&out, *python, append([]string{filepath.Join(*scripts, name)}, args...)...)
	return out.String()
}

// agree tells whether the script and the program come to the same results.
func agree(input, dir string) {
	py, out := filepath.Join(dir, "py.json"), filepath.Join(dir, "go.jsonl")
	run(nil, *program, append([]string{"stations", "--latitude", "52", "--quiet", "--by-day", "-o", out}, someOf(input)...)...)
	for _, way := range [][]string{{"--by-start"}, nil} {
		script(input, append([]string{"--out", py}, way...)...)
		fmt.Print("the script", strings.Join(append([]string{""}, way...), " "), " and the program: ", python3("compare.py", py, out))
	}
}

func same(a, b string) {
	x, err := os.ReadFile(a)
	must(err)
	y, err := os.ReadFile(b)
	must(err)
	if !bytes.Equal(x, y) {
		must(errors.New("the output depends on the number of workers: " + a + ", " + b))
	}
}

// plan tells how long the built-in garden's plan takes from start to finish.
func plan() {
	for _, way := range []string{"record", "weather"} {
		var wall, cpu []float64
		for range 2**rounds + 1 {
			s := run(new(bytes.Buffer), *program, "plan", "--by", way)
			wall, cpu = append(wall, s.wall.Seconds()*1000), append(cpu, s.cpu.Seconds()*1000)
		}
		fmt.Printf("plan --by %s, start to finish: %.0f ms by the clock, the quickest %.0f; %.0f ms of processor time (goal 100 by the clock on an idle machine)\n",
			way, median(wall), slices.Min(wall), median(cpu))
	}
}

func must(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
