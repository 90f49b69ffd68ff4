package opened

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"frostward/climate"
	"frostward/cmd/internal/garden"
	"frostward/cmd/internal/journal"
	"frostward/risk"
)

// Phase is where a planting stands in its year.
type Phase int

// Phases, in their order.
const (
	NotYet     Phase = iota // neither sown nor planted out
	UnderCover              // sown under cover, not yet out
	InGround                // out, or sown in place
	Over                    // picked, lost or cleared
)

func (p Phase) String() string {
	return [...]string{"not yet", "under cover", "in the ground", "over"}[p]
}

// State is a planting on a day: by the diary, else by the plan's dates, else by what the seasons say.
type State struct {
	Planned
	Name  string // by which the diary knows it
	Phase Phase

	Since    climate.Day // in the ground: since; under cover: sown
	Logged   bool        // the grower said so; else the planned day has passed
	Waited   bool        // it goes by its bed, which the planting before leaves after the planned day
	Picked   climate.Day // first picked, as the diary says; 0 where it does not
	End      climate.Day // over: the day that ended it
	What     string      // over: what ended it, by the diary; "" where nine seasons in ten have it over by End
	Expected climate.Day // in the ground: by which day nine seasons in ten have it over; 0 where they do not
}

// maxStanding is how long a planting is taken to stand in its bed if nobody says that it was
// cleared, in days: as long as a season is followed.
const maxStanding = 400

// States are the plan's plantings as they stand today. Every screen that speaks of the present has them from here.
func (g *Garden) States() ([]State, error) { return g.states() }

func (g *Garden) workOutStates() ([]State, error) {
	rows, err := g.Plan()
	if err != nil {
		return nil, err
	}
	plantings, err := g.Resolve(rows)
	if err != nil {
		return nil, err
	}
	diary, err := g.Diary()
	if err != nil {
		return nil, err
	}
	g.noteStrangers(diary, Names(rows))
	follows, order, err := InOrder(plantings)
	if err != nil {
		return nil, err
	}
	fields, err := g.presentFields()
	if err != nil {
		return nil, err
	}
	names := Names(rows)
	out := make([]State, len(plantings))
	free := make([]climate.Day, len(plantings)) // when the bed is free in the middle of the seasons, or was
	for _, i := range order {
		st := State{Planned: plantings[i], Name: names[i]}
		var bed climate.Day
		if j := follows[i]; j >= 0 && free[j] != 0 {
			bed = free[j] - climate.Day(math.Round(7*st.Row.OverlapWeeks))
		}
		free[i] = g.settle(&st, g.deedsOf(st, diary), bed, fields)
		out[i] = st
	}
	return out, nil
}

// presentFields are the fields by which a planting is taken to be over.
func (g *Garden) presentFields() (*Fields, error) {
	s, err := g.Seasons()
	if err != nil {
		return nil, err
	}
	if s.By == climate.ByCurve { // which plays no planting
		return g.FieldsOf(climate.Recorded(g.Masked, g.Settings.Latitude, g.First, g.Last))
	}
	return g.Fields()
}

// deedsOf are the deeds of a planting up to today, those of the plan's own columns first.
func (g *Garden) deedsOf(st State, diary journal.Diary) (out []journal.Deed) {
	today := g.Today()
	for _, d := range []struct {
		date garden.Date
		what string
	}{{st.Row.Out, journal.PlantedOut}, {st.Row.Picked, journal.Cleared}} {
		if !d.date.Given() {
			continue
		}
		if day := g.lastOf(d.date); day <= today {
			out = append(out, journal.Deed{Day: day, Planting: st.Name, What: d.what})
		}
	}
	for _, d := range diary.Deeds {
		if strings.EqualFold(d.Planting, st.Name) && d.Day <= today && today-d.Day <= maxStanding {
			out = append(out, d)
		}
	}
	return out
}

// lastOf is the day of a plan's cell; of a day of the year the last one that has been.
func (g *Garden) lastOf(d garden.Date) climate.Day {
	if d.Year != 0 {
		return g.Calendar.Day(d.Year, d.Day)
	}
	season, today := g.Calendar.Locate(g.Today())
	if d.Day > today {
		season--
	}
	return g.Calendar.Day(season, d.Day)
}

// halfYear is how far a deed and the plan's date may lie apart and still be of the same planting.
const halfYear climate.Day = 183

// overFor is how long into the next season a planting that is over is shown so, in days, before it is the next one that
// has not begun.
const overFor = 60

