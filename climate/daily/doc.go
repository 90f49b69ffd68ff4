// Package daily reads weather files: a station's minimum and maximum temperature,
// day by day. It is the only reader of them. It opens nothing: callers pass a reader.
//
// # What it reads
//
// The format is found from the content, never from the name. Each may be compressed
// with gzip or zstd, and may be UTF-8 (with or without a byte order mark), UTF-16 with
// a mark, or Latin-1, with any kind of line ending.
//
//   - A delimited table with a header: comma, semicolon, tab or bar; columns in any
//     order, known by their names (date or year, month and day or day of the year;
//     tmin and tmax and the usual spellings); a decimal point, or a decimal comma
//     where the comma does not part the columns. Lines above the header are skipped.
//   - GHCN-Daily "access" CSV, the same with tenths of °C and a column of flags beside
//     each element; the second flag is the quality flag.
//   - GHCN-Daily .dly, fixed width, a line a month and element.
//   - GHCN-Daily by-year CSV, without a header: station, date, element, value, three
//     flags, time.
//   - KNMI daily text: a comment, a header, tenths of °C. Options.Tmin = "T10N" takes
//     the minimum at 10 cm in place of the screen's.
//   - Columns parted by blanks, with text above or below that names them.
//   - Year, day and 12 months: each line has a year, a day of the month and that day's
//     value in each month, in tenths of °C. See months.go for minimum and maximum.
//
// Read takes one station, and Stations goes through a file of many, one after the other.
//
//   - Tables of archives listed in layouts.go, whose units and quality codes are honoured.
//   - JSON and spreadsheets (.xlsx), made tables of text first.
//   - Readings within the day, 5-minute to hourly, of which days are made (readings.go).
//   - One element a file; ReadFiles joins files into one record.
//
// # Units
//
// The units are those that the user, the header, the layout or the text around the table states, unless the values
// make nonsense of them; else those that the values leave no doubt of (infer.go says when). Otherwise the error asks
// for them: a wrong guess would be a wrong frost date without a warning. Likewise dates, days stamped in UTC and
// which element a column holds.
//
// # What it does with faults
//
// A value that cannot be read is a Fault with file and line. It costs its day, never
// the run. A day given twice with the same values is taken once; with different values
// it is a fault and neither is used. A missing code such as -9999 or -99.9 is a missing
// value, and so is a GHCN value with a quality flag; both are counted. Values are not
// judged here: 70 °C is read, and left to package quality.
package daily
