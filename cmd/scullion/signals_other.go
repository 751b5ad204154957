//go:build !unix

package main

import "os"

var ignored []os.Signal
