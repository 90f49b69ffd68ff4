package calendar

import (
	"fmt"
	"io"
	"strings"

	ics "github.com/arran4/golang-ical"

	"frostward/climate"
)

// Gone reads an earlier file and returns, cancelled, those of its events that are from
// a day onwards and no longer among events. Without them a planting struck off the plan
// would stay in the grower's calendar. Events that are not this program's are passed
// over.
func Gone(previous io.Reader, events []Event, from climate.Day) ([]Event, error) {
	old, err := ics.ParseCalendar(previous)
	if err != nil {
		return nil, fmt.Errorf("not a calendar that can be read: %w", err)
	}
	kept := map[string]bool{}
	for _, e := range events {
		kept[e.UID] = true
	}
	var gone []Event
	for _, v := range old.Events() {
		uid := v.Id()
		if kept[uid] || !strings.HasSuffix(uid, "@frostward.invalid") {
			continue
		}
		start, err1 := v.GetAllDayStartAt()
		end, err2 := v.GetAllDayEndAt()
		if err1 != nil || err2 != nil {
			continue
		}
		e := Event{UID: uid, First: dayOf(start), Last: dayOf(end) - 1, Cancelled: true}
		if e.Last < e.First || e.Last < from {
			continue
		}
		if p := v.GetProperty(ics.ComponentPropertySummary); p != nil {
			e.Title = p.Value
		}
		kept[uid] = true // a damaged file may hold it twice
		gone = append(gone, e)
	}
	return gone, nil
}
