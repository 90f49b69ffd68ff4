package generator

// Options are the few numbers of the model that are not fitted to the record.
type Options struct {
	MeanHarmonics   int     // of the mean's course through the year
	SpreadHarmonics int     // of the spread's
	Block           int     // days resampled in one piece, on average
	Shift           int     // days by which a piece may be moved in the year, either way
	LevelMemory     float64 // seasons after which a past season's weight in the level has fallen to 1/e
	ShapeMemory     float64 // the same for the seasonal shape of the level
	SmoothYears     float64 // width of the smoothing that parts slow change from swings
}

// DefaultOptions are the values in use.
var DefaultOptions = Options{
	MeanHarmonics:   3,
	SpreadHarmonics: 2,
	Block:           30,
	Shift:           21,
	LevelMemory:     10,
	ShapeMemory:     30,
	SmoothYears:     10,
}
