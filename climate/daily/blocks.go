package daily

import (
	"bufio"
	"bytes"
	"io"
	"sync"
)

const blockSize = 256 << 10

// blocks cuts a stream into runs of whole lines. Every block ends in a newline, one
// being added to the last line of the file where it has none. Memory is one block,
// however long a line is.
type blocks struct {
	r    io.Reader
	buf  []byte
	end  int // bytes held
	next int // where the next block starts
	eof  bool

	first   bool // no block has been returned
	tooLong bool // the block is the start of a line that does not fit
	cr      bool // lines end in a carriage return alone, as the first block shows
}

// buffers are what reading a file takes, however small it is: of many files, each leaves them to the next.
type buffers struct {
	raw   *bufio.Reader
	block []byte
}

var spare = sync.Pool{New: func() any {
	return &buffers{bufio.NewReaderSize(nil, 64<<10), make([]byte, blockSize+1)}
}}

// newBlocks cuts a stream, in a buffer of a byte more than a block.
func newBlocks(r io.Reader, buf []byte) *blocks {
	return &blocks{r: r, buf: buf, first: true}
}

// read returns the next block, or io.EOF. The block is good until the next call.
func (b *blocks) read() ([]byte, error) {
	if b.tooLong {
		if err := b.skipLine(); err != nil {
			return nil, err
		}
	}
	b.end = copy(b.buf, b.buf[b.next:b.end])
	b.next = 0
	for !b.eof && b.end < blockSize {
		n, err := b.r.Read(b.buf[b.end:blockSize])
		if b.cr {
			turnCR(b.buf[b.end : b.end+n])
		}
		b.end += n
		if err == io.EOF {
			b.eof = true
		} else if err != nil {
			return nil, err
		}
	}
	if b.end == 0 {
		return nil, io.EOF
	}
	if held := b.buf[:b.end]; b.first && bytes.IndexByte(held, '\n') < 0 && bytes.IndexByte(held, '\r') >= 0 {
		b.cr = true
		turnCR(held)
	}
	b.first = false
	if b.eof && b.buf[b.end-1] != '\n' {
		b.buf[b.end] = '\n'
		b.end++
	}
	b.next = bytes.LastIndexByte(b.buf[:b.end], '\n') + 1
	if b.next == 0 {
		b.tooLong = true
		b.next = b.end
		b.buf[b.end-1] = '\n'
		return b.buf[:b.end], nil
	}
	return b.buf[:b.next], nil
}

// skipLine drops the rest of a line that did not fit.
func (b *blocks) skipLine() error {
	b.tooLong, b.next, b.end = false, 0, 0
	for !b.eof {
		n, err := b.r.Read(b.buf[:blockSize])
		if i := bytes.IndexByte(b.buf[:n], '\n'); i >= 0 {
			b.next, b.end = i+1, n
		}
		if err == io.EOF {
			b.eof = true
		} else if err != nil {
			return err
		}
		if b.next > 0 {
			break
		}
	}
	return nil
}

func turnCR(p []byte) {
	for i, c := range p {
		if c == '\r' {
			p[i] = '\n'
		}
	}
}

// cutLine returns the first line of a block without its line end, and the rest.
func cutLine(block []byte) (line, rest []byte) {
	i := bytes.IndexByte(block, '\n')
	if i < 0 {
		return bytes.TrimSuffix(block, []byte{'\r'}), nil
	}
	return bytes.TrimSuffix(block[:i], []byte{'\r'}), block[i+1:]
}
