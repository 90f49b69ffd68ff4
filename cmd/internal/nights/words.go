package nights

import (
	"fmt"
	"math"
	"strings"

	"frostward/cmd/internal/sentences"
	"frostward/cmd/internal/table"
	"frostward/cmd/internal/words"
	"frostward/crops"
	"frostward/risk"
)

// Headline is what to do.
func (n Night) Headline(u words.Units) string {
	if len(n.Out) == 0 {
		if n.Spots[0].Out.Known {
			return fmt.Sprintf("Nothing that frost can harm is out on the evening of %s.", words.Date(n.Evening))
		}
		return "Not known: the record has too few seasons for the date, and no forecast or reading was given."
	}
	var deeds []string           // in order of first use
	who := map[string][]string{} // by deed
	top, worst := -1, 0          // the most in danger of those to protect, and of all
	for i, p := range n.Out {
		danger := func(j int) float64 { return n.Out[j].Advice.Choices[0].Damaged.Share }
		if danger(i) > danger(worst) {
			worst = i
		}
		deed := ""
		switch c := p.Advice.Do(); c.Action {
		case risk.Leave:
			continue
		case risk.LayCover:
			deed = "cover %s with " + c.Cover.Name
		case risk.BringIn:
			deed = "bring in %s"
		}
		if top < 0 || danger(i) > danger(top) {
			top = i
		}
		if who[deed] == nil {
			deeds = append(deeds, deed)
		}
		who[deed] = append(who[deed], p.Title())
	}
	if top < 0 {
		p := n.Out[worst]
		return fmt.Sprintf("Leave everything as it is tonight: the most in danger are %s, with %s.", p.Title(), p.Danger(u)) + n.short() + n.BeyondHelp()
	}
	for i, d := range deeds {
		deeds[i] = strings.Replace(d, "%s", words.List(who[d]), 1)
	}
	return fmt.Sprintf("%s tonight: %s.", words.Capital(strings.Join(deeds, "; ")), n.Out[top].Danger(u)) + n.short() + n.BeyondHelp()
}

// short says what goes without the cover that would be worth laying, because there is not enough, and
// what that risks.
func (n Night) short() string {
	wanted := map[string]int{}
	var bare, other []string
	for _, p := range n.Out {
		if c := p.Advice.Choices[p.Wanted]; c.Action == risk.LayCover {
			wanted[c.Cover.Name]++
		}
		if !p.Short() {
			continue
		}
		do := p.Advice.Do()
		said := fmt.Sprintf("%s (%.0f %% of harm)", p.Title(), 100*do.Damaged.Share)
		if do.Action == risk.Leave {
			bare = append(bare, said)
		} else {
			other = append(other, said)
		}
	}
	if len(bare)+len(other) == 0 {
		return ""
	}
	var lack []string
	stock := n.garden.Settings.Stock()
	for _, c := range n.garden.Settings.Covers {
		if have, ok := stock[c.Name]; ok && wanted[c.Name] > 0 {
			if have.Metres > 0 {
				lack = append(lack, fmt.Sprintf("%v m of %s are owned and %s would be worth it for", have.Metres, c.Name, words.Plural(wanted[c.Name], "planting")))
			} else {
				lack = append(lack, fmt.Sprintf("%v of %s are owned and %d would be worth laying", have.Pieces, c.Name, wanted[c.Name]))
			}
		}
	}
	out := " " + words.Capital(words.List(lack)) + "; shared out where it saves most"
	if len(bare) > 0 {
		out += ", it leaves " + words.List(bare) + " bare"
	}
	if len(other) > 0 {
		out += ", with the next best for " + words.List(other)
	}
	return out + "."
}

// BeyondHelp names what is likely to die and not worth covering for it.
func (n Night) BeyondHelp() string {
	var lost []string
	for _, p := range n.Out {
		if p.Advice.Do().Action == risk.Leave && !p.Short() && p.Advice.Choices[0].Killed.Share > 0.5 {
			lost = append(lost, p.Title())
		}
	}
	if len(lost) == 0 {
		return ""
	}
	return fmt.Sprintf(" No cover in garden.yaml is likely to save %s.", words.List(lost))
}

