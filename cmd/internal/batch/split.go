package batch

import (
	"bytes"
	"fmt"
	"io"

	"frostward/climate/daily"
)

// chunk is some whole stations of a long file, as text.
type chunk struct {
	text []byte
	line int // number of its first line
}

// chunkSize is about how much of a long file a worker takes at a time: enough that handing
// it over costs nothing, little enough that few are in memory.
const chunkSize = 1 << 20

// isKeyed says whether a text begins as GHCN-Daily's files of one element a line do, which
// name the station first and have no header: station,yyyymmdd,element,value.
func isKeyed(head []byte) bool {
	line, _, _ := bytes.Cut(head, []byte{'\n'})
	f := bytes.Split(bytes.TrimSuffix(line, []byte{'\r'}), []byte{','})
	return len(f) >= 4 && len(f[0]) == 11 && len(f[1]) == 8 && len(f[2]) == 4 &&
		bytes.IndexFunc(f[1], func(r rune) bool { return r < '0' || r > '9' }) < 0
}

// split cuts a long file keyed by station into chunks of at least a size, always between stations. Each is its
// receiver's own. It fails on a station whose rows are not together, since then no chunk
// has all of it, and on one longer than limit.
func split(r io.Reader, size, limit int, give func(chunk) error) error {
	var (
		buf, key []byte
		line     = 1 // number of the first line of buf
		at, here = 0, 1
		seen     daily.Together
	)
	flush := func() error { // what stands before at
		err := give(chunk{append([]byte(nil), buf[:at]...), line})
		buf = append(buf[:0], buf[at:]...)
		at, line = 0, here
		return err
	}
	for eof := false; !eof; {
		if len(buf) > limit {
			return fmt.Errorf("line %d: more than %d bytes of station %q; wanted one station's record", line, limit, key)
		}
		n := len(buf)
		buf = append(buf, make([]byte, 256<<10)...)
		m, err := io.ReadFull(r, buf[n:])
		buf = buf[:n+m]
		if err == io.EOF || err == io.ErrUnexpectedEOF {
			if eof = true; len(buf) > 0 && buf[len(buf)-1] != '\n' {
				buf = append(buf, '\n')
			}
		} else if err != nil {
			return err
		}
		for {
			end := bytes.IndexByte(buf[at:], '\n')
			if end < 0 {
				break
			}
			if comma := bytes.IndexByte(buf[at:at+end], ','); comma > 0 && !bytes.Equal(buf[at:at+comma], key) {
				key = append(key[:0], buf[at:at+comma]...)
				if at >= size {
					if err := flush(); err != nil {
						return err
					}
				}
				if err := seen.Begin(string(key)); err != nil {
					return fmt.Errorf("line %d: %w", here, err)
				}
			}
			at += end + 1
			here++
		}
	}
	if at > 0 {
		return flush()
	}
	return nil
}
