package daily

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/klauspost/compress/gzip"
	"github.com/klauspost/compress/zstd"
)

// Weather text packs 5 to 20 times smaller, a file of nothing but missing codes some
// hundred times. gzip can reach 1032 to 1, which only a file made to do harm does.
const (
	bombRatio = 400
	bombFrom  = 64 << 20 // bytes unpacked before the ratio is looked at
)

// maxWindow bounds the memory that a zstd file may ask for: 8 MiB is the most that
// the format's own command makes without a special option, 128 MiB with it.
const maxWindow = 128 << 20

// unpack returns a reader of plain UTF-8 text (or Latin-1 left as it is), through br, and the name
// of the compression. Both are found from the first bytes. The stop function must be
// called when reading is over.
func unpack(r io.Reader, br *bufio.Reader, name string, opts Options) (text io.Reader, compression string, stop func(), err error) {
	stop = func() {}
	raw := &countReader{r: r}
	br.Reset(raw)
	head, err := br.Peek(4)
	if err != nil && err != io.EOF {
		return nil, "", stop, fmt.Errorf("%s: %w", name, err)
	}
	text = br
	switch {
	case bytes.HasPrefix(head, []byte{0x1f, 0x8b}):
		z, err := gzip.NewReader(br)
		if err != nil {
			return nil, "", stop, fmt.Errorf("%s: damaged gzip file: %w", name, err)
		}
		compression = "gzip"
		text = &capReader{r: z, raw: raw, left: opts.maxBytes(), kind: compression}
	case bytes.HasPrefix(head, []byte{0x28, 0xb5, 0x2f, 0xfd}):
		z, err := zstd.NewReader(br, zstd.WithDecoderMaxMemory(uint64(opts.maxBytes())),
			zstd.WithDecoderMaxWindow(maxWindow), zstd.WithDecoderConcurrency(1), zstd.WithDecoderLowmem(true))
		if err != nil {
			return nil, "", stop, fmt.Errorf("%s: damaged zstd file: %w", name, err)
		}
		stop = z.Close
		compression = "zstd"
		text = &capReader{r: z, raw: raw, left: opts.maxBytes(), kind: compression}
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		b, err := wholeOf(br)
		if err == nil {
			b, err = fromSheet(b)
		}
		if err != nil {
			return nil, "", stop, fmt.Errorf("%s: %w", name, err)
		}
		return bytes.NewReader(b), "", stop, nil
	case bytes.HasPrefix(head, []byte("BZh")), bytes.HasPrefix(head, []byte("\xfd7zX")):
		return nil, "", stop, fmt.Errorf("%s: is packed in a way that is not read here; wanted plain text, gzip or zstd", name)
	}
	text, err = plainText(text, name)
	if err == nil {
		text, err = document(text, name)
	}
	return text, compression, stop, err
}

// document makes a table of text of a JSON document, and hands any other text on.
func document(r io.Reader, name string) (io.Reader, error) {
	br := bufio.NewReaderSize(r, 64<<10)
	head, _ := br.Peek(200) // an error comes again when it is read
	head = bytes.TrimSpace(head)
	if len(head) < 2 || head[0] != '{' && head[0] != '[' {
		return br, nil
	}
	if next := bytes.TrimSpace(head[1:]); len(next) == 0 || !bytes.ContainsAny(next[:1], `{["}]`) {
		return br, nil
	}
	b, err := wholeOf(br)
	if err == nil {
		b, err = fromJSON(b)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return bytes.NewReader(b), nil
}

// plainText drops a byte order mark and turns UTF-16 into UTF-8.
func plainText(r io.Reader, name string) (io.Reader, error) {
	br := bufio.NewReaderSize(r, 64<<10)
	head, err := br.Peek(4)
	if err != nil && err != io.EOF {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	switch {
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		br.Discard(3)
	case bytes.HasPrefix(head, []byte("\xff\xfe\x00\x00")), bytes.HasPrefix(head, []byte("\x00\x00\xfe\xff")):
		return nil, fmt.Errorf("%s: is UTF-32; wanted UTF-8", name)
	case bytes.HasPrefix(head, []byte("\xff\xfe")):
		br.Discard(2)
		return &utf16Reader{r: br, order: binary.LittleEndian}, nil
	case bytes.HasPrefix(head, []byte("\xfe\xff")):
		br.Discard(2)
		return &utf16Reader{r: br, order: binary.BigEndian}, nil
	}
	return br, nil
}

// countReader counts the bytes that pass.
type countReader struct {
	r io.Reader
	n int64
}

func (c *countReader) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.n += int64(n)
	return n, err
}

// capReader stops an unpacked stream that grows beyond its limit or beyond reason.
type capReader struct {
	r    io.Reader
	raw  *countReader
	left int64
	out  int64
	kind string
}

var errTooLarge = errors.New("unpacks to more than the limit")

func (c *capReader) Read(p []byte) (int, error) {
	if c.left <= 0 {
		return 0, fmt.Errorf("%s: %w of %d bytes", c.kind, errTooLarge, c.out)
	}
	if int64(len(p)) > c.left {
		p = p[:c.left]
	}
	n, err := c.r.Read(p)
	c.left -= int64(n)
	c.out += int64(n)
	if c.out > bombFrom && c.out > bombRatio*c.raw.n {
		return 0, fmt.Errorf("%s: %w: %d bytes out of %d is no weather record", c.kind, errTooLarge, c.out, c.raw.n)
	}
	if errors.Is(err, zstd.ErrDecoderSizeExceeded) || errors.Is(err, zstd.ErrWindowSizeExceeded) {
		return n, fmt.Errorf("%s: %w", c.kind, errTooLarge)
	}
	if err != nil && err != io.EOF {
		return n, fmt.Errorf("damaged %s file: %w", c.kind, err)
	}
	return n, err
}

// utf16Reader turns UTF-16 into UTF-8 as it is read.
type utf16Reader struct {
	r     *bufio.Reader
	order binary.ByteOrder
	out   []byte // made, not yet handed on
	buf   [4096]byte
	err   error
}

func (u *utf16Reader) Read(p []byte) (int, error) {
	for len(u.out) == 0 {
		if u.err != nil {
			return 0, u.err
		}
		u.fill()
	}
	n := copy(p, u.out)
	u.out = u.out[n:]
	return n, nil
}

func (u *utf16Reader) fill() {
	u.out = u.buf[:0]
	for len(u.out) < len(u.buf)-utf8.UTFMax {
		c, ok := u.unit()
		if !ok {
			return
		}
		r := rune(c)
		if utf16.IsSurrogate(r) {
			second, _ := u.unit()
			r = utf16.DecodeRune(r, rune(second)) // U+FFFD where the pair is broken
		}
		u.out = utf8.AppendRune(u.out, r)
	}
}

func (u *utf16Reader) unit() (uint16, bool) {
	var b [2]byte
	if _, err := io.ReadFull(u.r, b[:]); err != nil {
		u.err = err // io.EOF, or io.ErrUnexpectedEOF for half a unit
		return 0, false
	}
	return u.order.Uint16(b[:]), true
}
