package opened

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"frostward/cmd/internal/deliver"
)

// PlanPath is the plan's file.
func (g *Garden) PlanPath() string { return filepath.Join(g.Dir, g.Settings.Plan) }

// EditPlan changes the plan's file: what was is kept beside it, in a file whose name ends in ~,
// and the new one takes its place in one step. It returns what puts the old one back.
func (g *Garden) EditPlan(change func([]byte) ([]byte, error)) (undo func() error, err error) {
	path := g.PlanPath()
	was, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	b, err := change(was)
	if err != nil {
		return nil, err
	}
	if err := os.WriteFile(path+"~", was, 0o644); err != nil {
		return nil, err
	}
	replace := func(b []byte) error { return deliver.Replace(path, b) }
	undo = func() error {
		now, err := os.ReadFile(path)
		if err == nil && !bytes.Equal(now, b) {
			return fmt.Errorf("%s has been changed since; the plan from before is %s~", g.Settings.Plan, g.Settings.Plan)
		}
		return replace(was)
	}
	return undo, replace(b)
}
