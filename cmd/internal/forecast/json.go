package forecast

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
)

// fromJSON reads an object in which a list of times stands beside a list of temperatures, or a
// list of objects that each have a time and a temperature, at whatever depth.
func fromJSON(b []byte) (series, error) {
	d := json.NewDecoder(bytes.NewReader(b))
	d.UseNumber()
	var v any
	if err := d.Decode(&v); err != nil {
		return series{}, fmt.Errorf("is not whole JSON: %w", err)
	}
	var found []series
	if err := search(v, "", nil, &found); err != nil {
		return series{}, err
	}
	if len(found) == 0 {
		return series{}, errNames
	}
	for _, s := range found { // hours before days, see pick
		if !s.minima {
			return s, nil
		}
	}
	return found[0], nil
}

// search walks a value for series; around is the object it stands in.
func search(v any, name string, around map[string]any, found *[]series) error {
	switch v := v.(type) {
	case map[string]any:
		if s, ok, err := lists(v, name, around); err != nil || ok {
			if ok {
				*found = append(*found, s)
			}
			return err
		}
		for _, k := range slices.Sorted(maps.Keys(v)) {
			if err := search(v[k], k, v, found); err != nil {
				return err
			}
		}
	case []any:
		if s, ok, err := objects(v, name, around); err != nil || ok {
			if ok {
				*found = append(*found, s)
			}
			return err
		}
		for _, x := range v {
			if err := search(x, name, around, found); err != nil {
				return err
			}
		}
	}
	return nil
}

// lists reads an object of lists of one length.
func lists(o map[string]any, name string, around map[string]any) (s series, ok bool, err error) {
	keys := slices.Sorted(maps.Keys(o))
	at, value, minima := pick(keys)
	if value < 0 {
		return s, false, nil
	}
	times, ok1 := o[keys[at]].([]any)
	values, ok2 := o[keys[value]].([]any)
	if !ok1 || !ok2 {
		return s, false, nil
	}
	if len(times) != len(values) {
		return s, false, fmt.Errorf("%s: has %d times and %d of %s; wanted as many of both", name, len(times), len(values), keys[value])
	}
	s = series{column: keys[value], minima: minima, unit: unitBeside(keys[value], name, o, around)}
	for i := range times {
		if err := s.add(times[i], values[i], fmt.Sprintf("%s, number %d", name, i+1)); err != nil {
			return s, false, err
		}
	}
	return s, true, nil
}

// objects reads a list of objects of the same names.
func objects(list []any, name string, around map[string]any) (s series, ok bool, err error) {
	for i, x := range list {
		o, isObject := x.(map[string]any)
		if !isObject {
			return s, false, nil
		}
		if s.column == "" {
			keys := slices.Sorted(maps.Keys(o))
			at, value, minima := pick(keys)
			if value < 0 {
				return s, false, nil
			}
			if _, isList := o[keys[value]].([]any); isList {
				return s, false, nil
			}
			s = series{column: keys[value], minima: minima, unit: unitBeside(keys[value], name, o, around)}
			name = fmt.Sprint(name, " ", keys[at])
			ok = true
		}
		keys := slices.Sorted(maps.Keys(o))
		at, _, _ := pick(keys)
		if at < 0 {
			return s, false, fmt.Errorf("number %d: has no time", i+1)
		}
		if err := s.add(o[keys[at]], o[s.column], fmt.Sprintf("number %d", i+1)); err != nil {
			return s, false, err
		}
	}
	return s, ok, nil
}

func (s *series) add(at, value any, place string) error {
	v, ok, err := number(text(value), false)
	if err != nil {
		return fmt.Errorf("%s: %s: %w", place, s.column, err)
	}
	if ok {
		s.points = append(s.points, point{text(at), v, place})
	}
	return nil
}

// text is a value as it would stand in a cell.
func text(v any) string {
	if v == nil {
		return ""
	}
	return fmt.Sprint(v)
}

// unitBeside finds the unit of a column: in its name, in an object of units named for the one it
// stands in, or in a word "unit" beside it.
func unitBeside(column, name string, own, around map[string]any) string {
	if _, unit := nameOf(column); unit != "" {
		return unit
	}
	if units, ok := around[name+"_units"].(map[string]any); ok {
		if u := unitOf(text(units[column])); u != "" {
			return u
		}
	}
	for _, o := range []map[string]any{own, around} {
		for _, k := range []string{column + "_unit", column + "Unit", "temperature_unit", "temperatureUnit", "unit", "units"} {
			if w, ok := o[k].(string); ok {
				if u := unitOf(w); u != "" {
					return u
				}
			}
		}
	}
	return ""
}
