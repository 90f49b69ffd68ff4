package main

import (
	"fmt"
	"runtime/debug"
)

// release is set by the linker in release builds: -ldflags "-X main.release=v1.2.3".
var release string

// version tells the release, the commit where the build knows it, and the Go release.
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
