package forecast

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"strconv"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/deliver"
)

// KeptFile is the file in a garden's folder in which the program keeps the forecasts that it was
// given, to learn how they err: a line for each night of each, with the day on which it was given.
const KeptFile = "forecasts.csv"

const keptHeading = "issued,morning,tmin_c\n"

// errForeign is a file of the user's under that name.
var errForeign = fmt.Errorf("does not begin with the heading %s, as the file of kept forecasts does; wanted another name for it", strings.TrimSpace(keptHeading))

// foreign says whether a file begins as none of Keep's does, be it cut off in its heading.
func foreign(text []byte) bool {
	if first, _, whole := bytes.Cut(text, []byte("\n")); whole {
		return string(bytes.TrimSpace(first)) != strings.TrimSpace(keptHeading)
	}
	return !strings.HasPrefix(keptHeading, string(text))
}

// Kept is a night of an earlier forecast.
type Kept struct {
	Issued climate.Day // the evening on which it was given
	Night
}

// Issued is what was forecast for a morning so many nights ahead, 0 being the night to come, °C;
// NaN where nothing was kept. Of two forecasts of one evening the later counts.
func Issued(kept []Kept, morning climate.Day, lead int) float64 {
	for i := len(kept) - 1; i >= 0; i-- {
		if k := kept[i]; k.Morning == morning && int(k.Morning-k.Issued) == lead+1 {
			return k.Tmin
		}
	}
	return math.NaN()
}

// Keep adds a forecast to the file; when it returns without an error, it is on the disk. A line
// that a lost power supply cut off is ended first, and stays out of what ReadKept returns.
func Keep(path string, issued climate.Day, nights []Night) error {
	lock, err := deliver.Lock(path)
	if err != nil {
		return fmt.Errorf("%s: %w, so the forecast was not kept", path, err)
	}
	defer lock.Close()
	old, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("the forecast was not kept: %w", err)
	}
	if foreign(old) {
		return fmt.Errorf("%s: %w, so the forecast was not kept", path, errForeign)
	}
	var b bytes.Buffer
	switch {
	case !bytes.Contains(old, []byte("\n")): // new, or cut off in its heading
		b.WriteString(keptHeading[len(old):])
	case old[len(old)-1] != '\n':
		b.WriteString(cutOff)
	}
	for _, n := range nights {
		fmt.Fprintf(&b, "%v,%v,%s\n", issued, n.Morning, strconv.FormatFloat(math.Round(n.Tmin*100)/100, 'f', -1, 64))
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND|os.O_CREATE, 0o644)
	if err != nil {
		return fmt.Errorf("the forecast was not kept: %w", err)
	}
	_, err = f.Write(b.Bytes())
	if err := errors.Join(err, f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("the forecast may not be kept: %w", err)
	}
	return nil
}

// cutOff ends a line of which only a part was written.
const cutOff = ",cut off\n"

// ReadKept reads the file.
func ReadKept(r io.Reader, name string) ([]Kept, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if foreign(text) {
		return nil, fmt.Errorf("%s: %w", name, errForeign)
	}
	whole := text[:bytes.LastIndexByte(text, '\n')+1] // what is written after it is cut off
	lines := csv.NewReader(bytes.NewReader(whole))
	lines.FieldsPerRecord = -1
	var out []Kept
	for {
		c, err := lines.Read()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		line, _ := lines.FieldPos(0)
		if line == 1 || c[len(c)-1] == "cut off" {
			continue
		}
		if len(c) != 3 {
			return nil, fmt.Errorf("%s:%d: has %d cells; wanted 3: issued, morning and tmin_c", name, line, len(c))
		}
		var k Kept
		var errs [3]error
		k.Issued, errs[0] = climate.ParseDay(c[0])
		k.Morning, errs[1] = climate.ParseDay(c[1])
		k.Tmin, errs[2] = strconv.ParseFloat(c[2], 64)
		if err := errors.Join(errs[:]...); err != nil || !(k.Tmin >= lowest && k.Tmin <= highest) {
			return nil, fmt.Errorf("%s:%d: %q, %q, %q; wanted two dates such as 2026-05-16 and a temperature in °C", name, line, c[0], c[1], c[2])
		}
		out = append(out, k)
	}
}
