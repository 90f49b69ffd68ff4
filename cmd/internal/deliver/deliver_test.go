package deliver

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/klauspost/compress/gzip"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func put(t *testing.T, name, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
}

func text(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	require.NoError(t, err)
	return string(b)
}

func words(s string) func(io.Writer) error {
	return func(w io.Writer) error { _, err := io.WriteString(w, s); return err }
}

// A file of the program's own, an empty one and a new one are written; others are kept, with
// --force written over, and a file that the result is made from is kept whatever is asked.
func TestWritesOverNothingElse(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	f := File{Name: at("new.html"), Mark: `content="frostward"`}
	require.NoError(t, f.Write(words(`<meta content="frostward"> one`)))
	require.NoError(t, f.Write(words(`<meta content="frostward"> two`)))
	assert.Equal(t, `<meta content="frostward"> two`, text(t, f.Name))

	put(t, at("notes.html"), "mine")
	f.Name = at("notes.html")
	assert.ErrorContains(t, f.Write(words("x")), "was not written by this command; wanted another name, or --force")
	assert.Equal(t, "mine", text(t, f.Name))
	f.Force = true
	require.NoError(t, f.Write(words("x")))

	put(t, at("log.csv"), `a log with content="frostward" in it`)
	f.Keep = []string{at("log.csv"), at("diary.csv")}
	for _, name := range []string{"log.csv", "diary.csv", "./log.csv"} { // the diary is not there yet
		f.Name = dir + "/" + name
		assert.ErrorContains(t, f.Write(words("x")), "made from; wanted another name")
	}
	require.NoError(t, os.Link(at("log.csv"), at("another")))
	f.Name = at("another")
	assert.ErrorContains(t, f.Write(words("x")), "made from", "another name of the same file")

	f.Name = at("empty")
	put(t, f.Name, "")
	f.Force = false
	require.NoError(t, f.Write(words("x")))
	f.Name = dir
	assert.ErrorContains(t, f.Write(words("x")), "is a folder")
	f.Name = os.DevNull
	f.Force = true
	assert.ErrorContains(t, f.Write(words("x")), "is a device or a pipe; wanted a plain file")
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 5, "nothing is left over: %v", left)
}

// What is packed is known by what is in it.
func TestOwnPacked(t *testing.T) {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	for range 5000 {
		io.WriteString(z, "station,source,status and more\n")
	}
	require.NoError(t, z.Close())
	name := filepath.Join(t.TempDir(), "a.csv.gz")
	put(t, name, b.String())
	_, err := File{Name: name, Mark: "station,source,status"}.Check()
	assert.NoError(t, err)
	_, err = File{Name: name, Mark: "date,spot"}.Check()
	assert.Error(t, err)
}

// A link is followed to the file it names, which keeps its permissions.
func TestLinksAreFollowed(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("making a symbolic link wants rights there")
	}
	dir := t.TempDir()
	name, link := filepath.Join(dir, "deep"), filepath.Join(dir, "link")
	put(t, name, "own")
	require.NoError(t, os.Chmod(name, 0o600))
	require.NoError(t, os.Symlink("deep", link))
	require.NoError(t, File{Name: link, Mark: "own"}.Write(words("own, new")))
	assert.Equal(t, "own, new", text(t, name))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink, "the link stays one")
	info, err = os.Stat(name)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())

	require.NoError(t, os.Symlink("not there yet", filepath.Join(dir, "dangling")))
	require.NoError(t, File{Name: filepath.Join(dir, "dangling")}.Write(words("x")))
	assert.Equal(t, "x", text(t, filepath.Join(dir, "not there yet")))
	require.NoError(t, os.Symlink("round", filepath.Join(dir, "round")))
	assert.ErrorContains(t, File{Name: filepath.Join(dir, "round")}.Write(words("x")), "too many symbolic links")
}

// A failed write leaves the old file and nothing beside it.
func TestFailedWriteChangesNothing(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "a")
	put(t, name, "old")
	err := File{Name: name, Mark: "old"}.Write(func(w io.Writer) error {
		io.WriteString(w, "half")
		return errors.New("no space left")
	})
	require.ErrorContains(t, err, "no space left")
	assert.Equal(t, "old", text(t, name))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1)
}

// Only what this program has left is swept, and only when its writer is long gone.
func TestSweep(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"a.part", ".log.csv-backup", ".frostward-notes.tmp", ".frostward-0123456789abcdef.tmp.txt", ".frostward-0123456789ABCDEF.tmp"} {
		put(t, filepath.Join(dir, name), "mine")
		require.NoError(t, os.Chtimes(filepath.Join(dir, name), time.Time{}, time.Now().Add(-time.Hour)))
	}
	old, err := Temp(dir)
	require.NoError(t, err)
	defer old.Close()
	require.NoError(t, os.Chtimes(old.Name(), time.Time{}, time.Now().Add(-time.Hour)))
	young, err := Temp(dir)
	require.NoError(t, err)
	defer young.Close()
	SweepTemp(dir)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 6)
	assert.NoFileExists(t, old.Name())
	assert.FileExists(t, young.Name())
}
