package batch

import (
	"archive/tar"
	"bytes"
	"context"
	"errors"
	"fmt"
	"hash/crc64"
	"io"
	"os"
	"path"
	"strings"

	"frostward/climate/daily"
	"frostward/cmd/internal/deliver"
)

const (
	failedStatus = "failed"
	noneStatus   = "no temperatures"
)

// task is a piece of a source for a worker: a file to open, some text, or an error to report. Its rows
// come through cells, a channel for each, in order, whoever works them out.
type task struct {
	source string
	path   string // to open; "" if text
	text   []byte
	err    error
	at     position // where it begins
	skip   int      // rows that an earlier run made
	cells  chan chan result
}

// fewCells is how many rows of a task may wait for their turn.
const fewCells = 64

// produce makes tasks of the sources, in order, of what an earlier run has not done.
func (r *run) produce(ctx context.Context) error {
	k, input := 0, crc64.New(crc64.MakeTable(crc64.ECMA))
	goesOn := r.from.Input == 0
	for s, err := range r.input.sources() {
		if err != nil {
			return err
		}
		fmt.Fprintf(input, "%q %s\n", s.name, s.stamp)
		at := position{Sources: k, Input: input.Sum64()}
		if k < r.from.Sources {
			r.o.Watch.Read(s.size)
		} else {
			if k == r.from.Sources && !goesOn {
				if at.Input != r.from.Input {
					break
				}
				goesOn = true
			}
			if err := r.source(ctx, s, at); err != nil {
				return err
			}
		}
		k++
	}
	if !goesOn {
		return errors.New("the files to read are not those that the unfinished run began with; " +
			"wanted them as they were, or its folder deleted to begin again")
	}
	return nil
}

// source makes tasks of one that is at a place.
func (r *run) source(ctx context.Context, s source, at position) error {
	give := func(t task) error {
		t.at = at
		at.Tasks++
		if at.Sources == r.from.Sources {
			if t.at.Tasks < r.from.Tasks {
				return nil
			}
			if t.at.Tasks == r.from.Tasks {
				t.skip = r.from.Rows
			}
		}
		return r.give(ctx, t)
	}
	long, tarred := s.size >= int64(2*r.o.chunk()), isArchive(s.name)
	if !long && !tarred {
		return give(task{source: s.name, path: s.path})
	}
	f, err := unpacked(s.path, r.o.Watch.Read)
	if err != nil {
		return give(task{source: s.name, err: err})
	}
	defer f.Close()
	if tarred {
		return r.archive(f, s, give)
	}
	if head, _ := f.Peek(256); !isKeyed(head) {
		return give(task{source: s.name, path: s.path})
	}
	var stop error
	err = split(f, r.o.chunk(), r.o.limit(), func(c chunk) error {
		stop = give(task{source: s.name, text: c.text})
		return stop
	})
	if err != nil && stop == nil {
		return give(task{source: s.name, err: err})
	}
	return stop
}

// archive makes a task of each file in a tar archive.
func (r *run) archive(f io.Reader, s source, give func(task) error) error {
	for t := tar.NewReader(f); ; {
		h, err := t.Next()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return give(task{source: s.name, err: fmt.Errorf("damaged archive: %w", err)})
		}
		if h.Typeflag != tar.TypeReg || strings.HasPrefix(path.Base(h.Name), ".") {
			continue
		}
		member := task{source: s.name + "/" + path.Clean(h.Name)}
		if h.Size > int64(r.o.limit()) {
			member.err = fmt.Errorf("has %d bytes; wanted at most %d for a station in an archive", h.Size, r.o.limit())
		} else {
			member.text = make([]byte, h.Size)
			if _, err := io.ReadFull(t, member.text); err != nil {
				member.err = fmt.Errorf("damaged archive: %w", err)
			}
		}
		if err := give(member); err != nil {
			return err
		}
	}
}

