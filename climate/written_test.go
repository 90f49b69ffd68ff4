package climate

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Dates as people and spreadsheets write them; by hand.
func TestReadDate(t *testing.T) {
	for text, want := range map[string]Written{
		"2026-05-28": {2026, time.May, 28}, "05-28": {0, time.May, 28}, "28 May": {0, time.May, 28}, "28-May": {0, time.May, 28},
		"28 may 2026": {2026, time.May, 28}, "28th May": {0, time.May, 28}, "May 28": {0, time.May, 28}, "28 Sept": {0, time.September, 28},
		"28/05": {0, time.May, 28}, "28/05/2026": {2026, time.May, 28}, "05/28/2026": {2026, time.May, 28}, "28.5.": {0, time.May, 28},
		"6.5.2026": {2026, time.May, 6}, " 7/7 ": {0, time.July, 7}, "29 Feb": {0, time.February, 29}, "1 June": {0, time.June, 1},
	} {
		got, err := ReadDate(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for text, want := range map[string]string{
		"05/06":       `"05/06" could be 5 June or 6 May; wanted it as 06-05 or 05-06`,
		"5/6/2026":    `"5/6/2026" could be 5 June 2026 or 6 May 2026; wanted it as 2026-06-05 or 2026-05-06`,
		"29 Feb 2025": `"29 Feb 2025" is not a date; wanted`,
		"31-12":       `"31-12" is not a date`,
		"28/05/26":    `"28/05/26" is not a date`,
		"28 Floreal":  `is not a date`, "": `"" is not a date`, "32 May": "is not a date", "0000-05-24": "is not a date", "24 May 0000": "is not a date", "0/5": "is not a date",
	} {
		_, err := ReadDate(text)
		assert.ErrorContains(t, err, want, text)
	}
	_, err := ReadDay("28 May")
	assert.ErrorContains(t, err, `"28 May" has no year`)
	_, err = Calendar{}.Parse("28 May 2026")
	assert.ErrorContains(t, err, `"28 May 2026" has a year`)
	_, err = Calendar{}.Parse("05/06")
	assert.ErrorContains(t, err, "could be 5 June or 6 May")
}

// Every day is read back from each way of writing it.
func TestReadDateBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := NewDay(2000, 1, 1) + Day(rapid.IntRange(0, 20_000).Draw(t, "day"))
		y, m, day := d.Date()
		at := time.Date(y, m, day, 0, 0, 0, 0, time.UTC)
		for _, layout := range []string{time.DateOnly, "2 Jan 2006", "2-Jan-2006", "2 January 2006", "2.1.2006", "January 2, 2006"} {
			got, err := ReadDay(at.Format(layout))
			if err != nil || got != d {
				t.Fatalf("%q: %v, %v", at.Format(layout), got, err)
			}
		}
	})
}
