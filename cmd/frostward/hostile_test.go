package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate"
)

// inGarden runs the program in a garden, on 17 May 2026.
func inGarden(dir string, args ...string) (status int, out, errs string) {
	var o, e bytes.Buffer
	w := world{in: strings.NewReader(""), out: &o, err: &e, getenv: func(string) string { return "" },
		today: func() climate.Day { return climate.NewDay(2026, 5, 17) }}
	status = run(w, append(args, "--garden", dir, "--by", "record"))
	return status, o.String(), e.String()
}

// fullGarden is shortGarden with every file that a garden may name.
func fullGarden(t testing.TB) string {
	dir := shortGarden(t)
	settings, err := os.ReadFile(filepath.Join(dir, "garden.yaml"))
	require.NoError(t, err)
	for name, text := range map[string]string{
		"garden.yaml":   string(settings) + "\ncrops: own.csv\ndiary: diary.csv\n",
		"own.csv":       "crop,class,key,value,low,high,unit,source,note\ncourgette,,kill_hardened_c,-0.8,,,°C,mine,\n",
		"forecasts.csv": "issued,morning,tmin_c\n2026-05-15,2026-05-16,3\n",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	return dir
}

// users are the commands that would use each file that a garden names.
var users = map[string][]string{
	"log.csv": {"plan", "when courgette", "sow lettuce", "calendar", "tonight --forecast 1", "outlook", "week", "did", "log", "log --undo",
		"log --min 1", "spots", "page", "page --sheet", "move courgettes", "frosts --spot south_wall", "crops courgette",
		"serve --listen 127.0.0.1:0"},
	"diary.csv": {"plan", "when courgette", "sow lettuce", "calendar", "tonight --forecast 1", "outlook", "week", "did", "did --undo",
		"page", "move courgettes", "crops courgette"},
	"plan.csv":      {"plan", "calendar", "tonight --forecast 1", "outlook", "week", "did", "did courgettes up", "page", "page --sheet", "move courgettes 7_June"},
	"own.csv":       {"plan", "when courgette", "sow lettuce", "calendar", "tonight --forecast 1", "outlook", "week", "page", "crops", "move courgettes 7_June"},
	"forecasts.csv": {"tonight --forecast 1", "week"},
	"record.csv":    {"plan", "when courgette", "check", "frosts", "warmth", "spots", "tonight --forecast 1", "page", "calendar", "skill"},
}

// unreadable are the ways in which a file cannot be read, and what is said of each.
var unreadable = []struct {
	how, want string
	make      func(file string) error
}{
	{"a folder in its place", "; wanted ", func(f string) error { return errors.Join(os.Remove(f), os.Mkdir(f, 0o755)) }},
	{"UTF-16 without its mark", "", func(f string) error { return os.WriteFile(f, []byte("d\x00a\x00t\x00e\x00\n\x00"), 0o644) }},
	{"no heading", "", func(f string) error {
		return os.WriteFile(f, []byte("2021-04-10,open bed\n2021-04-11,south wall\n"), 0o644)
	}},
	{"links that go round", "too many", func(f string) error { return errors.Join(os.Remove(f), os.Symlink(filepath.Base(f), f)) }},
	{"a device", "is a device or a pipe; wanted a plain file", func(f string) error { return errors.Join(os.Remove(f), os.Symlink("/dev/zero", f)) }},
	{"a pipe", "is a device or a pipe; wanted a plain file", func(f string) error { return errors.Join(os.Remove(f), mkfifo(f)) }},
	{"a wrong name", "wanted that file, or its right name", func(f string) error { return rename(f, "other-"+filepath.Base(f)) }},
	{"a name out of the folder", "leads out of the garden's folder; wanted a file in it", func(f string) error { return rename(f, "../"+filepath.Base(f)) }},
	{"an absolute name", "leads out of the garden's folder; wanted a file in it", func(f string) error { return rename(f, "/etc/"+filepath.Base(f)) }},
	{"no permission", "permission denied; wanted a file that you may read", func(f string) error { return os.Chmod(f, 0) }},
}

// rename gives a file another name in garden.yaml.
func rename(file, name string) error {
	settings := filepath.Join(filepath.Dir(file), "garden.yaml")
	b, err := os.ReadFile(settings)
	if err == nil {
		b = bytes.ReplaceAll(b, []byte(": "+filepath.Base(file)), []byte(": "+name))
		err = os.WriteFile(settings, b, 0o644)
	}
	return err
}

// What the garden names is read, or each command that would use it fails, with the file and the reason, and writes
// nothing. Where it is UTF-16 with its mark, the command answers as if it were not.
func TestUnreadableFiles(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no pipes, devices and such permissions there")
	}
	garden := fullGarden(t)
	tried := 0
	for file, commands := range users {
		for i, shape := range unreadable {
			switch {
			case file == "forecasts.csv" && (strings.Contains(shape.how, "name")):
				continue // it has one name
			case shape.how == "no permission" && os.Geteuid() == 0:
				continue // which stops nobody who is root
			}
			dir := filepath.Join(t.TempDir(), "yard")
			require.NoError(t, os.CopyFS(dir, os.DirFS(garden)))
			require.NoError(t, shape.make(filepath.Join(dir, file)))
			for k, command := range commands {
				if file != "log.csv" && (i+k)%3 != 0 { // the log in every way by every command, the others in turn
					continue
				}
				args := strings.Fields(command)
				for n := range args {
					args[n] = strings.ReplaceAll(args[n], "_", " ")
				}
				status, out, errs := inGarden(dir, args...)
				what := fmt.Sprintf("%s: %s: %s: %s%s", file, shape.how, command, out, errs)
				require.Equal(t, exitCould, status, what)
				require.Empty(t, out, what)
				require.Contains(t, errs, shape.want, what)
				require.Contains(t, errs, strings.TrimSuffix(file, ".csv"), what)
				tried++
			}
			left, err := filepath.Glob(filepath.Join(dir, "*.before-*"))
			require.NoError(t, err)
			require.Empty(t, left, shape.how)
		}
	}
	t.Logf("%d commands that could not read a file", tried)
}

