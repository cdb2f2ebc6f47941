//go:build !unix

package main

import "time"

// processor is not known on this system.
func processor() time.Duration { return 0 }
