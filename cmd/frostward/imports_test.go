package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const root = "../.."

// mayImport says what a package of the module may import of it: cmd -> risk/replay -> risk -> crops,
// climate/* -> climate -> climate/stat.
func mayImport(from, to string) bool {
	top := func(p string) string { return strings.SplitN(p, "/", 2)[0] }
	switch {
	case from == "cmd" || top(from) == "cmd":
		return true
	case from == "risk/replay":
		return to == "risk" || to == "crops" || top(to) == "climate"
	case from == "risk":
		return to == "crops" || top(to) == "climate"
	case from == "crops":
		return to == "climate" || to == "climate/stat"
	case from == "climate/stat":
		return false
	case from == "climate":
		return to == "climate/stat"
	case top(from) == "climate":
		return to == "climate" || to == "climate/stat"
	}
	return false
}

// layers are the packages of cmd, from the lowest: each imports lower ones only.
var layers = []string{"table deliver demo browsertest schema", "words", "chart garden journal forecast", "opened batch", "sentences", "nights calendar page pictures", "view", "web", "frostward"}

// layer is the place of a package of cmd among the layers; samples of a package go with it.
func layer(t *testing.T, dir string) int {
	name := strings.Split(strings.TrimPrefix(strings.TrimPrefix(dir, "cmd/"), "internal/"), "/")[0]
	for i, l := range layers {
		if slices.Contains(strings.Fields(l), name) {
			return i
		}
	}
	t.Errorf("%s is in no layer of cmd", dir)
	return 0
}

// world are the packages and calls that only cmd may use: files, the clock, printing.
var (
	worldPackages = []string{"os", "os/exec", "log", "log/slog", "net", "net/http", "io/ioutil", "path/filepath", "syscall", "embed"}
	worldCalls    = []string{"time.Now", "time.Since", "fmt.Print", "fmt.Println", "fmt.Printf"}
)

func TestImportsRunOneWay(t *testing.T) {
	checked := 0
	eachSource(t, func(dir, file string, f *ast.File) {
		checked++
		for _, i := range f.Imports {
			path, err := strconv.Unquote(i.Path.Value)
			require.NoError(t, err)
			if to, ours := strings.CutPrefix(path, "frostward/"); ours && !mayImport(dir, to) {
				t.Errorf("%s imports %s", file, to)
			} else if ours && strings.HasPrefix(dir, "cmd/") && strings.HasPrefix(to, "cmd/") && !strings.Contains(dir, "/sample") {
				if layer(t, dir) <= layer(t, to) {
					t.Errorf("%s imports %s, which is no lower", file, to)
				}
			}
			if strings.HasPrefix(dir, "cmd") || dir == "crops" && path == "embed" { // the catalogue is embedded
				continue
			}
			for _, w := range worldPackages {
				if path == w {
					t.Errorf("%s imports %s: only cmd opens files, reads the clock or prints", file, path)
				}
			}
		}
		if strings.HasPrefix(dir, "cmd") {
			return
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok {
				if x, ok := s.X.(*ast.Ident); ok {
					for _, c := range worldCalls {
						if x.Name+"."+s.Sel.Name == c {
							t.Errorf("%s calls %s: only cmd opens files, reads the clock or prints", file, c)
						}
					}
				}
			}
			return true
		})
	})
	require.Greater(t, checked, 50, "the walk found the sources")
}

// The rule itself must be able to refuse.
func TestImportRuleRefuses(t *testing.T) {
	require.False(t, mayImport("climate", "climate/daily"))
	require.False(t, mayImport("climate/daily", "climate/quality"))
	require.False(t, mayImport("crops", "risk"))
	require.False(t, mayImport("risk", "cmd/internal/table"))
	require.False(t, mayImport("climate/stat", "climate"))
	require.False(t, mayImport("risk", "risk/replay"))
	require.True(t, mayImport("risk", "climate/site"))
	require.True(t, mayImport("risk/replay", "risk"))
}

// eachSource visits the module's Go files that are not tests, with the folder they are in.
func eachSource(t *testing.T, visit func(dir, file string, f *ast.File)) {
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && path != root && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		visit(filepath.ToSlash(filepath.Dir(rel)), filepath.ToSlash(rel), f)
		return nil
	})
	require.NoError(t, err)
}
