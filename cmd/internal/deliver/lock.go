package deliver

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"
)

// patience is how long Lock waits for another writer, which holds the lock for as long as one write and sync take.
var patience = 30 * time.Second

// LockName is the lock of a file that the program writes to, a file beside it.
func LockName(path string) string { return path + ".lock" }

// Lock takes the lock of a file, which everyone may take who may write the file; closing lets it go. It waits in the
// system's queue, not by asking again and again, which a busy machine could keep it from for long.
func Lock(path string) (io.Closer, error) {
	path, err := Followed(path)
	if err != nil {
		return nil, err
	}
	perm := fs.FileMode(0) // what the umask lets
	switch info, err := os.Stat(path); {
	case err == nil && !info.Mode().IsRegular(): // a pipe would keep us waiting for ever
		return nil, errors.New("is no plain file; wanted one to write to")
	case err == nil:
		perm = info.Mode().Perm() | info.Mode().Perm()&0o222<<1 // to take a lock is to read it
		if os.Geteuid() == 0 {
			perm |= 0o444 // root's lock, of a file that may be another's
		}
	}
	name := LockName(path)
	info, err := os.Lstat(name)
	if err == nil && !info.Mode().IsRegular() {
		return nil, fmt.Errorf("its lock %s is no plain file; wanted it taken away", filepath.Base(name))
	}
	isNew := errors.Is(err, fs.ErrNotExist)
	lock, taken := flock.New(name, flock.SetPermissions(0o666)), make(chan error, 1)
	go func() { taken <- lock.Lock() }()
	select {
	case err := <-taken:
		if err != nil {
			return nil, fmt.Errorf("cannot be locked for writing: %w", Cause(err))
		}
	case <-time.After(patience):
		go func() {
			<-taken
			lock.Close()
		}()
		return nil, fmt.Errorf("another writer has held %s for %v; wanted it to end, or to be ended", filepath.Base(name), patience)
	}
	if isNew && perm != 0 { // the file may let more write it than the umask
		_ = os.Chmod(name, perm) // fails only where another made it meanwhile
	}
	return lock, nil
}
