package batch

import (
	"context"
	"errors"
	"fmt"
	"hash/crc32"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"golang.org/x/sync/errgroup"

	"frostward/cmd/internal/deliver"
)

// Options are a run's.
type Options struct {
	Settings
	Args      []string // files and folders
	Output    string   // its ending says the format
	Keep      []string // files that the output is not written over, beside the input
	Force     bool     // write over a file that this program did not make
	Tidy      bool     // a row a station and item, in place of one a station
	Workers   int
	Watch     Watcher
	maxBytes  int // of one station's text; 0 is maxStation
	chunkSize int // 0 is chunkSize
}

// Watcher hears how a run goes on. Read is called from many goroutines, the others from one.
type Watcher interface {
	// Begin says how many bytes of how many files are to be read, and how many stations an
	// earlier run has done.
	Begin(bytes int64, files, before int)
	Read(bytes int64)
	Station(id, source, status, why string)
}

// Summary counts what a run came to, stations done before among them.
type Summary struct {
	Sources, Stations, Done, Failed, Without, Before int
	Assumed                                          int // of this run's, that say not where they are
}

// maxStation is the most text that one station of an archive or a long file may have: 250
// years of every element that there is are some 20 MB.
const maxStation = 64 << 20

func (o *Options) limit() int {
	if o.maxBytes > 0 {
		return o.maxBytes
	}
	return maxStation
}

func (o *Options) chunk() int {
	if o.chunkSize > 0 {
		return o.chunkSize
	}
	return chunkSize
}

// Run does the job for every station of the input and writes the output.
func Run(ctx context.Context, o Options) (Summary, error) {
	enc, err := encodingOf(o.Output)
	if err != nil {
		return Summary{}, err
	}
	if _, err := o.file(enc).Check(); err != nil {
		return Summary{}, err
	}
	sources, err := find(o.Args, o.Output)
	if err != nil {
		return Summary{}, err
	}
	if len(sources) == 0 {
		return Summary{}, errors.New("no files to read")
	}
	columns := o.Columns()
	j, err := openJournal(JournalName(o.Output), o.fingerprint(enc, columns))
	if err != nil {
		return Summary{}, err
	}
	defer j.close()
	r := &run{o: &o, journal: j, stamps: map[string]string{},
		tasks: make(chan task), spare: make(chan task), idle: make(chan struct{}), results: make(chan result, 4*o.Workers)}
	var bytes int64
	for _, s := range sources {
		bytes += s.size
	}
	o.Watch.Begin(bytes, len(sources), j.before())

	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	g, ctx := errgroup.WithContext(ctx)
	r.pending.Store(1) // the producer's own
	g.Go(func() error {
		defer r.taskEnds()
		return r.produce(ctx, sources)
	})
	for range o.Workers {
		w := newWorker(&o.Settings, enc.format, columns)
		g.Go(func() error { return r.work(ctx, w) })
	}
	failed := make(chan error, 1)
	go func() {
		failed <- g.Wait()
		close(r.results)
	}()
	err = r.collect(cancel)
	if err2 := <-failed; err == nil {
		err = err2
	}
	if err != nil {
		return r.sum, errors.Join(err, j.flush())
	}
	if err := j.flush(); err != nil {
		return r.sum, err
	}
	r.sum.Sources, r.sum.Before = len(sources), j.before()
	return r.sum, r.write(enc, columns)
}

// file is where the output goes. No input is written over: those that are named by --force neither,
// and those in a folder by their mark.
func (o *Options) file(enc encoding) deliver.File {
	f := deliver.File{Name: o.Output, Mark: strings.Join(stationColumns[:6], ","), Force: o.Force, Keep: append(slices.Clone(o.Keep), o.Args...)}
	if o.Tidy {
		f.Mark = strings.Join(tidyColumns, ",")
	}
	if enc.format == JSONLines {
		f.Mark = `{"station":`
	}
	if out, err := filepath.Abs(o.Output); err == nil {
		for _, arg := range o.Args {
			if dir, err := filepath.Abs(arg); err == nil && strings.HasPrefix(out, dir+string(filepath.Separator)) {
				f.Force = false
			}
		}
	}
	return f
}

// fingerprint differs between settings, so that rows made with others are not mixed in.
func (o *Options) fingerprint(enc encoding, columns []string) string {
	h := crc32.NewIEEE()
	fmt.Fprintln(h, enc.format, columns, o.From, o.To, o.Aim, o.ByDay, math.Float64bits(o.Latitude), o.Units, o.Thresholds)
	for _, c := range o.Crops {
		fmt.Fprintf(h, "%+v\n", c)
	}
	var places uint32 // in no order
	for id, p := range o.Places {
		places += crc32.ChecksumIEEE(fmt.Appendf(nil, "%s %+v", id, p))
	}
	fmt.Fprintln(h, places)
	return fmt.Sprintf("%08x", h.Sum32())
}

type run struct {
	o       *Options
	journal *journal
	stamps  map[string]string // of the sources met in this run; the collector's
	sum     Summary

	tasks   chan task     // from the producer
	spare   chan task     // from workers with more than they can do
	idle    chan struct{} // closed when there is nothing more to do
	pending atomic.Int64  // tasks begun and not ended, the producer among them
	results chan result
}

// result is a row for the journal, or word that a source is met or done.
type result struct {
	source, stamp string
	station       string
	status, why   string
	row           []byte
	assumed       bool // its latitude
	met, done     bool
	rows          int // of the source, when done
}

func (r *run) taskEnds() {
	if r.pending.Add(-1) == 0 {
		close(r.idle)
	}
}

// collect puts results into the journal until there are no more, or it cannot.
func (r *run) collect(cancel func()) error {
	var first error
	keep := func(err error) {
		if first == nil && err != nil {
			first = err
			cancel()
		}
	}
	flushed := time.Now()
	for res := range r.results {
		switch {
		case res.met:
			r.stamps[clean(res.source)] = res.stamp
			continue
		case res.done:
			keep(r.journal.sourceDone(res.source, res.stamp, res.rows))
			continue
		}
		keep(r.journal.row(res.source, res.stamp, res.station, res.status, res.row))
		if res.assumed {
			r.sum.Assumed++
		}
		r.o.Watch.Station(res.station, res.source, res.status, res.why)
		if time.Since(flushed) > time.Second { // what a kill costs at most
			keep(r.journal.flush())
			flushed = time.Now()
		}
	}
	return first
}
