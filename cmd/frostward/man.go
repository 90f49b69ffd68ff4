package main

import (
	"fmt"
	"runtime/debug"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

func newMan(a *app) *cobra.Command {
	return &cobra.Command{
		Annotations: map[string]string{ownForm: "a manual page"},
		Use:         "man [COMMAND]",
		Short:       "The manual page of the program or of a command",
		Long: `man writes a manual page, made of the help that --help shows, in the form that the program
man reads. For the shell's completions there is "frostward completion".`,
		Example: `  frostward man > frostward.1
  frostward man plan > frostward-plan.1`,
		Args: takes(0, 2, "a command, or nothing for the program"),
		RunE: func(c *cobra.Command, args []string) error {
			of, rest, err := c.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return usagef("man: %q is no command; \"frostward --help\" lists them", strings.Join(args, " "))
			}
			of.InitDefaultHelpFlag()
			y, m, d := a.today().Date()
			date := time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
			return doc.GenMan(of, &doc.GenManHeader{Section: "1", Date: &date, Source: "frostward " + version(), Manual: "frostward"}, a.out)
		},
	}
}

// release is set by the linker in release builds: -ldflags "-X main.release=v1.2.3".
var release string

// version says the release, the commit where the build knows it, and the Go release.
func version() string {
	v, commit, dirty := release, "", ""
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return v
	}
	if v == "" {
		v = info.Main.Version
	}
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			commit = ", commit " + s.Value
		case s.Key == "vcs.modified" && s.Value == "true":
			dirty = " with changes"
		}
	}
	return fmt.Sprintf("%s%s%s, %s", v, commit, dirty, info.GoVersion)
}
