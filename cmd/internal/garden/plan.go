package garden

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"

	"github.com/agnivade/levenshtein"

	"frostward/climate"
)

// Row is a line of plan.csv as written: words and days of the year, not yet looked up.
type Row struct {
	File string
	Line int

	Name, Crop, Class, Spot, Bed, Cover, Follows string

	Sow, PlantOut Date
	Out, Picked   Date // when it really went out, and was cleared, as logged by the grower

	Metres       float64 // of bed, which a cover by the metre must reach over; 0 where not given
	Plants       int     // in the planting; 0 where not given
	OverlapWeeks float64 // weeks that it may grow between the last of the planting it follows

	Variety string // the grower's own word
	Own     string // what stands in columns of the grower's own: "seed from: a neighbour; row: 3"

	Reserve Reserve
}

// Date is a cell with a date: a day of the year (05-24) or a calendar day (2026-05-24).
// The zero Date is an empty cell.
type Date struct {
	Text string
	Year int // 0 where only the day of the year is given
	Day  climate.SeasonDay
}

// Given says whether the cell had a date.
func (d Date) Given() bool { return d.Text != "" }

// Place names the row in messages.
func (r Row) Place() string { return fmt.Sprintf("%s:%d", r.File, r.Line) }

var planColumns = []string{"name", "crop", "class", "variety", "spot", "bed", "sow", "plant_out", "cover", "follows", "overlap_weeks", "metres", "plants", "reserve", "out", "picked"}

// ReadPlan reads a plan. Columns may stand in any order; crop and one of sow and plant_out
// are needed. Bad rows are all reported at once.
func ReadPlan(r io.Reader, file string, c climate.Calendar) ([]Row, error) {
	b, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return nil, err
	}
	if len(b) > maxFile {
		return nil, fmt.Errorf("%s: is over %d bytes; wanted a plan of plantings", file, maxFile)
	}
	text := strings.TrimPrefix(string(b), "\ufeff")
	in := csv.NewReader(strings.NewReader(text))
	in.Comma, in.Comment = separator(text), '#'
	in.FieldsPerRecord = -1
	head, err := in.Read()
	if err == io.EOF {
		return nil, fmt.Errorf("%s:1: is empty; wanted a heading: %s", file, strings.Join(planColumns, ","))
	}
	if err != nil {
		return nil, csvError(file, err)
	}
	headLine, _ := in.FieldPos(0)
	at := map[string]int{}
	for i, h := range head {
		h = columnName(h)
		head[i] = h
		if len(h) > maxCell {
			return nil, fmt.Errorf("%s:%d: a heading of %d bytes; wanted some of %s", file, headLine, len(h), strings.Join(planColumns, ", "))
		}
		if meant := meantColumn(h); meant != "" {
			return nil, fmt.Errorf("%s:%d: column %q is not known; did you mean %s? A column of your own needs a name less like those: %s", file, headLine, h, meant, strings.Join(planColumns, ", "))
		}
		if _, twice := at[h]; twice && h != "" {
			return nil, fmt.Errorf("%s:%d: column %q stands twice", file, headLine, h)
		}
		at[h] = i
	}
	if _, ok := at["crop"]; !ok {
		return nil, fmt.Errorf("%s:%d: there is no column crop; wanted crop, and sow or plant_out", file, headLine)
	}
	var rows []Row
	bad := faults{file: file}
	for {
		rec, err := in.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			bad.add(csvError(file, err))
			if !errors.As(err, new(*csv.ParseError)) {
				break
			}
			continue
		}
		line, _ := in.FieldPos(0)
		if strings.TrimSpace(strings.Join(rec, "")) == "" {
			continue
		}
		row, err := planRow(rec, head, at, c)
		row.File, row.Line = file, line
		if err != nil {
			bad.add(fmt.Errorf("%s:%d: %w", file, line, err))
			continue
		}
		rows = append(rows, row)
	}
	return rows, bad.all()
}

// columnName is a heading as the program knows it: "Plant out" is plant_out. One of the grower's own stays as written.
func columnName(h string) string {
	h = strings.TrimSpace(h)
	if known := strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(h)); contains(planColumns, known) {
		return known
	}
	return h
}

// meantColumn is the plan's column that a heading looks like a slip of, "" where it is one or is far from all.
func meantColumn(h string) string {
	if h == "" || contains(planColumns, h) {
		return ""
	}
	for _, c := range planColumns {
		slip := 1
		if len(c) > 5 {
			slip = 2
		}
		if levenshtein.ComputeDistance(strings.ToLower(h), c) <= slip {
			return c
		}
	}
	return ""
}

// faults are the bad rows of a plan: the first of them, and how many there are.
type faults struct {
	file  string
	first []error
	n     int
}

const maxFaults = 20

func (f *faults) add(err error) {
	if f.n++; f.n <= maxFaults {
		f.first = append(f.first, err)
	}
}

func (f *faults) all() error {
	if f.n > maxFaults {
		return errors.Join(append(f.first, fmt.Errorf("%s: and %d more rows that cannot be used", f.file, f.n-maxFaults))...)
	}
	return errors.Join(f.first...)
}

