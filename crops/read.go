package crops

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Line is one fact as it stands in a catalogue.
type Line struct {
	Crop, Class string // class "" holds for every class of the crop
	Key         string
	Text        string // the value as words: kind, plural, also, starts_from, caution
	Unit        string
	Fact               // Value is NaN for a text
	Own         bool   // from a grower's file
	Place       string // file:line
}

// Columns are the columns of a catalogue, by their names in its first row. They may
// stand in any order. A grower's file needs crop, key, value and unit only.
var Columns = []string{"crop", "class", "key", "value", "low", "high", "unit", "source", "note"}

const (
	maxBytes  = 8 << 20 // a catalogue is some 200 kB; more is another kind of file
	maxFaults = 20      // errors listed before the rest are only counted
	maxName   = 60      // letters in a crop's name or class
)

// read parses a catalogue. Lines that begin with # are comments. The separator is
// the comma, semicolon or tab of the first row; decimal commas are understood where
// the separator is not a comma. Every fault is reported, not just the first.
func read(r io.Reader, name string) ([]Line, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(b) > maxBytes {
		return nil, fmt.Errorf("%s: over %d MB; wanted a catalogue of crops", name, maxBytes>>20)
	}
	b = bytes.TrimPrefix(b, []byte("\ufeff"))
	if !utf8.Valid(b) || bytes.IndexByte(b, 0) >= 0 {
		return nil, fmt.Errorf("%s: not UTF-8 text; save it as CSV in UTF-8", name)
	}
	p := parser{file: name, comma: separator(b)}
	c := csv.NewReader(bytes.NewReader(b))
	c.Comma, c.Comment, c.FieldsPerRecord = p.comma, '#', -1
	seen := map[[3]string]string{}
	for {
		row, err := c.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			// The position in the message of encoding/csv is that of the fault.
			var pe *csv.ParseError
			if errors.As(err, &pe) {
				err = fmt.Errorf("%s:%d: %w", name, pe.Line, pe.Err)
			}
			p.faults = append(p.faults, err)
			break
		}
		n, _ := c.FieldPos(0)
		if p.at == nil {
			if err := p.header(row, n); err != nil {
				return nil, err
			}
			continue
		}
		l, ok := p.line(row, n)
		if !ok {
			continue
		}
		id := [3]string{fold(l.Crop), fold(l.Class), l.Key}
		if before, twice := seen[id]; twice {
			p.fault(n, "%s of %s is given before, at %s", l.Key, label(l.Crop, l.Class), before)
			continue
		}
		seen[id] = l.Place
		p.lines = append(p.lines, l)
	}
	if p.at == nil && len(p.faults) == 0 {
		return nil, fmt.Errorf("%s: empty; wanted a first row of column names: %s", name, strings.Join(Columns, ","))
	}
	return p.lines, joinFaults(p.faults)
}

// separator is the one of comma, semicolon and tab that the first row uses most.
func separator(b []byte) rune {
	for len(b) > 0 && (b[0] == '#' || b[0] == '\n' || b[0] == '\r') {
		i := bytes.IndexByte(b, '\n')
		if i < 0 {
			break
		}
		b = b[i+1:]
	}
	if i := bytes.IndexByte(b, '\n'); i >= 0 {
		b = b[:i]
	}
	best, most := ',', 0
	for _, s := range ",;\t" {
		if n := bytes.Count(b, []byte(string(s))); n > most {
			best, most = s, n
		}
	}
	return best
}

type parser struct {
	file   string
	comma  rune
	at     map[string]int // column by name
	lines  []Line
	faults []error
}

func (p *parser) fault(line int, format string, args ...any) {
	p.faults = append(p.faults, fmt.Errorf("%s:%d: "+format, append([]any{p.file, line}, args...)...))
}

func (p *parser) header(row []string, n int) error {
	at := map[string]int{}
	for i, h := range row {
		h = strings.ToLower(strings.TrimSpace(h))
		known := false
		for _, c := range Columns {
			known = known || c == h
		}
		if _, twice := at[h]; twice && h != "" {
			return fmt.Errorf("%s:%d: column %q stands twice", p.file, n, h)
		}
		if !known && h != "" {
			return fmt.Errorf("%s:%d: no column %q%s; wanted %s", p.file, n, h, meant(h, Columns), strings.Join(Columns, ", "))
		}
		at[h] = i
	}
	for _, c := range []string{"crop", "key", "value", "unit"} {
		if _, ok := at[c]; !ok {
			return fmt.Errorf("%s:%d: no column %q in the first row; wanted %s", p.file, n, c, strings.Join(Columns, ", "))
		}
	}
	p.at = at
	return nil
}