// settle finds the phase of a planting from its deeds; bed is the day its bed is free of the planting before, 0 where
// it waits for none. It returns the day its own bed is free.
func (g *Garden) settle(st *State, deeds []journal.Deed, bed climate.Day, fields *Fields) (free climate.Day) {
	today := g.Today()
	nowIn, _ := g.Calendar.Locate(today)
	season := nowIn
	planned := g.Calendar.Day(season, st.Start)
	for planned > today {
		season--
		planned = g.Calendar.Day(season, st.Start)
	}
	next := g.Calendar.Day(season+1, st.Start)
	raising := climate.Day(st.Start - st.Sow) // days under cover
	var sown, started, seen climate.Day       // as the diary says; 0 where it does not
	for _, d := range deeds {
		switch {
		case d.What == journal.Sown && st.Raised:
			sown = max(sown, d.Day)
		case d.What == journal.Sown || d.What == journal.PlantedOut:
			started = max(started, d.Day)
		case d.What == journal.FirstPicked:
			st.Picked, seen = max(st.Picked, d.Day), max(seen, d.Day)
		case d.What == journal.Up:
			seen = max(seen, d.Day)
		case d.Ends() && d.Day >= st.End:
			st.End, st.What = d.Day, d.What
		}
	}
	if bed > planned+halfYear { // that of next year's planting
		bed = 0
	}
	if late := max(planned, bed); late <= today {
		st.Since, st.Waited = late, late > planned
	}
	if started != 0 && started+halfYear > st.Since {
		st.Since, st.Logged, st.Waited = started, true, false
	}
	if d := st.Row.Out; d.Year != 0 { // a day still to come is the plan's own word that it is not out yet
		if day := g.Calendar.Day(d.Year, d.Day); day > today && day < planned+halfYear {
			st.Since = 0
		}
	}
	if sown > st.Since { // and not gone out since
		st.Since = 0
	}
	switch ended := st.What != ""; {
	case ended && st.End >= max(st.Since-raising, sown) && started <= st.End:
		st.Phase = Over
		free = st.End
	case st.Since != 0 && today-st.Since <= maxStanding:
		st.Phase, st.End, st.What = InGround, 0, ""
		if free = g.expect(st, fields); st.Expected != 0 && st.Expected <= today && seen < st.Expected {
			st.Phase, st.End = Over, st.Expected
		}
	}
	if st.Picked < st.Since {
		st.Picked = 0
	}
	if st.Phase == InGround {
		return free
	}
	if ended, _ := g.Calendar.Locate(st.End); st.Phase == Over && ended < nowIn && today-st.End > overFor {
		st.Phase = NotYet
	}
	switch {
	case !st.Raised:
	case sown > max(st.Since, st.End):
		st.Phase, st.Since, st.Logged = UnderCover, sown, true
	case next-raising <= today && st.End < next-raising:
		st.Phase, st.Since, st.Logged = UnderCover, next-raising, false
	}
	return free
}

// expect finds by which day nine seasons in ten have a planting over, and returns the day by which half of them do.
func (g *Garden) expect(st *State, fields *Fields) climate.Day {
	season, start := g.Calendar.Locate(st.Since)
	free := risk.FreeOn(fields.Field(st.Where, st.Crop, st.Raised), st.Planting.At(start))
	day := func(q climate.Quantile) climate.Day {
		if !q.Known || math.IsInf(q.Value, 0) {
			return 0
		}
		return g.Calendar.Day(season, climate.SeasonDay(math.Ceil(q.Value)))
	}
	st.Expected = day(free[2])
	return day(free[1])
}

// Names are the names that the diary knows plantings by: their labels, numbered where two are the same.
func Names(rows []garden.Row) []string {
	names := make([]string, len(rows))
	seen := map[string]int{}
	for i, r := range rows {
		label := r.Name
		if label == "" {
			label = r.Crop
			if r.Class != "" {
				label += ", " + r.Class
			}
		}
		seen[label]++
		if names[i] = label; seen[label] > 1 {
			names[i] = fmt.Sprintf("%s (%d)", label, seen[label])
		}
	}
	return names
}

// Day is the day since which a planting stands so; 0 where it has not begun.
func (st State) Day() climate.Day {
	switch st.Phase {
	case NotYet:
		return 0
	case Over:
		return st.End
	}
	return st.Since
}

// By says what the state rests on.
func (st State) By() string {
	switch {
	case st.Phase == Over && st.What == "":
		return "the seasons: 9 in 10 have it over by then"
	case st.Phase == Over:
		return "the diary: " + st.What
	case st.Logged:
		return "the diary"
	case st.Phase == InGround && st.Waited:
		return "the seasons: half have its bed free by then"
	}
	return "the plan"
}

// noteStrangers remarks on plantings that the diary has this season, not yet ended, and the plan has not: a name
// mistyped would else be passed over in silence.
func (g *Garden) noteStrangers(diary journal.Diary, plan []string) {
	open := map[string]journal.Deed{}
	this, _ := g.Calendar.Locate(g.Today())
	for _, d := range diary.Deeds {
		name := strings.ToLower(d.Planting)
		if season, _ := g.Calendar.Locate(d.Day); season != this || d.Ends() || d.Line == 0 {
			delete(open, name)
		} else if _, seen := open[name]; !seen {
			open[name] = d
		}
	}
	for _, name := range plan {
		delete(open, strings.ToLower(name))
	}
	for _, d := range slices.SortedFunc(maps.Values(open), func(a, b journal.Deed) int { return a.Line - b.Line }) {
		g.Options.Note("%s:%d: %q is no planting of the plan; what the diary says of it is not used", g.DiaryPath(), d.Line, d.Planting)
	}
}

// CanMove says whether a planting can still go out on another day of its plan's year: it is not out, and that day is
// still to come.
func (g *Garden) CanMove(st State, to climate.SeasonDay) bool {
	season, today := g.Calendar.Locate(g.Today())
	if st.Start < today {
		season++
	}
	return st.Phase <= UnderCover && g.Calendar.Day(season, to) >= g.Today()
}
