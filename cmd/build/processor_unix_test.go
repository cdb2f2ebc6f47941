//go:build unix

package main

import (
	"syscall"
	"time"
)

// processor is the time that this process had of the processors so far (getrusage(2)).
func processor() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
