// Scullion keeps count in a kitchen: what came in, what went where, what is
// left and what to do with it. This is the one binary; each command has a file
// of its own here, which reads flags and wires rooms together and decides
// nothing.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"
)

func main() {
	if len(ignored) > 0 { // Ignore of none would ignore all
		signal.Ignore(ignored...)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv))
}
