// Command measure runs the program as a person would and prints how long each answer takes,
// beside another build of it and beside a tuned script where they are to be had. Times differ
// between machines, ratios hardly do. What is compared takes turns, so that other work on the
// machine falls on both.
//
// testdata/bench/run.sh builds what it needs and starts it.
package main

import (
	"bufio"
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"log"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"
)

var (
	program  = flag.String("program", "", "the built program, stripped")
	before   = flag.String("before", "", "another build of it to compare with, such as an earlier one")
	maker    = flag.String("make", "", "the built testdata/bench/make")
	scripts  = flag.String("scripts", "testdata/bench", "folder of job.py")
	python   = flag.String("python", "/usr/bin/python3", "python with pandas, numpy and scipy")
	stations = flag.Int("stations", 60, "stations of the whole job")
	rounds   = flag.Int("rounds", 5, "times that each is measured; the median is stated")
)

// What is allowed against the build before, where a goal is stated in times of it.
var allowed = map[string]float64{"plan": 1.3, "stations": 2.5}

func main() {
	flag.Parse()
	dir, err := os.MkdirTemp("", "frostward-bench-")
	must(err)
	defer os.RemoveAll(dir)
	fmt.Printf("%s/%s, %d cores, %s; medians of %d rounds\n", runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), runtime.Version(), *rounds)
	ask("plan", "plan")
	ask("tonight", "tonight")
	written := filepath.Join(dir, "page.html")
	beside("page", func(p string) spent {
		os.Remove(written) // neither build writes over the other's
		return run(io.Discard, p, "page", "-o", written)
	})
	served()
	whole(dir)
}

// spent is what a process took.
type spent struct {
	cpu, wall time.Duration
	peak      int64 // bytes
}

func run(stdout io.Writer, name string, args ...string) spent {
	c := exec.Command(name, args...)
	var stderr bytes.Buffer
	c.Stdout, c.Stderr = stdout, &stderr
	t := time.Now()
	if err := c.Run(); err != nil {
		log.Fatalf("%s %v: %v\n%s", name, args, err, stderr.String())
	}
	peak := int64(0)
	if r, ok := c.ProcessState.SysUsage().(*syscall.Rusage); ok {
		peak = r.Maxrss << 10
	}
	return spent{c.ProcessState.UserTime() + c.ProcessState.SystemTime(), time.Since(t), peak}
}

func median(x []float64) float64 {
	x = slices.Clone(x)
	slices.Sort(x)
	return x[len(x)/2]
}

// beside measures the program and the build before by turns, and prints both.
func beside(what string, once func(program string) spent) (cpu, wall float64) {
	var times [2][2][]float64
	programs := []string{*program}
	if *before != "" {
		programs = append(programs, *before)
	}
	for range *rounds {
		for i, p := range programs {
			s := once(p)
			times[i][0], times[i][1] = append(times[i][0], s.cpu.Seconds()*1000), append(times[i][1], s.wall.Seconds()*1000)
		}
	}
	cpu, wall = median(times[0][0]), median(times[0][1])
	fmt.Printf("%s: %.0f ms by the clock, %.0f ms of processor time", what, wall, cpu)
	if *before != "" {
		fmt.Printf("; %.2f times the build before", cpu/median(times[1][0]))
		if goal, ok := allowed[what]; ok {
			fmt.Printf(" (allowed %.1f)", goal)
		}
	}
	fmt.Println()
	return cpu, wall
}

// ask measures one command on the built-in garden, from start to finish.
func ask(what string, args ...string) {
	beside(what, func(p string) spent {
		return run(io.Discard, p, args...)
	})
}

// served measures the slowest of serve's pages, the first after the start and the same again.
func served() {
	c := exec.Command(*program, "serve", "--listen", "127.0.0.1:0")
	out, err := c.StdoutPipe()
	must(err)
	must(c.Start())
	defer c.Wait()
	defer c.Process.Signal(os.Interrupt)
	line, err := bufio.NewReader(out).ReadString('\n')
	must(err)
	at, _, _ := strings.Cut(line, " ")
	for _, turn := range []string{"first", "second"} {
		slowest, which := time.Duration(0), ""
		for _, path := range []string{"", "log", "try", "plantings"} {
			t := time.Now()
			r, err := http.Get(at + path)
			must(err)
			_, err = io.Copy(io.Discard, r.Body)
			must(errors.Join(err, r.Body.Close()))
			if took := time.Since(t); took > slowest {
				slowest, which = took, path
			}
		}
		fmt.Printf("serve, its slowest page (/%s) asked a %s time: %.0f ms\n", which, turn, slowest.Seconds()*1000)
	}
}

// whole measures stations, whether its output depends on the workers, and the script beside it.
func whole(dir string) {
	few, many := filepath.Join(dir, "few"), filepath.Join(dir, "many")
	run(io.Discard, *maker, "-stations", strconv.Itoa(*stations), "-dir", few)
	run(io.Discard, *maker, "-stations", strconv.Itoa(4**stations), "-dir", many)
	job := func(p, out string, workers int, input string) spent {
		os.Remove(out)
		return run(io.Discard, p, "stations", input, "--latitude", "52", "--quiet", "-o", out, "--workers", strconv.Itoa(workers))
	}
	one, two := filepath.Join(dir, "one.csv"), filepath.Join(dir, "two.csv")
	cpu, _ := beside("stations", func(p string) spent { return job(p, one, 1, few) })
	rate := cpu / 1000 / float64(*stations)
	fmt.Printf("that is %.1f ms a station; 40,000 of them on two cores: about %.0f minutes\n", rate*1000, rate*40000/2/60)
	job(*program, one, 1, few)
	a, b := job(*program, two, 2, few), job(*program, filepath.Join(dir, "many.csv"), 2, many)
	fmt.Printf("memory at its peak, two workers: %d MB for %d stations, %d MB for %d\n", a.peak>>20, *stations, b.peak>>20, 4**stations)
	x, err := os.ReadFile(one)
	must(err)
	y, err := os.ReadFile(two)
	must(err)
	if !bytes.Equal(x, y) {
		log.Fatal("the output depends on the number of workers")
	}
	if exec.Command(*python, "-c", "import pandas, scipy").Run() != nil {
		fmt.Println("no pandas and scipy here (Debian's python3-pandas and python3-scipy): not compared")
		return
	}
	files, err := filepath.Glob(filepath.Join(few, "*.csv"))
	must(err)
	files = files[:min(8, len(files))]
	py, out := filepath.Join(dir, "py.json"), filepath.Join(dir, "go.jsonl")
	var ratio []float64
	for range *rounds {
		var said bytes.Buffer
		run(&said, *python, append([]string{filepath.Join(*scripts, "job.py"), "--latitude", "52"}, files...)...)
		v, err := strconv.ParseFloat(strings.TrimSpace(said.String()), 64)
		must(err)
		s := job(*program, one, 1, few)
		ratio = append(ratio, v/(s.cpu.Seconds()/float64(*stations)))
	}
	fmt.Printf("%.1f times as fast as a tuned script in pandas, numpy and scipy, which leaves the checks out (goal 4)\n", median(ratio))
	run(io.Discard, *python, append([]string{filepath.Join(*scripts, "job.py"), "--latitude", "52", "--check", *program, "--out", py}, files...)...)
	run(io.Discard, *program, append([]string{"stations", "--latitude", "52", "--quiet", "-o", out}, files...)...)
	run(os.Stdout, *python, filepath.Join(*scripts, "compare.py"), py, out)
}

func must(err error) {
	if err != nil {
		log.Fatal(err)
	}
}