// Danger is the chance of harm to it bare, with its interval.
func (p Planting) Danger(u words.Units) string {
	c := p.Advice.Choices[0].Damaged
	return fmt.Sprintf("%s (%s %%) of harm, from about %s down, at the %s", words.Chances(c.Share), words.Range(c.Low, c.High),
		u.Degrees(math.Round(p.Advice.Exposed.SetBack*10)/10), p.Where.Name)
}

// Table has a line a planting, a column a cover.
func (n Night) Table(u words.Units) table.Table {
	t := table.Table{
		Title: fmt.Sprintf("%s: night to %s", n.garden.Settings.Name, words.Date(n.Evening+1)),
		Columns: []table.Column{
			{Name: "planting", Wrap: true, MinWidth: 12}, {Name: "do", Key: "action"}, {Name: "spot", Wrap: true, Drop: 3},
			{Name: "harmed, killed at", Unit: u.Unit(), Keys: []string{"set_back_c", "killed_c"}, Align: table.Right, Wrap: true, MinWidth: 11},
			{Name: "bare", Keys: []string{"bare", "bare_killed"}, Align: table.Right},
		},
	}
	for _, c := range n.garden.Covers() {
		t.Columns = append(t.Columns, table.Column{Name: c.Name, Keys: []string{c.Name, c.Name + "_killed"}, Align: table.Right})
	}
	t.Columns = append(t.Columns, table.Column{Name: "bare, 90 % interval", Keys: words.Ends("bare"), Align: table.Right, Wrap: true, MinWidth: 8, Drop: 2},
		table.Column{Name: "worth it from", Key: "break_even", Align: table.Right, Wrap: true, MinWidth: 8, Drop: 1})
	for _, p := range n.Out {
		x := p.Advice.Exposed
		row := []table.Cell{table.Text(p.Label()), doCell(p.Advice.Do()), table.Text(p.Where.Name),
			table.Data(u.Cell(x.SetBack).Text+", "+u.Cell(x.Kill).Text, u.Cell(x.SetBack).Data[0], u.Cell(x.Kill).Data[0])}
		var cells []table.Cell
		for _, c := range p.Advice.Choices {
			if c.Action != risk.BringIn {
				cells = append(cells, harmCell(c))
			}
		}
		row = append(row, cells...)
		bare := p.Advice.Choices[0].Damaged
		even := table.Data("never")
		if p.Advice.BreakEven < 1 {
			even = words.Percent(p.Advice.BreakEven)
		}
		row = append(row, table.Data(words.Range(bare.Low, bare.High)+" %", words.ShareData(bare.Low), words.ShareData(bare.High)), even)
		t.Add(row...)
	}
	t.Notes = []string{"chance of being set back or killed / killed; worth it from: the chance of harm from which covering or carrying in costs less than the harm it saves."}
	return t
}

func harmCell(c risk.NightChoice) table.Cell {
	return table.Data(fmt.Sprintf("%.0f / %.0f %%", 100*c.Damaged.Share, 100*c.Killed.Share), words.ShareData(c.Damaged.Share), words.ShareData(c.Killed.Share))
}

func doCell(c risk.NightChoice) table.Cell {
	tone := table.Bad
	word := c.Action.String()
	switch c.Action {
	case risk.Leave:
		tone = table.Good
	case risk.LayCover:
		word += ", " + c.Cover.Name
	}
	return table.Cell{Text: word, Tone: tone}
}

// Title names a planting in a sentence: its own name, or its crop's in the plural.
func (p Planting) Title() string {
	if p.Name != "" {
		return "the " + p.Name
	}
	return "the " + titleOf(p.Crop)
}

func titleOf(c crops.Crop) string {
	if c.Title != "" {
		return c.Title
	}
	return c.Label()
}

// RestsOn says what the night's numbers rest on.
func (n Night) RestsOn(u words.Units) string {
	var by []string
	for _, m := range n.Spots[0].Out.Methods {
		if m.Lack == risk.LacksNothing {
			by = append(by, sentences.Method(m.Kind))
		}
	}
	low, high := n.Spots[0].Out.Interval()
	return fmt.Sprintf("The night is expected between %s and %s at the spot \"%s\" (9 nights in 10), by: %s.",
		u.Degrees(math.Round(low*10)/10), u.Degrees(math.Round(high*10)/10), n.Spots[0].Name, words.List(by))
}
