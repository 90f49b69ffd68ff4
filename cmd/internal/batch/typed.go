package batch

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"time"

	"frostward/cmd/internal/batch/parquet"
)

// typed writes rows as a Parquet file, whose columns have types.
type typed struct {
	columns []column
	buf     *bufio.Writer
	file    *parquet.Writer
}

// typeOf is the type of a kind of values.
var typeOf = map[kind]parquet.Type{
	text: parquet.Text, date: parquet.Date, count: parquet.Int32, number: parquet.Double,
	days: parquet.Double, // as "none" is infinity
}

func newTyped(w io.Writer, columns []column) (*typed, error) {
	t := &typed{columns: columns, buf: bufio.NewWriterSize(w, 256<<10)}
	of := make([]parquet.Column, len(columns))
	for i, c := range columns {
		of[i] = parquet.Column{Name: c.name, Type: typeOf[c.kind]}
	}
	var err error
	t.file, err = parquet.NewWriter(t.buf, of)
	return t, err
}

// row adds a row of values with tabs between.
func (t *typed) row(b []byte) error {
	for i, c := range t.columns {
		value, rest, more := bytes.Cut(b, []byte{'\t'})
		if more != (i < len(t.columns)-1) {
			return fmt.Errorf("column %s: the row has not %d values", c.name, len(t.columns))
		}
		if err := t.value(c.kind, value); err != nil {
			return fmt.Errorf("column %s: %w", c.name, err)
		}
		b = rest
	}
	return t.file.EndRow()
}

func (t *typed) value(k kind, b []byte) error {
	if len(b) == 0 {
		t.file.Null()
		return nil
	}
	switch k {
	case date:
		at, err := time.Parse(time.DateOnly, string(b))
		if err != nil {
			return err
		}
		t.file.Date(int32(at.Unix() / 86400))
	case count:
		n, err := strconv.ParseInt(string(b), 10, 32)
		if err != nil {
			return err
		}
		t.file.Int32(int32(n))
	case number, days:
		if k == days && string(b) == none {
			t.file.Double(math.Inf(1))
			return nil
		}
		v, err := strconv.ParseFloat(string(b), 64)
		if err != nil {
			return err
		}
		t.file.Double(v)
	default:
		t.file.Text(b)
	}
	return nil
}

func (t *typed) end() error {
	if err := t.file.Close(); err != nil {
		return err
	}
	return t.buf.Flush()
}
