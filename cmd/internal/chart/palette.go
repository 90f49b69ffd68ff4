package chart

import (
	"fmt"
	"strings"
)

// Role is what a colour stands for. The zero value is Ink.
type Role int

// The roles. Those from Frost on keep series apart.
const (
	Ink   Role = iota // text and axes
	Muted             // lesser text
	Grid              // lines that only guide the eye
	Paper             // the ground
	Frost
	Warmth
	Growth
	Plum
	Ochre
)

// seriesRoles are the roles that keep series apart.
var seriesRoles = []Role{Frost, Warmth, Growth, Plum, Ochre}

// shade is how a role looks. Contrast with the paper and distance from each other, for
// eyes of every kind, are pinned by the tests.
type shade struct {
	name        string
	light, dark string
	dash        string // stroke-dasharray; empty: an unbroken line
	hatch       string // the path of an 8 by 8 tile
	mark        string // the path of a mark about the origin
}

var shades = [...]shade{
	Ink:   {name: "ink", light: "#1c262b", dark: "#eceeea"},
	Muted: {name: "muted", light: "#465158", dark: "#a9b5ba"},
	Grid:  {name: "grid", light: "#d8dbd5", dark: "#363f44"},
	Paper: {name: "paper", light: "#fbfaf6", dark: "#12181b"},
	Frost: {name: "frost", light: "#2f46be", dark: "#8aa2ff",
		hatch: "M-2 2L2 -2M0 8L8 0M6 10L10 6", mark: "M-3.5 0a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0 -7 0z"},
	Warmth: {name: "warmth", light: "#ab1111", dark: "#f5843c", dash: "9 3",
		hatch: "M-2 6L2 10M0 0L8 8M6 -2L10 2", mark: "M0 -4L4 3.4L-4 3.4z"},
	Growth: {name: "growth", light: "#075244", dark: "#4cbc93", dash: "2 2.5",
		hatch: "M1 2h2M5 6h2", mark: "M-3.2 -3.2h6.4v6.4h-6.4z"},
	Plum: {name: "plum", light: "#601a78", dark: "#efb5f0", dash: "10 3 2 3",
		hatch: "M0 4h8M4 0v8", mark: "M0 -4.4L4.4 0L0 4.4L-4.4 0z"},
	Ochre: {name: "ochre", light: "#545a15", dark: "#f3e08a", dash: "5 6",
		hatch: "M2 0v8M6 0v8", mark: "M-4 -3.4L4 -3.4L0 4z"},
}

// DarkStyle returns the style rules that turn the charts within a selector dark. The
// caller puts them under its own media query.
func DarkStyle(within string) string {
	var b strings.Builder
	for _, s := range shades {
		fmt.Fprintf(&b, "%s .f-%s{fill:%s}%s .s-%s{stroke:%s}\n", within, s.name, s.dark, within, s.name, s.dark)
	}
	return b.String()
}

// Colours returns a role's colour on light and on dark ground, so that a page can use
// the same ones.
func (r Role) Colours() (light, dark string) { return shades[r].light, shades[r].dark }
