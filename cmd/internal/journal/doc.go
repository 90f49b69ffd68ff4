// Package journal keeps the garden log: log.csv, one line a reading, which the grower
// may also edit in a spreadsheet or a text editor.
//
// # The file
//
// A heading, then lines of cells. The columns may stand in any order; date and spot
// are needed, the others are optional, and columns with other names are kept as they
// are:
//
//	date          the morning, year-month-day: the day the night ended in
//	spot          a spot of garden.yaml
//	tmin_c        the morning minimum at plant height, °C
//	evening_c     temperature two hours after the sunset before, °C
//	dew_point_c   dew point then, °C; or
//	humidity_pct  relative humidity then, per cent
//	cloud         through the night: clear, little, broken, overcast
//	wind          likewise: calm, light, moderate, brisk
//	forecast_c    the forecast minimum for the station, °C
//	covered       the cover the thermometer and plants were under; empty or "no": none
//	damage        damage seen, in words; "none" when looked for and not found
//	note          anything
//
// Cells are parted by a comma, a semicolon or a tab, whichever the heading has; in a
// file with semicolons or tabs a decimal comma is read too. A byte order mark, either
// line ending and quoted cells, also over several lines, are read, and what is added
// follows the file's own custom.
//
// # Corrections
//
// Nothing that stands in the file is ever changed. A correction is a new line with the
// same date and spot: its filled cells take the place of the earlier ones, its empty
// cells leave them, and a hyphen empties a cell. So an evening's line and the
// morning's may also come one after the other.
//
// When a value has a column that the heading lacks, a second heading is added, which
// is the first with the new column at its end, and holds from there on. The lines
// above keep their meaning, and cells keep their columns in a spreadsheet.
//
// # Durability
//
// Append returns only after the line has been written in one write and synced, with
// the folder synced too where the file is new. A lock file beside the log keeps two
// writers of this program apart. If the process is killed, the power fails or the disk
// is full in the middle, the line is cut off. A cut-off line has no line end, and has
// fewer cells than its heading or a quote left open, because this program quotes the
// last cell (and writes a double quote in words as a single one); the reader reports it and does not use it, and the next Append ends it
// with " <cut off>", by which it stays known. Append begins on a fresh line.
package journal
