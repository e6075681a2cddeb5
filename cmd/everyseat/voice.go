package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"sync"
	"syscall"

	"everyseat/seating"
)

// voice is how the program speaks. What was asked for goes to standard output;
// everything else to standard error, a line each, with the program's name before it, lower
// case, without a full stop; a hint stands below, indented. Progress shows on terminals alone.
type voice struct {
	out, err io.Writer

	mu    sync.Mutex // files are written at the same time
	shown int        // width of the progress line that stands there

	stopping sync.Mutex
	undo     func() // what to undo if somebody stops the program now; may be nil
}

func (v *voice) say(format string, args ...any) {
	v.clear()
	fmt.Fprintf(v.out, format+"\n", args...)
}

// warn writes what people should know although the work goes on.
func (v *voice) warn(format string, args ...any) {
	v.clear()
	fmt.Fprintf(v.err, "everyseat: warning: %s\n", oneLine(fmt.Sprintf(format, args...)))
}

// heed warns of everything there is to warn of; with strict, none of it may be.
func (v *voice) heed(warnings []string, strict bool) error {
	for _, w := range warnings {
		v.warn("%s", w)
	}
	if strict && len(warnings) > 0 {
		return fault("", "warnings count with --strict: nothing was written",
			"mend what the warnings say, or leave --strict away")
	}
	return nil
}

// fail writes why the work ends.
func (v *voice) fail(err error, hint string) {
	v.clear()
	fmt.Fprintf(v.err, "everyseat: %s\n", oneLine(err.Error()))
	if hint != "" {
		fmt.Fprintf(v.err, "  hint: %s\n", oneLine(hint))
	}
}

// progress shows what is being done, over the progress line before.
func (v *voice) progress(what string) {
	if !isTerminal(v.err) {
		return
	}
	v.mu.Lock()
	defer v.mu.Unlock()
	pad := max(0, v.shown-len([]rune(what)))
	fmt.Fprintf(v.err, "\r%s%s", what, strings.Repeat(" ", pad))
	v.shown = len([]rune(what))
}

func (v *voice) clear() {
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.shown > 0 {
		fmt.Fprintf(v.err, "\r%s\r", strings.Repeat(" ", v.shown))
		v.shown = 0
	}
}

func (v *voice) exit(err error) int {
	if err == nil {
		v.clear()
		return exitDone
	}
	if use, ok := errors.AsType[*usageError](err); ok {
		v.fail(use.err, use.hint)
		return exitUsage
	}
	hint := ""
	if fault, ok := errors.AsType[*seating.Fault](err); ok {
		bare := *fault
		hint, bare.Hint, err = fault.Hint, "", &bare
	}
	v.fail(err, hint)
	return exitFault
}

// usageError is wrong use of the command.
type usageError struct {
	err  error
	hint string
}

func (u *usageError) Error() string { return u.err.Error() }

func usage(hint, format string, args ...any) error {
	return &usageError{fmt.Errorf(format, args...), hint}
}

// oneLine keeps what came from files and from elsewhere to one line without control characters.
func oneLine(s string) string {
	return strings.Map(func(c rune) rune {
		if c == '\n' || c == '\r' || c == '\t' {
			return ' '
		}
		if c < ' ' || c == 0x7f {
			return -1
		}
		return c
	}, s)
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && info.Name() != os.DevNull
}

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
		v.fail(errors.New("stopped"), "")
		os.Exit(exitStopped)
	}()
	return func() {
		signal.Stop(signals)
		close(signals)
	}
}
