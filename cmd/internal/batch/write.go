package batch

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
)

// write makes the output of the journal, in order of station and source, in place of what
// stands under its name, and takes the journal away.
func (r *run) write(enc encoding, columns []string) error {
	keys := r.journal.all(r.stamps)
	slices.SortFunc(keys, func(a, b rowKey) int {
		return cmp.Or(strings.Compare(a.station, b.station), strings.Compare(a.source, b.source))
	})
	if err := r.o.file(enc).Write(func(w io.Writer) error { return r.writeTo(w, enc, columns, keys) }); err != nil {
		return err
	}
	return os.Remove(JournalName(r.o.Output))
}

func (r *run) writeTo(f io.Writer, enc encoding, columns []string, keys []rowKey) error {
	w, err := r.rowsTo(f, enc, columns)
	if err != nil {
		return err
	}
	var row []byte
	for _, k := range keys {
		p := r.journal.at(k)
		row = slices.Grow(row[:0], int(p.length))[:p.length]
		if _, err := r.journal.f.ReadAt(row, p.at); err != nil {
			return fmt.Errorf("%s: %w", JournalName(r.o.Output), err)
		}
		if r.o.Tidy {
			if row, err = tidyRows(enc.format, columns, row); err != nil {
				return fmt.Errorf("%s: %w", JournalName(r.o.Output), err)
			}
		}
		if err := w.row(row); err != nil {
			return err
		}
		r.sum.count(p.status)
	}
	return w.end()
}

func (r *run) rowsTo(f io.Writer, enc encoding, columns []string) (*lines, error) {
	packed, finish, err := packer(f, enc.pack)
	if err != nil {
		return nil, err
	}
	w := &lines{bufio.NewWriterSize(packed, 256<<10), finish}
	if r.o.Tidy {
		columns = tidyColumns
	}
	if enc.format == CSV {
		return w, w.row([]byte(strings.Join(columns, ",")))
	}
	return w, nil
}

// lines writes rows a line each.
type lines struct {
	*bufio.Writer
	finish func() error
}

func (l *lines) row(b []byte) error {
	l.Write(b) // the error comes again from the next call
	return l.WriteByte('\n')
}

func (l *lines) end() error {
	if err := l.Flush(); err != nil {
		return err
	}
	return l.finish()
}

func (s *Summary) count(status string) {
	s.Stations++
	switch status {
	case done:
		s.Done++
	case failedStatus:
		s.Failed++
	default:
		s.Without++
	}
}
