package batch

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"os"
	"strconv"
	"strings"

	"github.com/gofrs/flock"
)

// journal is a file of the rows made so far, a line each, from which an interrupted run goes
// on and the output is written. Each line has its own checksum, so that what a kill or a full
// disk left torn is seen and made again:
//
//	checksum <tab> source <tab> stamp <tab> station <tab> done or failed <tab> row
//
// The stamp is the source's size and time of change: rows of a source that has changed since
// are made again. A line with a number after the stamp says that its source is done to the end, with so many
// rows.
type journal struct {
	f    *os.File
	lock *flock.Flock
	w    *bufio.Writer
	size int64

	rows map[rowKey]rowPlace // where each row of this run is

	// What an earlier run left, which does not change.
	old   map[rowKey]rowPlace
	whole map[string]wholeSource // of sources done to the end
}

// wholeSource is what is known of a source that is done: its stamp, and how many rows it has,
// so that one of them lost is missed.
type wholeSource struct {
	stamp string
	rows  int
}

type rowKey struct{ station, source string }

type rowPlace struct {
	at     int64
	length int32
	status string
	stamp  string
}

// journalHead is the first line, with what the rows were made with.
const journalHead = "frostward stations, rows so far; made with: "

var errInUse = errors.New("another run is writing it")

// openJournal opens or begins the journal of a run with some settings.
func openJournal(name, settings string) (*journal, error) {
	j := &journal{lock: flock.New(name), rows: map[rowKey]rowPlace{}, old: map[rowKey]rowPlace{}, whole: map[string]wholeSource{}}
	ok, err := j.lock.TryLock()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if !ok {
		return nil, fmt.Errorf("%s: %w", name, errInUse)
	}
	if j.f, err = os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o666); err != nil {
		j.unlock()
		return nil, err
	}
	if err := j.read(name, settings); err != nil {
		j.close()
		return nil, err
	}
	j.w = bufio.NewWriterSize(j.f, 64<<10)
	return j, nil
}

// read takes up the rows of an earlier run and cuts off what it left torn at the end.
func (j *journal) read(name, settings string) error {
	r := bufio.NewReaderSize(j.f, 1<<20)
	head, err := r.ReadString('\n')
	if err != nil && err != io.EOF {
		return fmt.Errorf("%s: %w", name, err)
	}
	want := journalHead + settings + "\n"
	if own := head[:min(len(head), len(journalHead))]; own != journalHead[:len(own)] || err == io.EOF && len(head) > len(want) {
		return fmt.Errorf("%s: is not what an unfinished run leaves there; wanted it moved away, or another -o", name)
	}
	if err == io.EOF {
		// New, or torn in its first line: nothing is lost.
		if err := j.f.Truncate(0); err != nil {
			return err
		}
		if _, err := j.f.WriteAt([]byte(want), 0); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		j.size = int64(len(want))
		_, err := j.f.Seek(j.size, io.SeekStart)
		return err
	} else if head != want {
		return fmt.Errorf("%s: holds the rows of an unfinished run with other settings; run that again to finish it, or delete the file", name)
	}
	j.size = int64(len(head))
	for {
		line, err := r.ReadBytes('\n')
		if err == io.EOF {
			break
		}
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		j.take(line, j.size)
		j.size += int64(len(line))
	}
	have := map[string]int{}
	for k, p := range j.old {
		if p.stamp == j.whole[k.source].stamp {
			have[k.source]++
		}
	}
	for source, w := range j.whole {
		if have[source] < w.rows {
			delete(j.whole, source)
		}
	}
	// What stands after the last whole line is torn.
	if err := j.f.Truncate(j.size); err != nil {
		return err
	}
	_, err = j.f.Seek(j.size, io.SeekStart)
	return err
}

