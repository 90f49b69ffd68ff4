package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/crops"
)

func newCrops(a *app) *cobra.Command {
	var kind string
	c := &cobra.Command{
		Use:   "crops [CROP [CLASS]]",
		Short: "What the catalogue knows of each crop, with sources",
		Long: `crops lists the crops of the catalogue, one variety class a line: what is picked, how much
frost a hardened plant stands, how long it is raised under cover, and when it customarily
goes into open ground. With a crop's name it shows every fact of it, with the range that
sources give, the source, and a note where sources conflict or only memory serves.

Tender plants are killed by the first frosts, half-hardy ones by -5 °C or so, hardy ones by
-10 °C or so; very hardy ones stand more.

A garden's own facts, in the file that garden.yaml names under crops, go before the
catalogue's and are marked. What the first pickings in its diary, and what frost took and
left, say of a crop is said, too: plans, windows, outlooks and tonight go by it.`,
		Example: `  frostward crops
  frostward crops --kind leaf
  frostward crops "sweet corn" early
  frostward crops courgette --format csv`,
		Args:              takes(0, 2, "at most a crop and its class"),
		ValidArgsFunction: completeCrop,
		RunE: func(_ *cobra.Command, args []string) error {
			s, err := a.openCatalogue()
			if err != nil {
				return err
			}
			cat, err := s.Catalogue()
			if err != nil {
				return err
			}
			if len(args) == 0 {
				return s.listCrops(cat, kind)
			}
			if kind != "" {
				return usagef("--kind is for the list; leave it out with a crop's name")
			}
			crop, err := cat.Find(args[0], strings.Join(args[1:], ""))
			if err != nil {
				return usage(err)
			}
			own, err := a.learned(crop)
			if err != nil {
				return err
			}
			return s.showCrop(cat, crop, own)
		},
	}
	c.Flags().StringVar(&kind, "kind", "", "only crops of this `kind`: fruit, leaf, root, bulb or flower")
	complete(c, "kind", kinds...)
	return c
}

var kinds = []string{string(crops.Fruit), string(crops.Leaf), string(crops.Root), string(crops.Bulb), string(crops.Flower)}

// openCatalogue opens the garden as far as its catalogue goes: no record is needed to
// read about crops.
func (a *app) openCatalogue() (*session, error) {
	g, err := opened.Place(a.choice())
	return a.shown(g, err)
}

// learned is what the garden's diary has shown of a crop. Only a diary that teaches something wants the record.
func (a *app) learned(c crops.Crop) (own opened.OwnCrop, err error) {
	choice := a.choice()
	var notes []string
	choice.Note = func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	g, err := opened.Place(choice)
	if err != nil {
		return own, err
	}
	if diary, err := g.Diary(); err != nil || !diary.Teaches() {
		for _, note := range notes {
			a.notef("%s", note)
		}
		return own, err
	}
	s, err := a.open() // which has the same to remark, and more
	if err != nil {
		return own, err
	}
	all, err := s.Learned()
	return all[c.Label()], err
}

type cropsJSON struct {
	Crops []cropJSON `json:"crops"`
}

// listCrops prints the crops, a class a line.
func (s *session) listCrops(cat *crops.Catalogue, kind string) error {
	if kind != "" && !slices.Contains(kinds, kind) {
		return usagef("--kind %q; wanted %s", kind, strings.Join(kinds, ", "))
	}
	a := s.app
	t := table.Table{Columns: []table.Column{
		{Name: "crop", MinWidth: 20}, {Name: "kind", Drop: 2}, {Name: "frost", Key: "hardiness"},
		{Name: "killed at", Key: "kill_hardened_c", Align: table.Right},
		{Name: "weeks under cover", Key: "weeks_under_cover", Align: table.Right, Wrap: true, MinWidth: 9},
		{Name: "into open ground", Keys: []string{"out_from", "out_to"}},
		{Name: "warmth", Unit: a.unit().DegreeDays(), Key: "warmth_c_days", Align: table.Right, Drop: 1},
	}}
	list := []cropJSON{}
	n := 0
	for _, c := range cat.All() {
		if kind != "" && string(c.Kind) != kind {
			continue
		}
		n++
		list = append(list, s.cropJSON(c))
		warmth := c.WarmthPlanted
		if !warmth.Known() {
			warmth = c.WarmthSown
		}
		t.Add(table.Text(c.Label()), table.Text(string(c.Kind)), table.Text(c.Hardiness()),
			table.Data(known(c.KillHardened, a.unit().Degrees), words.NumberData(c.KillHardened.Value, -1)),
			table.Data(s.weeks(c), words.NumberData(c.WeeksUnderCover.Value, -1)),
			table.Data(s.words().OpenGround(c), s.words().DayData(c.OutFrom.Value), s.words().DayData(c.OutTo.Value)),
			table.Data(known(warmth, func(v float64) string { return fmt.Sprintf("%.0f", a.unit().Difference(v)) }), words.NumberData(warmth.Value, -1)))
	}
	if a.format == table.JSON {
		return a.writeJSON(cropsJSON{list})
	}
	t.Notes = []string{words.Plural(n, "line") + "; \"frostward crops CROP\" shows every fact with its source. Warmth is plain degree-days from planting out, or from sowing where a crop is only sown in place, to first picking; plans count effective ones, which hang on light and heat as well."}
	return t.Write(a.out, a.tables())
}

// weeks says how long a crop is raised under cover and whether it may be sown in place.
func (s *session) weeks(c crops.Crop) string {
	w := c.WeeksUnderCover
	switch {
	case !w.Known():
		return words.Dash
	case w.Value == 0:
		return "sown"
	case c.WarmthSown.Known() || c.DaysSown.Known():
		return fmt.Sprintf("%g or sown", w.Value)
	}
	return fmt.Sprintf("%g", w.Value)
}

// known writes a fact, or a words.Dash where it has no value.
func known(f crops.Fact, write func(float64) string) string {
	if !f.Known() {
		return words.Dash
	}
	return write(f.Value)
}
