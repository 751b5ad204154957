//go:build !unix

package timetable

import "time"

var begin = time.Now()

// cpu gives the time passed, for want of processor time.
func cpu() time.Duration { return time.Since(begin) }
