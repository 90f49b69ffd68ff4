// Command frostward shows a grower in a cool climate when tender crops may go out, whether
// they want covering tonight, and whether they will ripen, with chances counted over the
// seasons of a local temperature record. README.md shows it at work.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"golang.org/x/term"

	"frostward/climate"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
)

// Exit statuses.
const (
	exitDone  = 0
	exitCould = 1 // could not do it
	exitUsage = 2 // the command line is wrong

	// check's own, of a record that was read:
	exitUnfit  = 3 // not fit to rely on
	exitFrosts = 4 // fit for frost dates only
)

func main() { os.Exit(runMain()) }

// runMain is main for the world as it is.
func runMain() int {
	w := world{
		in: os.Stdin, out: os.Stdout, err: os.Stderr, getenv: os.Getenv,
		today: func() climate.Day {
			y, m, d := time.Now().Date()
			return climate.NewDay(y, m, d)
		},
	}
	if fd := int(os.Stdout.Fd()); term.IsTerminal(fd) {
		w.terminal, w.width = true, 80
		if n, _, err := term.GetSize(fd); err == nil && n > 0 {
			w.width = n
		}
	}
	return run(w, os.Args[1:])
}

// world is what the program meets outside itself. Tests give their own.
type world struct {
	in       io.Reader
	out, err io.Writer
	getenv   func(string) string
	today    func() climate.Day
	terminal bool // out is a terminal
	width    int  // its columns; 0 where out is not a terminal
}

// run runs the program and returns its exit status.
func run(w world, args []string) int {
	out, errs := table.NewScreen(w.out), table.NewScreen(w.err)
	a := &app{world: w, screen: w.err}
	a.out, a.err, w.err = out, errs, errs
	defer errs.Flush()
	root := newRoot(a)
	root.SetArgs(args)
	err := errors.Join(root.Execute(), out.Flush())
	if err == nil {
		err = a.json.check()
	}
	if err == nil {
		return a.status
	}
	var u opened.UsageError
	fmt.Fprintf(w.err, "frostward: %v\n", err)
	if errors.As(err, &u) || isCobraUsage(err) {
		fmt.Fprintln(w.err, "frostward: \"frostward --help\" lists the commands, \"frostward COMMAND --help\" their options")
		return exitUsage
	}
	return exitCould
}

// usage makes an error a mistake in the command line.
func usage(err error) error { return opened.UsageError{Err: err} }

// usagef makes a usageError.
func usagef(format string, args ...any) error {
	return usage(fmt.Errorf(format, args...))
}
