package daily

import (
	"os"
	"os/exec"
	"strconv"
	"syscall"
	"testing"
	"time"
)

func cpu() time.Duration {
	var r syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &r)
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}

func TestBig(t *testing.T) {
	name := os.Getenv("BIG")
	if name == "" {
		t.Skip()
	}
	wc, one, wall, wcw := time.Hour, time.Hour, time.Hour, time.Hour
	for range 10 {
		c := exec.Command("wc", "-l", name)
		t2 := time.Now()
		c.Run()
		wcw = min(wcw, time.Since(t2))
		wc = min(wc, c.ProcessState.UserTime()+c.ProcessState.SystemTime())
		t0, t1 := cpu(), time.Now()
		f, _ := os.Open(name)
		st, _ := f.Stat()
		w, _ := strconv.Atoi(os.Getenv("W"))
		_, _, err := ReadAt(f, st.Size(), name, Options{Units: Celsius, Workers: w})
		if err != nil {
			t.Fatal(err)
		}
		f.Close()
		one = min(one, cpu()-t0)
		wall = min(wall, time.Since(t1))
	}
	t.Logf("cpu: wc %v, one worker %v, ratio %.2f; wall %v %v %.2f", wc, one, float64(one)/float64(wc), wcw, wall, float64(wall)/float64(wcw))
}
