package parquet

import (
	"cmp"
	"encoding/binary"
	"math"
	"strings"

	"github.com/parquet-go/parquet-go/format"
)

// longestBound is the most bytes that the least and greatest text are told with.
const longestBound = 64

// statistics tell how many values are missing, and between which the others lie, by which
// readers leave out row groups.
func (c *chunk) statistics() format.Statistics {
	s := format.Statistics{NullCount: int64(len(c.present) - len(c.which))}
	if len(c.distinct) == 0 {
		return s
	}
	least, most := c.distinct[0], c.distinct[0]
	for _, v := range c.distinct {
		if c.compare(v, least) < 0 {
			least = v
		}
		if c.compare(v, most) > 0 {
			most = v
		}
	}
	if len(least) <= longestBound && len(most) <= longestBound {
		s.MinValue, s.MaxValue = []byte(least), []byte(most)
	}
	if c.Type == Double { // the format wants naught as -0 at the lower end and +0 at the upper
		if double(least) == 0 {
			s.MinValue[7] = 0x80
		}
		if double(most) == 0 {
			s.MaxValue[7] = 0
		}
	}
	return s
}

// compare compares two values in the order of the type.
func (c *chunk) compare(a, b string) int {
	switch c.Type {
	case Text:
		return strings.Compare(a, b)
	case Double:
		return cmp.Compare(double(a), double(b))
	}
	return cmp.Compare(int32(binary.LittleEndian.Uint32([]byte(a))), int32(binary.LittleEndian.Uint32([]byte(b))))
}

func double(s string) float64 { return math.Float64frombits(binary.LittleEndian.Uint64([]byte(s))) }
