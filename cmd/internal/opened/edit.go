package opened

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"frostward/cmd/internal/deliver"
	"frostward/cmd/internal/garden"
)

// PlanPath is the plan's file.
func (g *Garden) PlanPath() string { return filepath.Join(g.Dir, g.Settings.Plan) }

// utf16 says whether a text has the byte-order mark of UTF-16.
func utf16(b []byte) bool {
	return bytes.HasPrefix(b, []byte("\xff\xfe")) || bytes.HasPrefix(b, []byte("\xfe\xff"))
}

// EditPlan changes the plan's file, under its lock: what was is kept beside it, in the file named kept, and the new one
// takes its place in one step. It returns what puts the old one back.
func (g *Garden) EditPlan(change func([]byte) ([]byte, error)) (kept string, undo func() error, err error) {
	path := g.PlanPath()
	locked := func(act func(now []byte) error) error {
		lock, err := deliver.Lock(path)
		if err != nil {
			return fmt.Errorf("%s: %w; nothing was changed", path, err)
		}
		defer lock.Close()
		now, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		return act(now)
	}
	var was, is []byte
	err = locked(func(now []byte) (err error) {
		was = now
		if utf16(was) {
			return fmt.Errorf("%s: is in UTF-16, which is read but not written to; wanted CSV in UTF-8, as a spreadsheet saves it when asked", path)
		}
		if is, err = change(was); err == nil {
			kept, err = deliver.Keep(path, was)
		}
		if err == nil {
			err = deliver.Replace(path, is)
		}
		return err
	})
	undo = func() error {
		return locked(func(now []byte) error {
			if !bytes.Equal(now, is) {
				return fmt.Errorf("%s has been changed since; the plan from before is %s", g.Settings.Plan, filepath.Base(kept))
			}
			return deliver.Replace(path, was)
		})
	}
	return kept, undo, err
}

// SettingsPath is the garden's file.
func (g *Garden) SettingsPath() string { return filepath.Join(g.Dir, garden.File) }

// KeepAnswers adds the answers of the options to the garden's file, where the record is the garden's, and returns those it
// added.
func (g *Garden) KeepAnswers() ([]string, error) {
	if len(g.Options.Answers) == 0 || g.Invented || len(g.Options.History) > 0 {
		return nil, nil
	}
	text, err := os.ReadFile(g.SettingsPath())
	if err != nil {
		return nil, err
	}
	out, added, err := garden.WithAnswers(text, garden.File, g.Options.Answers, g.Today())
	if err != nil || len(added) == 0 {
		return nil, err
	}
	return added, deliver.Replace(g.SettingsPath(), out)
}
