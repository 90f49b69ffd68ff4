package daily

import (
	"math"

	"frostward/climate"
)

// Format is the layout of a file, in words.
type Format string

// The formats.
const (
	Delimited Format = "table with a header"
	Access    Format = "GHCN-Daily access CSV"
	DLY       Format = "GHCN-Daily .dly"
	ByYear    Format = "GHCN-Daily by-year CSV"
	KNMI      Format = "KNMI daily text"
	Columns   Format = "columns parted by blanks"
	Hourly    Format = "readings within the day"
	Months    Format = "year, day and 12 months"
)

// Report says what was read, and what was not.
type Report struct {
	Name        string // of the file, as the caller gave it
	Format      Format
	Compression string // "gzip", "zstd" or ""

	Station     string  // "" where the file does not say
	StationName string  // likewise
	Latitude    float64 // degrees, south negative; NaN where the file does not say
	Longitude   float64 // degrees, west negative; NaN likewise
	Elevation   float64 // metres; NaN likewise

	Units     Units  // of the file
	UnitsFrom string // "format", "header", "text", "option", "values" or "other files"
	TminName  string // the column taken as minimum, as the file has it; "" for none
	TmaxName  string // the column taken as maximum

	Readings   []int  // a day, from First on, where days were made of readings within them; else nil
	DayEnds    string // how such a day is cut out, in words
	Incomplete int    // days left out since their readings do not cover them
	Shifted    int    // days by which all dates were moved, as their stamps were in UTC

	Rows        int         // rows of data, faulty ones included
	Days        int         // days with at least one temperature
	First, Last climate.Day // the first and last of these
	MissingTmin int         // days from First to Last without a minimum
	MissingTmax int         // days from First to Last without a maximum

	Coded    int // values given by a missing code such as -9999, and left out
	Flagged  int // values left out for a GHCN quality flag
	Repeated int // rows for a day already given
	Unsorted int // rows for a day before the row above

	Files   []Report // of each file, where the record was joined from several
	Overlap int      // values that two of the files have
	Differ  int      // of them, those that differ, and were left out

	FaultCount int     // all faults
	Faults     []Fault // the first of them, in the order of the file
	Notes      []string
}

func newReport(name string) Report {
	nan := math.NaN()
	return Report{Name: name, Latitude: nan, Longitude: nan, Elevation: nan}
}
