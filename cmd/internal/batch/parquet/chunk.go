package parquet

import "encoding/binary"

// chunk is a column's values of a row group, kept as the distinct ones, in the order they
// came, and which of them each row has.
type chunk struct {
	Column
	present  []byte // 1 where a row has a value
	which    []int32
	distinct []string // as the plain encoding has them, texts without their length
	seen     map[string]int32
	plain    int // bytes of all values in the plain encoding
}

// What a row and a distinct value take in memory beside the value's bytes: a byte and an
// index; a string in the list and in the map, with the map's own.
const (
	rowMemory      = 1 + 4
	distinctMemory = 64
)

// null adds a missing value and returns about how much memory it takes.
func (c *chunk) null() int {
	c.present = append(c.present, 0)
	return rowMemory
}

// add adds a value, as the plain encoding has it, likewise.
func (c *chunk) add(b []byte) int {
	memory := rowMemory
	i, ok := c.seen[string(b)]
	if !ok {
		i = int32(len(c.distinct))
		s := string(b)
		c.seen[s] = i
		c.distinct = append(c.distinct, s)
		memory += len(b) + distinctMemory
	}
	c.which = append(c.which, i)
	c.present = append(c.present, 1)
	c.plain += c.plainLen(len(b))
	return memory
}

func (c *chunk) reset() {
	c.present, c.which = c.present[:0], c.which[:0]
	clear(c.distinct) // lets go of the strings
	c.distinct = c.distinct[:0]
	clear(c.seen)
	c.plain = 0
}

// plainLen is the length in the plain encoding of a value of n bytes.
func (c *chunk) plainLen(n int) int {
	if c.Type == Text {
		return 4 + n
	}
	return n
}

// appendPlain adds the plain encoding of a value.
func (c *chunk) appendPlain(dst []byte, value string) []byte {
	if c.Type == Text {
		dst = binary.LittleEndian.AppendUint32(dst, uint32(len(value)))
	}
	return append(dst, value...)
}
