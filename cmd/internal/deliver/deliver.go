// Package deliver writes results to files, whole or not at all, and over nothing that is not the
// program's own.
package deliver

import (
	"bytes"
	"compress/gzip"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"time"

	"github.com/klauspost/compress/zstd"
)

// File is where a result goes.
type File struct {
	Name  string
	Mark  string   // stands near the beginning of every such file that this program writes, and of hardly any other
	Keep  []string // files that are never written over: the garden's own, and what the result is made from
	Force bool     // write over a file that this program did not make
}

// headLength is how much of a file is looked at for the mark.
const headLength = 4096

// Check returns the file to write, a symbolic link followed, or why it is not written.
func (f File) Check() (string, error) {
	target, err := Followed(f.Name)
	if err != nil {
		return "", fmt.Errorf("%s: %w", f.Name, Cause(err))
	}
	info, err := os.Stat(target)
	for _, k := range f.Keep {
		if same(target, info, k) {
			return "", fmt.Errorf("%s: is a file that the garden or this result is made from; wanted another name", f.Name)
		}
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return target, nil
	case err != nil:
		return "", fmt.Errorf("%s: %w", f.Name, Cause(err))
	case info.IsDir():
		return "", fmt.Errorf("%s: is a folder; wanted the name of a file", f.Name)
	case !info.Mode().IsRegular():
		return "", fmt.Errorf("%s: is a device or a pipe; wanted a plain file, or no -o to write to standard output", f.Name)
	case f.Force || info.Size() == 0:
		return target, nil
	}
	if !f.Own() {
		return "", fmt.Errorf("%s: is there already and was not written by this command; wanted another name, or --force to write over it", f.Name)
	}
	return target, nil
}

// Own says whether a plain file of that name is there and begins as those of this program do.
func (f File) Own() bool {
	if info, err := os.Stat(f.Name); err != nil || !info.Mode().IsRegular() {
		return false
	}
	in, err := os.Open(f.Name)
	if err != nil {
		return false
	}
	defer in.Close()
	head, err := io.ReadAll(io.LimitReader(in, headLength))
	return err == nil && bytes.Contains(unpacked(head), []byte(f.Mark))
}

// unpacked is the beginning of a text whose beginning, packed or not, this is.
func unpacked(head []byte) []byte {
	var r io.Reader
	switch {
	case bytes.HasPrefix(head, []byte{0x1f, 0x8b}):
		z, err := gzip.NewReader(bytes.NewReader(head))
		if err != nil {
			return nil
		}
		r = z
	case bytes.HasPrefix(head, []byte{0x28, 0xb5, 0x2f, 0xfd}):
		z, err := zstd.NewReader(bytes.NewReader(head), zstd.WithDecoderConcurrency(1))
		if err != nil {
			return nil
		}
		defer z.Close()
		r = z
	default:
		return head
	}
	text := make([]byte, headLength)
	n, _ := io.ReadFull(r, text) // the rest of a packed text is not here
	return text[:n]
}

// Followed is the file that a name stands for, symbolic links followed, be it there or not.
func Followed(name string) (string, error) {
	for range 40 {
		link, err := os.Readlink(name)
		if err != nil {
			return name, nil // no link, or nothing there
		}
		if !filepath.IsAbs(link) {
			link = filepath.Join(filepath.Dir(name), link)
		}
		name = link
	}
	return "", errors.New("too many symbolic links")
}

// same says whether a name is that of a file to keep, which need not be there yet.
func same(target string, info fs.FileInfo, keep string) bool {
	if keep == "" {
		return false
	}
	if k, err := os.Stat(keep); err == nil && info != nil {
		return os.SameFile(k, info)
	}
	a, err1 := filepath.Abs(target)
	b, err2 := filepath.Abs(keep)
	return err1 == nil && err2 == nil && a == b
}

