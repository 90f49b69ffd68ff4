package parquet

import (
	"encoding/binary"
	"hash/crc32"
	"math/bits"

	"github.com/parquet-go/parquet-go/encoding/rle"
	"github.com/parquet-go/parquet-go/encoding/thrift"
	"github.com/parquet-go/parquet-go/format"
)

// scratch is memory that is used again from page to page.
type scratch struct {
	value               [8]byte
	page, packed, coded []byte
}

// chunk writes a column's values: a page of the distinct ones, where that is shorter, and one
// page of what each row has.
func (w *Writer) chunk(c *chunk) (format.ColumnMetaData, error) {
	meta := format.ColumnMetaData{
		Type:         c.physical(),
		PathInSchema: []string{c.Name},
		Codec:        format.Zstd,
		NumValues:    int64(len(c.present)),
		Statistics:   c.statistics(),
	}
	width := max(1, bits.Len(uint(len(c.distinct)-1))) // a width of 0 is legal, and not understood by all
	dictionary := 0
	for _, v := range c.distinct {
		dictionary += c.plainLen(len(v))
	}
	values := format.Plain
	page := w.scratch.page[:0]
	if dictionary+len(c.which)*width/8 < c.plain {
		values = format.RLEDictionary
		for _, v := range c.distinct {
			page = c.appendPlain(page, v)
		}
		meta.DictionaryPageOffset = w.at
		if err := w.page(&meta, page, format.PageHeader{
			Type:                 format.DictionaryPage,
			DictionaryPageHeader: thrift.New(format.DictionaryPageHeader{NumValues: int32(len(c.distinct)), Encoding: format.Plain}),
		}); err != nil {
			return meta, err
		}
	}

	coded, err := (&rle.Encoding{BitWidth: 1}).EncodeLevels(w.scratch.coded, c.present)
	if err != nil {
		return meta, err
	}
	page = binary.LittleEndian.AppendUint32(page[:0], uint32(len(coded)))
	page = append(page, coded...)
	if values == format.RLEDictionary {
		if coded, err = (&rle.Encoding{BitWidth: width}).EncodeInt32(coded, c.which); err != nil {
			return meta, err
		}
		page = append(append(page, byte(width)), coded...)
	} else {
		for _, i := range c.which {
			page = c.appendPlain(page, c.distinct[i])
		}
	}
	meta.DataPageOffset = w.at
	meta.Encoding = []format.Encoding{values, format.RLE}
	if values == format.RLEDictionary {
		meta.Encoding = append(meta.Encoding, format.Plain) // the dictionary's
	}
	err = w.page(&meta, page, format.PageHeader{
		Type: format.DataPage,
		DataPageHeader: thrift.New(format.DataPageHeader{
			NumValues: int32(len(c.present)), Encoding: values,
			DefinitionLevelEncoding: format.RLE, RepetitionLevelEncoding: format.RLE,
		}),
	})
	w.scratch.page, w.scratch.coded = page, coded
	return meta, err
}

// page packs a page and writes it.
func (w *Writer) page(meta *format.ColumnMetaData, page []byte, head format.PageHeader) error {
	packed := w.zstd.EncodeAll(page, w.scratch.packed[:0])
	w.scratch.packed = packed
	head.UncompressedPageSize, head.CompressedPageSize = int32(len(page)), int32(len(packed))
	head.CRC = int32(crc32.ChecksumIEEE(packed))
	b, err := thrift.Marshal(new(thrift.CompactProtocol), head)
	if err != nil {
		return err
	}
	meta.TotalUncompressedSize += int64(len(b) + len(page))
	meta.TotalCompressedSize += int64(len(b) + len(packed))
	if err := w.write(b); err != nil {
		return err
	}
	return w.write(packed)
}
