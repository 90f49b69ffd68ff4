package main

import (
	"fmt"
	"os"
	"sync/atomic"
	"time"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"
	"golang.org/x/term"

	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// stationWatch tells on standard error how a run over many stations goes: a bar on a
// terminal, else a plain line now and then, which a log keeps readable.
type stationWatch struct {
	a       *app
	quiet   bool
	bars    *mpb.Progress // nil where nothing is drawn
	bar     *mpb.Bar
	bytes   int64
	read    atomic.Int64
	done    int
	failed  int
	begun   time.Time
	told    time.Time
	stopped time.Duration
}

// tellEvery is how often a plain line tells how far it is.
const tellEvery = 10 * time.Second

// tellFailures is how many failures are told one by one; the output has all of them.
const tellFailures = 20

func (a *app) watchStations(quiet bool) *stationWatch { return &stationWatch{a: a, quiet: quiet} }

// draws tells whether standard error is a terminal that a bar can be drawn on.
func (a *app) draws() bool {
	f, ok := a.screen.(*os.File)
	if !ok || a.getenv("TERM") == "dumb" || a.getenv("TERM") == "" {
		return false
	}
	width, _, err := term.GetSize(int(f.Fd())) // 0 where the terminal does not say
	return err == nil && width > 0
}

// Begin is told first.
func (w *stationWatch) Begin(bytes int64, files, before int) {
	w.bytes, w.begun, w.told = bytes, time.Now(), time.Now()
	if w.quiet {
		return
	}
	if before > 0 {
		w.a.notef("going on from an earlier run: %s are there", words.Plural(before, "station"))
	}
	if !w.a.draws() {
		w.a.notef("reading %s, %.0f MB", words.Plural(files, "file"), float64(bytes)/1e6)
		return
	}
	// mpb draws nothing off a terminal, but heeds no TERM=dumb, hence draws above.
	w.bars = mpb.New(mpb.WithOutput(w.a.screen), mpb.WithWidth(40), mpb.WithRefreshRate(200*time.Millisecond))
	w.bar = w.bars.New(bytes, mpb.BarStyle().Lbound("[").Filler("=").Tip("=").Padding(" ").Rbound("]"),
		mpb.BarRemoveOnComplete(),
		mpb.PrependDecorators(decor.Percentage(decor.WC{W: 5})),
		mpb.AppendDecorators(
			decor.Any(func(decor.Statistics) string {
				return fmt.Sprintf(" %.0f of %.0f MB", float64(w.read.Load())/1e6, float64(bytes)/1e6)
			}),
			decor.OnComplete(decor.AverageETA(decor.ET_STYLE_GO, decor.WC{W: 9}), "")))
}

// Read is told of input that has passed; from any goroutine.
func (w *stationWatch) Read(n int64) {
	w.read.Add(n)
	if w.bar != nil {
		w.bar.IncrInt64(n)
	}
}

// Station is told of each station.
func (w *stationWatch) Station(id, source, status, why string) {
	w.done++
	if status == "failed" {
		if w.failed++; w.failed <= tellFailures {
			w.say("%s: %s; its row says so", table.Safe(source), table.Safe(why))
		}
	}
	if w.bars == nil && time.Since(w.told) >= tellEvery {
		w.told = time.Now()
		w.say("%s, %.0f of %.0f MB", words.Plural(w.done, "station"), float64(w.read.Load())/1e6, float64(w.bytes)/1e6)
	}
}

// say prints a line, above the bar where there is one.
func (w *stationWatch) say(format string, args ...any) {
	switch {
	case w.quiet:
	case w.bars != nil:
		fmt.Fprintf(w.bars, "frostward: "+format+"\n", args...)
	default:
		w.a.notef(format, args...)
	}
}

// end takes the bar away.
func (w *stationWatch) end() {
	if w.begun.IsZero() {
		return
	}
	w.stopped = time.Since(w.begun)
	if w.bars != nil {
		w.bar.Abort(true)
		w.bars.Wait()
	}
	if n := w.failed - tellFailures; n > 0 && !w.quiet {
		w.a.notef("and %d more that failed", n)
	}
}

// rate says how fast it went, if it was worth the wait.
func (w *stationWatch) rate() string {
	if w.stopped < time.Second || w.done == 0 {
		return ""
	}
	return fmt.Sprintf("; %.0f stations a second", float64(w.done)/w.stopped.Seconds())
}