// Write checks the file and puts what fill writes in its place, in one step: whoever reads it sees
// the old one or the new one. A new file may be read by whom the umask lets; one that is replaced
// keeps its permissions.
func (f File) Write(fill func(io.Writer) error) error {
	target, err := f.Check()
	if err != nil {
		return err
	}
	if err := replace(target, fill); err != nil {
		return fmt.Errorf("%s: %w", f.Name, Cause(err))
	}
	return nil
}

// Place checks the file and moves one that is written elsewhere on its disk into its place, as Write does.
func (f File) Place(written string) error {
	target, err := f.Check()
	if err != nil {
		return err
	}
	if err := place(written, target); err != nil {
		return fmt.Errorf("%s: %w", f.Name, Cause(err))
	}
	return nil
}

// Replace puts a text in the place of a file of the user's, in one step, as Write does.
func Replace(name string, text []byte) error {
	target, err := Followed(name)
	if err == nil {
		err = replace(target, func(w io.Writer) error {
			_, err := w.Write(text)
			return err
		})
	}
	if err != nil {
		return fmt.Errorf("%s: %w", name, Cause(err))
	}
	return nil
}

// Keep puts a text beside the file that it was read from, in a new file: the first of NAME.before-1, -2 and so on that
// is not there yet.
func Keep(name string, text []byte) (kept string, err error) {
	for n := 1; ; n++ {
		kept = fmt.Sprintf("%s.before-%d", name, n)
		if err := New(kept, text); !errors.Is(err, fs.ErrExist) {
			return kept, err
		}
	}
}

func replace(target string, fill func(io.Writer) error) error {
	SweepTemp(filepath.Dir(target))
	tmp, err := Temp(filepath.Dir(target))
	if err != nil {
		return err
	}
	if err = fill(tmp); err == nil {
		err = tmp.Sync()
	}
	if cerr := tmp.Close(); err == nil {
		err = cerr
	}
	if err == nil {
		err = place(tmp.Name(), target)
	}
	if err != nil {
		os.Remove(tmp.Name())
	}
	return err
}

// place puts a file that is on the disk in the place of another, with the other's permissions.
func place(written, target string) error {
	if info, err := os.Stat(target); err == nil {
		if err := os.Chmod(written, info.Mode().Perm()); err != nil && !errors.Is(err, errors.ErrUnsupported) {
			return err
		}
	}
	if err := os.Rename(written, target); err != nil {
		return err
	}
	return SyncDir(filepath.Dir(target))
}

// SyncDir makes a folder's new entry last. Where folders cannot be synced, as on Windows, the file
// system does it by itself.
func SyncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) && !errors.Is(err, fs.ErrInvalid) && !errors.Is(err, fs.ErrPermission) {
		return err
	}
	return nil
}

// Temp makes a file in a folder under a name that no user gives: ".frostward-", 16 digits and
// letters by chance, ".tmp".
func Temp(dir string) (*os.File, error) {
	var b [8]byte
	rand.Read(b[:]) // it never fails
	return os.OpenFile(filepath.Join(dir, fmt.Sprintf(".frostward-%x.tmp", b)), os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
}

var tempName = regexp.MustCompile(`^\.frostward-[0-9a-f]{16}\.tmp$`)

// leftOver is how long after its last change a file of Temp has no writer any more.
const leftOver = 10 * time.Minute

// SweepTemp takes away files of Temp whose writers were killed. Nothing else is ever touched.
func SweepTemp(dir string) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return // what is left is harmless
	}
	for _, e := range entries {
		if !tempName.MatchString(e.Name()) {
			continue
		}
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() && time.Since(info.ModTime()) > leftOver {
			_ = os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}

// Cause strips the path that a file error repeats.
func Cause(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	var l *os.LinkError
	if errors.As(err, &l) {
		return l.Err
	}
	return err
}

// New writes a file that must not exist.
func New(name string, b []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(b)
	if err == nil {
		err = f.Sync()
	}
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	return err
}
