package deliver

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Who waits in vain for a lock says so; the next gets it when it is free; a link's is that of the file it names.
func TestLock(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "log.csv")
	put(t, name, "x")
	held, err := Lock(name)
	require.NoError(t, err)
	usual := patience
	patience = 10 * time.Millisecond
	_, err = Lock(name)
	patience = usual
	require.EqualError(t, err, "another writer has held log.csv.lock for 10ms; wanted it to end, or to be ended")
	require.NoError(t, held.Close())
	again, err := Lock(name)
	require.NoError(t, err)
	require.NoError(t, again.Close())

	require.NoError(t, os.Mkdir(filepath.Join(dir, "b.lock"), 0o755))
	_, err = Lock(filepath.Join(dir, "b"))
	assert.ErrorContains(t, err, "its lock b.lock is no plain file; wanted it taken away")
	_, err = Lock(dir)
	assert.ErrorContains(t, err, "is no plain file")
	if runtime.GOOS == "windows" {
		return // links want rights there, and permissions are others
	}
	link := filepath.Join(t.TempDir(), "link")
	require.NoError(t, os.Symlink(name, link))
	require.NoError(t, os.Chmod(name, 0o660))
	require.NoError(t, os.Remove(LockName(name)))
	held, err = Lock(link)
	require.NoError(t, err)
	defer held.Close()
	assert.NoFileExists(t, LockName(link))
	info, err := os.Stat(LockName(name))
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o660), info.Mode().Perm()&0o660, "whoever may write the file may take its lock")
}
