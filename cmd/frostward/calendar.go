package main

import (
	"bytes"
	"fmt"
	"os"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/calendar"
	"frostward/cmd/internal/deliver"
	"frostward/cmd/internal/words"
)

func newCalendar(a *app) *cobra.Command {
	var out output
	var season int
	c := &cobra.Command{
		Annotations: map[string]string{ownForm: "an iCalendar file"},
		Use:         "calendar",
		Short:       "The plan's dates as a calendar file",
		Long: `calendar writes the plan's dates as an iCalendar file (RFC 5545): sowing, hardening off,
planting out, the spans in which a cover may be wanted, the first picking to expect and
the bed free. All are all-day events. Their identities stay the same, so that reading a
later file into a calendar program moves events and does not double them. Where -o names
a file written before, events still to come that are no longer in the plan are cancelled.

The season is the one whose work lies ahead, or --season. SOURCE_DATE_EPOCH, in seconds,
fixes the time stamp.`,
		Example: `  frostward calendar -o garden.ics
  frostward calendar --garden mygarden --season 2027 > next.ics`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.calendarCmd(out, season) },
	}
	out.flags(c, calendar.Mark)
	c.Flags().IntVar(&season, "season", 0, "the `year` in which the season begins")
	return c
}

func (a *app) calendarCmd(out output, season int) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	today := s.present()
	if season == 0 {
		season = s.PlanningFor(today)
	}
	if season < 1900 || season > 2999 {
		return usagef("--season %d; wanted a year, such as %d", season, s.PlanningFor(today))
	}
	stamp, err := a.stamp()
	if err != nil {
		return err
	}
	if err := out.check(calendar.Mark, s.Own()); err != nil {
		return err
	}
	events, err := calendar.Events(s.Garden, s.words(), season)
	if err != nil {
		return err
	}
	gone, err := goneFrom(out, events, today)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := calendar.Write(&b, calendar.File{Name: s.Settings.Name, Stamp: stamp, Events: append(events, gone...)}); err != nil {
		return err
	}
	if err := a.deliver(out, calendar.Mark, s.Own(), b.Bytes()); err != nil || out.name == "" {
		return err
	}
	a.notef("%s: %s for the season %d", out.name, words.Plural(len(events), "event"), season)
	if len(gone) > 0 {
		a.notef("%s: %s of the file before cancelled", out.name, words.Plural(len(gone), "event"))
	}
	return nil
}

// goneFrom reads the file that is to be written over, if there is one, for what is no
// longer meant.
func goneFrom(out output, events []calendar.Event, today climate.Day) ([]calendar.Event, error) {
	if out.name == "" || !out.file(calendar.Mark, nil).Own() {
		return nil, nil
	}
	b, err := os.ReadFile(out.name)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", out.name, deliver.Cause(err))
	}
	gone, err := calendar.Gone(bytes.NewReader(b), events, today)
	if err != nil {
		return nil, fmt.Errorf("%s: is there already and is %w; wanted a calendar written before, or a new name", out.name, err)
	}
	return gone, nil
}

// stamp is now, or what SOURCE_DATE_EPOCH says.
func (a *app) stamp() (time.Time, error) {
	e := a.getenv("SOURCE_DATE_EPOCH")
	if e == "" {
		return time.Now().UTC(), nil
	}
	n, err := strconv.ParseInt(e, 10, 64)
	if err != nil {
		return time.Time{}, fmt.Errorf("SOURCE_DATE_EPOCH: %q is not a number of seconds", e)
	}
	return time.Unix(n, 0).UTC(), nil
}
