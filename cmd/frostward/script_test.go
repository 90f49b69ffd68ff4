package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write what the program prints into the scripts and golden files")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"frostward": func() { os.Exit(runMain()) }})
}

// TestScripts runs the program as a grower does: each file in testdata/script is a session.
func TestScripts(t *testing.T) {
	data, err := filepath.Abs("../../testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		UpdateScripts:       *update,
		Setup: func(e *testscript.Env) error {
			e.Setenv("DATA", data)
			return nil
		},
	})
}
