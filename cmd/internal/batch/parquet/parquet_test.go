package parquet

import (
	"bytes"
	"errors"
	"io"
	"math"
	"testing"

	"github.com/parquet-go/parquet-go/format"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/cmd/internal/batch/parquet/parquettest"
)

// put writes a table of values: nil, string, int32 or float64.
func put(columns []Column, rows [][]any, groupSize int) ([]byte, error) {
	var b bytes.Buffer
	w, err := NewWriter(&b, columns)
	if err != nil {
		return nil, err
	}
	w.groupSize = groupSize
	for _, row := range rows {
		for i, v := range row {
			switch v := v.(type) {
			case nil:
				w.Null()
			case string:
				w.Text([]byte(v))
			case int32:
				if columns[i].Type == Date {
					w.Date(v)
				} else {
					w.Int32(v)
				}
			case float64:
				w.Double(v)
			}
		}
		if err := w.EndRow(); err != nil {
			return nil, err
		}
	}
	err = w.Close()
	return b.Bytes(), err
}

// tables are of any columns and values; few different ones, or many.
func tables(t *rapid.T) ([]Column, [][]any) {
	values := map[Type]*rapid.Generator[any]{
		Text: rapid.OneOf(rapid.String().AsAny(), rapid.SampledFrom([]string{"", "none", "04-17", "Zürich, \"x\"\t=1", "日本"}).AsAny()),
		Date: rapid.Int32().AsAny(), Int32: rapid.OneOf(rapid.Int32().AsAny(), rapid.Int32Range(0, 3).AsAny()),
		Double: rapid.OneOf(rapid.Float64().AsAny(), rapid.SampledFrom([]float64{0, math.Copysign(0, -1), math.Inf(1), math.Inf(-1), 0.125}).AsAny()),
	}
	var columns []Column
	for _, name := range rapid.SliceOfNDistinct(rapid.StringMatching(`[a-z][a-z0-9_]{0,20}`), 1, 6, rapid.ID).Draw(t, "names") {
		columns = append(columns, Column{name, Type(rapid.IntRange(int(Text), int(Double)).Draw(t, "type"))})
	}
	rows := make([][]any, rapid.IntRange(0, 60).Draw(t, "rows"))
	for i := range rows {
		rows[i] = make([]any, len(columns))
		for k, c := range columns {
			if rapid.IntRange(0, 3).Draw(t, "missing") > 0 {
				rows[i][k] = values[c.Type].Draw(t, "value")
			}
		}
	}
	return columns, rows
}

// What is written is what another reads, whatever the columns and values and however many
// row groups, and the bytes are always the same.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		columns, rows := tables(t)
		size := rapid.SampledFrom([]int{1, 1000, 5000, groupSize}).Draw(t, "size")
		b, err := put(columns, rows, size)
		require.NoError(t, err)
		f, got, err := parquettest.Read(b)
		require.NoError(t, err)
		require.EqualValues(t, len(rows), f.NumRows())
		require.Len(t, got, len(rows))
		for i := range rows {
			for k := range rows[i] {
				same(t, rows[i][k], got[i][k])
			}
		}
		for i, c := range f.Schema().Columns() {
			require.Equal(t, []string{columns[i].Name}, c)
		}
		again, err := put(columns, rows, size)
		require.NoError(t, err)
		require.True(t, bytes.Equal(b, again))
		if size == 1 {
			require.Len(t, f.RowGroups(), len(rows))
		}
	})
}

// same tells 0 from -0.
func same(t require.TestingT, want, got any) {
	if v, ok := want.(float64); ok {
		require.IsType(t, v, got)
		require.Equal(t, math.Float64bits(v), math.Float64bits(got.(float64)))
		return
	}
	require.Equal(t, want, got)
}

// Few different values are told once; many are not told twice.
func TestDictionaries(t *testing.T) {
	var rows [][]any
	for i := range 1000 {
		rows = append(rows, []any{int32(i % 7), int32(i), nil, "the same"})
	}
	b, err := put([]Column{{"few", Date}, {"many", Int32}, {"none", Double}, {"one", Text}}, rows, groupSize)
	require.NoError(t, err)
	f, got, err := parquettest.Read(b)
	require.NoError(t, err)
	require.Equal(t, rows, got)
	assert.Equal(t, "message table {\n\toptional int32 few (DATE);\n\toptional int32 many (INT(32,true));\n\toptional double none;\n\toptional binary one (STRING);\n}",
		f.Schema().String())
	var encodings []format.Encoding
	for _, c := range f.Metadata().RowGroups[0].Columns {
		encodings = append(encodings, c.MetaData.Encoding[0])
		assert.Equal(t, format.Zstd, c.MetaData.Codec)
	}
	assert.Equal(t, []format.Encoding{format.RLEDictionary, format.Plain, format.Plain, format.RLEDictionary}, encodings)
}

// Whatever the values, a group's memory has a bound.
func TestGroupsAreBounded(t *testing.T) {
	var rows [][]any
	for i := range 20_000 {
		rows = append(rows, []any{float64(i), string(bytes.Repeat([]byte{'a' + byte(i%7)}, i%300))})
	}
	b, err := put([]Column{{"x", Double}, {"s", Text}}, rows, 100_000)
	require.NoError(t, err)
	f, got, err := parquettest.Read(b)
	require.NoError(t, err)
	require.Equal(t, rows, got)
	groups := f.RowGroups()
	assert.Greater(t, len(groups), 20)
	for i, g := range groups {
		assert.Less(t, g.NumRows(), int64(100_000/(2*rowMemory+distinctMemory)))
		if i < len(groups)-1 { // and is not small for no reason
			assert.Greater(t, g.NumRows(), int64(100_000/(2*(rowMemory+distinctMemory)+8+300)))
		}
	}
}

// A value that is of another type, and a row that is not whole, are faults of the program; a
// number that is none is missing.
func TestValues(t *testing.T) {
	w, err := NewWriter(io.Discard, []Column{{"x", Double}, {"n", Int32}})
	require.NoError(t, err)
	assert.Panics(t, func() { w.Int32(1) })
	w.Double(math.NaN())
	assert.Panics(t, func() { w.EndRow() })
	assert.Panics(t, func() { w.Date(1) })
	w.Int32(1)
	require.NoError(t, w.EndRow())
	assert.Empty(t, w.columns[0].which)
	assert.Len(t, w.columns[1].which, 1)
}

type full struct{ left int }

var errFull = errors.New("no space left")

func (f *full) Write(b []byte) (int, error) {
	if f.left -= len(b); f.left < 0 {
		return 0, errFull
	}
	return len(b), nil
}

// A disk that fills up at any byte is told.
func TestFullDisk(t *testing.T) {
	columns := []Column{{"x", Double}, {"s", Text}}
	b, err := put(columns, [][]any{{1.5, "a"}, {nil, "a"}}, 1)
	require.NoError(t, err)
	for n := range b {
		w, err := NewWriter(&full{n}, columns)
		for range 2 {
			if err == nil {
				w.groupSize = 1
				w.Double(1.5)
				w.Text([]byte("a"))
				err = w.EndRow()
			}
		}
		if err == nil {
			err = w.Close()
		}
		require.ErrorIs(t, err, errFull, n)
	}
}
