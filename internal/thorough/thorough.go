// Package thorough keeps go test ./... short: a minute is what a programmer waits for between two
// changes. Tests that build many whole sites or kill builds over and over run before a push,
// with TAREPAGE_PUSH=1, which .ci/run sets. What takes longer still asks for TAREPAGE_LONG, which
// .ci/nightly sets and which includes these tests.
package thorough

import (
	"os"
	"runtime/debug"
	"testing"
)

// A test binary lives for seconds and has memory to spare, so it collects garbage less often, and
// so do the commands that it starts from itself. The long tests measure memory and are left alone.
func init() {
	if os.Getenv("GOGC") == "" && os.Getenv("TAREPAGE_LONG") == "" {
		debug.SetGCPercent(400)
	}
}

// BeforePush reports whether tests do what must hold before a push.
func BeforePush() bool {
	return os.Getenv("TAREPAGE_PUSH") != "" || os.Getenv("TAREPAGE_LONG") != ""
}

// Only skips a test that waits for the push.
func Only(t testing.TB) {
	t.Helper()
	if !BeforePush() {
		t.Skip("NOT CHECKED: .ci/run does, which sets TAREPAGE_PUSH=1")
	}
}
