package daily

import (
	"fmt"
	"sort"
)

// sink hands each row's table out by its station. Read takes one station; a stream of
// stations is handed on one by one as the key changes.
type sink struct {
	want    string // the station asked for; "" is the only one there
	current string
	started bool // current is set
	passed  bool // the last row asked about was passed over
	table   *table

	// each, when set, is given every station as it ends.
	each func(station string, t *table) bool
	done Together // stations ended
	err  error

	others map[string]bool // stations seen beside the one being read
	notes  []string
}

// maxNamed is the number of stations that a message names.
const maxNamed = 12

func newSink(name string, opts Options) *sink {
	return &sink{want: opts.Station, table: newTable(faultList{file: name, limit: opts.maxFaults()})}
}

// at returns the table for a row of a station, or nil for a row to pass over.
func (s *sink) at(id []byte) *table {
	s.passed = false
	if s.started && string(id) == s.current {
		return s.table
	}
	return s.change(string(id))
}

// again returns the table of the row above, for a row whose station is blank; ok is
// false where there is no row above.
func (s *sink) again() (t *table, ok bool) {
	if s.passed {
		return nil, true
	}
	return s.table, s.started
}

func (s *sink) change(id string) *table {
	if s.want != "" && id != "" && id != s.want || s.started && s.each == nil {
		s.other(id)
		s.passed = true
		return nil
	}
	if !s.started {
		s.started, s.current = true, id
		_ = s.done.Begin(id) // the first is no other's
		return s.table
	}
	s.end()
	if err := s.done.Begin(id); err != nil && s.err == nil {
		s.err = err
	}
	s.current = id
	return s.table
}

func (s *sink) other(id string) {
	if s.others == nil {
		s.others = map[string]bool{}
	}
	if len(s.others) < 1000 {
		s.others[id] = true
	}
}

// end hands the current station on and makes ready for the next.
func (s *sink) end() {
	if !s.started || s.err != nil {
		return
	}
	if !s.each(s.current, s.table) {
		s.err = errStopped
	}
	s.table.reset()
}

func (s *sink) note(text string) {
	for _, n := range s.notes {
		if n == text {
			return
		}
	}
	s.notes = append(s.notes, text)
}

// several returns the error for a file of several stations of which none was chosen,
// or of which the one chosen is not there.
func (s *sink) several() error {
	if len(s.others) == 0 || s.want != "" && s.started {
		return nil
	}
	var names []string
	if s.started {
		names = append(names, s.current)
	}
	for id := range s.others {
		names = append(names, id)
	}
	sort.Strings(names)
	if s.want != "" {
		return fmt.Errorf("has no station %q; it has %s", s.want, listed(names, maxNamed))
	}
	return fmt.Errorf("has several stations: %s; choose one (--station)", listed(names, maxNamed))
}