// -o writes over no file of the garden's, nothing that is no plain file, and nothing else that is there and was not made
// by the command, unless --force says so.
func TestOutputsKeepWhatIsThere(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no pipes and devices there")
	}
	dir := fullGarden(t)
	at := func(name string) string { return filepath.Join(dir, name) }
	records := at("records")
	require.NoError(t, os.Mkdir(records, 0o755))
	require.NoError(t, os.Link(at("record.csv"), filepath.Join(records, "a.csv")))
	require.NoError(t, os.Symlink("records", at("link-to-folder")))
	require.NoError(t, os.Symlink("log.csv", at("link-to-log")))
	require.NoError(t, os.Link(at("log.csv"), at("log-again.csv")))
	require.NoError(t, os.Symlink("/dev/null", at("device.csv")))
	require.NoError(t, mkfifo(at("pipe.csv")))
	require.NoError(t, os.WriteFile(at("mine.csv"), []byte("my own notes\n"), 0o644))
	_, _, errs := inGarden(dir, "log", "--min", "1") // leaves its lock
	require.Empty(t, errs)
	own := []string{"garden.yaml", "log.csv", "log.csv.lock", "plan.csv", "diary.csv", "diary.csv.lock", "own.csv", "forecasts.csv", "record.csv",
		"link-to-log", "log-again.csv", "records/../log.csv"}
	never := []string{"device.csv", "pipe.csv", "records"}
	before := readAll(t, dir)
	for _, command := range [][]string{{"calendar"}, {"page", "--sheet"}, {"stations", records, "--crop", "courgette", "--at", "0", "--quiet"}} {
		for _, forced := range []bool{false, true} {
			names := append([]string{"records/a.csv", "link-to-folder/a.csv"}, never...)
			if command[0] != "stations" || !forced { // which knows no garden
				names = append(names, own...)
			}
			if !forced {
				names = append(names, "mine.csv")
			}
			for _, name := range names {
				if command[0] != "stations" && strings.Contains(name, "/a.csv") {
					continue // the garden's record under another name, whose content stays under its own
				}
				if _, err := os.Stat(at(name)); err != nil && command[0] == "stations" {
					continue
				}
				args := append(append([]string{}, command...), "-o", at(name))
				if forced {
					args = append(args, "--force")
				}
				if command[0] == "stations" && (name == "records" || strings.Contains(name, "lock") || name == "garden.yaml" || strings.HasPrefix(name, "link-to-log")) {
					continue // refused for their endings
				}
				status, _, errs := inGarden(dir, args...)
				require.Equal(t, exitCould, status, "%q: %s", args, errs)
				require.Regexp(t, `made from; wanted another name|was not written by this command; wanted another name|wanted a plain file|wanted the name of a file`, errs, "%q", args)
			}
		}
	}
	require.Equal(t, before, readAll(t, dir))
	info, err := os.Stat(at("pipe.csv"))
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeNamedPipe)
	status, _, errs := inGarden(dir, "calendar", "-o", at("mine.csv"), "--force")
	require.Equal(t, exitDone, status, errs)
	status, _, errs = inGarden(dir, "calendar", "-o", at("mine.csv"))
	require.Equal(t, exitDone, status, errs)
}

