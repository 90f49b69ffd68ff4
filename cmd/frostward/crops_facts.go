package main

import (
	"fmt"
	"strings"

	"frostward/cmd/internal/opened"
	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/crops"
)

// showCrop prints every fact of a crop.
func (s *session) showCrop(cat *crops.Catalogue, c crops.Crop, own opened.OwnCrop) error {
	a := s.app
	facts := cat.Facts(c)
	switch a.format {
	case table.JSON:
		j := s.cropJSON(c)
		j.Classes, j.Facts, j.Own = cat.Classes(c.Name), factsJSON(facts), ownJSON(own)
		return a.writeJSON(j)
	case table.TextFormat:
		s.writeCrop(cat, c, facts, own)
		return nil
	}
	t := table.Table{Title: c.Label(), Columns: []table.Column{
		{Name: "fact", Key: "key"}, {Name: "value", Align: table.Right}, {Name: "low", Align: table.Right}, {Name: "high", Align: table.Right},
		{Name: "unit"}, {Name: "class"}, {Name: "source"}, {Name: "note"}, {Name: "own"},
	}}
	for _, l := range facts {
		k := sentences.KeyOf(l)
		value := words.NumberData(l.Value, -1)
		if k.Text {
			value = l.Text
		}
		t.Add(table.Data(k.What, l.Key), table.Text(value), table.Text(words.NumberData(l.Low, -1)), table.Text(words.NumberData(l.High, -1)),
			table.Text(l.Unit), table.Text(l.Class), table.Text(l.Source), table.Text(l.Note), table.Text(ownPlace(l)))
	}
	return t.Write(a.out, a.tables())
}

func ownPlace(l crops.Line) string {
	if l.Own {
		return l.Place
	}
	return ""
}

// writeCrop prints the facts as a list for reading: the caution first, then what it is,
// then a line or two for each fact.
func (s *session) writeCrop(cat *crops.Catalogue, c crops.Crop, facts []crops.Line, own opened.OwnCrop) {
	a := s.app
	a.paragraph(a.out, table.Safe(s.words().Crop(cat, c)), 0)
	if c.Caution != "" {
		fmt.Fprintln(a.out)
		a.paragraph(a.out, "Caution: "+table.Safe(c.Caution), 0)
	}
	for _, w := range []string{sentences.Learned(c.Title, own.Learned, own.Usual, own.Dates, a.unit()), sentences.LearnedCold(c, own.Cold, own.Nights, a.unit())} {
		if w != "" {
			fmt.Fprintln(a.out)
			a.paragraph(a.out, table.Safe(w), 0)
		}
	}
	for _, l := range facts {
		k := sentences.KeyOf(l)
		if k.Text && (k.Name == "caution" || k.Name == "plural" || k.Name == "kind" || k.Name == "also") ||
			k.Name == "out_to" && c.OutFrom.Known() { // shown with out_from
			continue
		}
		what := words.Capital(k.What)
		if k.Name == "out_from" && c.OutTo.Known() {
			what = "Customary into open ground"
		}
		fmt.Fprintln(a.out)
		a.paragraph(a.out, table.Safe(what+": "+s.words().Fact(c, l)), 2)
		source := table.Safe(l.Source)
		if l.Own {
			source = "own fact, " + table.Safe(l.Place) + ": " + source
		}
		if l.Note != "" {
			source += ". " + words.Capital(table.Safe(l.Note))
		}
		narrow := *a
		narrow.width = max(0, a.width-2)
		fmt.Fprint(a.out, "  ")
		narrow.paragraph(a.out, strings.TrimSuffix(words.Capital(source), ".")+".", 2)
	}
}

