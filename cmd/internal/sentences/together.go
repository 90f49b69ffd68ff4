package sentences

import (
	"fmt"

	"frostward/climate"
	"frostward/cmd/internal/words"
	"frostward/risk"
)

// Together says how many of a garden's plantings fail in the same years, which do so together, and which night of the
// record killed the most; labels name them.
func Together(t risk.Together, labels []string, night climate.Day, took []string) (said []string) {
	if t.Fail.Known && t.Fail.Value >= 1 {
		said = append(said, fmt.Sprintf("In a bad year (1 in 10) %.0f or more of %d fail.", t.Fail.Value, len(labels)))
	}
	if t.PairFails.Known && t.PairFails.Share > 0 {
		said = append(said, fmt.Sprintf("Most often together fail %s: both in %s.", words.List([]string{labels[t.Pair[0]], labels[t.Pair[1]]}), words.InYears(t.PairFails.Share)))
	}
	if len(took) > 0 {
		said = append(said, fmt.Sprintf("The night of the record that would have killed the most was that to %s: %s.", words.Date(night), words.List(took)))
	}
	return said
}
