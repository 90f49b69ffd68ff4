// Package chart draws what the program has found: small pictures of characters for a
// terminal, and SVG for a page. It knows dates and numbers, not plants.
//
// Nothing is said by colour alone: every role has its own dash, hatch and mark besides,
// and every chart gives its figures as a table (Data) and, in words, in its description.
//
// Colours in SVG are presentation attributes, which a strict Content-Security-Policy
// allows and which hold when the picture is saved by itself; DarkStyle has the rules by
// which a page puts dark ones in their place.
package chart

import "frostward/cmd/internal/table"

// Chart is one picture.
type Chart interface {
	// SVG returns the picture as an svg element. The id must be unique in the page and
	// begin with a letter. The width is in CSS pixels at natural size.
	SVG(id string, width int) []byte

	// Data returns the figures behind the picture.
	Data() table.Table
}

// Natural widths: two narrow charts stand side by side on a desk screen, and one fills
// a telephone's.
const (
	Narrow = 360
	Wide   = 900
)
