// Package calendar writes the dates of a garden as an iCalendar file (RFC 5545): all-day
// events that a calendar program replaces when a later file is read.
package calendar

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode"

	ics "github.com/arran4/golang-ical"

	"frostward/climate"
)

// Event is something to do, or to watch for, over one day or several.
type Event struct {
	UID         string      // see UID
	First, Last climate.Day // both included
	Title       string
	Text        string // a longer explanation; may have several lines
	Place       string // the spot
	Category    string // the kind of work, such as "sow"
	Cancelled   bool   // was in an earlier file and is no longer meant
}

// File is a calendar to write.
type File struct {
	Name   string    // of the garden
	Stamp  time.Time // when it is made: DTSTAMP, and the source of SEQUENCE
	Events []Event
}

// uid makes an event's identity from the garden, the planting, the work and the
// season. It stays the same when the date moves, so that reading a new file moves the
// event and does not double it. Names may hold anything: they are hashed.
func uid(garden, planting, work string, season int) string {
	h := sha256.Sum256([]byte(garden + "\x00" + planting + "\x00" + work))
	return fmt.Sprintf("%d-%s@frostward.invalid", season, hex.EncodeToString(h[:10]))
}

// Write writes the file. SEQUENCE counts the minutes since 1 January 2020 at Stamp: no
// state need be kept, and a later file always supersedes an earlier one.
func Write(w io.Writer, f File) error {
	c := ics.NewCalendarFor("frostward")
	c.SetProductId(Mark)
	c.SetMethod(ics.MethodPublish)
	c.SetName(clean(f.Name))
	c.SetXWRCalName(clean(f.Name))
	sequence := max(0, int(f.Stamp.Sub(sequenceStart)/time.Minute))
	for _, e := range f.Events {
		if e.Last < e.First {
			panic(fmt.Sprintf("calendar: event %q ends before it begins", e.Title))
		}
		v := c.AddEvent(e.UID)
		v.SetDtStampTime(f.Stamp)
		v.SetSequence(sequence)
		v.SetAllDayStartAt(date(e.First))
		v.SetAllDayEndAt(date(e.Last + 1)) // DTEND is the first day after (RFC 5545, 3.6.1)
		v.SetSummary(clean(e.Title))
		v.SetTimeTransparency(ics.TransparencyTransparent) // work in the garden makes nobody busy
		if e.Text != "" {
			v.SetDescription(clean(e.Text))
		}
		if e.Place != "" {
			v.SetLocation(clean(e.Place))
		}
		if e.Category != "" {
			v.AddCategory(clean(e.Category))
		}
		if e.Cancelled {
			v.SetStatus(ics.ObjectStatusCancelled)
		}
	}
	_, err := io.WriteString(w, refold(c.Serialize(ics.WithNewLineWindows)))
	return err
}

var sequenceStart = time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)

func date(d climate.Day) time.Time {
	y, m, md := d.Date()
	return time.Date(y, m, md, 0, 0, 0, 0, time.UTC)
}

// clean leaves line feeds as the only control characters: RFC 5545, 3.3.11, allows no
// others in a text, and the library would leave a bare carriage return.
func clean(s string) string {
	s = strings.ReplaceAll(strings.ToValidUTF8(s, "\ufffd"), "\r\n", "\n")
	return strings.Map(func(r rune) rune {
		if r == '\r' {
			return '\n'
		}
		if r != '\n' && unicode.IsControl(r) {
			return ' '
		}
		return r
	}, s)
}

func dayOf(t time.Time) climate.Day {
	y, m, d := t.Date()
	return climate.NewDay(y, m, d)
}

// Mark is the PRODID of this program's calendars (RFC 5545, 3.7.3), by which they are known.
const Mark = "-//frostward//garden dates//EN"
