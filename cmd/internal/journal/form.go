package journal

// form is what the lines of a file are: its columns in the order of a new file, the one that names what a line is
// about beside its date, and the check of a line.
type form struct {
	columns []string
	about   string
	check   func(Entry) error
}

var logForm = form{entryColumns(), colSpot, Entry.Check}

// takenBack is the note of a line that cancels the line before it of the same date and name.
const takenBack = "taken back"

// cancels says whether a line only takes another back.
func (e Entry) cancels() bool {
	e.Note, e.What = "", e.What+e.Note
	return e.What == takenBack && !e.hasValue()
}

// standing drops the lines that have been taken back, and those that take them back.
func standing(all []Entry) []Entry {
	var out []Entry
	for _, e := range all {
		if !e.cancels() {
			out = append(out, e)
			continue
		}
		for i := len(out) - 1; i >= 0; i-- {
			if out[i].Day == e.Day && out[i].Spot == e.Spot && out[i].Planting == e.Planting {
				out = append(out[:i], out[i+1:]...)
				break
			}
		}
	}
	return out
}

// TakeBack is the line that takes an entry of the log back.
func TakeBack(e Entry) Entry {
	back := NewEntry(e.Day, e.Spot)
	back.Note = takenBack
	return back
}
