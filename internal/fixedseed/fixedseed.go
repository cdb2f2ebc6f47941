// Package fixedseed gives the property tests of package rapid the same examples in each run,
// so that a change passes or fails for its own sake and not by the draw. The long tests,
// TAREPAGE_LONG=1, draw new examples. A test package that uses rapid imports it for its
// effect; -rapid.seed on the command line still decides.
package fixedseed

import (
	"flag"
	"os"

	_ "pgregory.net/rapid" // which declares the flag
)

func init() {
	if os.Getenv("TAREPAGE_LONG") != "" {
		return
	}
	if err := flag.Set("rapid.seed", "1"); err != nil {
		panic(err)
	}
}
