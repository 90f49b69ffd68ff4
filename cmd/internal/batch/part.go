package batch

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/gofrs/flock"
)

// part is an output that is being written: a folder beside it with the rows so far, as the output will
// have them, and marks of how far they go. An interrupted run goes on from the last mark; a whole one
// moves the rows into the output's place, so that they are on the disk once.
type part struct {
	dir   string
	lock  *flock.Flock
	rows  *os.File
	marks *os.File
	out   io.Writer // packs, onto rows
	pack  string
	close func() error // of out
	ours  bool         // the folder is this run's
	saved mark         // the last
	next  mark
	since int // rows since the last mark
	every int // rows between two marks
}

// mark is how far a run has come, a JSON object a line.
type mark struct {
	MadeWith string   `json:"made_with"` // the settings
	Bytes    int64    `json:"bytes"`     // of the rows
	At       position `json:"at"`
	Summary  Summary  `json:"summary"`
}

// position is what of the input is done.
type position struct {
	Sources int    `json:"sources"` // wholly
	Tasks   int    `json:"tasks"`   // of the source after those
	Rows    int    `json:"rows"`    // of the task after those
	Input   uint64 `json:"input"`   // a checksum of the names, sizes and times of the sources so far, that one among them
}

// markEvery is how many rows are between two marks, and so the most that are made again. A packed output
// is packed anew after each, so that its bytes do not depend on when a run was interrupted.
const markEvery = 250

// partName is the folder of an unfinished output.
func partName(output string) string { return output + ".frostward-part" }

const (
	rowsName  = "rows"
	marksName = "marks"
	lockName  = "lock"
)

var errInUse = errors.New("another run is writing it")

// openPart takes up what an earlier run left in a folder, or begins.
func openPart(dir, settings, pack string, every int) (*part, error) {
	p := &part{dir: dir, pack: pack, every: every}
	err := p.open(settings)
	if err != nil {
		p.end()
		return nil, fmt.Errorf("%s: %w", dir, err)
	}
	return p, nil
}

func (p *part) open(settings string) error {
	if err := p.take(); err != nil {
		return err
	}
	text, err := os.ReadFile(p.name(marksName))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	text = text[:bytes.LastIndexByte(text, '\n')+1] // what a kill left torn is made again
	p.next.MadeWith = settings
	for line := range bytes.Lines(text) {
		var m mark
		if err := json.Unmarshal(line, &m); err != nil {
			return fmt.Errorf("%s cannot be read; delete the folder to begin again", marksName)
		}
		p.saved, p.next = m, m
	}
	if p.next.MadeWith != settings {
		return errors.New("holds the rows of an unfinished run with other settings; run that again to finish it, or delete the folder")
	}
	if p.rows, err = os.OpenFile(p.name(rowsName), os.O_RDWR|os.O_CREATE, 0o666); err != nil {
		return err
	}
	switch info, err := p.rows.Stat(); {
	case err != nil:
		return err
	case info.Size() < p.next.Bytes:
		return errors.New("has fewer rows than its marks say; delete the folder to begin again")
	}
	if err := p.rows.Truncate(p.next.Bytes); err != nil {
		return err
	}
	if _, err := p.rows.Seek(p.next.Bytes, io.SeekStart); err != nil {
		return err
	}
	if p.marks, err = os.OpenFile(p.name(marksName), os.O_RDWR|os.O_CREATE, 0o666); err != nil {
		return err
	}
	if err := p.marks.Truncate(int64(len(text))); err != nil {
		return err
	}
	if _, err := p.marks.Seek(0, io.SeekEnd); err != nil {
		return err
	}
	p.ours = true
	p.out, p.close, err = packer(p.rows, p.pack)
	return err
}

// take makes the folder and locks it.
func (p *part) take() error {
	for range 10 {
		if err := os.Mkdir(p.dir, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
			return err
		}
		entries, err := os.ReadDir(p.dir)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		foreign := err != nil
		for _, e := range entries {
			foreign = foreign || e.Name() != rowsName && e.Name() != marksName && e.Name() != lockName
		}
		if foreign {
			return errors.New("is not what an unfinished run leaves there; wanted it moved away, or another -o")
		}
		p.lock = flock.New(p.name(lockName))
		ok, err := p.lock.TryLock()
		switch {
		case errors.Is(err, fs.ErrNotExist):
			continue
		case err != nil:
			return err
		case !ok:
			return errInUse
		}
		// A run that has just ended may have taken the file away that this lock is on.
		mine, err1 := p.lock.Stat()
		now, err2 := os.Stat(p.name(lockName))
		if err1 == nil && err2 == nil && os.SameFile(mine, now) {
			return nil
		}
		p.lock.Unlock()
	}
	return errInUse
}

func (p *part) name(file string) string { return filepath.Join(p.dir, file) }

// heading writes the columns, where there are no rows yet.
func (p *part) heading(columns []string) error {
	if p.next.Bytes > 0 {
		return nil
	}
	_, err := io.WriteString(p.out, strings.Join(columns, ",")+"\n")
	return err
}

// row adds a row, after which the run is at a place.
func (p *part) row(b []byte, at position) error {
	if _, err := p.out.Write(append(b, '\n')); err != nil {
		return err
	}
	p.next.At = at
	if p.since++; p.since < p.every {
		return nil
	}
	return p.mark()
}

// mark notes how far the rows go, when they are on the disk.
func (p *part) mark() (err error) {
	if err := p.settle(); err != nil {
		return err
	}
	if p.next.Bytes, err = p.rows.Seek(0, io.SeekCurrent); err != nil {
		return err
	}
	text, err := json.Marshal(p.next)
	if err != nil {
		return err
	}
	if _, err := p.marks.Write(append(text, '\n')); err != nil {
		return err
	}
	p.saved, p.since = p.next, 0
	p.out, p.close, err = packer(p.rows, p.pack)
	return err
}

func (p *part) settle() error {
	if err := p.close(); err != nil {
		return err
	}
	return p.rows.Sync()
}

// finish moves the rows, which are all there, by place.
func (p *part) finish(place func(rows string) error) error {
	if err := p.settle(); err != nil {
		return err
	}
	if err := p.rows.Close(); err != nil {
		return err
	}
	if err := place(p.name(rowsName)); err != nil {
		return err
	}
	p.saved = mark{}
	return nil
}

// end lets the folder go, and takes it away where it holds nothing that is of use.
func (p *part) end() {
	if p.ours {
		p.rows.Close()
		p.marks.Close()
	}
	if p.ours && p.saved.Bytes == 0 {
		os.Remove(p.name(rowsName))
		os.Remove(p.name(marksName))
		if os.Remove(p.name(lockName)) != nil { // Windows: not while it is open
			p.lock.Unlock()
			os.Remove(p.name(lockName))
		}
		os.Remove(p.dir)
	}
	if p.lock != nil {
		p.lock.Unlock()
	}
}
