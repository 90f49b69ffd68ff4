//go:build ignore

// Command vulncheck runs govulncheck against the vulnerability database that the Go module
// golang.org/x/vulndb carries, so that it needs nothing but the module proxy. A finding that the
// program calls fails, in a dependency always, in the standard library where the word "release"
// says that this Go is the one that releases are built with; else those are only listed, as the
// cure is a newer Go and not a change here.
//
//	go run .ci/vulncheck.go GOVULNCHECK VULNDB_DIR [release]
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
)

type report struct {
	ID       string `json:"id"`
	Modified string `json:"modified"`
	Affected []struct {
		Package struct {
			Name string `json:"name"`
		} `json:"package"`
		Ranges []struct {
			Events []struct {
				Fixed string `json:"fixed"`
			} `json:"events"`
		} `json:"ranges"`
	} `json:"affected"`
}

type vuln struct {
	ID       string `json:"id"`
	Modified string `json:"modified"`
	Fixed    string `json:"fixed,omitempty"`
}

type module struct {
	Path  string `json:"path"`
	Vulns []vuln `json:"vulns"`
}

func main() {
	log.SetFlags(0)
	db, err := os.MkdirTemp("", "vulndb")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(db)
	if err := layOut(db, os.Args[2]); err != nil {
		log.Fatal(err)
	}
	cmd := exec.Command(os.Args[1], "-db", "file://"+db, "-format", "json", "./...")
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		log.Fatalf("govulncheck: %v", err)
	}
	ours, std, err := findings(out)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("govulncheck: %d called in dependencies %v, %d in the standard library %v\n", len(ours), ours, len(std), std)
	if len(ours) > 0 || len(std) > 0 && len(os.Args) > 3 && os.Args[3] == "release" {
		os.Exit(1)
	}
}

// layOut writes the reports of the module as the file database that govulncheck reads.
func layOut(db, src string) error {
	files, err := filepath.Glob(filepath.Join(src, "data/osv/*.json"))
	if err != nil || len(files) == 0 {
		return fmt.Errorf("%s: no reports found (%v)", src, err)
	}
	for _, d := range []string{"index", "ID"} {
		if err := os.Mkdir(filepath.Join(db, d), 0o777); err != nil {
			return err
		}
	}
	mods, newest := map[string]*module{}, ""
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			return err
		}
		var r report
		if err := json.Unmarshal(b, &r); err != nil {
			return fmt.Errorf("%s: %w", f, err)
		}
		newest = max(newest, r.Modified)
		for _, a := range r.Affected {
			m := mods[a.Package.Name]
			if m == nil {
				m = &module{Path: a.Package.Name}
				mods[a.Package.Name] = m
			}
			v := vuln{ID: r.ID, Modified: r.Modified}
			for _, g := range a.Ranges {
				for _, e := range g.Events {
					if e.Fixed != "" {
						v.Fixed = e.Fixed
					}
				}
			}
			m.Vulns = append(m.Vulns, v)
		}
		if err := os.WriteFile(filepath.Join(db, "ID", r.ID+".json"), b, 0o666); err != nil {
			return err
		}
	}
	var list []*module
	for _, m := range mods {
		list = append(list, m)
	}
	sort.Slice(list, func(i, j int) bool { return list[i].Path < list[j].Path })
	if err := writeJSON(filepath.Join(db, "index/modules.json"), list); err != nil {
		return err
	}
	return writeJSON(filepath.Join(db, "index/db.json"), map[string]string{"modified": newest})
}

func writeJSON(name string, v any) error {
	b, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return os.WriteFile(name, b, 0o666)
}

// findings parts the vulnerabilities whose functions are called into those of dependencies and
// those of the standard library.
func findings(out []byte) (ours, std []string, err error) {
	seen := map[string]bool{}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var m struct {
			Finding *struct {
				OSV   string `json:"osv"`
				Trace []struct {
					Module   string `json:"module"`
					Function string `json:"function"`
				} `json:"trace"`
			} `json:"finding"`
		}
		if err := d.Decode(&m); errors.Is(err, io.EOF) {
			return ours, std, nil
		} else if err != nil {
			return nil, nil, err
		}
		f := m.Finding
		if f == nil || len(f.Trace) == 0 || f.Trace[0].Function == "" || seen[f.OSV] {
			continue
		}
		seen[f.OSV] = true
		if f.Trace[0].Module == "stdlib" {
			std = append(std, f.OSV)
		} else {
			ours = append(ours, f.OSV)
		}
	}
}
