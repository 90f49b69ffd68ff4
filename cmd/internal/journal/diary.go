package journal

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"frostward/climate"
)

// A diary is diary.csv: a line for each thing done to a planting or seen of it, written and read as the log is:
//
//	date      the day, year-month-day
//	planting  its name in the plan
//	what      sown, up, planted out, first picked, cleared, lost to frost, lost to cold or lost;
//	          "taken back" cancels the line before it of the same date and planting
//	note      anything
//	covered   lost to frost: what the planting was under that night, or "no"

// Deed is a line of the diary.
type Deed struct {
	Day      climate.Day
	Planting string
	What     string // one of Deeds
	Note     string
	Line     int    // of diary.csv; 0 for a mark of the log
	Covered  string // a cover's name, "no", or "" where nobody said
}

// What may be done to a planting or become of it.
const (
	Sown        = "sown"
	Up          = "up"
	PlantedOut  = "planted out"
	FirstPicked = "first picked"
	Cleared     = "cleared"
	LostToFrost = "lost to frost"
	LostToCold  = "lost to cold"
	Lost        = "lost"
)

// Deeds are the words of the column what.
func Deeds() []string {
	return []string{Sown, Up, PlantedOut, FirstPicked, Cleared, LostToFrost, LostToCold, Lost}
}

// Ends says whether the planting is over with it.
func (d Deed) Ends() bool { return d.What == Cleared || strings.HasPrefix(d.What, Lost) }

var diaryForm = form{[]string{colDate, colPlanting, colWhat, colNote, colCovered}, colPlanting, checkDeed}

func checkDeed(e Entry) error {
	if err := e.checkDay(); err != nil {
		return err
	}
	switch {
	case e.Planting == "":
		return fmt.Errorf("%s: is empty; wanted the name of a planting", colPlanting)
	case e.What != takenBack && !slices.Contains(Deeds(), e.What):
		return fmt.Errorf("%s: %q is not known; wanted one of %s", colWhat, e.What, strings.Join(Deeds(), ", "))
	case e.Covered != "" && e.What != LostToFrost:
		return fmt.Errorf("%s: is for %q only, and what happened is %q", colCovered, LostToFrost, e.What)
	}
	return nil
}

// Diary is a diary as read: the deeds that stand, in the file's order.
type Diary struct {
	Deeds  []Deed
	Faults []Fault
}

// Teaches says whether it has what a garden's own crops are learned from: a first picking, or a loss to frost.
func (d Diary) Teaches() bool {
	return slices.ContainsFunc(d.Deeds, func(d Deed) bool { return d.What == FirstPicked || d.What == LostToFrost })
}

// ReadDiary reads a diary; file names it in messages. Lines that cannot be read are faults.
func ReadDiary(r io.Reader, file string) (Diary, error) {
	l, err := readForm(r, file, diaryForm)
	d := Diary{Faults: l.Faults}
	for _, e := range l.Entries {
		covered := e.Covered
		if e.emptied[colCovered] && e.What == LostToFrost {
			covered = "no"
		}
		d.Deeds = append(d.Deeds, Deed{e.Day, e.Planting, e.What, e.Note, e.Line, covered})
	}
	return d, err
}

func (d Deed) entry() Entry {
	e := NewEntry(d.Day, "")
	e.Planting, e.What, e.Note, e.Covered = d.Planting, d.What, d.Note, d.Covered
	return e
}

// Check says what is wrong with a deed.
func (d Deed) Check() error { return checkDeed(d.entry()) }

// AppendDeed adds a deed to the diary in a file as Append does to a log.
func AppendDeed(path string, d Deed) error { return appendTo(path, d.entry(), diaryForm) }

// Undo takes a deed back: a line is added that cancels it.
func Undo(path string, d Deed) error {
	return appendTo(path, Deed{Day: d.Day, Planting: d.Planting, What: takenBack}.entry(), diaryForm)
}

// Marks are the deeds that the notes of a log tell: "out: courgettes" and "picked: courgettes", as older versions
// wrote them.
func (l Log) Marks() (out []Deed) {
	for _, e := range l.Entries {
		what, name, _ := strings.Cut(e.Note, ": ")
		switch what {
		case "out":
			out = append(out, Deed{Day: e.Day, Planting: name, What: PlantedOut})
		case "picked":
			out = append(out, Deed{Day: e.Day, Planting: name, What: Cleared})
		}
	}
	return out
}
