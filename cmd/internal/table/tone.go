package table

import "github.com/fatih/color"

// toneColours are blue, yellow, bold magenta and faint, rather than green and red,
// which one man in twelve cannot well tell apart (common figure, from memory).
var toneColours = map[Tone]*color.Color{
	Good:     color.New(color.FgBlue),
	Doubtful: color.New(color.FgYellow),
	Bad:      color.New(color.FgMagenta, color.Bold),
	Quiet:    color.New(color.Faint),
}

func init() {
	for _, c := range toneColours {
		c.EnableColor() // whether to colour is the caller's choice, not that of the standard output
	}
}

func (t Tone) paint(s string) string {
	c, ok := toneColours[t]
	if !ok || s == "" {
		return s
	}
	return c.Sprint(s)
}
