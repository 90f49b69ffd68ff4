package daily

import "fmt"

// Together sees to it that the rows of each station of a file stand together. It remembers
// the first manyStations; those after them must come in order, which takes no memory.
type Together struct {
	seen    map[string]bool
	highest string
}

const manyStations = 10_000

// Begin notes that the rows of a station begin, and returns an error if they did before, or may have.
func (t *Together) Begin(id string) error {
	switch {
	case id > t.highest || t.highest == "" && len(t.seen) == 0:
		t.highest = id
	case t.seen[id]:
		return fmt.Errorf("comes back to station %q after others; wanted each station's rows together, so sort by station", id)
	case len(t.seen) >= manyStations:
		return fmt.Errorf("station %q is out of order; wanted the stations of a file of more than %d in order of their names, so sort by station", id, manyStations)
	}
	if len(t.seen) < manyStations {
		if t.seen == nil {
			t.seen = map[string]bool{}
		}
		t.seen[id] = true
	}
	return nil
}
