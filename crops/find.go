package crops

import (
	"fmt"
	"strings"
)

// Find returns a crop by its name, plural or a synonym, in any case, and its class.
// The class may also stand with the name: "sweet corn, early" or "early sweet corn".
// With no class, the crop's main class (or maincrop) is returned, or else its first;
// Class in the result says which.
func (c *Catalogue) Find(name, class string) (Crop, error) {
	e, class, err := c.lookUp(name, class)
	if err != nil {
		return Crop{}, err
	}
	if class == "" {
		return e.crop(e.defaultClass()), nil
	}
	for _, k := range e.classes {
		if fold(k) == fold(class) {
			return e.crop(k), nil
		}
	}
	if len(e.classes) == 0 {
		return Crop{}, fmt.Errorf("crop %q has no classes, so no %q", e.name, clip(class))
	}
	return Crop{}, fmt.Errorf("crop %q has no class %q%s; wanted one of %s",
		e.name, clip(class), meant(class, e.classes), strings.Join(e.classes, ", "))
}

// Classes returns the variety classes of a crop, none where it has none.
func (c *Catalogue) Classes(name string) []string {
	if e := c.index[singular(name)]; e != nil {
		return append([]string(nil), e.classes...)
	}
	return nil
}

func (c *Catalogue) lookUp(name, class string) (*entry, string, error) {
	if e := c.index[singular(name)]; e != nil {
		return e, class, nil
	}
	if class == "" {
		if before, after, ok := strings.Cut(name, ","); ok {
			if e := c.index[singular(before)]; e != nil {
				return e, strings.TrimSpace(after), nil
			}
			return nil, "", c.notFound(before)
		}
		if e, k := c.classFirst(name); e != nil {
			return e, k, nil
		}
	}
	return nil, "", c.notFound(name)
}

// classFirst reads "early sweet corn": a class of the crop that follows it.
func (c *Catalogue) classFirst(name string) (*entry, string) {
	words := strings.Fields(fold(name))
	for i := 1; i < len(words); i++ {
		e := c.index[singular(strings.Join(words[i:], " "))]
		if e == nil {
			continue
		}
		for _, k := range e.classes {
			if fold(k) == strings.Join(words[:i], " ") {
				return e, k
			}
		}
	}
	return nil, ""
}

func (c *Catalogue) notFound(name string) error {
	var names []string
	for _, e := range c.crops {
		names = append(names, e.name)
		names = append(names, e.also()...)
	}
	if strings.TrimSpace(name) == "" {
		return fmt.Errorf("no crop given; wanted a name such as %q", "courgette")
	}
	hits := near(fold(name), names, 3)
	if len(hits) == 0 {
		return fmt.Errorf("no crop is called %q; the crops command lists those known", clip(name))
	}
	for i, h := range hits {
		hits[i] = fmt.Sprintf("%q", h)
	}
	return fmt.Errorf("no crop is called %q; did you mean %s?", clip(name), strings.Join(hits, " or "))
}

func (e *entry) defaultClass() string {
	for _, k := range e.classes {
		if k == "main" || k == "maincrop" {
			return k
		}
	}
	return e.variants()[0]
}

// fold makes names comparable: lower case, single spaces, no hyphens or apostrophes.
func fold(s string) string {
	plain := true // as most names of the catalogue are
	for i := 0; i < len(s) && plain; i++ {
		plain = s[i] >= 'a' && s[i] <= 'z' || s[i] == ' ' && i > 0 && i < len(s)-1 && s[i-1] != ' '
	}
	if plain {
		return s
	}
	return strings.Join(strings.Fields(folding.Replace(strings.ToLower(s))), " ")
}

var folding = strings.NewReplacer("-", " ", "’", "", "'", "", "_", " ")

// singular folds a name and strips the ending of an English plural, the same way for
// the name asked for and the names known, so that a word wrongly stripped still meets
// itself.
func singular(s string) string {
	s = fold(s)
	switch {
	case strings.HasSuffix(s, "ies") && len(s) > 5:
		return s[:len(s)-3] + "y"
	case strings.HasSuffix(s, "oes"), strings.HasSuffix(s, "shes"), strings.HasSuffix(s, "ches"):
		return s[:len(s)-2]
	case strings.HasSuffix(s, "ss"):
		return s
	case strings.HasSuffix(s, "s") && len(s) > 3:
		return s[:len(s)-1]
	}
	return s
}