// cropJSON is a crop for programs. Facts are there only where one crop is asked for.
type cropJSON struct {
	Crop            string     `json:"crop"`
	Class           string     `json:"class"`
	Kind            string     `json:"kind"`
	Plural          string     `json:"plural"`
	Hardiness       string     `json:"hardiness"`
	KillHardened    *float64   `json:"kill_hardened_c"`
	WeeksUnderCover *float64   `json:"weeks_under_cover"`
	OutFrom         *string    `json:"out_from"`
	OutTo           *string    `json:"out_to"`
	GrowthSown      *float64   `json:"growth_sown"`
	GrowthPlanted   *float64   `json:"growth_planted"`
	WarmthSown      *float64   `json:"warmth_sown"`
	WarmthPlanted   *float64   `json:"warmth_planted"`
	Caution         string     `json:"caution"`
	Classes         []string   `json:"classes,omitempty"`
	Facts           []factJSON `json:"facts,omitempty"`
	Own             *ownCrop   `json:"own,omitempty"`
}

// ownCrop is what the garden's diary has shown of a crop: its sum over the catalogue's, as the middle and a range of 8 in 10.
type ownCrop struct {
	Factor        float64  `json:"factor"`
	Low           float64  `json:"low"`
	High          float64  `json:"high"`
	FirstPickings int      `json:"first_pickings"`
	LeftOut       []string `json:"left_out,omitempty"` // dates too far off to count
	KilledAbove   *float64 `json:"killed_above_c"`     // °C above the catalogue's killing temperature, and its range of 8 in 10; null: nothing learned
	AboveLow      *float64 `json:"killed_above_low_c"`
	AboveHigh     *float64 `json:"killed_above_high_c"`
	Killed        int      `json:"nights_that_killed"`
	Lived         int      `json:"nights_lived_through"`
}

func ownJSON(own opened.OwnCrop) *ownCrop {
	if !own.Taught() {
		return nil
	}
	low, high := own.Range()
	j := ownCrop{Factor: *number(own.Factor, 3), Low: *number(low, 3), High: *number(high, 3), FirstPickings: own.Years}
	if k := own.Cold; k.Killed+k.Lived > 0 {
		lo, hi := k.Range()
		j.KilledAbove, j.AboveLow, j.AboveHigh, j.Killed, j.Lived = number(k.Shift, 2), number(lo, 2), number(hi, 2), k.Killed, k.Lived
	}
	for _, i := range own.Odd {
		j.LeftOut = append(j.LeftOut, own.Dates[i].String())
	}
	return &j
}

type factJSON struct {
	Key    string   `json:"key"`
	What   string   `json:"what"`
	Class  string   `json:"class"` // "" where it holds for every class
	Value  *float64 `json:"value"` // null for words
	Text   string   `json:"text"`
	Low    *float64 `json:"low"`
	High   *float64 `json:"high"`
	Unit   string   `json:"unit"`
	Source string   `json:"source"`
	Note   string   `json:"note"`
	Own    string   `json:"own"` // file and line of a grower's own fact
}

func (s *session) cropJSON(c crops.Crop) cropJSON {
	return cropJSON{Crop: c.Name, Class: c.Class, Kind: string(c.Kind), Plural: c.Title, Hardiness: c.Hardiness(),
		KillHardened: number(c.KillHardened.Value, 2), WeeksUnderCover: number(c.WeeksUnderCover.Value, 2),
		OutFrom: isoDay(s.Calendar, c.OutFrom.Value), OutTo: isoDay(s.Calendar, c.OutTo.Value),
		GrowthSown: number(c.GrowthSown.Value, 1), GrowthPlanted: number(c.GrowthPlanted.Value, 1),
		WarmthSown: number(c.WarmthSown.Value, 1), WarmthPlanted: number(c.WarmthPlanted.Value, 1), Caution: c.Caution}
}

func factsJSON(facts []crops.Line) []factJSON {
	var out []factJSON
	for _, l := range facts {
		out = append(out, factJSON{Key: l.Key, What: sentences.KeyOf(l).What, Class: l.Class, Value: number(l.Value, 3), Text: l.Text,
			Low: number(l.Low, 3), High: number(l.High, 3), Unit: l.Unit, Source: l.Source, Note: l.Note, Own: ownPlace(l)})
	}
	return out
}
