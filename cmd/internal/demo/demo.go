// Package demo is the built-in garden that every command runs on when it is given none.
// The place, the weather, the readings and the plan are invented; nothing was measured.
package demo

import (
	"embed"
	"io/fs"
)

//go:generate go run make.go

//go:embed garden
var files embed.FS

// Files returns the invented garden's folder.
func Files() fs.FS {
	sub, err := fs.Sub(files, "garden")
	if err != nil {
		panic(err) // the folder is embedded above
	}
	return sub
}
