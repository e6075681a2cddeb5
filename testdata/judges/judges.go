// Package judges is for tests that need what this repository does not hold: other people's programs, or a
// device of the system.
package judges

import (
	"os"
	"testing"
)

// Missing skips a test that something is missing for and says so; where EVERYSEAT_JUDGES=required, as in .ci/run, the
// test fails instead.
func Missing(tb testing.TB, what string) {
	tb.Helper()
	if os.Getenv("EVERYSEAT_JUDGES") == "required" {
		tb.Fatalf("%s, but EVERYSEAT_JUDGES=required", what)
	}
	tb.Skip(what)
}
