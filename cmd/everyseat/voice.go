package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"sync"

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

// say writes a line that was asked for.
func (v *voice) say(format string, args ...any) {
	v.clear()
	fmt.Fprintf(v.out, format+"\n", args...)
}

// warn writes what people should know although the work goes on.
func (v *voice) warn(format string, args ...any) {
	v.clear()
	fmt.Fprintf(v.err, "everyseat: warning: %s\n", oneLine(fmt.Sprintf(format, args...)))
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

// exit says an error, if there is one, and gives the exit code.
func (v *voice) exit(err error) int {
	var use *usageError
	var fault *seating.Fault
	switch {
	case err == nil:
		v.clear()
		return exitDone
	case errors.As(err, &use):
		v.fail(use.err, use.hint)
		return exitUsage
	case errors.As(err, &fault):
		bare := *fault
		bare.Hint = ""
		v.fail(&bare, fault.Hint)
	default:
		v.fail(err, "")
	}
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
