package batch

import (
	"fmt"
	"io"
	"os"
	"sync/atomic"
	"time"

	"github.com/vbauerster/mpb/v8"
	"github.com/vbauerster/mpb/v8/decor"
	"golang.org/x/term"

	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

// Progress says on standard error how a run over many stations goes: a bar on a terminal, else a
// plain line now and then, which a log keeps readable.
type Progress struct {
	Quiet  bool
	Screen io.Writer                        // standard error as it is, for a bar
	Term   string                           // the environment's TERM
	Note   func(format string, args ...any) // a line on standard error

	bars     *mpb.Progress // nil where nothing is drawn
	bar      *mpb.Bar
	bytes    int64
	read     atomic.Int64
	done     int
	failed   int
	begun    time.Time
	lastLine time.Time
	stopped  time.Duration
}

// lineEvery is how often a plain line says how far it is.
const lineEvery = 10 * time.Second

// fewFailures is how many failures are reported one by one; the output has all of them.
const fewFailures = 20

// draws says whether standard error is a terminal that a bar can be drawn on.
func (w *Progress) draws() bool {
	f, ok := w.Screen.(*os.File)
	if !ok || w.Term == "dumb" || w.Term == "" {
		return false
	}
	width, _, err := term.GetSize(int(f.Fd())) // 0 where the terminal does not say
	return err == nil && width > 0
}

// Begin comes first.
func (w *Progress) Begin(bytes int64, files, before int) {
	w.bytes, w.begun, w.lastLine = bytes, time.Now(), time.Now()
	if w.Quiet {
		return
	}
	if before > 0 {
		w.Note("going on from an earlier run: %s are there", words.Plural(before, "station"))
	}
	if !w.draws() {
		w.Note("reading %s, %.0f MB", words.Plural(files, "file"), float64(bytes)/1e6)
		return
	}
	// mpb draws nothing off a terminal, but heeds no TERM=dumb, hence draws above.
	w.bars = mpb.New(mpb.WithOutput(w.Screen), mpb.WithWidth(40), mpb.WithRefreshRate(200*time.Millisecond))
	w.bar = w.bars.New(bytes, mpb.BarStyle().Lbound("[").Filler("=").Tip("=").Padding(" ").Rbound("]"),
		mpb.BarRemoveOnComplete(),
		mpb.PrependDecorators(decor.Percentage(decor.WC{W: 5})),
		mpb.AppendDecorators(
			decor.Any(func(decor.Statistics) string {
				return fmt.Sprintf(" %.0f of %.0f MB", float64(w.read.Load())/1e6, float64(bytes)/1e6)
			}),
			decor.OnComplete(decor.AverageETA(decor.ET_STYLE_GO, decor.WC{W: 9}), "")))
}

// Read counts input that has passed; from any goroutine.
func (w *Progress) Read(n int64) {
	w.read.Add(n)
	if w.bar != nil {
		w.bar.IncrInt64(n)
	}
}

// Station counts a station.
func (w *Progress) Station(id, source, status, why string) {
	w.done++
	if status == "failed" {
		if w.failed++; w.failed <= fewFailures {
			w.say("%s: %s; its row says so", table.Safe(source), table.Safe(why))
		}
	}
	if w.bars == nil && time.Since(w.lastLine) >= lineEvery {
		w.lastLine = time.Now()
		w.say("%s, %.0f of %.0f MB", words.Plural(w.done, "station"), float64(w.read.Load())/1e6, float64(w.bytes)/1e6)
	}
}

// say prints a line, above the bar where there is one.
func (w *Progress) say(format string, args ...any) {
	switch {
	case w.Quiet:
	case w.bars != nil:
		fmt.Fprintf(w.bars, "frostward: "+format+"\n", args...)
	default:
		w.Note(format, args...)
	}
}

// End takes the bar away.
func (w *Progress) End() {
	if w.begun.IsZero() {
		return
	}
	w.stopped = time.Since(w.begun)
	if w.bars != nil {
		w.bar.Abort(true)
		w.bars.Wait()
	}
	if n := w.failed - fewFailures; n > 0 && !w.Quiet {
		w.Note("and %d more that failed", n)
	}
}

// Rate says how fast it went, if it was worth the wait.
func (w *Progress) Rate() string {
	if w.stopped < time.Second || w.done == 0 {
		return ""
	}
	return fmt.Sprintf("; %.0f stations a second", float64(w.done)/w.stopped.Seconds())
}
