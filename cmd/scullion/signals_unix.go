//go:build unix

package main

import (
	"os"
	"syscall"
)

// ignored: at a limit on the size of files, a write fails like any other
// instead of ending the program.
var ignored = []os.Signal{syscall.SIGXFSZ}
