package batch

import (
	"bufio"
	"bytes"
	"io"
	"os"

	"github.com/klauspost/compress/gzip"
	"github.com/klauspost/compress/zstd"
)

// opened is a file unpacked as it is read; read counts the bytes of the file itself.
type opened struct {
	*bufio.Reader
	file  *os.File
	close func()
}

func (o *opened) Close() error {
	o.close()
	return o.file.Close()
}

// unpacked opens a file, plain, gzip or zstd by its first bytes.
func unpacked(path string, read func(int64)) (*opened, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	raw := bufio.NewReaderSize(&counting{f, read}, 256<<10)
	head, _ := raw.Peek(4)
	o := &opened{Reader: raw, file: f, close: func() {}}
	switch {
	case bytes.HasPrefix(head, []byte{0x1f, 0x8b}):
		z, err := gzip.NewReader(raw)
		if err != nil {
			f.Close()
			return nil, err
		}
		o.Reader = bufio.NewReaderSize(z, 256<<10)
	case bytes.HasPrefix(head, []byte{0x28, 0xb5, 0x2f, 0xfd}):
		z, err := zstd.NewReader(raw, zstd.WithDecoderConcurrency(1), zstd.WithDecoderMaxWindow(128<<20))
		if err != nil {
			f.Close()
			return nil, err
		}
		o.Reader, o.close = bufio.NewReaderSize(z, 256<<10), z.Close
	}
	return o, nil
}

type counting struct {
	r    io.Reader
	read func(int64)
}

func (c *counting) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.read(int64(n))
	return n, err
}
