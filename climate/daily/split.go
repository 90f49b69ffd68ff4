package daily

import "bytes"

// splitter cuts a line into fields. A field may be quoted as in RFC 4180, with a
// doubled quote inside for a quote; it may not hold a line end. Blanks around a field
// are dropped, inside the quotes too: archives pad their numbers there.
type splitter struct {
	sep    byte
	blanks bool     // any run of blanks separates; there are no quotes
	raw    bool     // blanks are kept
	loose  bool     // the fields beyond those kept are not counted
	fields [][]byte // reused
	spare  []byte   // for fields with doubled quotes
}

// split fills fields with at most keep of them and returns how many the line has, empty
// ones at its end not counted beyond keep. It is false for a quote left open.
func (s *splitter) split(line []byte, keep int) (n int, ok bool) {
	s.fields, s.spare = s.fields[:0], s.spare[:0]
	if s.blanks {
		return s.words(line, keep), true
	}
	for {
		var field []byte
		if i := skipBlanks(line, s.sep); i < len(line) && line[i] == '"' {
			if field, line, ok = s.quoted(line[i+1:]); !ok {
				return n, false
			}
		} else if i := bytes.IndexByte(line, s.sep); i >= 0 {
			field, line = line[:i], line[i:]
		} else {
			field, line = line, nil
		}
		n++
		if !s.raw {
			field = trim(field)
		}
		s.fields = append(s.fields, field)
		if len(line) == 0 {
			return n, true
		}
		line = line[1:] // the separator
		if n == keep && s.loose {
			return n, true
		}
		if n == keep {
			return n + s.count(line), true
		}
	}
}

// count returns the number of fields in the rest of a line, empty ones at its end left
// out. It knows quotes from text by their number alone.
func (s *splitter) count(b []byte) int {
	for len(b) > 0 && (b[len(b)-1] == s.sep || b[len(b)-1] == ' ') {
		b = b[:len(b)-1]
	}
	if len(b) == 0 {
		return 0
	}
	n := 1
	for {
		i := bytes.IndexByte(b, '"')
		if i < 0 {
			return n + bytes.Count(b, []byte{s.sep})
		}
		n += bytes.Count(b[:i], []byte{s.sep})
		j := bytes.IndexByte(b[i+1:], '"')
		if j < 0 {
			return n
		}
		b = b[i+1+j+1:]
	}
}

// trim drops blanks at both ends.
func trim(b []byte) []byte {
	for len(b) > 0 && isSpace(b[0]) {
		b = b[1:]
	}
	for len(b) > 0 && isSpace(b[len(b)-1]) {
		b = b[:len(b)-1]
	}
	return b
}

func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\v' || c == '\f' }

// words splits at blanks and tabs.
func (s *splitter) words(line []byte, keep int) (n int) {
	for i := 0; i < len(line); n++ {
		for i < len(line) && (line[i] == ' ' || line[i] == '\t') {
			i++
		}
		from := i
		for i < len(line) && line[i] != ' ' && line[i] != '\t' {
			i++
		}
		if i == from {
			return n
		}
		if len(s.fields) < keep {
			s.fields = append(s.fields, line[from:i])
		}
	}
	return n
}

func skipBlanks(b []byte, sep byte) int {
	i := 0
	for i < len(b) && (b[i] == ' ' || b[i] == '\t' && sep != '\t') {
		i++
	}
	return i
}

// quoted reads up to the closing quote; rest begins with the separator or is empty.
func (s *splitter) quoted(b []byte) (field, rest []byte, ok bool) {
	i := bytes.IndexByte(b, '"')
	if i < 0 {
		return nil, nil, false
	}
	field, rest = b[:i], b[i+1:]
	for len(rest) > 0 && rest[0] == '"' { // doubled: rare, so copied
		from := len(s.spare)
		s.spare = append(append(s.spare, field...), '"')
		j := bytes.IndexByte(rest[1:], '"')
		if j < 0 {
			return nil, nil, false
		}
		s.spare = append(s.spare, rest[1:1+j]...)
		field, rest = s.spare[from:], rest[2+j:]
	}
	rest = rest[skipBlanks(rest, s.sep):]
	if len(rest) > 0 && rest[0] != s.sep {
		return nil, nil, false
	}
	return field, rest, true
}

// splitAll cuts a line into strings, for headers.
func splitAll(line []byte, sep byte) []string {
	s := splitter{sep: sep}
	if _, ok := s.split(line, 1<<20); !ok {
		return nil
	}
	names := make([]string, len(s.fields))
	for i, f := range s.fields {
		names[i] = string(f)
	}
	return names
}
