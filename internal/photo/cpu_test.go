//go:build unix

package photo

import "golang.org/x/sys/unix"

// cpuSeconds is what this process has worked so far, on whatever else the machine is busy.
func cpuSeconds() float64 {
	var u unix.Rusage
	if err := unix.Getrusage(unix.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}
