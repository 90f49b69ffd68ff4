package parquet

import (
	"encoding/binary"

	"github.com/parquet-go/parquet-go/deprecated"
	"github.com/parquet-go/parquet-go/encoding/thrift"
	"github.com/parquet-go/parquet-go/format"
)

// Close ends the table. It closes nothing else.
func (w *Writer) Close() error {
	if err := w.flush(); err != nil {
		return err
	}
	meta := format.FileMetaData{
		Version:   1,
		Schema:    []format.SchemaElement{{Name: "table", NumChildren: thrift.New(int32(len(w.columns)))}},
		NumRows:   w.total,
		RowGroups: w.groups,
		CreatedBy: "frostward",
	}
	if meta.RowGroups == nil {
		meta.RowGroups = []format.RowGroup{} // nil would be left out, and the format wants it
	}
	for i := range w.columns {
		meta.Schema = append(meta.Schema, w.columns[i].schema())
		// Without it the statistics have no order.
		meta.ColumnOrders = append(meta.ColumnOrders, format.ColumnOrder{Value: new(format.TypeDefinedOrder)})
	}
	b, err := thrift.Marshal(new(thrift.CompactProtocol), meta)
	if err != nil {
		return err
	}
	b = binary.LittleEndian.AppendUint32(b, uint32(len(b)))
	return w.write(append(b, magic...))
}

// schema describes a column, texts and dates by the older mark and by the newer one.
func (c *chunk) schema() format.SchemaElement {
	e := format.SchemaElement{Name: c.Name, Type: thrift.New(c.physical()), RepetitionType: thrift.New(format.Optional)}
	switch c.Type {
	case Text:
		e.ConvertedType = thrift.New(deprecated.UTF8)
		e.LogicalType.Value = new(format.StringType)
	case Date:
		e.ConvertedType = thrift.New(deprecated.Date)
		e.LogicalType.Value = new(format.DateType)
	}
	return e
}

// physical is the type that a column's values are kept in.
func (c *chunk) physical() format.Type {
	switch c.Type {
	case Text:
		return format.ByteArray
	case Double:
		return format.Double
	}
	return format.Int32
}
