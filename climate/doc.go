// Package climate holds what the rest of the program means by weather: calendar
// days, daily series of minimum and maximum temperature, seasons, and ensembles
// of seasons, and the frost dates, warmth and light read from them.
//
// Temperatures are in °C and a missing one is NaN. Units are converted once, where
// a file is read. Nothing here opens a file, reads the clock, prints, or knows of
// plants.
//
// Subpackages: daily reads weather files, quality finds doubtful values, stat has
// the statistics on plain numbers, generator makes seasons that might have been,
// site takes a station's temperatures to a spot in the garden.
package climate
