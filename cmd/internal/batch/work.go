package batch

import (
	"archive/tar"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"strconv"
	"strings"
	"sync/atomic"

	"frostward/climate/daily"
)

const (
	failedStatus = "failed"
	noneStatus   = "no temperatures"
)

// task is a piece of a source for a worker: a file to open, some text, or a record read.
type task struct {
	from *origin
	path string // to open; "" if text
	text []byte
	line int // number of the text's first line
	read *daily.Station
}

// origin is the source of tasks. The last of its tasks to end says that it is done.
type origin struct {
	source
	left   atomic.Int64
	rows   atomic.Int64 // stations reported, those of an earlier run among them
	failed atomic.Bool  // something in it has to be tried again
}

// produce makes tasks of the sources.
func (r *run) produce(ctx context.Context, sources []source) error {
	for _, s := range sources {
		if err := ctx.Err(); err != nil {
			return err
		}
		if isArchive(s.name) {
			if err := r.archive(ctx, s); err != nil {
				return err
			}
			continue
		}
		if err := r.file(ctx, s); err != nil {
			return err
		}
	}
	return nil
}

// begin takes up a source, and says whether it is to be read.
func (r *run) begin(ctx context.Context, s source) (*origin, bool, error) {
	if err := r.report(ctx, result{source: s.name, stamp: s.stamp, met: true}); err != nil {
		return nil, false, err
	}
	o := &origin{source: s}
	o.left.Store(1) // the producer's own, until it has made all tasks
	return o, !r.journal.has("", s.name, s.stamp), nil
}

func (r *run) file(ctx context.Context, s source) error {
	o, wanted, err := r.begin(ctx, s)
	if err != nil {
		return err
	}
	if !wanted {
		r.o.Watch.Read(s.size)
		return nil
	}
	defer r.ends(ctx, o)
	if s.size < int64(2*r.o.chunk()) {
		return r.give(ctx, task{from: o, path: s.path})
	}
	f, err := unpacked(s.path, r.o.Watch.Read)
	if err != nil {
		return r.fail(ctx, o, "", err)
	}
	defer f.Close()
	if head, _ := f.Peek(256); !isKeyed(head) {
		return r.give(ctx, task{from: o, path: s.path})
	}
	var stop error
	err = split(f, r.o.chunk(), r.o.limit(), func(c chunk) error {
		stop = r.give(ctx, task{from: o, text: c.text, line: c.line})
		return stop
	})
	if err != nil && stop == nil {
		return r.fail(ctx, o, "", fmt.Errorf("%s: %w", s.name, err))
	}
	return stop
}

// archive makes a task of each file in a tar archive.
func (r *run) archive(ctx context.Context, s source) error {
	whole, _, err := r.begin(ctx, s)
	if err != nil {
		return err
	}
	f, err := unpacked(s.path, r.o.Watch.Read)
	if err != nil {
		return r.fail(ctx, whole, "", err)
	}
	defer f.Close()
	for t := tar.NewReader(f); ; {
		h, err := t.Next()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return r.fail(ctx, whole, "", fmt.Errorf("%s: damaged archive: %w", s.name, err))
		}
		if h.Typeflag != tar.TypeReg || strings.HasPrefix(path.Base(h.Name), ".") {
			continue
		}
		member := source{s.name + "/" + path.Clean(h.Name), "", strconv.FormatInt(h.Size, 10) + "@" + strconv.FormatInt(h.ModTime.Unix(), 10), h.Size}
		o, wanted, err := r.begin(ctx, member)
		if err != nil {
			return err
		}
		if !wanted {
			continue
		}
		if err := r.member(ctx, o, t, h.Size); err != nil {
			return err
		}
	}
}

func (r *run) member(ctx context.Context, o *origin, t io.Reader, size int64) error {
	defer r.ends(ctx, o)
	if size > int64(r.o.limit()) {
		return r.fail(ctx, o, "", fmt.Errorf("%s: has %d bytes; wanted at most %d for a station in an archive", o.name, size, r.o.limit()))
	}
	text := make([]byte, size)
	if _, err := io.ReadFull(t, text); err != nil {
		return r.fail(ctx, o, "", fmt.Errorf("%s: damaged archive: %w", o.name, err))
	}
	return r.give(ctx, task{from: o, text: text, line: 1})
}

// give hands a task to the workers.
func (r *run) give(ctx context.Context, t task) error {
	r.pending.Add(1)
	t.from.left.Add(1)
	select {
	case r.tasks <- t:
		return nil
	case <-ctx.Done():
		r.taskEnds()
		return ctx.Err()
	}
}

// ends notes that a task of a source, or its producer, has ended.
func (r *run) ends(ctx context.Context, o *origin) {
	if o.left.Add(-1) == 0 && !o.failed.Load() {
		r.report(ctx, result{source: o.name, stamp: o.stamp, done: true, rows: int(o.rows.Load())}) // an interrupted run reads it again
	}
}

