package garden

import (
	"errors"
	"fmt"
	"reflect"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/token"
)

// yamlFault words an error of the yaml library with its line, what stood there and what was wanted;
// where the library's own words name Go's types, in ours.
func yamlFault(where string, err error) error {
	var unlike *yaml.TypeError
	var large *yaml.OverflowError
	var node *yaml.UnexpectedNodeTypeError
	switch {
	case errors.As(err, &unlike):
		return at(where, unlike.Token, wantedOf(unlike.DstType))
	case errors.As(err, &large):
		return at(where, large.Token, "a number that is not so large")
	case errors.As(err, &node):
		return at(where, node.Token, map[string]string{"sequence": "a list: lines that begin with a hyphen, or [a, b]", "mapping": "lines of name: value"}[node.Expected.YAMLName()])
	}
	return fmt.Errorf("%s: %s", where, yaml.FormatError(err, false, true))
}

// at is a fault at the line of a value, after its name where there is one.
func at(where string, t *token.Token, wanted string) error {
	if t == nil {
		return fmt.Errorf("%s: wanted %s", where, wanted)
	}
	name := ""
	if sep := t.Prev; sep != nil && sep.Type == token.MappingValueType && sep.Prev != nil {
		name = sep.Prev.Value + ": "
	}
	if wanted == "" {
		wanted = "another kind of value"
	}
	stands := fmt.Sprintf("%q", t.Value)
	switch t.Type {
	case token.SequenceStartType, token.SequenceEntryType:
		stands = "a list"
	case token.MappingStartType:
		stands = "lines of name: value"
	}
	return fmt.Errorf("%s:%d: %s%s; wanted %s", where, t.Position.Line, name, stands, wanted)
}

// wantedOf says what a value of a type is written as.
func wantedOf(t reflect.Type) string {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch t.Kind() {
	case reflect.Float64, reflect.Float32:
		return "a number, such as 53.6"
	case reflect.Int, reflect.Int64, reflect.Uint64:
		return "a whole number"
	case reflect.Bool:
		return "true or false"
	case reflect.String:
		return "words"
	case reflect.Slice:
		return "a list: lines that begin with a hyphen, or [a, b]"
	}
	return "lines of name: value"
}
