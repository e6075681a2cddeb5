// Command everyseat turns measured stands and a message into a card stunt: which
// colour every seat shows, the camera's picture of it, and the paper to lay it out.
package main

import (
	"fmt"
	"io"
	"os"
	"runtime/debug"
)

func main() {
	// Whatever breaks, nobody is shown a stack trace: not by run, and not by a
	// goroutine that run cannot watch.
	debug.SetTraceback("none")
	// Pictures and paper of a stadium leave much garbage: collecting it twice as often keeps
	// the peak under 512 MB and costs no time that is felt.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(50)
	}
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// The exit codes.
const (
	exitDone  = 0
	exitFault = 1 // something in the stunt or a file is wrong
	exitUsage = 2 // wrong use of the command
	// exitStopped: somebody stopped it, 128 and the signal's number, which is 2 for Ctrl-C.
	exitStopped = 130
)

// run does what the arguments say and gives the exit code.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) (code int) {
	voice := &voice{out: stdout, err: stderr}
	defer func() {
		if broken := recover(); broken != nil {
			voice.fail(fmt.Errorf("something broke inside: %v", broken), "this is a fault of everyseat: please report the command and the stunt file")
			code = exitFault
		}
	}()
	defer voice.heedStops()()
	root := newRoot(voice)
	root.SetArgs(args)
	root.SetIn(stdin)
	root.SetOut(stdout)
	root.SetErr(stderr)
	return voice.exit(root.Execute())
}
