package batch

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// source is one file of the input, or one member of an archive.
type source struct {
	name  string // as rows have it: the same wherever the folder lies
	path  string // where it is
	stamp string // changes when it does
	size  int64
}

// find lists the files that the arguments name, folders walked through, in order of name.
// What is not for reading is left out: hidden files, and the output with its journal.
func find(args []string, output string) ([]source, error) {
	var out []source
	skip := map[string]bool{}
	for _, o := range []string{output, JournalName(output)} {
		if p, err := filepath.Abs(o); err == nil {
			skip[p] = true
		}
	}
	add := func(path, name string, info fs.FileInfo) {
		if abs, err := filepath.Abs(path); err == nil && skip[abs] {
			return
		}
		out = append(out, source{filepath.ToSlash(name), path, stamp(info), info.Size()})
	}
	for _, arg := range args {
		info, err := os.Stat(arg)
		if err != nil {
			return nil, err
		}
		if !info.IsDir() {
			add(arg, filepath.Base(arg), info)
			continue
		}
		err = filepath.WalkDir(arg, func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if strings.HasPrefix(d.Name(), ".") && path != arg {
				if d.IsDir() {
					return filepath.SkipDir
				}
				return nil
			}
			info, err := os.Stat(path) // follows a link to a file
			if err != nil || !info.Mode().IsRegular() {
				return nil // vanished, or no file: a folder, a pipe
			}
			name, err := filepath.Rel(arg, path)
			if err != nil {
				return err
			}
			add(path, name, info)
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	slices.SortFunc(out, func(a, b source) int { return strings.Compare(a.name, b.name) })
	for i := 1; i < len(out); i++ {
		if out[i].name == out[i-1].name {
			return nil, fmt.Errorf("%s and %s would both be called %q in the output; wanted files of different names, or one folder above both",
				out[i-1].path, out[i].path, out[i].name)
		}
	}
	return out, nil
}

func stamp(info fs.FileInfo) string {
	return strconv.FormatInt(info.Size(), 10) + "@" + strconv.FormatInt(info.ModTime().UnixNano(), 10)
}

// JournalName is the name of the journal of an output.
func JournalName(output string) string { return output + ".frostward-part" }

// isArchive knows a tar archive by its name.
func isArchive(name string) bool {
	for _, end := range []string{".tar", ".tar.gz", ".tgz", ".tar.zst"} {
		if strings.HasSuffix(strings.ToLower(name), end) {
			return true
		}
	}
	return false
}
