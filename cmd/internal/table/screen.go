package table

import (
	"io"
	"sync"
	"unicode"
	"unicode/utf8"
)

// Screen is where a program writes what may stand on a terminal: no control character passes it, and
// nothing that turns the reading direction, whoever wrote it and by whatever way it came. Line ends
// and tabs pass; the rest becomes U+FFFD. Only a table's own colours go past it, whose cells are
// safe already.
type Screen struct {
	mu   sync.Mutex
	w    io.Writer
	rest []byte // the beginning of a character, or of a line end, that is not over
}

// NewScreen returns a Screen that writes to w.
func NewScreen(w io.Writer) *Screen { return &Screen{w: w} }

// Write writes p without what must not pass.
func (s *Screen) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	text := p
	if len(s.rest) > 0 {
		text = append(s.rest, p...)
		s.rest = nil
	}
	clean := true
	for _, b := range text {
		clean = clean && plainByte(b)
	}
	if !clean {
		text = s.passed(text)
	}
	_, err := s.w.Write(text)
	return len(p), err
}

// passed is what of a text passes, but for an unfinished end, which is kept.
func (s *Screen) passed(text []byte) []byte {
	out := make([]byte, 0, len(text)+16)
	for len(text) > 0 {
		if !utf8.FullRune(text) || len(text) == 1 && text[0] == '\r' {
			s.rest = text
			break
		}
		r, n := utf8.DecodeRune(text)
		if passes(r, n) || r == '\r' && text[1] == '\n' {
			out = append(out, text[:n]...)
		} else {
			out = utf8.AppendRune(out, unicode.ReplacementChar)
		}
		text = text[n:]
	}
	s.rest = append([]byte(nil), s.rest...) // the caller's memory is its own
	return out
}

// Flush writes what was left unfinished, at the end.
func (s *Screen) Flush() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.rest) == 0 {
		return nil
	}
	s.rest = nil
	_, err := io.WriteString(s.w, string(unicode.ReplacementChar))
	return err
}

func plainByte(b byte) bool { return b >= ' ' && b < 0x7f || b == '\n' || b == '\t' }

// passes says whether a character of n bytes may stand on a terminal.
func passes(r rune, n int) bool {
	if r == utf8.RuneError && n == 1 {
		return false
	}
	return r == '\n' || r == '\t' || !unicode.IsControl(r) && !turnsText(r)
}