// No control character, nor one that turns the writing round, reaches a terminal from what a name or a file says, in any
// command, whether it works or fails.
func TestNoControlCharacters(t *testing.T) {
	const bad = "\x1b[31m\x1b]0;t\a\u009b5m\u202e\x7f\b"
	garden := filepath.Join(t.TempDir(), "yard")
	require.NoError(t, os.CopyFS(garden, os.DirFS(fullGarden(t))))
	put := func(name string, change func(string) string) {
		b, err := os.ReadFile(filepath.Join(garden, name))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(garden, name), []byte(change(string(b))), 0o644))
	}
	yaml := strings.NewReplacer("\x1b", `\e`, "\a", `\a`, "\u009b", `\u009b`, "\u202e", `\u202e`, "\x7f", `\x7f`, "\b", `\b`).Replace(bad)
	put("garden.yaml", func(s string) string {
		s = strings.Replace(s, "Sallow Yard (invented)", `"Yard `+yaml+`"`, 1)
		s = strings.Replace(s, "name: glasshouse", `name: "glass`+yaml+`"`, 1)
		return strings.Replace(s, "name: cloche", `name: "cloche`+yaml+`"`, 1)
	})
	put("plan.csv", func(s string) string {
		lines := strings.SplitAfter(s, "\n")
		for i, l := range lines { // its cells refuse them
			if strings.Contains(l, "glasshouse") || strings.Contains(l, "cloche") {
				lines[i] = ""
			}
		}
		return strings.Join(lines, "")
	})
	put("log.csv", func(s string) string {
		return s + "2026-05-14,open bed,1,,,,,,,,,,frost" + bad + ",\"note " + bad + "\"\n2026-05-15,bed" + bad + ",1,,,,,,,,,,,\"\"\n2026-05-16,open bed," + bad + ",,,,,,,,,,,\"\"\n"
	})
	put("diary.csv", func(s string) string {
		return s + "2026-05-11,courgettes,up,\"n" + bad + "\"\n2026-05-12,beet" + bad + ",sown,\"\"\n2026-05-12,courgettes,eaten" + bad + ",\"\"\n"
	})
	put("own.csv", func(s string) string { return strings.Replace(s, "mine", "mine "+bad, 1) })
	put("record.csv", func(s string) string { return s + "2026-05-17," + bad + ",2\n" })
	for _, name := range []string{"station" + bad, "folder" + bad} {
		require.NoError(t, os.Mkdir(filepath.Join(garden, name), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(garden, name, "s"+bad+".csv"), []byte("no record "+bad), 0o644))
	}
	put("forecast.csv", func(s string) string { return s + "2026-05-21," + bad + ",3\n" })

	seen := 0
	try := func(dir string, args ...string) {
		_, out, errs := inGarden(dir, args...)
		for _, text := range []string{out, errs} {
			text = strings.ReplaceAll(text, "\r\n", "\n") // of calendars
			require.Empty(t, controls.FindString(text), "%q: %q", args, text)
			seen += strings.Count(text, "[31m")
		}
	}
	for _, args := range append(gardenCommands(garden), []string{"page", "--sheet"}, []string{"record", "add", filepath.Join(garden, "forecast.csv")},
		[]string{"did", "beet" + bad, "up"}, []string{"did", "courgettes", "up", "--note", bad}, []string{"move", "courgettes", bad}, []string{"move", bad, "7", "June"},
		[]string{"log", "--min", "1", "--note", bad, "--spot", "glass" + bad}, []string{"log", "--min", "1", "--spot", bad}, []string{"log"}, []string{"spots", "--format", "json"}, []string{"plan", "--format", "csv"},
		[]string{"week", "--format", "markdown"}, []string{"log", "--format", "csv"}, []string{"crops", "courgette"}, []string{"crops", bad}, []string{"when", bad}, []string{"sow", bad}, []string{"frosts", "--spot", bad},
		[]string{"tonight", "--forecast", bad}, []string{"plan", "--crop", bad}, []string{bad}, []string{"plan", "--" + bad}, []string{"serve", "--listen", bad},
		[]string{"stations", filepath.Join(garden, "station"+bad), "-o", filepath.Join(garden, "out"+bad+".csv")}, []string{"start", garden},
		[]string{"start", filepath.Join(garden, "new"+bad)}, []string{"skill", "--tonight", "--forecasts", filepath.Join(garden, "forecast.csv")}, []string{"plan", "--history", bad},
		[]string{"page", "-o", filepath.Join(garden, "page"+bad+".html")}, []string{"calendar", "-o", filepath.Join(garden, bad+".ics")}) {
		try(garden, args...)
	}
	for _, text := range []string{"na" + bad + ": x\n", "latitude: \"" + bad + "\"\n", "latitude: 52\nspots: [" + bad + "\n", "latitude: 52\nrecord: \"" + yaml + "\"\n", "latitude: 52\nspots: [{name: x, kind: \"" + yaml + "\"}]\n"} {
		put("garden.yaml", func(string) string { return text })
		try(garden, "plan")
		try(filepath.Join(garden, "folder"+bad), "plan")
		try(filepath.Join(garden, "nowhere"+bad), "week")
	}
	require.Greater(t, seen, 60, "the names are shown, without")
}
