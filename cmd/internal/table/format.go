package table

import "fmt"

// Format is a form of output that commands offer with --format.
type Format int

// The formats. JSON is encoded by the commands.
const (
	TextFormat Format = iota
	Markdown
	CSV
	JSON
)

var formatNames = [...]string{"table", "markdown", "csv", "json"}

// FormatNames returns the names that parseFormat knows.
func FormatNames() []string { return formatNames[:] }

func (f Format) String() string { return formatNames[f] }

// parseFormat reads the name of a format.
func parseFormat(s string) (Format, error) {
	for i, name := range formatNames {
		if s == name {
			return Format(i), nil
		}
	}
	return 0, fmt.Errorf("%q is not a format; wanted table, markdown, csv or json", s)
}

// Set and Type, with String, make *Format a flag value.
func (f *Format) Set(s string) (err error) {
	v, err := parseFormat(s)
	if err == nil {
		*f = v
	}
	return err
}

// Type names the value in a command's help.
func (f *Format) Type() string { return "format" }