// line reads one row and reports whether it holds a sound fact.
func (p *parser) line(row []string, n int) (Line, bool) {
	get := func(col string) string {
		i, ok := p.at[col]
		if !ok || i >= len(row) {
			return ""
		}
		return tidy(row[i])
	}
	l := Line{Crop: get("crop"), Class: get("class"), Key: strings.ToLower(get("key")), Unit: get("unit"),
		Place: fmt.Sprintf("%s:%d", p.file, n)}
	l.Fact = Unknown()
	l.Source, l.Note = get("source"), get("note")
	if strings.Join(row, "") == "" {
		return l, false
	}
	before := len(p.faults)
	if len(row) > len(p.at) {
		p.fault(n, "%d fields in a table of %d columns; put words with a separator in them in quotes", len(row), len(p.at))
		return l, false
	}
	if l.Crop == "" {
		p.fault(n, "crop: empty; wanted a name such as \"courgette\"")
	}
	for _, s := range []string{l.Crop, l.Class} {
		if utf8.RuneCountInString(s) > maxName || strings.ContainsAny(s, ",") || strings.ContainsFunc(s, control) {
			p.fault(n, "%q is not a name for a crop; wanted up to %d letters and no comma", clip(s), maxName)
		}
	}
	i, ok := keyIndex[l.Key]
	if !ok {
		p.fault(n, "no fact is called %q%s; wanted one of %s", clip(l.Key), meant(l.Key, keyNames()), strings.Join(keyNames(), ", "))
		return l, false
	}
	k := keys[i]
	if l.Unit != k.Unit && !sameUnit(l.Unit, k.Unit) {
		p.fault(n, "unit: %q for %s; wanted %q", clip(l.Unit), k.Name, k.Unit)
	}
	l.Unit = k.Unit
	if k.Text {
		p.text(&l, k, get("value"), n)
	} else {
		p.number(&l, k, get, n)
	}
	return l, len(p.faults) == before
}

func (p *parser) text(l *Line, k Key, v string, n int) {
	if v == "" && k.Name != "caution" && k.Name != "also" {
		p.fault(n, "value: empty; wanted words for %s", k.Name)
	}
	if strings.ContainsFunc(v, control) || len(v) > 1000 {
		p.fault(n, "value: %q; wanted plain words", clip(v))
	}
	l.Text = v
	if k.Name == "kind" && !isKind(v) {
		p.fault(n, "value: kind %q%s; wanted one of %s", clip(v), meant(v, kindNames), strings.Join(kindNames, ", "))
	}
}

func (p *parser) number(l *Line, k Key, get func(string) string, n int) {
	for _, f := range []struct {
		col string
		to  *float64
	}{{"value", &l.Value}, {"low", &l.Low}, {"high", &l.High}} {
		s := get(f.col)
		if s == "" {
			if f.col == "value" {
				p.fault(n, "value: empty; wanted a number for %s", k.Name)
			}
			continue
		}
		v, err := strconv.ParseFloat(p.decimal(s), 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || strings.ContainsAny(s, "xXpP_") {
			p.fault(n, "%s: %q is not a number; wanted %s in %s", f.col, clip(s), k.Name, k.Unit)
			continue
		}
		if v < k.Min || v > k.Max {
			p.fault(n, "%s: %s of %s %s; wanted %g to %g", f.col, k.Name, clip(s), k.Unit, k.Min, k.Max)
			continue
		}
		*f.to = v
	}
	if l.Low > l.High || l.Value < l.Low || l.Value > l.High {
		p.fault(n, "%s: value %g lies outside its range, low %g to high %g", k.Name, l.Value, l.Low, l.High)
	}
}

// decimal puts a point for a decimal comma, and a hyphen for the minus sign.
func (p *parser) decimal(s string) string {
	if p.comma != ',' && strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	return strings.Replace(s, "−", "-", 1)
}

func joinFaults(faults []error) error {
	if len(faults) > maxFaults {
		more := len(faults) - maxFaults
		faults = append(faults[:maxFaults:maxFaults], fmt.Errorf("and %d more", more))
	}
	return errors.Join(faults...)
}

// tidy puts single spaces for any run of white space. Most cells have none to mend, and
// the built-in catalogue is read at every start.
func tidy(s string) string {
	space := true // at the start, a space would be one too many
	for i := 0; i < len(s); i++ {
		c := s[i]
		// 0x85, 0xa0 and 0xe1 to 0xe3 are found in the white space beyond ASCII.
		if c < ' ' || c == ' ' && space || c == 0x85 || c == 0xa0 || c >= 0xe1 && c <= 0xe3 {
			return strings.Join(strings.Fields(s), " ")
		}
		space = c == ' '
	}
	if space {
		return strings.TrimSpace(s)
	}
	return s
}

func control(r rune) bool { return r < ' ' || r == 0x7f }

// clip shortens foreign text for a message.
func clip(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

// sameUnit forgives spellings of the same unit, never another unit.
func sameUnit(got, want string) bool {
	tidy := strings.NewReplacer(" ", "", "-", "", "·", "", "deg", "°", "º", "°")
	g, w := tidy.Replace(strings.ToLower(got)), tidy.Replace(strings.ToLower(want))
	return g == w || "°"+g == w || g+"s" == w || "°"+g+"s" == w || (g == "h" && w == "hours")
}
