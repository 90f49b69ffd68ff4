//go:build long

package quality_test

import (
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"frostward/climate"
	"frostward/climate/quality"
)

// everyRecord reads all records that are on this machine.
func everyRecord(t *testing.T) map[string]climate.Series { return cleanOf(t, everyPath()) }

func everyRecordRaw(t *testing.T) map[string]climate.Series {
	out := map[string]climate.Series{}
	for n, p := range everyPath() {
		out[n] = read(t, p)
	}
	return out
}

func everyPath() map[string]string {
	paths := maps.Clone(shipped)
	maps.Copy(paths, shared)
	for _, glob := range []string{"bed/dwd-*.gz", "near/*.gz", "soil/*.gz"} {
		files, _ := filepath.Glob("../../../shared/data/" + glob)
		for _, f := range files {
			paths[strings.TrimSuffix(filepath.Base(f), ".csv.gz")] = f
		}
	}
	return paths
}

func TestQuestionsOnCleanRecords(t *testing.T) {
	years := 0.0
	count := map[string]int{}
	all := everyRecord(t)
	for _, name := range slices.Sorted(maps.Keys(all)) {
		s := all[name]
		years += float64(s.Len()) / 365.25
		for _, q := range quality.Ask(s) {
			count[q.Kind]++
			t.Log(name, q)
		}
	}
	t.Logf("%d records, %.0f years: %v", len(all), years, count)
}

func TestQuestionsFind(t *testing.T) {
	all := everyRecord(t)
	some := map[string]climate.Series{}
	for i, name := range slices.Sorted(maps.Keys(all)) {
		if i%3 == 0 {
			some[name] = all[name]
		}
	}
	was := kinds
	kinds = slices.DeleteFunc(slices.Clone(kinds), func(k kind) bool {
		return k.asked == 0 && !strings.HasPrefix(k.name, "sign") && !strings.HasPrefix(k.name, "div")
	})
	seed(t, some, 1)
	kinds = was
}
