package crops

import (
	"bytes"
	_ "embed"
	"fmt"
	"io"
	"slices"
	"sort"
	"strconv"
	"strings"
	"sync"
)

//go:embed catalogue.csv
var builtin []byte

// Catalogue is a set of crops. It does not change: With returns another one.
type Catalogue struct {
	crops []*entry          // by name
	index map[string]*entry // by every name, plural and synonym, folded
}

// entry is one crop with its classes.
type entry struct {
	name    string
	classes []string           // in the order of the file; none where the crop has no classes
	lines   map[[2]string]Line // by class and key
}

// Load returns the catalogue that comes with the program. The error is for whoever edits
// catalogue.csv: every slip as file:line.
var Load = sync.OnceValues(func() (*Catalogue, error) {
	return (&Catalogue{}).with(bytes.NewReader(builtin), "catalogue.csv", false)
})

// Builtin is Load where a slip in the catalogue has been reported before.
func Builtin() *Catalogue {
	c, err := Load()
	if err != nil {
		panic("crops: " + err.Error())
	}
	return c
}

// With returns a catalogue in which the facts of a grower's file stand in the place of
// those it had, or beside them: new crops and new classes are welcome. A class line
// overrides a line for the whole crop, whichever file it is in, save that a
// grower's line for the whole crop also overrides the built-in lines of its classes.
//
// name is for messages. The error lists every fault as file:line.
func (c *Catalogue) With(r io.Reader, name string) (*Catalogue, error) {
	return c.with(r, name, true)
}

func (c *Catalogue) with(r io.Reader, name string, own bool) (*Catalogue, error) {
	lines, err := read(r, name)
	if err != nil {
		return nil, err
	}
	next := c.clone()
	touched := map[*entry]string{}
	for _, l := range lines {
		l.Own = own
		if own && l.Source == "" {
			l.Source = "grower"
		}
		e := next.entry(l.Crop)
		l.Crop = e.name
		if own {
			e.inProportion(l)
		}
		if l.Class = e.class(l.Class); l.Class == "" && own {
			for _, class := range e.classes {
				if old, ok := e.lines[[2]string{class, l.Key}]; ok && !old.Own {
					delete(e.lines, [2]string{class, l.Key})
				}
			}
		}
		e.lines[[2]string{l.Class, l.Key}] = l
		if touched[e] == "" {
			touched[e] = l.Place
		}
	}
	sort.SliceStable(next.crops, func(i, j int) bool { return fold(next.crops[i].name) < fold(next.crops[j].name) })
	var faults []error
	for _, e := range next.crops {
		if touched[e] != "" {
			faults = append(faults, e.check(touched[e])...)
		}
	}
	if err := joinFaults(faults); err != nil {
		return nil, err
	}
	next.reindex()
	return next, nil
}

// inProportion takes a grower's own plain degree-days over to the effective ones that the
// catalogue has of the crop: as much more or less as theirs are than the catalogue's. It must
// be asked before the grower's line stands in the catalogue's place.
func (e *entry) inProportion(l Line) {
	growth, ok := map[string]string{"warmth_sown": "growth_sown", "warmth_planted": "growth_planted"}[l.Key]
	if !ok {
		return
	}
	classes := []string{l.Class}
	if l.Class == "" {
		classes = append(classes, e.classes...)
	}
	for _, class := range classes {
		plain, ok := e.line(class, l.Key)
		eff, ok2 := e.line(class, growth)
		if !ok || !ok2 || plain.Own || eff.Own {
			continue
		}
		k := l.Value / plain.Value
		eff.Class, eff.Own, eff.Place = class, true, l.Place
		eff.Value, eff.Low, eff.High = eff.Value*k, eff.Low*k, eff.High*k
		eff.Source, eff.Note = l.Source, "in proportion to "+l.Key+" of "+strconv.FormatFloat(l.Value, 'g', -1, 64)
		if eff.Source == "" {
			eff.Source = "grower"
		}
		e.lines[[2]string{class, growth}] = eff
	}
}

func (c *Catalogue) clone() *Catalogue {
	next := &Catalogue{index: map[string]*entry{}}
	for _, e := range c.crops {
		d := &entry{name: e.name, classes: slices.Clone(e.classes), lines: make(map[[2]string]Line, len(e.lines))}
		for k, l := range e.lines {
			d.lines[k] = l
		}
		next.crops = append(next.crops, d)
	}
	next.reindex()
	return next
}

// entry finds a crop by any of its names, or begins a new one.
func (c *Catalogue) entry(name string) *entry {
	if e := c.index[singular(name)]; e != nil {
		return e
	}
	e := &entry{name: name, lines: map[[2]string]Line{}}
	c.crops = append(c.crops, e)
	c.index[singular(name)] = e
	return e
}

