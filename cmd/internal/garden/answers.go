package garden

import (
	"fmt"
	"slices"
	"strings"

	"frostward/climate"
	"frostward/climate/quality"
)

// WithAnswers is the text of a garden's file with answers to what check asked added at the end of its list, each with the
// day on which it was given. All else stays as it was written. added are those that it did not have.
func WithAnswers(text []byte, where string, answers []string, on climate.Day) (out []byte, added []string, err error) {
	was, err := Parse(text, where)
	if err != nil {
		return nil, nil, err
	}
	for _, s := range answers {
		a, err := quality.ParseAnswer(s)
		if err != nil {
			return nil, nil, err
		}
		known := slices.IndexFunc(was.Answers, func(old string) bool {
			b, _ := quality.ParseAnswer(old)
			return b.About == a.About && b.From == a.From && b.To == a.To
		})
		switch {
		case known < 0:
			if f := strings.Fields(s); len(f) == 4 {
				s = strings.Join(append(f, on.String()), " ")
			}
			added = append(added, s)
		case !strings.Contains(was.Answers[known], map[bool]string{true: " yes", false: " no"}[a.Yes]):
			return nil, nil, fmt.Errorf("%s: has the answer %q; to change it, change it there", where, was.Answers[known])
		}
	}
	if len(added) == 0 {
		return text, nil, nil
	}
	end := "\n"
	if strings.Contains(string(text), "\r\n") {
		end = "\r\n"
	}
	lines := strings.SplitAfter(string(text), "\n")
	if last := len(lines) - 1; lines[last] == "" {
		lines = lines[:last]
	} else {
		lines[last] += end
	}
	at, indent := slices.IndexFunc(lines, func(l string) bool { return strings.HasPrefix(l, "answers:") }), "  "
	if at < 0 {
		lines = append(lines, "answers:"+end)
		at = len(lines) - 1
	}
	for at++; at < len(lines); at++ {
		item := strings.TrimLeft(lines[at], " ")
		if !strings.HasPrefix(item, "- ") {
			break
		}
		indent = lines[at][:len(lines[at])-len(item)]
	}
	var put []string
	for _, a := range added {
		put = append(put, indent+"- "+a+end)
	}
	out = []byte(strings.Join(slices.Insert(lines, at, put...), ""))
	if now, err := Parse(out, where); err != nil || !slices.Equal(now.Answers, append(slices.Clone(was.Answers), added...)) {
		return nil, nil, fmt.Errorf("%s: its answers are written in a way that none can be added to; write in %q", where, added)
	}
	return out, added, nil
}