func planRow(rec, head []string, at map[string]int, c climate.Calendar) (r Row, err error) {
	cell := func(col string) string {
		if i, ok := at[col]; ok && i < len(rec) {
			return strings.TrimSpace(rec[i])
		}
		return ""
	}
	if len(rec) > len(head) {
		return r, fmt.Errorf("%d cells; the heading has %d", len(rec), len(head))
	}
	for _, s := range rec {
		if len(s) > maxCell {
			return r, fmt.Errorf("a cell of %d bytes; wanted at most %d", len(s), maxCell)
		}
		if strings.ContainsFunc(strings.TrimSpace(s), unicode.IsControl) {
			return r, fmt.Errorf("%q has a line break or another control character; wanted plain words", s)
		}
	}
	date := func(col string) (d Date) {
		if err == nil {
			if d, err = parseDate(cell(col), c); err != nil {
				err = fmt.Errorf("%s: %w", col, err)
			}
		}
		return d
	}
	r = Row{Name: cell("name"), Crop: cell("crop"), Class: cell("class"), Variety: cell("variety"), Spot: cell("spot"), Bed: cell("bed"),
		Cover: cell("cover"), Follows: cell("follows"),
		OverlapWeeks: amount("overlap_weeks", cell("overlap_weeks"), "weeks", maxOverlap, &err),
		Metres:       amount("metres", cell("metres"), "metres", maxMetres, &err),
		Plants:       int(amount("plants", cell("plants"), "plants", maxPlants, &err)),
		Sow:          date("sow"), PlantOut: date("plant_out"), Out: date("out"), Picked: date("picked")}
	if n := cell("plants"); err == nil && n != "" && !wholeNumber(n) {
		err = fmt.Errorf("plants: %q is not a whole number of plants", n)
	}
	var own []string
	for i, h := range head {
		if at[h] == i && i < len(rec) && h != "" && strings.TrimSpace(rec[i]) != "" && !contains(planColumns, h) {
			own = append(own, h+": "+strings.TrimSpace(rec[i]))
		}
	}
	r.Own = strings.Join(own, "; ")
	if err == nil {
		r.Reserve, err = parseReserve(cell("reserve"), c)
	}
	switch {
	case err != nil:
	case r.Reserve.Plants > 0 && !r.PlantOut.Given():
		err = errors.New("reserve: spare plants are held back from raised plants, but plant_out is empty; wanted \"again 21 days later\" for a sowing")
	case r.Crop == "":
		err = errors.New("crop: is empty; wanted a crop's name")
	case !r.Sow.Given() && !r.PlantOut.Given():
		err = errors.New("sow and plant_out are both empty; wanted sow for a sowing in place, plant_out for raised plants")
	case r.OverlapWeeks > 0 && r.Follows == "":
		err = fmt.Errorf("overlap_weeks: %v weeks, but follows is empty; wanted the name of the planting it grows through", r.OverlapWeeks)
	}
	return r, err
}

// maxCell is the longest cell that a plan may have, in bytes: a name, not a letter.
const maxCell = 500

// maxOverlap is the longest that two plantings may share a bed, in weeks: more is no handover.
const maxOverlap = 26

// maxMetres is the longest planting, in metres of bed.
const maxMetres = 10000

// amount reads a number of something, 0 to most.
func amount(col, s, of string, most float64, err *error) float64 {
	if s == "" {
		return 0
	}
	v, e := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if e != nil || !(v >= 0 && v <= most) {
		*err = fmt.Errorf("%s: %q is not a number of %s; wanted 0 to %v", col, s, of, most)
		return 0
	}
	return v
}

func wholeNumber(s string) bool { _, err := strconv.Atoi(s); return err == nil }

func parseDate(s string, c climate.Calendar) (Date, error) {
	if s == "" {
		return Date{}, nil
	}
	w, err := climate.ReadDate(s)
	if err != nil {
		return Date{}, err
	}
	if w.Year == 0 {
		return Date{Text: s, Day: c.Of(w.Month, w.Day)}, nil
	}
	season, sd := c.Locate(climate.NewDay(w.Year, w.Month, w.Day))
	return Date{Text: s, Year: season, Day: sd}, nil
}

// separator looks at the heading: a semicolon or tab there parts the cells, else a comma.
func separator(text string) rune {
	head, rest, more := strings.Cut(text, "\n")
	for more && (strings.HasPrefix(head, "#") || strings.TrimSpace(head) == "") {
		head, rest, more = strings.Cut(rest, "\n")
	}
	for _, sep := range "\t;" {
		if strings.ContainsRune(head, sep) {
			return sep
		}
	}
	return ','
}

func csvError(file string, err error) error {
	var p *csv.ParseError
	if errors.As(err, &p) {
		return fmt.Errorf("%s:%d: %w; wanted a line of cells as in the heading", file, p.Line, p.Err)
	}
	return fmt.Errorf("%s: %w", file, err)
}

func contains(list []string, s string) bool {
	for _, v := range list {
		if v == s {
			return true
		}
	}
	return false
}
