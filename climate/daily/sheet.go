package daily

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/thedatashed/xlsxreader"
)

// fromSheet makes a table of text of a spreadsheet in .xlsx: of its first sheet that has rows. Dates come out as the
// sheet has them, whatever they look like there; its numbers have decimal points.
func fromSheet(b []byte) (text []byte, err error) {
	defer func() { // the library is made for sound files
		if r := recover(); r != nil {
			text, err = nil, fmt.Errorf("is a damaged spreadsheet: %v", r)
		}
	}()
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return nil, fmt.Errorf("is a damaged archive or spreadsheet: %w", err)
	}
	size := uint64(0)
	for _, f := range z.File {
		if size += f.UncompressedSize64; size > 4*maxDocument || f.UncompressedSize64 > 4*maxDocument {
			return nil, fmt.Errorf("unpacks to more than %d MiB; wanted a table of text, such as CSV", 4*maxDocument>>20)
		}
	}
	for _, f := range z.File {
		if err := sound(f); err != nil {
			return nil, fmt.Errorf("is a spreadsheet with a fault in %.100s: %.200s", f.Name, err) // which may quote all of it
		}
	}
	book, err := xlsxreader.NewReaderZip(z)
	if err != nil {
		return nil, errors.New("is a zip archive and no spreadsheet (.xlsx); wanted text: unpack it")
	}
	for _, name := range book.Sheets {
		var out bytes.Buffer
		var bad error
		for row := range book.ReadRows(name) { // to the end: the library writes into a channel
			if row.Error != nil {
				bad = fmt.Errorf("sheet %.100q, row %d: %.200s", name, row.Index, row.Error)
			}
			if bad != nil || out.Len() > maxDocument {
				continue
			}
			var cells []string
			for _, c := range row.Cells {
				k := c.ColumnIndex()
				if k < 0 || k > 1000 {
					continue
				}
				for len(cells) <= k {
					cells = append(cells, "")
				}
				cells[k] = c.Value
				if c.Type == xlsxreader.TypeDateTime { // a sheet's times are those of no zone
					cells[k] = string(bytes.TrimSuffix([]byte(c.Value), []byte("Z")))
				}
			}
			rowOf(&out, cells)
		}
		if bad != nil {
			return nil, bad
		}
		if bytes.IndexByte(out.Bytes(), '\t') >= 0 {
			return out.Bytes(), nil
		}
	}
	return nil, errors.New("is a spreadsheet without a table; wanted columns of the date, the minimum and the maximum")
}

// sound reads a part of a spreadsheet to its end. The library takes a fault in the middle of a sheet for its end,
// panics beyond reach at a negative number of a shared string, and does not know of dates that count from 1904.
func sound(f *zip.File) error {
	if !strings.HasSuffix(f.Name, ".xml") {
		return nil
	}
	r, err := f.Open()
	if err != nil {
		return err
	}
	defer r.Close()
	shared, value := false, false
	for d := xml.NewDecoder(r); ; {
		token, err := d.Token()
		switch {
		case err == io.EOF:
			return nil
		case err != nil:
			return err
		}
		switch e := token.(type) {
		case xml.StartElement:
			value = e.Name.Local == "v"
			if e.Name.Local == "c" {
				shared = attribute(e, "t") == "s"
			}
			if from := attribute(e, "date1904"); e.Name.Local == "workbookPr" && from != "" && from != "0" && from != "false" {
				return errors.New("its dates count from 1904; wanted dates from 1900: save it again with that, or as CSV")
			}
		case xml.EndElement:
			value = false
		case xml.CharData:
			if shared && value && bytes.HasPrefix(bytes.TrimSpace(e), []byte("-")) {
				return fmt.Errorf("a shared text has the number %.20q", e)
			}
		}
	}
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}
