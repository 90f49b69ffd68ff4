package batch

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/klauspost/compress/gzip"
	"github.com/klauspost/compress/zstd"
)

// encoding is how an output is written.
type encoding struct {
	format Format
	pack   string // "", ".gz" or ".zst"
}

// encodingOf tells it by the output's ending.
func encodingOf(name string) (encoding, error) {
	e, base := encoding{}, strings.ToLower(name)
	for _, end := range []string{".gz", ".zst"} {
		if rest, ok := strings.CutSuffix(base, end); ok {
			e.pack, base = end, rest
			break
		}
	}
	switch filepath.Ext(base) {
	case ".csv":
		return e, nil
	case ".jsonl", ".ndjson", ".json":
		e.format = JSONLines
		return e, nil
	}
	return e, fmt.Errorf("%s: its ending tells no format; wanted .csv or .jsonl, and .gz or .zst after it to pack it", name)
}

func (o *Options) format() Format {
	e, _ := encodingOf(o.Output)
	return e.format
}

// write makes the output of the journal, in order of station and source, in place of what
// stands under its name, and takes the journal away.
func (r *run) write(enc encoding, columns []string) (err error) {
	keys := r.journal.all(r.stamps)
	slices.SortFunc(keys, func(a, b rowKey) int {
		return cmp.Or(strings.Compare(a.station, b.station), strings.Compare(a.source, b.source))
	})
	f, err := os.CreateTemp(filepath.Dir(r.o.Output), "."+filepath.Base(r.o.Output)+"-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	if err := r.writeTo(f, enc, columns, keys); err != nil {
		return err
	}
	if err := f.Sync(); err != nil {
		return err
	}
	if err := f.Chmod(0o644); err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	if err := os.Rename(f.Name(), r.o.Output); err != nil {
		return err
	}
	return os.Remove(JournalName(r.o.Output))
}

func (r *run) writeTo(f io.Writer, enc encoding, columns []string, keys []rowKey) error {
	packed, finish, err := packer(f, enc.pack)
	if err != nil {
		return err
	}
	w := bufio.NewWriterSize(packed, 256<<10)
	if enc.format == CSV {
		w.WriteString(strings.Join(columns, ",") + "\n")
	}
	var row []byte
	for _, k := range keys {
		p := r.journal.at(k)
		row = slices.Grow(row[:0], int(p.length))[:p.length]
		if _, err := r.journal.f.ReadAt(row, p.at); err != nil {
			return fmt.Errorf("%s: %w", JournalName(r.o.Output), err)
		}
		w.Write(row)
		w.WriteByte('\n')
		r.sum.count(p.status)
	}
	if err := w.Flush(); err != nil {
		return err
	}
	return finish()
}

// packer packs what is written. Nothing of the time or the machine goes into it.
func packer(w io.Writer, kind string) (io.Writer, func() error, error) {
	switch kind {
	case ".gz":
		z := gzip.NewWriter(w)
		return z, z.Close, nil
	case ".zst":
		z, err := zstd.NewWriter(w, zstd.WithEncoderConcurrency(1))
		if err != nil {
			return nil, nil, err
		}
		return z, z.Close, nil
	}
	return w, func() error { return nil }, nil
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
