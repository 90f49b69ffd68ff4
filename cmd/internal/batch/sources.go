package batch

import (
	"fmt"
	"io"
	"io/fs"
	"iter"
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

// input is the files that the arguments name, folders walked through, in order of name. It is walked
// again whenever it is asked for, as a list of a million files would fill the memory. What is not for
// reading is left out: hidden files, and the output with what is unfinished of it.
type input struct {
	args []string
	skip map[string]bool // absolute
}

func inputOf(args []string, output string) input {
	in := input{slices.Clone(args), map[string]bool{}}
	for _, o := range []string{output, partName(output)} {
		if p, err := filepath.Abs(o); err == nil {
			in.skip[p] = true
		}
	}
	return in
}

// sources are all files. After an error there is no more.
func (in input) sources() iter.Seq2[source, error] {
	return func(yield func(source, error) bool) {
		type argument struct {
			next  func() (source, error, bool)
			first source
		}
		var open []argument
		for _, arg := range in.args {
			next, stop := iter.Pull2(in.under(arg))
			defer stop()
			switch s, err, ok := next(); {
			case err != nil:
				yield(s, err)
				return
			case ok:
				open = append(open, argument{next, s})
			}
		}
		var last source
		for len(open) > 0 {
			at := 0
			for i := range open {
				if inOrder(open[i].first.name, open[at].first.name) < 0 {
					at = i
				}
			}
			s := open[at].first
			if s.name == last.name {
				yield(s, fmt.Errorf("%s and %s would both be called %q in the output; wanted files of different names, or one folder above both",
					last.path, s.path, s.name))
				return
			}
			if last = s; !yield(s, nil) {
				return
			}
			next, err, ok := open[at].next()
			if err != nil {
				yield(next, err)
				return
			}
			if open[at].first = next; !ok {
				open = slices.Delete(open, at, at+1)
			}
		}
	}
}

// inOrder compares names as a walk meets them: folder by folder.
func inOrder(a, b string) int {
	return slices.Compare(strings.Split(a, "/"), strings.Split(b, "/"))
}

// under is a file, or those in a folder and the folders in it.
func (in input) under(arg string) iter.Seq2[source, error] {
	return func(yield func(source, error) bool) {
		info, err := os.Stat(arg)
		switch {
		case err != nil:
			yield(source{}, err)
		case info.IsDir():
			in.folder(arg, "", yield)
		case !in.skipped(arg):
			yield(sourceOf(filepath.Base(arg), arg, info), nil)
		}
	}
}

func (in input) folder(dir, name string, yield func(source, error) bool) (more bool) {
	for entry, err := range inFolder(dir) {
		if err != nil {
			yield(source{}, err)
			return false
		}
		at := filepath.Join(dir, entry)
		info, err := os.Lstat(at)
		if err == nil && info.Mode()&fs.ModeSymlink != 0 { // to a file is followed, to a folder not
			if info, err = os.Stat(at); err == nil && info.IsDir() {
				continue
			}
		}
		switch {
		case strings.HasPrefix(entry, ".") || err != nil || in.skipped(at): // hidden, vanished or ours
		case info.IsDir():
			if !in.folder(at, name+entry+"/", yield) {
				return false
			}
		case info.Mode().IsRegular():
			if !yield(sourceOf(name+entry, at, info), nil) {
				return false
			}
		}
	}
	return true
}

// pageSize is how many names of a folder are in memory at a time.
const pageSize = 10_000

// inFolder is the names in a folder, in order. A folder of a million is gone through once for each page.
func inFolder(dir string) iter.Seq2[string, error] {
	return func(yield func(string, error) bool) {
		after := ""
		for {
			page, err := pageOf(dir, after, pageSize)
			if err != nil {
				yield("", err)
				return
			}
			for _, name := range page {
				if !yield(name, nil) {
					return
				}
			}
			if len(page) < pageSize {
				return
			}
			after = page[len(page)-1]
		}
	}
}

// pageOf returns the first names in a folder that come after another.
func pageOf(dir, after string, size int) ([]string, error) {
	d, err := os.Open(dir)
	if err != nil {
		return nil, err
	}
	defer d.Close()
	var page []string
	for {
		names, err := d.Readdirnames(4096)
		for _, name := range names {
			if name > after {
				page = append(page, name)
			}
		}
		if len(page) > 2*size || err != nil {
			slices.Sort(page)
			page = page[:min(size, len(page))]
		}
		if err == io.EOF {
			return page, nil
		}
		if err != nil {
			return nil, err
		}
	}
}

func (in input) skipped(path string) bool {
	abs, err := filepath.Abs(path)
	return err == nil && in.skip[abs]
}

func sourceOf(name, path string, info fs.FileInfo) source {
	stamp := strconv.FormatInt(info.Size(), 10) + "@" + strconv.FormatInt(info.ModTime().UnixNano(), 10)
	return source{filepath.ToSlash(name), path, stamp, info.Size()}
}

// isArchive knows a tar archive by its name.
func isArchive(name string) bool {
	for _, end := range []string{".tar", ".tar.gz", ".tgz", ".tar.zst"} {
		if strings.HasSuffix(strings.ToLower(name), end) {
			return true
		}
	}
	return false
}
