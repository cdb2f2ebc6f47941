// Package testdisk mounts file systems for tests: one in an image file, to see what a power cut
// leaves of it, and a small one, to fill it. It needs Linux and root; elsewhere a test that asks
// for one is skipped, and says so.
package testdisk
