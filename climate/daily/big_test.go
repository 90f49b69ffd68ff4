package daily

import (
	"os"
	"os/exec"
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
	wc, one := time.Hour, time.Hour
	for range 10 {
		c := exec.Command("wc", "-l", name)
		c.Run()
		wc = min(wc, c.ProcessState.UserTime()+c.ProcessState.SystemTime())
		t0 := cpu()
		f, _ := os.Open(name)
		_, _, err := Read(f, name, Options{Units: Celsius})
		if err != nil {
			t.Fatal(err)
		}
		f.Close()
		one = min(one, cpu()-t0)
	}
	t.Logf("cpu: wc %v, one worker %v, ratio %.2f", wc, one, float64(one)/float64(wc))
}
