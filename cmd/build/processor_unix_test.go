//go:build unix

package main

import (
	"syscall"
	"time"
)

// processor is the processor time of this process so far (getrusage(2)).
func processor() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
