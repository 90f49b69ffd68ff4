package main

import (
	"io"
	"strings"

	"github.com/fatih/color"
	"github.com/spf13/cobra"

	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/crops"
)

// app is one run of the program: the world, and the options that all commands share.
type app struct {
	schema bool // the schema of a result is wanted in its place
	world
	options
	screen io.Writer // standard error as it is, for a bar that is drawn over
	status int       // exit status of a command that did what it was asked
	json   *onlyJSON // where --format json was asked for
}

// options are the flags that all commands share.
type options struct {
	garden   string
	history  []string
	plan     string
	station  string
	years    string
	at       []float64
	by       string
	spot     string
	asOf     string
	latitude string
	units    string
	reading  []string
	answers  []string
	seed     uint64
	format   table.Format
	color    string
	ascii    bool
	fahr     bool
}

// groups are the commands, each in a file of its own, by what a grower does.
var groups = []struct {
	title    string
	commands []func(*app) *cobra.Command
}{
	{"This week:", []func(*app) *cobra.Command{newWeek, newTonight, newOutlook, newLog, newDid}},
	{"The year's plan:", []func(*app) *cobra.Command{newPlan, newMove, newWhen, newSow, newCrops}},
	{"The garden and its record:", []func(*app) *cobra.Command{newStart, newRecord, newCheck, newFrosts, newWarmth, newSpots, newSkill}},
	{"To look at, and for others:", []func(*app) *cobra.Command{newPage, newServe, newCalendar, newStations, newMan}},
}

// ownForm is the annotation of a command that writes a form of its own, such as a page: its value names it.
const ownForm = "own form"

func newRoot(a *app) *cobra.Command {
	root := &cobra.Command{
		Use:   "frostward",
		Short: "When tender crops may go out, whether to cover them tonight, and whether they will ripen",
		Long: `frostward reads a local record of daily temperatures and a plan of plantings, plays
every planting through every season day by day, and says how often it survives the
frosts and ripens in time, with the sample size and the uncertainty of each chance.

A garden is a folder with garden.yaml, record.csv, plan.csv and log.csv. Without one,
every command runs on a built-in garden, which is invented.`,
		Example: `  frostward plan
  frostward start mygarden && frostward plan --garden mygarden
  frostward frosts --history station.csv --latitude 53.6`,
		SilenceUsage:  true,
		SilenceErrors: true,
		Version:       version(),
		Args:          cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if a.inGarden() {
				return a.week(tonightOptions{})
			}
			return cmd.Help()
		},
		PersistentPreRunE: func(c *cobra.Command, _ []string) error {
			return a.settle(c)
		},
	}
	root.SetIn(a.in)
	root.SetOut(a.out)
	root.SetErr(a.err)
	root.SetFlagErrorFunc(flagFault)
	f := root.PersistentFlags()
	f.StringVarP(&a.garden, "garden", "g", "", "the garden's `folder`")
	f.StringArrayVar(&a.history, "history", nil, "the station's record, a `file`, folder, pattern or - (in place of the garden's); give it again for more files")
	f.StringVar(&a.plan, "plan", "", "the plan, a CSV `file` (in place of the garden's)")
	f.StringVar(&a.station, "station", "", "the station to read, by `name`, from a file that holds several")
	f.StringVar(&a.years, "years", "", "seasons to use, `first-last`, such as 1991-2020")
	f.StringVar(&a.by, "by", "", "where chances come from: record, curve or weather (`way`)")
	f.StringVar(&a.spot, "spot", "", "the `spot` of the garden; \"station\" is the station itself")
	f.StringVar(&a.asOf, "as-of", "", "answer as on this `date`, such as 2026-05-16, with what was known then (today)")
	f.StringVar(&a.latitude, "latitude", "", "`degrees`, south negative")
	f.StringVar(&a.units, "units", "", "the record's `unit`, c, f, tenths or k, where the file does not say")
	f.StringSliceVar(&a.reading, "read", nil, "what else the file does not say, such as `dates=dmy`; check asks for it")
	f.StringArrayVar(&a.answers, "answer", nil, "an `answer` to what check asks, as check words it; may be given more than once")
	f.Uint64Var(&a.seed, "seed", 1, "`number` that fixes the random draws")
	f.VarP(&a.format, "format", "f", "table, markdown, csv or json")
	f.StringVar(&a.color, "color", "auto", "colour: auto, always or never (`when`)")
	f.BoolVar(&a.ascii, "ascii", false, "draw with plain ASCII")
	f.BoolVar(&a.fahr, "fahrenheit", false, "show temperatures in °F (JSON and CSV stay in °C)")
	complete(root, "by", "record", "curve", "weather")
	complete(root, "units", "c", "f", "tenths", "k")
	complete(root, "color", "auto", "always", "never")
	complete(root, "format", table.FormatNames()...)
	for _, g := range groups {
		root.AddGroup(&cobra.Group{ID: g.title, Title: g.title})
		for _, build := range g.commands {
			c := build(a)
			c.GroupID = g.title
			root.AddCommand(c)
		}
	}
	schema := newSchema(a) // not among the groups: it makes a root of its own
	schema.GroupID = groups[len(groups)-1].title
	root.AddCommand(schema, newFields(a))
	return root
}

