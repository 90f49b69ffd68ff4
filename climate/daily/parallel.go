package daily

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"sync"
	"sync/atomic"

	"frostward/climate"
)

// partSize is the length of the parts of a file that workers take. A shorter file is
// not worth parting.
const partSize = 4 << 20

// ReadAt is Read for a file of known size that can be read from any place. With
// Options.Workers above 1, a large plain table is read in parts by that many workers.
// The result is the same for any number.
func ReadAt(r io.ReaderAt, size int64, name string, opts Options) (climate.Series, Report, error) {
	sequential := func() (climate.Series, Report, error) {
		return Read(&stretchOf{r, 0, size}, name, opts)
	}
	if opts.part == 0 {
		opts.part = partSize
	}
	if opts.Workers < 2 || size < 2*opts.part {
		return sequential()
	}
	f, err := open(&stretchOf{r, 0, size}, name, opts)
	defer f.close()
	if err != nil {
		return climate.Series{}, f.rep, err
	}
	d, ok := f.parser.(*delimited)
	if !ok || d.quick == nil || f.rep.Compression != "" || f.blocks.cr || f.utf16 {
		return sequential()
	}
	whole, ok, err := readParts(r, f.rowsFrom(r, d.headLine), size, d)
	if whole != nil {
		defer whole.release()
	}
	if err != nil {
		return climate.Series{}, f.rep, fmt.Errorf("%s: %w", name, err)
	}
	if !ok {
		return sequential()
	}
	if whole.faults.count > 0 {
		// Workers count faults; their places are found by reading once more, in order, as
		// far as the last fault that is kept.
		f.enough = min(whole.faults.count, opts.maxFaults())
		if err := f.parse(); err != nil {
			return climate.Series{}, f.rep, err
		}
		whole.faults.kept = f.sink.table.faults.kept
	}
	f.sink.started = true
	return f.station("", whole)
}

// rowsFrom returns where the rows start: after so many lines, and a byte order mark.
func (f *file) rowsFrom(r io.ReaderAt, headLine int) int64 {
	rest := f.first
	for range headLine {
		_, rest = cutLine(rest)
	}
	at := int64(len(f.first) - len(rest))
	mark := make([]byte, 3)
	if n, _ := r.ReadAt(mark, 0); n == 3 && string(mark) == "\xef\xbb\xbf" {
		at += 3
	}
	return at
}

// stretchOf reads a file from one place to another, all of it or with an error.
type stretchOf struct {
	r        io.ReaderAt
	from, to int64
}

var errShorter = errors.New("became shorter while it was read")

func (s *stretchOf) Read(p []byte) (int, error) {
	if s.from >= s.to {
		return 0, io.EOF
	}
	n, err := s.r.ReadAt(p[:min(int64(len(p)), s.to-s.from)], s.from)
	s.from += int64(n)
	if n > 0 && err == io.EOF {
		err = nil
	} else if n == 0 && err == io.EOF {
		err = errShorter
	}
	return n, err
}

// ends are the first and last days that a part of a file gives, as indices.
type ends struct{ first, last int }

// readParts reads a plain table with several workers and merges what they gathered. It
// is false for a file whose columns change, which has to be read in order.
func readParts(r io.ReaderAt, from, size int64, d *delimited) (whole *table, ok bool, err error) {
	starts, err := partStarts(r, min(from, size), size, d.opts.part)
	if err != nil {
		return nil, false, err
	}
	n := min(d.opts.Workers, len(starts)-1)
	tables, errs := make([]*table, n), make([]error, n)
	parts := make([]ends, len(starts)-1)
	var next atomic.Int64
	var group sync.WaitGroup
	for k := range n {
		group.Go(func() {
			// All that a worker writes is its own until the end: sharing costs more than
			// it saves.
			mine := newDelimited(d.sniffed, d.opts, &sink{table: newTable(faultList{})})
			tables[k] = mine.sink.table
			for errs[k] == nil {
				p := int(next.Add(1)) - 1
				if p >= len(parts) {
					return
				}
				parts[p], errs[k] = mine.part(&stretchOf{r, starts[p], starts[p+1]})
			}
		})
	}
	group.Wait()
	whole = tables[0]
	for _, t := range tables[1:] {
		whole.merge(t)
		t.release()
	}
	for _, e := range errs {
		if e == errChanged {
			return whole, false, nil
		} else if e != nil {
			return whole, false, e
		}
	}
	whole.countUnsorted(parts)
	return whole, true, nil
}

// errChanged says that a part cannot be read without what came before it.
var errChanged = fmt.Errorf("the columns change")

// part reads a part of a file.
func (d *delimited) part(r io.Reader) (ends, error) {
	d.skip = 0
	t := d.sink.table
	t.first, t.last = -1, -1
	blocks, line := newBlocks(r), 1
	defer blocks.release()
	for {
		b, err := blocks.read()
		if err == io.EOF {
			return ends{t.first, t.last}, nil
		}
		if err != nil {
			return ends{}, err
		}
		if blocks.tooLong {
			return ends{}, errChanged // the patient way words it
		}
		if line, err = d.block(b, line); err != nil || d.quick == nil {
			return ends{}, errChanged
		}
	}
}

// partStarts returns where the parts of a file start, each at the start of a line, and
// its size at the end.
func partStarts(r io.ReaderAt, from, size, part int64) ([]int64, error) {
	starts := []int64{from}
	buf := make([]byte, 4096)
	for at := from + part; at < size; at += part {
		// A line that starts at the boundary itself belongs to the part after it.
		for from := max(at-1, starts[len(starts)-1]); from < size; {
			n, err := r.ReadAt(buf[:min(int64(len(buf)), size-from)], from)
			if n == 0 && err != nil {
				return nil, errShorter
			}
			if i := bytes.IndexByte(buf[:n], '\n'); i >= 0 {
				if s := from + int64(i) + 1; s < size && s > starts[len(starts)-1] {
					starts = append(starts, s)
				}
				break
			}
			from += int64(n)
		}
	}
	return append(starts, size), nil
}

// merge takes in what another table gathered from another part of the file. Faults are
// only counted; a day that clashes in both is one fault.
func (t *table) merge(o *table) {
	faults := t.faults.count - t.clashes() + o.faults.count - o.clashes()
	for i := o.from; i < o.to; i++ {
		if c := o.cells[i]; c.state != 0 {
			t.put(i, c.pair, 0)
			t.cells[i].state |= c.state
		}
	}
	t.from, t.to = min(t.from, o.from), max(t.to, o.to)
	t.faults.count = faults + t.clashes()
	t.rows += o.rows
	t.listed += o.listed
	t.coded += o.coded
	t.unsorted += o.unsorted
}

// clashes counts the days given with different values.
func (t *table) clashes() (n int) {
	for i := t.from; i < t.to; i++ {
		if t.cells[i].state > isListed {
			n++
		}
	}
	return n
}

// countUnsorted adds the steps backward from one part to the next.
func (t *table) countUnsorted(parts []ends) {
	last := -1
	for _, p := range parts {
		if p.first < 0 {
			continue
		}
		if p.first < last {
			t.unsorted++
		}
		last = p.last
	}
}
