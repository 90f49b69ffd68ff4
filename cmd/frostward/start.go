package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"frostward/cmd/internal/deliver"
	"frostward/cmd/internal/demo"
	"frostward/cmd/internal/table"
)

func newStart(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "start DIR",
		Short: "Write a garden to begin from",
		Long: `start writes a new folder with a copy of the built-in invented garden: garden.yaml, a
record, a plan and a log, to be replaced by your own. It never writes over a file.`,
		Example: "  frostward start mygarden",
		Args:    takes(1, 1, "the folder to make"),
		RunE:    func(_ *cobra.Command, args []string) error { return a.start(args[0]) },
	}
}

// start copies the built-in garden into a folder. Nothing is written if any of its files is
// there already.
func (a *app) start(dir string) error {
	names, err := fs.Glob(demo.Files(), "*")
	if err != nil {
		return err
	}
	for _, n := range names {
		if _, err := os.Lstat(filepath.Join(dir, n)); !errors.Is(err, fs.ErrNotExist) {
			if err == nil {
				return fmt.Errorf("%s: is there already; wanted a folder without a garden", filepath.Join(dir, n))
			}
			return err
		}
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	for _, n := range names {
		b, err := fs.ReadFile(demo.Files(), n)
		if err != nil {
			return err
		}
		if err := deliver.New(filepath.Join(dir, n), b); err != nil {
			return err
		}
	}
	if a.format == table.JSON {
		return a.writeJSON(startJSON{dir, names})
	}
	fmt.Fprintf(a.out, "%s: a garden to begin from, all invented. Replace record.csv by your station's daily record,\n"+
		"garden.yaml, plan.csv and log.csv by your own, then: frostward plan --garden %s\n", dir, dir)
	return nil
}

type startJSON struct {
	Folder string   `json:"folder"`
	Files  []string `json:"files"`
}
