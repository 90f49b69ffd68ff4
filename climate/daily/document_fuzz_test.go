package daily

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// readsOrSays holds for any document: no panic, the series holds together, an error has its place.
func readsOrSays(t *testing.T, b []byte) {
	s, rep, err := Read(bytes.NewReader(b), "fuzz", Options{Units: Celsius, Element: Tmin})
	if err != nil {
		if msg := err.Error(); !strings.HasPrefix(msg, "fuzz:") || len(msg) > 2000 {
			t.Fatalf("error without its place, or endless: %q", msg)
		}
		return
	}
	check(t, s, rep)
}

// FuzzJSON is FuzzRead for JSON documents.
func FuzzJSON(f *testing.F) {
	files, _ := filepath.Glob(filepath.Join(stations, "layouts", "*.json"))
	for _, name := range files {
		b, err := os.ReadFile(name)
		require.NoError(f, err)
		f.Add(b[:min(len(b), 1500)])
	}
	f.Add([]byte(`{"latitude":52,"daily_units":{"tmin":"°C"},"daily":{"time":["2001-01-01","2001-01-02"],"tmin":[1,null]}}`))
	f.Add([]byte(`[{"date":"2001-01-01","tmin":1.5,"tmax":9},{"date":"2001-01-02","tmin":-2}]`))
	f.Fuzz(func(t *testing.T, b []byte) { readsOrSays(t, append([]byte("["), b...)); readsOrSays(t, b) })
}

// packed makes a spreadsheet with one sheet, and its workbook and shared texts, of XML.
func packed(t testing.TB, sheet, shared, properties string) []byte {
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, text := range map[string]string{
		"[Content_Types].xml": `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		"xl/workbook.xml": `<workbook xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><workbookPr ` + properties +
			`/><sheets><sheet name="S" r:id="r1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="r1" Target="worksheets/sheet1.xml"/></Relationships>`,
		"xl/styles.xml":              `<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="22"/></cellXfs></styleSheet>`,
		"xl/sharedStrings.xml":       `<sst>` + shared + `</sst>`,
		"xl/worksheets/sheet1.xml":   `<worksheet><sheetData>` + sheet + `</sheetData></worksheet>`,
	} {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = io.WriteString(w, text)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}

const (
	sheetHead = `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c><c r="C1" t="inlineStr"><is><t>tmax_c</t></is></c></row>`
	sheetRow  = `<row r="2"><c r="A2" s="1"><v>36892</v></c><c r="B2"><v>-3.4</v></c><c r="C2"><v>5.7</v></c></row>`
	texts     = `<si><t>date</t></si><si><r><t>tmin</t></r><r><t>_c</t></r></si>`
)

// FuzzSheet is FuzzRead for what is inside a spreadsheet.
func FuzzSheet(f *testing.F) {
	f.Add(sheetHead+sheetRow, texts, "")
	f.Add(sheetHead+sheetRow+`<row r="3"><c r="A3" s="2"><v>36893.25</v></c><c r="B3" t="e"><v>#N/A</v></c></row>`, texts, `date1904="false"`)
	f.Add(sheetHead+`<row r="2"><c r="ZZZZZZZZ2" t="s"><v>-1</v></c></row>`, texts, `date1904="1"`)
	f.Fuzz(func(t *testing.T, sheet, shared, properties string) {
		readsOrSays(t, packed(t, sheet, shared, properties))
	})
}

func TestTwoJSONDocuments(t *testing.T) {
	one := `[{"date":"2001-01-01","tmin_c":1.5,"tmax_c":9}]`
	_, _, err := Read(strings.NewReader(one+" \n"), "x", Options{})
	require.NoError(t, err)
	_, _, err = Read(strings.NewReader(one+one), "x", Options{})
	require.ErrorContains(t, err, "has more after its first JSON document")
}

// Faults that the spreadsheet library passes over, or panics at in a goroutine of its own.
func TestFaultySheets(t *testing.T) {
	s, rep, err := Read(bytes.NewReader(packed(t, sheetHead+sheetRow, texts, "")), "x", Options{})
	require.NoError(t, err)
	require.Equal(t, 1, rep.Days)
	require.Equal(t, "2001-01-01", s.First.String()) // serial 36892: by hand, 36526 is 2000-01-01 (ECMA-376 part 1, 18.17.4.1) and 2000 a leap year
	for name, c := range map[string]struct{ sheet, properties, want string }{
		"text number below zero": {sheetHead + `<row r="2"><c r="A2" t="s"><v>-1</v></c></row>` + sheetRow, "", `a shared text has the number "-1"`},
		"cut":                    {sheetHead + sheetRow + `<row r="3"><c r="A3" s="1"><v>3689`, "", "a fault in xl/worksheets/sheet1.xml"},
		"an endless name":        {sheetHead + sheetRow, strings.Repeat("\xcc", 1e5), "a fault in xl/workbook.xml"},
		"counted from 1904":      {sheetHead + sheetRow, `date1904="1"`, "its dates count from 1904"},
	} {
		_, _, err := Read(bytes.NewReader(packed(t, c.sheet, texts, c.properties)), "x", Options{})
		require.ErrorContains(t, err, c.want, name)
		require.Less(t, len(err.Error()), 2000, name)
	}
}
