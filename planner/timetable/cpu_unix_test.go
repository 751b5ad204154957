//go:build unix

package timetable

import (
	"syscall"
	"time"
)

// cpu gives the processor time used so far: on a machine that does other work as well the clock says little.
func cpu() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
