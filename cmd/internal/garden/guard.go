package garden

import (
	"bytes"
	"fmt"

	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/token"
)

// What a settings file may be. The yaml library takes time and memory with the square of how
// deep things are nested (64 KB of brackets took it 4 GB, of dashes 14 s), and aliases multiply,
// so a file is looked at as a row of tokens, which is cheap, before it is read.
const (
	maxSettings = 64 << 10 // bytes
	maxLine     = 1000     // bytes
	maxNested   = 6        // brackets within brackets, and dashes in one line
)

// guard refuses a settings file that could cost more than it is worth; where names it.
func guard(b []byte, where string) error {
	if len(b) > maxSettings {
		return fmt.Errorf("%s: is over %d bytes long; wanted a settings file", where, maxSettings)
	}
	n := 0
	for line := range bytes.Lines(b) {
		n++
		if len(line) > maxLine {
			return fmt.Errorf("%s:%d: is %d bytes long; wanted at most %d", where, n, len(line), maxLine)
		}
	}
	open, dashes, at := 0, 0, 0
	for _, t := range lexer.Tokenize(string(b)) {
		if t.Position.Line != at {
			at, dashes = t.Position.Line, 0
		}
		switch t.Type {
		case token.AnchorType, token.AliasType, token.MergeKeyType:
			return fmt.Errorf("%s:%d: has an anchor, an alias or a merge (&, *, <<), which are not taken here; wanted the value itself", where, at)
		case token.MappingKeyType, token.TagType, token.DirectiveType:
			return fmt.Errorf("%s:%d: has a %q, which is not taken here; wanted lines such as latitude: 53.6", where, at, t.Value)
		case token.NanType, token.InfinityType:
			return fmt.Errorf("%s:%d: %q; wanted a number, such as 53.6", where, at, t.Value)
		case token.SequenceStartType, token.MappingStartType:
			open++
		case token.SequenceEndType, token.MappingEndType:
			open--
		case token.SequenceEntryType:
			dashes++
		}
		if open > maxNested || dashes > maxNested {
			return fmt.Errorf("%s:%d: is nested more than %d deep; wanted settings as \"frostward start\" writes them", where, at, maxNested)
		}
	}
	return nil
}
