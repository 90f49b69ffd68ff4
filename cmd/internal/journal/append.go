package journal

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"frostward/cmd/internal/deliver"
)

// Append adds an entry to the log in a file, which is made if there is none. When it
// returns without an error, the entry is on the disk.
//
// Another program than this one, such as a spreadsheet, takes no notice of the lock:
// if it has put another file in the log's place meanwhile, the entry is written again
// to that.
func Append(path string, e Entry) error { return appendTo(path, e, logForm) }

func appendTo(path string, e Entry, f form) error {
	if err := f.check(e); err != nil {
		return err
	}
	if !e.hasValue() && !e.cancels() {
		return fmt.Errorf("the reading of %v at %s %w", e.Day, e.Spot, errNothing)
	}
	lock, err := deliver.Lock(path)
	if err != nil {
		return fmt.Errorf("%s: %w; nothing was logged", path, err)
	}
	defer lock.Close()
	deliver.SweepTemp(filepath.Dir(path)) // what a writer that was killed in create has left
	for range 3 {
		moved, err := appendLocked(path, e, f, osFile)
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		if !moved {
			return nil
		}
	}
	return fmt.Errorf("%s: another program keeps replacing the file; the reading may not be in it", path)
}

// file is what Append needs of an *os.File; tests give one that fails.
type file interface {
	io.ReadWriteCloser
	Stat() (fs.FileInfo, error)
	Sync() error
	Truncate(int64) error
}

func osFile(path string) (file, error) { return os.OpenFile(path, os.O_RDWR|os.O_APPEND, 0) }

// appendLocked does the work of Append. moved: the file written to is no longer the
// one of that name.
func appendLocked(path string, e Entry, of form, open func(string) (file, error)) (moved bool, err error) {
	f, err := open(path)
	if errors.Is(err, fs.ErrNotExist) {
		if err := create(path, of); err != nil {
			return false, err
		}
		f, err = open(path)
	}
	if err != nil {
		return false, deliver.Cause(err)
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, maxFile+1))
	if err != nil {
		return false, deliver.Cause(err)
	}
	log, err := parse(b, filepath.Base(path), of)
	if err != nil {
		return false, fmt.Errorf("nothing was logged: %w", err)
	}
	text, err := log.custom.addition(e, of)
	if err != nil {
		return false, err
	}
	if err := write(f, text, int64(len(b))); err != nil {
		return false, err
	}
	was, err := f.Stat()
	if err != nil {
		return false, deliver.Cause(err)
	}
	now, err := os.Stat(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return false, deliver.Cause(err)
	}
	return err != nil || !os.SameFile(was, now), nil
}

// write adds a text in one write and syncs it. What a failed write left behind, which
// nobody has been told is logged, is taken off again where the disk lets it be; where
// not, it is a line that the reader knows to be cut off.
func write(f file, text string, size int64) error {
	n, err := f.Write([]byte(text))
	if err == nil && n < len(text) {
		err = io.ErrShortWrite
	}
	if err != nil {
		if info, serr := f.Stat(); serr == nil && info.Size() == size+int64(n) && n > 0 {
			_ = f.Truncate(size) // the write's error is the one to report
		}
		return fmt.Errorf("nothing was logged: %w", deliver.Cause(err))
	}
	if err := f.Sync(); err != nil {
		return fmt.Errorf("the reading may not be stored: sync: %w", deliver.Cause(err))
	}
	return nil
}

// create makes a log with a heading. It is written beside and then linked into place,
// so that a heading is never found half written, nor a file that has appeared
// meanwhile overwritten.
func create(path string, f form) error {
	dir := filepath.Dir(path)
	tmp, err := deliver.Temp(dir)
	if err != nil {
		return fmt.Errorf("cannot be made: %w", deliver.Cause(err))
	}
	defer os.Remove(tmp.Name())
	defer tmp.Close()
	if _, err := tmp.WriteString(custom{sep: ',', eol: "\n", isNew: true}.row(f.columns)); err != nil {
		return fmt.Errorf("cannot be made: %w", deliver.Cause(err))
	}
	if err := tmp.Sync(); err != nil {
		return fmt.Errorf("cannot be made: %w", deliver.Cause(err))
	}
	if err := os.Link(tmp.Name(), path); err != nil && !errors.Is(err, fs.ErrExist) {
		// Some file systems have no links; there the rename could take the place of a
		// file made in the last instant by another program.
		if err := os.Rename(tmp.Name(), path); err != nil {
			return fmt.Errorf("cannot be made: %w", deliver.Cause(err))
		}
	}
	if err := deliver.SyncDir(dir); err != nil {
		return fmt.Errorf("may not be stored: sync of its folder: %w", deliver.Cause(err))
	}
	return nil
}
