//go:build !unix

package photo

// cpuSeconds is not measured here.
func cpuSeconds() float64 { return 0 }
