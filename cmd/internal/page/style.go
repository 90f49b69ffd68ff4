package page

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"html/template"
	"strings"

	"frostward/cmd/internal/chart"
)

//go:embed style.css
var styleSource string

// cardsSource makes cards of a kind of table's rows where the room is less than it wants.
//
//go:embed cards.css
var cardsSource string

// style is the page's one style sheet, with the charts' colours put in.
var style = func() string {
	var old []string
	add := func(name string, r chart.Role) {
		light, dark := r.Colours()
		old = append(old, "DARK"+name, dark, " "+name, " "+light)
	}
	add("PAPER", chart.Paper)
	add("INK", chart.Ink)
	add("MUTED", chart.Muted)
	add("GRID", chart.Grid)
	add("FROST", chart.Frost)
	add("WARMTH", chart.Warmth)
	add("GROWTH", chart.Growth)
	add("OCHRE", chart.Ochre)
	cards := func(kind, room string) string {
		return strings.NewReplacer("KIND", kind, "ROOM", room).Replace(cardsSource)
	}
	old = append(old, "CHARTS", chart.DarkStyle("svg"), "CARDS", "@media screen {\n"+cards("cards", "40rem")+cards("many", "54rem")+"}")
	return strings.NewReplacer(old...).Replace(styleSource)
}()

// styleElement is written as it stands, so that the hash fits it.
var styleElement = template.HTML("<style>" + style + "</style>")

// Policy is the Content-Security-Policy of a page: nothing but its own style sheet and
// an empty picture for the icon. Forms may be sent to the page's own origin when live.
func Policy(live bool) string { return policyFor(style, live) }

// policyFor lets one style sheet, and no other, work.
func policyFor(css string, live bool) string {
	h := sha256.Sum256([]byte(css))
	p := "default-src 'none'; style-src 'sha256-" + base64.StdEncoding.EncodeToString(h[:]) + "'; img-src data:; base-uri 'none'"
	if live {
		return p + "; form-action 'self'; frame-ancestors 'none'"
	}
	return p + "; form-action 'none'"
}

// Mark stands in the head of every page, which is known by it.
const Mark = `name="generator" content="frostward"`