func (r *run) report(ctx context.Context, res result) error {
	select {
	case r.results <- res:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// fail notes a source, or a station of it, that could not be done. It is no error of the run.
func (r *run) fail(ctx context.Context, o *origin, station string, cause error) error {
	w := newWorker(&r.o.Settings, r.o.format(), r.o.Columns())
	return r.failWith(ctx, w, o, station, cause)
}

func (r *run) failWith(ctx context.Context, w *worker, o *origin, station string, cause error) error {
	o.failed.Store(true)
	if station == "" {
		station = stationName(o.name)
	}
	why := strings.TrimPrefix(plain(cause), o.name+": ")
	row := bytes.Clone(w.failed(station, o.name, failedStatus, why))
	return r.report(ctx, result{source: o.name, stamp: o.stamp, station: station, status: failedStatus, why: why, row: row})
}

// plain words an error without the path of the file, which differs from machine to machine.
func plain(err error) string {
	var p *os.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

// stationName is what a station is called whose file does not say: the file's name.
func stationName(source string) string {
	name := path.Base(source)
	for _, end := range []string{".gz", ".zst"} {
		name = strings.TrimSuffix(name, end)
	}
	if i := strings.LastIndexByte(name, '.'); i > 0 {
		name = name[:i]
	}
	return name
}

// work does tasks until there are none.
func (r *run) work(ctx context.Context, w *worker) error {
	for {
		var t task
		select {
		case t = <-r.tasks:
		case t = <-r.spare:
		case <-r.idle:
			return nil
		case <-ctx.Done():
			return ctx.Err()
		}
		err := r.do(ctx, w, t)
		r.ends(ctx, t.from)
		r.taskEnds()
		if err != nil {
			return err
		}
	}
}

func (r *run) do(ctx context.Context, w *worker, t task) error {
	if t.read != nil {
		return r.station(ctx, w, t.from, *t.read)
	}
	text := io.Reader(bytes.NewReader(t.text))
	if t.path != "" {
		f, err := os.Open(t.path)
		if err != nil {
			return r.failWith(ctx, w, t.from, "", err)
		}
		defer f.Close()
		text = &counting{f, r.o.Watch.Read}
	}
	var before *daily.Station
	var stop error
	fault := r.guard(func() {
		for st, err := range daily.Stations(text, t.from.name, daily.Options{Units: r.o.Units}) {
			switch {
			case err == nil:
				// The last station is this worker's; those before it are any idle worker's.
				if before != nil {
					stop = r.pass(ctx, w, t.from, before)
				}
				before = &st
			case noTemperatures(st.Report):
				stop = r.without(ctx, w, t.from, st.Report.Station)
			default:
				stop = r.failWith(ctx, w, t.from, st.Report.Station, err)
			}
			if stop != nil {
				return
			}
		}
	})
	if fault != nil && stop == nil {
		stop = r.failWith(ctx, w, t.from, "", fault)
	}
	if before != nil && stop == nil {
		stop = r.station(ctx, w, t.from, *before)
	}
	return stop
}

// noTemperatures says whether a station measures something else, and is not one that cannot be read.
func noTemperatures(r daily.Report) bool {
	return (r.Format == daily.DLY || r.Format == daily.ByYear) && r.Rows == 0 && r.FaultCount == 0
}

func (r *run) without(ctx context.Context, w *worker, o *origin, station string) error {
	if station == "" {
		station = stationName(o.name)
	}
	o.rows.Add(1)
	row := bytes.Clone(w.failed(station, o.name, noneStatus, ""))
	return r.report(ctx, result{source: o.name, stamp: o.stamp, station: station, status: noneStatus, row: row})
}

// pass hands a station to an idle worker, or does it.
func (r *run) pass(ctx context.Context, w *worker, o *origin, st *daily.Station) error {
	r.pending.Add(1)
	o.left.Add(1)
	select {
	case r.spare <- task{from: o, read: st}:
		return nil
	default:
		r.pending.Add(-1) // never to 0: the task that the station came from is not over
		o.left.Add(-1)
		return r.station(ctx, w, o, *st)
	}
}

// station does one station and reports its row.
func (r *run) station(ctx context.Context, w *worker, o *origin, st daily.Station) error {
	id := st.Report.Station
	if id == "" {
		id = stationName(o.name)
	}
	o.rows.Add(1)
	if r.journal.has(id, o.name, o.stamp) {
		return nil
	}
	var row []byte
	var assumed bool
	fault := r.guard(func() { row, assumed = w.station(id, o.name, st) })
	if fault != nil {
		return r.failWith(ctx, w, o, id, fault)
	}
	return r.report(ctx, result{source: o.name, stamp: o.stamp, station: id, status: done, row: bytes.Clone(row), assumed: assumed})
}

// guard runs f. A fault of the program in one station is that station's loss only; errgroup
// would let it end the process.
func (r *run) guard(f func()) (fault error) {
	defer func() {
		if v := recover(); v != nil {
			fault = fmt.Errorf("a fault of this program: %v", v)
		}
	}()
	f()
	return nil
}
