package main

import (
	"errors"
	"os"
	"os/signal"
	"syscall"
)

// errStopped is said when somebody stops the program.
var errStopped = errors.New("stopped")

// whenStopped sets what is undone if somebody stops the program; nil = nothing.
func (v *voice) whenStopped(undo func()) {
	v.stopping.Lock()
	defer v.stopping.Unlock()
	v.undo = undo
}

// heedStops ends the program tidily when it is stopped (Ctrl-C, or a system that shuts down): no part
// of a file is left. The function that is returned ends this.
func (v *voice) heedStops() (end func()) {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	go func() {
		if _, ok := <-signals; !ok {
			return
		}
		v.stopping.Lock() // for good: nothing may begin any more
		if v.undo != nil {
			v.undo()
		}
		v.fail(errStopped, "")
		os.Exit(exitStopped)
	}()
	return func() {
		signal.Stop(signals)
		close(signals)
	}
}
