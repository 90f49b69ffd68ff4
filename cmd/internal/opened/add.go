package opened

import (
	"fmt"
	"os"
	"path/filepath"

	"frostward/climate"
	"frostward/climate/daily"
	"frostward/cmd/internal/deliver"
)

// DaysWithValues is the number of days that have a temperature.
func DaysWithValues(s climate.Series) (n int) {
	for i := range s.Tmin {
		if s.Tmin[i] == s.Tmin[i] || s.Tmax[i] == s.Tmax[i] {
			n++
		}
	}
	return n
}

// AddDays adds days to a file of a plain table, or to a new one beside a file that is none, and returns its name.
func (g *Garden) AddDays(name string, s climate.Series) (string, error) {
	o, err := g.Settings.Reader()
	if err != nil {
		return name, err
	}
	lock, err := deliver.Lock(name)
	if err != nil {
		return name, fmt.Errorf("%s: %w", name, err)
	}
	defer lock.Close()
	text, err := os.ReadFile(name)
	if err != nil {
		return name, err
	}
	more, err := daily.Append(text, name, s, o)
	if err == nil {
		return name, deliver.Replace(name, more)
	}
	beside := filepath.Join(filepath.Dir(name), "record-added.csv")
	if _, exists := os.Stat(beside); exists == nil {
		return name, fmt.Errorf("%w; name record-added.csv in garden.yaml, last in a list: record: [%s, record-added.csv]", err, filepath.Base(name))
	}
	more, err = daily.Append([]byte("date,tmin_c,tmax_c\n"), beside, s, daily.Options{})
	if err != nil {
		return name, err
	}
	if err := deliver.New(beside, more); err != nil {
		return name, err
	}
	g.Options.Note("%s is no plain table, so the days are in a file of their own: in garden.yaml write record: [%s, record-added.csv]", name, filepath.Base(name))
	return beside, nil
}
