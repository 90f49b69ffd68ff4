package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"frostward/climate"
	"frostward/cmd/internal/journal"
	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
)

func newDid(a *app) *cobra.Command {
	var date, note, covered string
	var undo bool
	c := &cobra.Command{
		Use:   "did [PLANTING WHAT]",
		Short: "Write into the diary what was done to a planting, or take the last line back",
		Long: `did adds a line to the garden's diary: what was done to a planting of the plan or seen of
it. WHAT is one of ` + strings.Join(journal.Deeds(), ", ") + `.
What the diary says counts before the plan's dates, and those before what the seasons
say, on every screen. The line is on the disk when the command says so.

--undo takes the last line of the diary back, or the last one of PLANTING: a line is added
that cancels it, and nothing is rewritten. Without anything, did shows how each planting stands.

What frost took says what the garden's own crops stand, and the more where --covered says
what was over them. The diary is the plain file diary.csv in the garden's folder: date,
planting, what, note, covered.`,
		Example: `  frostward did courgettes planted out --garden mygarden
  frostward did "first lettuce" first picked --date 2026-06-08 --garden mygarden
  frostward did courgettes lost to frost --covered no --garden mygarden
  frostward did --undo --garden mygarden`,
		RunE: func(_ *cobra.Command, args []string) error { return a.did(args, date, note, covered, undo) },
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 1 {
				return journal.Deeds(), cobra.ShellCompDirectiveNoFileComp
			}
			return nil, cobra.ShellCompDirectiveNoFileComp
		},
	}
	c.Flags().StringVar(&date, "date", "", "the `day`, such as 2026-05-28 (today)")
	c.Flags().StringVar(&note, "note", "", "a `note`")
	c.Flags().StringVar(&covered, "covered", "", "lost to frost: the `cover` it was under that night, or no (not known)")
	c.Flags().BoolVar(&undo, "undo", false, "take the last line back")
	return c
}

func (a *app) did(args []string, date, note, covered string, undo bool) error {
	s, err := a.open()
	if err != nil {
		return err
	}
	if len(args) == 0 && !undo {
		return s.listStates()
	}
	if s.Invented {
		return errInvented
	}
	if undo {
		return s.undoDeed(strings.Join(args, " "))
	}
	name, rest, err := s.plantingOf(args)
	if err != nil {
		return err
	}
	d := journal.Deed{Day: s.Today(), Planting: name, What: strings.ToLower(strings.Join(rest, " ")), Note: note, Covered: strings.ToLower(covered)}
	if date != "" {
		if d.Day, err = climate.ReadDay(date); err != nil {
			return usage(fmt.Errorf("--date: %w", err))
		}
	}
	if d.Day > s.Today() {
		return usagef("--date %v: is after today, %v; wanted a day that has been", d.Day, s.Today())
	}
	if err := d.Check(); err != nil {
		return usage(err)
	}
	if d.Covered == "none" {
		d.Covered = "no"
	}
	if _, err := s.Cover(d.Covered); err != nil && d.Covered != "no" {
		return usage(fmt.Errorf("--covered: %w", err))
	}
	if err := journal.AppendDeed(s.DiaryPath(), d); err != nil {
		return err
	}
	return s.sayDeed("wrote", d)
}

// plantingOf parts the words of the command line into a planting of the plan and the rest.
func (s *session) plantingOf(args []string) (name string, rest []string, err error) {
	rows, err := s.Plan()
	if err != nil {
		return "", nil, err
	}
	names := opened.Names(rows)
	for n := len(args); n > 0; n-- { // a name of several words need not be quoted
		for _, name := range names {
			if strings.EqualFold(name, strings.Join(args[:n], " ")) {
				return name, args[n:], nil
			}
		}
	}
	return "", nil, usagef("%q is no planting of the plan; wanted one of %s", args[0], strings.Join(names, ", "))
}

// undoDeed takes the last line back, of one planting where it is named.
func (s *session) undoDeed(planting string) error {
	diary, err := s.Diary()
	if err != nil {
		return err
	}
	for _, d := range slices.Backward(diary.Deeds) {
		if planting != "" && !strings.EqualFold(d.Planting, planting) {
			continue
		}
		if err := journal.Undo(s.DiaryPath(), d); err != nil {
			return err
		}
		return s.sayDeed("took back", d)
	}
	return usagef("--undo: the diary has no line%s to take back", map[bool]string{true: " of " + planting}[planting != ""])
}

func (s *session) sayDeed(verb string, d journal.Deed) error {
	if s.app.format == table.JSON {
		return s.app.writeJSON(deedJSON{s.DiaryPath(), verb, d.Day.String(), d.Planting, d.What, d.Note, d.Covered})
	}
	fmt.Fprintf(s.app.out, "%s %s: %s, %s, %s.\n", words.Capital(verb), map[string]string{"wrote": "into " + s.DiaryPath(), "took back": "in " + s.DiaryPath()}[verb],
		d.Planting, d.What, words.Date(d.Day))
	return nil
}

// deedJSON is a line of the diary that was written or taken back.
type deedJSON struct {
	File     string `json:"file"`
	Did      string `json:"did"`
	Date     string `json:"date"`
	Planting string `json:"planting"`
	What     string `json:"what"`
	Note     string `json:"note"`
	Covered  string `json:"covered"`
}

type statesJSON struct {
	AsOf      string      `json:"as_of"`
	Plantings []stateJSON `json:"plantings"`
}

type stateJSON struct {
	Planting string  `json:"planting"`
	State    string  `json:"state"`
	Since    *string `json:"since"`
	Logged   bool    `json:"logged"`
	Ended    *string `json:"ended"`
	What     string  `json:"what"`
	OverBy   *string `json:"over_by"`
}

// listStates shows how each planting stands.
func (s *session) listStates() error {
	today := s.present()
	states, err := s.States()
	if err != nil {
		return err
	}
	if s.app.format == table.JSON {
		list := []stateJSON{}
		for _, st := range states {
			list = append(list, stateJSON{st.Name, st.Phase.String(), isoDate(st.Since), st.Logged, isoDate(st.End), st.What, isoDate(st.Expected)})
		}
		return s.app.writeJSON(statesJSON{today.String(), list})
	}
	t := table.Table{Title: fmt.Sprintf("%s: how the plantings stand on %s", s.Settings.Name, words.Date(today)),
		Columns: []table.Column{{Name: "planting", Wrap: true, MinWidth: 14}, {Name: "stands", Key: "state"}, {Name: "since"}, {Name: "by", Wrap: true, MinWidth: 12}}}
	for _, st := range states {
		since, by := table.Text(words.Dash), words.Dash
		if day := st.Day(); day != 0 {
			since, by = table.Data(words.Date(day), day.String()), st.By()
		}
		t.Add(table.Text(st.Name), table.Text(st.Phase.String()), since, table.Text(by))
	}
	return t.Write(s.app.out, s.app.tables())
}

// isoDate is a day for JSON, null where there is none.
func isoDate(d climate.Day) *string {
	if d == 0 {
		return nil
	}
	s := d.String()
	return &s
}
