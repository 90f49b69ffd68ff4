package parquet

import (
	"math"
	"testing"

	lib "github.com/parquet-go/parquet-go"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"frostward/cmd/internal/batch/parquet/parquettest"
)

// The statistics are those of the values of each group.
func TestStatistics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		columns, rows := tables(t)
		b, err := put(columns, rows, rapid.SampledFrom([]int{1000, groupSize}).Draw(t, "size"))
		require.NoError(t, err)
		f, _, err := parquettest.Read(b)
		require.NoError(t, err)
		at := 0
		for _, g := range f.Metadata().RowGroups {
			part := rows[at : at+int(g.NumRows)]
			at += int(g.NumRows)
			for k, c := range g.Columns {
				typ := f.Root().Columns()[k].Type()
				var values []lib.Value
				long := false
				for _, row := range part {
					if row[k] != nil {
						values = append(values, lib.ValueOf(row[k]))
						s, _ := row[k].(string)
						long = long || len(s) > longestBound
					}
				}
				s := c.MetaData.Statistics
				require.EqualValues(t, len(part)-len(values), s.NullCount)
				if len(values) == 0 || s.MaxValue == nil && long {
					require.Nil(t, s.MaxValue)
					continue
				}
				least, most := typ.Kind().Value(s.MinValue), typ.Kind().Value(s.MaxValue)
				met := [2]bool{}
				for _, v := range values {
					require.LessOrEqual(t, typ.Compare(least, v), 0)
					require.GreaterOrEqual(t, typ.Compare(most, v), 0)
					met[0] = met[0] || typ.Compare(least, v) == 0
					met[1] = met[1] || typ.Compare(most, v) == 0
				}
				require.Equal(t, [2]bool{true, true}, met)
			}
		}
	})
}

// Naught as a bound holds for both of its signs.
func TestNaughtAsBound(t *testing.T) {
	minus := math.Copysign(0, -1)
	for _, v := range []float64{0, minus} {
		b, err := put([]Column{{"x", Double}}, [][]any{{v}}, groupSize)
		require.NoError(t, err)
		f, _, err := parquettest.Read(b)
		require.NoError(t, err)
		s := f.Metadata().RowGroups[0].Columns[0].MetaData.Statistics
		same(t, minus, lib.Double.Value(s.MinValue).Double())
		same(t, 0., lib.Double.Value(s.MaxValue).Double())
	}
}
