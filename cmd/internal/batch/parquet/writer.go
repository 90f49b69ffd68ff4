// Package parquet writes a table as an Apache Parquet file: columns without nesting, each of
// whose values may be missing, in memory that is bounded whatever the number of rows.
//
// The structures of the format and its encodings are parquet-go's. Its own writer would bring
// every codec and type there is, 5.9 MB of program against 0.5, so pages are put together
// here; the tests read them back with its reader.
//
// https://github.com/apache/parquet-format says what is what.
package parquet

import (
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"github.com/klauspost/compress/zstd"
	"github.com/parquet-go/parquet-go/format"
)

// Type is what the values of a column are.
type Type int

// The types.
const (
	Text Type = iota // UTF-8
	Date             // days since 1970-01-01
	Int32
	Double
)

// Column is a column of the table.
type Column struct {
	Name string
	Type Type
}

// groupSize is about how much of the table is kept in memory, and so goes together into the
// file as one row group.
const groupSize = 16 << 20

const magic = "PAR1"

// Writer writes a table, value by value in the order of the columns.
type Writer struct {
	w         io.Writer
	at        int64 // bytes written
	zstd      *zstd.Encoder
	columns   []chunk
	n         int // values of the row begun
	rows      int // of the group begun
	memory    int // that they take, about
	total     int64
	groups    []format.RowGroup
	groupSize int
	scratch   scratch
}

// NewWriter begins a table.
func NewWriter(w io.Writer, columns []Column) (*Writer, error) {
	z, err := zstd.NewWriter(nil, zstd.WithEncoderConcurrency(1), zstd.WithWindowSize(1<<20), zstd.WithEncoderCRC(false))
	if err != nil {
		return nil, err
	}
	p := &Writer{w: w, zstd: z, groupSize: groupSize}
	for _, c := range columns {
		p.columns = append(p.columns, chunk{Column: c, seen: map[string]int32{}})
	}
	return p, p.write([]byte(magic))
}

// Null is the row's next value, a missing one.
func (w *Writer) Null() {
	w.memory += w.columns[w.n].null()
	w.n++
}

// add is the row's next value, as the plain encoding has it.
func (w *Writer) add(t Type, b []byte) {
	c := &w.columns[w.n]
	if c.Type != t {
		panic(fmt.Sprintf("parquet: a value of type %d for column %s of type %d", t, c.Name, c.Type))
	}
	w.memory += c.add(b)
	w.n++
}

// Text is the next value, as UTF-8.
func (w *Writer) Text(b []byte) { w.add(Text, b) }

// Date is the next value, in days since 1970-01-01.
func (w *Writer) Date(days int32) { w.int32(Date, days) }

// Int32 is the next value.
func (w *Writer) Int32(v int32) { w.int32(Int32, v) }

func (w *Writer) int32(t Type, v int32) {
	w.add(t, binary.LittleEndian.AppendUint32(w.scratch.value[:0], uint32(v)))
}

// Double is the next value, missing if NaN.
func (w *Writer) Double(v float64) {
	if math.IsNaN(v) {
		w.Null()
		return
	}
	w.add(Double, binary.LittleEndian.AppendUint64(w.scratch.value[:0], math.Float64bits(v)))
}

// EndRow ends a row, which must be whole.
func (w *Writer) EndRow() error {
	if w.n != len(w.columns) {
		panic(fmt.Sprintf("parquet: a row of %d values for %d columns", w.n, len(w.columns)))
	}
	w.n = 0
	w.rows++
	if w.memory < w.groupSize {
		return nil
	}
	return w.flush()
}

// flush writes the row group begun.
func (w *Writer) flush() error {
	if w.rows == 0 {
		return nil
	}
	g := format.RowGroup{Columns: make([]format.ColumnChunk, 0, len(w.columns)), NumRows: int64(w.rows), FileOffset: w.at, Ordinal: int16(len(w.groups))}
	for i := range w.columns {
		c := &w.columns[i]
		meta, err := w.chunk(c)
		if err != nil {
			return fmt.Errorf("column %s: %w", c.Name, err)
		}
		g.Columns = append(g.Columns, format.ColumnChunk{MetaData: meta})
		g.TotalByteSize += meta.TotalUncompressedSize
		g.TotalCompressedSize += meta.TotalCompressedSize
		c.reset()
	}
	w.groups = append(w.groups, g)
	w.total += int64(w.rows)
	w.rows, w.memory = 0, 0
	return nil
}

func (w *Writer) write(b []byte) error {
	n, err := w.w.Write(b)
	w.at += int64(n)
	return err
}
