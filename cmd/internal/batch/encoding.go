package batch

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/klauspost/compress/gzip"
	"github.com/klauspost/compress/zstd"
)

// encoding is how an output is written.
type encoding struct {
	format Format
	pack   string // "", ".gz" or ".zst"
}

// encodingOf finds it by the output's ending.
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
	return e, fmt.Errorf("%s: its ending says no format; wanted .csv or .jsonl, and .gz or .zst after it to pack it", name)
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
