package daily

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// maxDocument bounds a file that is read whole to be made a table of text: JSON and spreadsheets.
const maxDocument = 64 << 20

// wholeOf reads all of a stream that is no longer than maxDocument.
func wholeOf(r io.Reader) ([]byte, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxDocument+1))
	if err == nil && len(b) > maxDocument {
		err = fmt.Errorf("is over %d MiB; wanted a table of text, such as CSV", maxDocument>>20)
	}
	return b, err
}

// fromJSON makes a table of text of a JSON document: of a list of objects, one a day or a reading, or of lists of
// equal length by name, with their units in a neighbour named ..._units. The first such thing found is taken, daily
// before hourly ones; simple values beside it, such as latitude, stand above the table.
func fromJSON(b []byte) ([]byte, error) {
	var doc any
	d := json.NewDecoder(bytes.NewReader(b))
	d.UseNumber()
	if err := d.Decode(&doc); err != nil {
		return nil, fmt.Errorf("is no whole JSON document: %w", err)
	}
	if _, err := d.Token(); err != io.EOF {
		return nil, errors.New("has more after its first JSON document; wanted one document a file")
	}
	var text bytes.Buffer
	if !tableOf(&text, doc, 0) {
		return nil, fmt.Errorf("is JSON without a list of days; wanted objects with a date and temperatures, or lists of them")
	}
	return text.Bytes(), nil
}

func tableOf(text *bytes.Buffer, v any, depth int) bool {
	if depth > 4 {
		return false
	}
	switch v := v.(type) {
	case []any:
		return objects(text, v)
	case map[string]any:
		for _, name := range slices.Sorted(keysOf(v)) {
			if s, ok := simple(v[name]); ok && columnNamed[columnKey(name)] != colOther {
				fmt.Fprintf(text, "%s: %s\n", name, s)
			}
		}
		names := slices.Sorted(keysOf(v)) // "daily" comes before "hourly"
		for _, name := range names {
			if lists(text, v[name], v[name+"_units"]) {
				return true
			}
		}
		for _, name := range names {
			if tableOf(text, v[name], depth+1) {
				return true
			}
		}
	}
	return false
}

func keysOf(m map[string]any) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// simple returns the text of a value that is not made of others; it is not ok for those that are.
func simple(v any) (string, bool) {
	switch v := v.(type) {
	case nil:
		return "", true
	case string:
		return v, true
	case json.Number:
		return v.String(), true
	case bool:
		return strconv.FormatBool(v), true
	}
	return "", false
}

// objects writes a list of objects, each a row.
func objects(text *bytes.Buffer, list []any) bool {
	var names []string
	seen := map[string]bool{}
	for _, item := range list {
		row, ok := item.(map[string]any)
		if !ok {
			return false
		}
		for name := range row {
			if _, ok := simple(row[name]); ok && !seen[name] {
				seen[name] = true
				names = append(names, name)
			}
		}
		if len(names) > 1000 {
			return false
		}
	}
	if len(names) < 2 {
		return false
	}
	slices.Sort(names)
	rowOf(text, names)
	for _, item := range list {
		cells := make([]string, len(names))
		for k, name := range names {
			cells[k], _ = simple(item.(map[string]any)[name])
		}
		rowOf(text, cells)
	}
	return true
}

// lists writes lists of equal length, each a column.
func lists(text *bytes.Buffer, v, units any) bool {
	columns, ok := v.(map[string]any)
	if !ok || len(columns) < 2 {
		return false
	}
	unitOf, _ := units.(map[string]any)
	var heads []string
	var all [][]any
	for _, name := range slices.Sorted(keysOf(columns)) {
		list, ok := columns[name].([]any)
		if !ok || len(all) > 0 && len(list) != len(all[0]) {
			return false
		}
		if u, _ := unitOf[name].(string); u != "" && u != "iso8601" {
			name += " (" + u + ")"
		}
		heads, all = append(heads, name), append(all, list)
	}
	rowOf(text, heads)
	for i := range all[0] {
		cells := make([]string, len(all))
		for k := range all {
			cells[k], _ = simple(all[k][i])
		}
		rowOf(text, cells)
	}
	return true
}

// rowOf writes a row, parted by tabs: decimal commas need no quotes then.
func rowOf(text *bytes.Buffer, cells []string) {
	for k, c := range cells {
		if k > 0 {
			text.WriteByte('\t')
		}
		text.WriteString(strings.Map(func(r rune) rune {
			if r == '\t' || r == '\n' || r == '\r' || r == '"' {
				return ' '
			}
			return r
		}, c))
	}
	text.WriteByte('\n')
}