// give has a task done as soon as a worker is free, and its rows collected in its turn.
func (r *run) give(ctx context.Context, t task) error {
	t.cells = make(chan chan result, fewCells)
	var w *worker
	select {
	case w = <-r.free:
	case <-ctx.Done():
		return ctx.Err()
	}
	select {
	case r.tasks <- &t:
	case <-ctx.Done():
		r.free <- w
		return ctx.Err()
	}
	r.group.Go(func() error {
		r.do(ctx, w, &t)
		close(t.cells)
		r.free <- w
		return nil
	})
	return nil
}

// do reads the stations of a task and works out the rows of each, with another worker where one is free.
func (r *run) do(ctx context.Context, w *worker, t *task) {
	seen := 0
	row := func(of func(*worker) result) (more bool) {
		if seen++; seen <= t.skip {
			return true
		}
		cell := make(chan result, 1)
		select {
		case t.cells <- cell:
		case <-ctx.Done():
			return false
		}
		select {
		case other := <-r.free:
			r.group.Go(func() error {
				cell <- of(other)
				r.free <- other
				return nil
			})
		default:
			cell <- of(w)
		}
		return true
	}
	failed := func(station string, why error) bool {
		return row(func(w *worker) result { return r.without(w, station, t.source, failedStatus, why) })
	}
	if t.err != nil {
		failed("", t.err)
		return
	}
	text := io.Reader(bytes.NewReader(t.text))
	if t.path != "" {
		f, err := os.Open(t.path)
		if err != nil {
			failed("", err)
			return
		}
		defer f.Close()
		text = &counting{f, r.o.Watch.Read}
	}
	fault := guard(func() {
		for st, err := range daily.Stations(text, t.source, daily.Options{Units: r.o.Units}) {
			more := false
			switch {
			case err == nil:
				more = row(func(w *worker) result { return r.station(w, t.source, st) })
			case noTemperatures(st.Report):
				more = row(func(w *worker) result { return r.without(w, st.Report.Station, t.source, noneStatus, nil) })
			default:
				more = failed(st.Report.Station, err)
			}
			if !more {
				return
			}
		}
	})
	if fault != nil {
		failed("", fault)
	}
	t.text = nil
}

// noTemperatures says whether a station measures something else, and is not one that cannot be read.
func noTemperatures(r daily.Report) bool {
	return (r.Format == daily.DLY || r.Format == daily.ByYear) && r.Rows == 0 && r.FaultCount == 0
}

// station is the row of a station.
func (r *run) station(w *worker, source string, st daily.Station) result {
	id := st.Report.Station
	if id == "" {
		id = stationName(source)
	}
	res := result{station: id, status: done}
	fault := guard(func() {
		var row []byte
		row, res.assumed = w.station(id, source, st)
		res.row = r.finished(row)
	})
	if fault != nil {
		return r.without(w, id, source, failedStatus, fault)
	}
	return res
}

// without is the row of a station, or a file, of which there is no more to say.
func (r *run) without(w *worker, station, source, status string, cause error) result {
	if station == "" {
		station = stationName(source)
	}
	why := ""
	if cause != nil {
		why = strings.TrimPrefix(deliver.Cause(cause).Error(), source+": ") // without the path, which differs from machine to machine
	}
	return result{station: station, status: status, why: why, row: r.finished(w.failed(station, source, status, why))}
}

// finished is a row as the output has it, the worker's line or several, for good.
func (r *run) finished(wide []byte) []byte {
	if !r.o.Tidy {
		return bytes.Clone(wide)
	}
	rows, err := tidyRows(r.format, r.columns, wide)
	if err != nil {
		panic(err) // a row of ours can be read
	}
	return rows
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

// guard runs f. A fault of the program in one station is that station's loss only; errgroup
// would let it end the process.
func guard(f func()) (fault error) {
	defer func() {
		if v := recover(); v != nil {
			fault = fmt.Errorf("a fault of this program: %v", v)
		}
	}()
	f()
	return nil
}
