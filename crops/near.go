package crops

import (
	"fmt"
	"sort"
	"strings"

	"github.com/agnivade/levenshtein"
)

// near returns the words closest to s in spelling, all equally close, at most n and
// none that has little to do with it.
func near(s string, words []string, n int) []string {
	s = strings.ToLower(s)
	if s == "" || len(s) > 4*maxName {
		return nil
	}
	type hit struct {
		word string
		far  int
	}
	var hits []hit
	for _, w := range words {
		lw := strings.ToLower(w)
		far := levenshtein.ComputeDistance(s, lw)
		if len(s) >= 3 && (strings.Contains(lw, s) || strings.HasPrefix(s, lw) && len(lw) >= 3) {
			far = min(far, 1)
		}
		if far <= 1+len([]rune(s))/4 {
			hits = append(hits, hit{w, far})
		}
	}
	sort.SliceStable(hits, func(i, j int) bool { return hits[i].far < hits[j].far })
	var out []string
	for _, h := range hits {
		if len(out) < n && h.far == hits[0].far {
			out = append(out, h.word)
		}
	}
	return out
}

// meant returns ` (did you mean "x"?)`, or "" where nothing is near.
func meant(s string, words []string) string {
	if m := near(s, words, 1); len(m) > 0 {
		return fmt.Sprintf(" (did you mean %q?)", m[0])
	}
	return ""
}