// class returns a class as the crop spells it, and adds it if it is new.
func (e *entry) class(class string) string {
	if class == "" {
		return ""
	}
	for _, k := range e.classes {
		if fold(k) == fold(class) {
			return k
		}
	}
	e.classes = append(e.classes, class)
	return class
}

// reindex lists every name. A crop's own name goes before another's plural, and that
// before another's synonym.
func (c *Catalogue) reindex() {
	c.index = map[string]*entry{}
	add := func(name string, e *entry) {
		if k := singular(name); k != "" && c.index[k] == nil {
			c.index[k] = e
		}
	}
	for _, e := range c.crops {
		add(e.name, e)
	}
	for _, e := range c.crops {
		add(e.lines[[2]string{"", "plural"}].Text, e)
	}
	for _, e := range c.crops {
		for _, s := range e.also() {
			add(s, e)
		}
	}
}

func (e *entry) also() []string {
	var out []string
	for _, s := range strings.Split(e.lines[[2]string{"", "also"}].Text, ";") {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// line returns the line that holds for a class: its own, else the crop's.
func (e *entry) line(class, key string) (Line, bool) {
	l, ok := e.lines[[2]string{class, key}]
	if !ok {
		l, ok = e.lines[[2]string{"", key}]
	}
	return l, ok
}

func (e *entry) crop(class string) Crop {
	c := blank(e.name, class)
	for _, k := range keys {
		l, ok := e.line(class, k.Name)
		switch {
		case !ok:
		case k.Name == "kind":
			c.Kind = Kind(l.Text)
		case k.words != nil:
			*k.words(&c) = l.Text
		case k.number != nil:
			*k.number(&c) = l.Fact
		}
	}
	if c.Title == "" {
		c.Title = c.Name + "s"
	}
	return c
}

// variants returns the classes, or "" alone where the crop has none.
func (e *entry) variants() []string {
	if len(e.classes) == 0 {
		return []string{""}
	}
	return e.classes
}

// All returns every crop, each class for itself, by name and then in the order in
// which the catalogue lists the classes: early before main before late.
func (c *Catalogue) All() []Crop {
	var out []Crop
	for _, e := range c.crops {
		for _, class := range e.variants() {
			out = append(out, e.crop(class))
		}
	}
	return out
}

// Facts returns every fact known of a crop that this catalogue returned, in the order
// of Keys: the line that holds for its class, with source, note and place.
func (c *Catalogue) Facts(crop Crop) []Line {
	e := c.index[singular(crop.Name)]
	if e == nil {
		return nil
	}
	var out []Line
	for _, k := range keys {
		if l, ok := e.line(crop.Class, k.Name); ok {
			out = append(out, l)
		}
	}
	return out
}

func label(name, class string) string { return Crop{Name: name, Class: class}.Label() }

var kindNames = []string{string(Fruit), string(Leaf), string(Root), string(Bulb), string(Flower)}

func isKind(s string) bool { return slices.Contains(kindNames, s) }

// check finds what single lines cannot show: facts that contradict each other.
func (e *entry) check(place string) []error {
	var faults []error
	bad := func(at, format string, args ...any) {
		faults = append(faults, fmt.Errorf("%s: "+format, append([]any{at}, args...)...))
	}
	if _, ok := e.line("", "kind"); !ok {
		for _, class := range e.variants() {
			if _, ok := e.line(class, "kind"); !ok {
				bad(place, "%s has no kind; wanted a line \"%s,,kind,fruit\" or %s",
					label(e.name, class), e.name, strings.Join(kindNames[1:], ", "))
				break
			}
		}
	}
	for _, class := range e.variants() {
		for _, o := range orders {
			lo, ok1 := e.line(class, o.lower)
			hi, ok2 := e.line(class, o.higher)
			if !ok1 || !ok2 || lo.Value < hi.Value || (o.equal && lo.Value == hi.Value) {
				continue
			}
			at := lo.Place
			if hi.Own {
				at = hi.Place
			}
			bad(at, "%s: %s %g above %s %g; wanted it %s", label(e.name, class), o.lower, lo.Value, o.higher, hi.Value, o.want())
		}
	}
	return faults
}

// order is a pair of facts of which one must not exceed the other.
type order struct {
	lower, higher string
	equal         bool // they may be the same
}

func (o order) want() string {
	if o.equal {
		return "at or below"
	}
	return "below"
}

var orders = []order{
	{"kill_seedling_c", "setback_seedling_c", true}, // what kills also sets back
	{"kill_hardened_c", "setback_hardened_c", true},
	{"kill_winter_c", "kill_hardened_c", true},
	{"base_c", "upper_c", false},
	{"germ_min_c", "soil_opt_c", true},
	{"soil_opt_c", "germ_max_c", true},
	{"grow_from_c", "grow_best_c", false},
	{"grow_best_c", "grow_max_c", false},
	{"growth_planted", "growth_sown", true}, // a raised plant has a start
	{"warmth_planted", "warmth_sown", true},
	{"days_planted", "days_sown", true},
}
