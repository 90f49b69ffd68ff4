package garden_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"frostward/climate"
	"frostward/cmd/internal/garden"
)

const written = "# ours\r\n Name ,crop,sow,plant_out\r\n\"a, \"\"b\"\"\",courgette, 04-01 ,04-28\r\n\r\n# note\r\nlate,tomato\r\nlast,leek,2026-03-01,2026-05-10"

func rows(t *testing.T, b []byte) []garden.Row {
	t.Helper()
	out, err := garden.ReadPlan(strings.NewReader(string(b)), "plan.csv", climate.Calendar{})
	require.NoError(t, err)
	return out
}

func TestOnlyTheCellChanges(t *testing.T) {
	p, err := garden.ReadText([]byte(written))
	require.NoError(t, err)
	require.NoError(t, p.Set(3, "plant_out", "06-03"))
	assert.Equal(t, strings.Replace(written, "04-28", "06-03", 1), string(p.Bytes()))
	require.NoError(t, p.Set(6, "plant_out", "06-05"))
	assert.Contains(t, string(p.Bytes()), "late,tomato,,06-05\r\n")
	assert.Error(t, p.Set(3, "cover", "fleece"))
	assert.Error(t, p.Set(2, "crop", "x"))
	require.NoError(t, p.Add(map[string]string{"crop": "=1+1", "name": `x, "y"`, "cover": ""}))
	assert.True(t, strings.HasSuffix(string(p.Bytes()), "2026-05-10\r\n\"x, \"\"y\"\"\",'=1+1,,\r\n"), string(p.Bytes()))
	_, err = garden.ReadText([]byte("# only this\n"))
	assert.Error(t, err)
}

// By hand: 28 April to 3 June is 36 days, and 36 days from 1 April on is 7 May.
func TestMoveRow(t *testing.T) {
	plan := []byte("name,crop,sow,plant_out\na,courgette,04-01,04-28\nb,leek,2026-03-01,2026-05-10\nc,bean,06-03,\n")
	r := rows(t, plan)
	c := climate.Calendar{}
	day := func(s string) climate.SeasonDay { d, err := c.Parse(s); require.NoError(t, err); return d }
	got, err := garden.MoveRow(plan, r[0], c, day("06-03"))
	require.NoError(t, err)
	assert.Contains(t, string(got), "\na,courgette,05-07,06-03\n")
	got, err = garden.MoveRow(plan, r[1], c, day("05-12"))
	require.NoError(t, err)
	assert.Contains(t, string(got), "\nb,leek,2026-03-03,2026-05-12\n")
	got, err = garden.MoveRow(plan, r[2], c, day("06-10"))
	require.NoError(t, err)
	assert.Contains(t, string(got), "\nc,bean,06-10,\n")
	_, err = garden.MoveRow(plan, r[2], c, day("06-03"))
	assert.ErrorContains(t, err, "already")
	_, err = garden.MoveRow(append([]byte("# a line more\n"), plan...), r[2], c, day("06-10"))
	assert.ErrorContains(t, err, "has been changed since it was read")
}
