// Package parquettest reads Parquet files in tests, with the reader of parquet-go, which the
// program does without.
package parquettest

import (
	"bytes"
	"fmt"
	"io"

	"github.com/parquet-go/parquet-go"
)

// Read returns a file's rows, with nil for what is missing, and what it says of itself.
func Read(b []byte) (*parquet.File, [][]any, error) {
	f, err := parquet.OpenFile(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return nil, nil, err
	}
	var all [][]any
	for _, g := range f.RowGroups() {
		rows, err := readGroup(g.Rows())
		if err != nil {
			return nil, nil, err
		}
		all = append(all, rows...)
	}
	return f, all, nil
}

func readGroup(r parquet.Rows) (all [][]any, err error) {
	defer r.Close()
	buf := make([]parquet.Row, 7)
	for err == nil {
		var n int
		n, err = r.ReadRows(buf)
		for _, from := range buf[:n] {
			row := make([]any, len(from))
			for i, v := range from {
				var fault error
				if row[i], fault = value(v); fault != nil {
					return nil, fault
				}
			}
			all = append(all, row)
		}
	}
	if err == io.EOF {
		err = nil
	}
	return all, err
}

func value(v parquet.Value) (any, error) {
	switch {
	case v.IsNull():
		return nil, nil
	case v.Kind() == parquet.ByteArray:
		return string(v.ByteArray()), nil
	case v.Kind() == parquet.Int32:
		return v.Int32(), nil
	case v.Kind() == parquet.Double:
		return v.Double(), nil
	}
	return nil, fmt.Errorf("a value of kind %s", v.Kind())
}