// complete offers fixed words in the shell's completion of a flag.
func complete(cmd *cobra.Command, flag string, words ...string) {
	if err := cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp)); err != nil {
		panic(err) // no such flag
	}
}

// settle checks the shared options once they are read.
func (a *app) settle(c *cobra.Command) error {
	if form, own := c.Annotations[ownForm]; own && c.Flags().Changed("format") {
		return usagef("--format %v: %s writes %s", a.format, c.Name(), form)
	}
	if a.format == table.JSON {
		a.json = &onlyJSON{to: a.out, command: c.Name()}
		a.out = a.json
	}
	switch a.color {
	case "auto":
		color.NoColor = !a.terminal || a.getenv("NO_COLOR") != "" || a.getenv("TERM") == "dumb"
	case "always":
		color.NoColor = false
	case "never":
		color.NoColor = true
	default:
		return usagef("--color %q; wanted auto, always or never", a.color)
	}
	return nil
}

// tables are the options tables are written with.
func (a *app) tables() table.Options {
	return table.Options{Format: a.format, Width: a.width, Colour: !color.NoColor, ASCII: a.ascii}
}

// takes is how many arguments a command takes, in words for who gives it more or fewer.
func takes(least, most int, wanted string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) < least || len(args) > most {
			return usagef("%s: %s given; wanted %s", c.Name(), words.Plural(len(args), "argument"), wanted)
		}
		return nil
	}
}

// flagFault words a mistake in an option without the names of Go's own functions.
func flagFault(_ *cobra.Command, err error) error {
	text := err.Error()
	if i := strings.Index(text, ": strconv."); i > 0 {
		wanted := "a number"
		if strings.Contains(text[i:], "ParseBool") {
			wanted = "true or false"
		}
		text = text[:i] + "; wanted " + wanted
	}
	return usagef("%s", text)
}

// isCobraUsage says whether an error is cobra's own complaint about the command line: it
// has no type for them.
func isCobraUsage(err error) bool {
	s := err.Error()
	for _, p := range []string{"unknown command", "accepts ", "requires ", "unknown flag", "invalid argument", "if any flags in the group"} {
		if strings.HasPrefix(s, p) {
			return true
		}
	}
	return false
}

// completeCrop offers the catalogue's crops for a command's first argument and the crop's
// classes for its second.
func completeCrop(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	switch len(args) {
	case 0:
		return cropNames(), cobra.ShellCompDirectiveNoFileComp
	case 1:
		return crops.Builtin().Classes(args[0]), cobra.ShellCompDirectiveNoFileComp
	}
	return nil, cobra.ShellCompDirectiveNoFileComp
}

func cropNames() []string {
	var names []string
	for _, c := range crops.Builtin().All() {
		if len(names) == 0 || names[len(names)-1] != c.Name {
			names = append(names, c.Name)
		}
	}
	return names
}
