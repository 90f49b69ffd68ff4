package batch

import (
	"context"
	"errors"
	"fmt"
	"hash/crc32"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"

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
	marks     int // rows between two; 0 is markEvery
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
	Stations, Done, Failed, Without int
	Assumed                         int // that say not where they are
	Sources, Before                 int `json:"-"`
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

// Unfinished is what a run that could not end has left.
type Unfinished struct {
	Cause error
	Rows  int    // that are kept
	Part  string // the folder that they are in
}

func (u *Unfinished) Error() string { return u.Cause.Error() }
func (u *Unfinished) Unwrap() error { return u.Cause }

// Run does the job for every station of the input and writes the output. An error after it has begun is
// an Unfinished.
func Run(ctx context.Context, o Options) (Summary, error) {
	enc, err := encodingOf(o.Output)
	if err != nil {
		return Summary{}, err
	}
	target, err := o.file(enc).Check()
	if err != nil {
		return Summary{}, err
	}
	r := &run{o: &o, format: enc.format, columns: o.columns(), input: inputOf(o.Args, target),
		free: make(chan *worker, o.Workers), tasks: make(chan *task, 4*o.Workers)}
	var size int64
	sources := 0
	for s, err := range r.input.sources() {
		if err != nil {
			return Summary{}, err
		}
		sources++
		size += s.size
	}
	if sources == 0 {
		return Summary{}, errors.New("no files to read")
	}
	p, err := openPart(partName(target), o.fingerprint(enc, r.columns), enc.pack, o.every())
	if err != nil {
		return Summary{}, err
	}
	defer p.end()
	r.part, r.from = p, p.saved.At
	before := p.saved.Summary.Stations
	o.Watch.Begin(size, sources, before)
	if err = r.all(ctx); err == nil {
		sum := p.next.Summary
		sum.Sources, sum.Before = sources, before
		if err = p.finish(o.file(enc).Place); err == nil {
			return sum, nil
		}
	}
	if errors.Is(err, context.Canceled) && enc.pack == "" {
		err = errors.Join(err, p.mark())
	}
	return p.next.Summary, &Unfinished{err, p.saved.Summary.Stations, p.dir}
}

// all does what is left of the input, and puts the rows into the part.
func (r *run) all(ctx context.Context) error {
	if r.format == CSV {
		columns := r.columns
		if r.o.Tidy {
			columns = tidyColumns
		}
		if err := r.part.heading(columns); err != nil {
			return err
		}
	}
	for range r.o.Workers {
		r.free <- newWorker(&r.o.Settings, r.format, r.columns)
	}
	ctx, cancel := context.WithCancel(ctx)
	g, ctx := errgroup.WithContext(ctx)
	r.group = g
	g.Go(func() error {
		defer close(r.tasks)
		return r.produce(ctx)
	})
	err := r.collect(ctx)
	cancel()
	if err2 := g.Wait(); err == nil || errors.Is(err, context.Canceled) && err2 != nil {
		err = err2
	}
	return err
}

// collect writes the rows of the tasks in the order in which these were made.
func (r *run) collect(ctx context.Context) error {
	for t := range r.tasks {
		at := t.at
		for cell := range t.cells {
			res := <-cell
			if ctx.Err() != nil {
				return ctx.Err()
			}
			at.Rows++
			r.part.next.Summary.count(res)
			if err := r.part.row(res.row, at); err != nil {
				return err
			}
			r.o.Watch.Station(res.station, t.source, res.status, res.why)
		}
	}
	return ctx.Err()
}

func (s *Summary) count(r result) {
	s.Stations++
	switch r.status {
	case done:
		s.Done++
	case failedStatus:
		s.Failed++
	default:
		s.Without++
	}
	if r.assumed {
		s.Assumed++
	}
}

func (o *Options) every() int {
	if o.marks > 0 {
		return o.marks
	}
	return markEvery
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
	for _, arg := range o.Args {
		f.Force = f.Force && !within(o.Output, arg)
	}
	return f
}

// within says whether a file, which need not be there yet, lies in a folder or below it, by whatever names and links.
func within(name, folder string) bool {
	in, err := os.Stat(folder)
	if err != nil {
		return false
	}
	if name, err = deliver.Followed(name); err == nil {
		name, err = filepath.Abs(name)
	}
	dir := ""
	if err == nil {
		dir, err = filepath.EvalSymlinks(filepath.Dir(name))
	}
	for err == nil {
		if info, err := os.Stat(dir); err == nil && os.SameFile(info, in) {
			return true
		}
		if dir == filepath.Dir(dir) {
			break
		}
		dir = filepath.Dir(dir)
	}
	return false
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
	format  Format
	columns []string
	input   input
	part    *part
	from    position // what an earlier run has done
	group   *errgroup.Group
	free    chan *worker
	tasks   chan *task // in order
}

// result is a station's row.
type result struct {
	station, status, why string
	row                  []byte
	assumed              bool // its latitude
}