// take notes a line, if it is sound.
func (j *journal) take(line []byte, at int64) {
	body, ok := bytes.CutSuffix(line, []byte{'\n'})
	sum, body, ok2 := bytes.Cut(body, []byte{'\t'})
	if !ok || !ok2 {
		return
	}
	if want, err := strconv.ParseUint(string(sum), 16, 32); err != nil || uint32(want) != crc32.ChecksumIEEE(body) {
		return
	}
	f := bytes.SplitN(body, []byte{'\t'}, 5)
	switch len(f) {
	case 3:
		if n, err := strconv.Atoi(string(f[2])); err == nil {
			j.whole[string(f[0])] = wholeSource{string(f[1]), n}
		}
	case 5:
		start := at + int64(len(line)-1-len(f[4]))
		j.old[rowKey{string(f[2]), string(f[0])}] = rowPlace{start, int32(len(f[4])), status(f[3]), string(f[1])}
	}
}

// status returns the one word for what became of a station, so that a million rows share it.
func status(b []byte) string {
	for _, s := range []string{done, noneStatus} {
		if string(b) == s {
			return s
		}
	}
	return failedStatus
}

// row adds a row. Failed ones are made again by the next run.
func (j *journal) row(source, stamp, station, status string, row []byte) error {
	source, station = clean(source), clean(station)
	prefix := source + "\t" + stamp + "\t" + station + "\t" + status + "\t"
	h := crc32.Update(crc32.ChecksumIEEE([]byte(prefix)), crc32.IEEETable, row)
	at, err := j.write(fmt.Sprintf("%08x\t%s", h, prefix), row)
	j.rows[rowKey{station, source}] = rowPlace{at, int32(len(row)), status, stamp}
	return err
}

// sourceDone notes that all rows of a source have been added.
func (j *journal) sourceDone(source, stamp string, rows int) error {
	body := clean(source) + "\t" + stamp + "\t" + strconv.Itoa(rows)
	_, err := j.write(fmt.Sprintf("%08x\t", crc32.ChecksumIEEE([]byte(body)))+body, nil)
	return err
}

// write adds a line and returns where its row starts.
func (j *journal) write(prefix string, row []byte) (at int64, err error) {
	at = j.size + int64(len(prefix))
	j.w.WriteString(prefix) // the error comes again from the next call
	j.w.Write(row)
	err = j.w.WriteByte('\n')
	j.size = at + int64(len(row)) + 1
	return at, err
}

// flush hands what is added to the system: after it only a crash of the machine loses rows.
func (j *journal) flush() error { return j.w.Flush() }

func (j *journal) close() error {
	var err error
	if j.w != nil {
		err = j.w.Flush()
	}
	err = errors.Join(err, j.f.Close())
	j.unlock()
	return err
}

func (j *journal) unlock() { j.lock.Unlock() }

// has says whether an earlier run made a station's row, or all of a source's for "".
func (j *journal) has(station, source, stamp string) bool {
	if station == "" {
		return j.whole[clean(source)].stamp == stamp
	}
	p, ok := j.old[rowKey{clean(station), clean(source)}]
	return ok && p.status != failedStatus && p.stamp == stamp
}

// before counts the stations that an earlier run has done.
func (j *journal) before() (n int) {
	for _, p := range j.old {
		if p.status != failedStatus {
			n++
		}
	}
	return n
}

// all returns the rows of both runs, those of the earlier one if their source is still the same.
func (j *journal) all(stamps map[string]string) (keys []rowKey) {
	for k, p := range j.old {
		if _, again := j.rows[k]; !again && stamps[k.source] == p.stamp {
			keys = append(keys, k)
		}
	}
	for k := range j.rows {
		keys = append(keys, k)
	}
	return keys
}

// at returns where a row is.
func (j *journal) at(k rowKey) rowPlace {
	if p, ok := j.rows[k]; ok {
		return p
	}
	return j.old[k]
}

// clean makes a name fit for a field of the journal.
func clean(s string) string { return strings.NewReplacer("\t", " ", "\n", " ", "\r", " ").Replace(s) }
