package batch

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
)

// tidyColumns are those of tidy rows: one row a station and item, with the ends of its interval where it has one.
// Items are named as the columns of the wide rows are; one that is not known has no row.
var tidyColumns = []string{"station", "source", "item", "value", "low", "high"}

// tidyRows makes the tidy rows of a wide one, each a line of the same format.
func tidyRows(format Format, columns []string, wide []byte) ([]byte, error) {
	cells := make([]string, len(columns))
	if format == CSV {
		fields, err := csv.NewReader(bytes.NewReader(wide)).Read()
		if err != nil {
			return nil, err
		}
		copy(cells, fields)
	} else {
		var fields map[string]json.RawMessage
		if err := json.Unmarshal(wide, &fields); err != nil {
			return nil, err
		}
		for i, c := range columns {
			if v := string(fields[c]); v != "null" {
				cells[i] = v
			}
		}
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	for i := 2; i < len(columns); i++ {
		row := []string{cells[0], cells[1], columns[i], cells[i], "", ""}
		if i+2 < len(columns) && columns[i+1] == columns[i]+"_low" && columns[i+2] == columns[i]+"_high" {
			row[4], row[5] = cells[i+1], cells[i+2]
			i += 2
		}
		if row[3] == "" {
			continue
		}
		if format == CSV {
			if err := w.Write(row); err != nil {
				return nil, err
			}
			continue
		}
		row[2] = `"` + row[2] + `"` // a name of a column: small letters, digits and underscores
		for k, c := range tidyColumns {
			if row[k] == "" {
				row[k] = "null"
			}
			out.WriteString(map[bool]string{true: "{", false: ","}[k == 0] + `"` + c + `":` + row[k])
		}
		out.WriteString("}\n")
	}
	w.Flush()
	return bytes.TrimSuffix(out.Bytes(), []byte("\n")), w.Error()
}
