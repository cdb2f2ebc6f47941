// Package parallel does many small independent jobs on all processors. Results never
// depend on which job ends first: a job is known by its number, and whoever calls decides
// where its result goes.
package parallel

import (
	"runtime"

	"golang.org/x/sync/errgroup"
)

// Each calls do once for every number below n, as many at a time as there are
// processors, and returns when all calls have returned.
func Each(n int, do func(i int)) {
	var jobs errgroup.Group
	jobs.SetLimit(runtime.GOMAXPROCS(0))
	for i := range n {
		jobs.Go(func() error { do(i); return nil })
	}
	_ = jobs.Wait() // no job returns an error
}

// InOrder calls produce once for every number below n, as many at a time as there are
// processors, and hands each result to use: one at a time, in the order of the numbers.
// At most ahead results wait for use, so that results that take much memory are never all
// in memory. After an error from use, InOrder starts nothing more and returns the error.
func InOrder[T any](n, ahead int, produce func(i int) T, use func(i int, result T) error) error {
	waiting := make(chan chan T, ahead)
	stop := make(chan struct{})
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		defer close(waiting)
		var jobs errgroup.Group
		jobs.SetLimit(runtime.GOMAXPROCS(0))
		defer func() { _ = jobs.Wait() }() // no job returns an error
		for i := range n {
			result := make(chan T, 1)
			select {
			case waiting <- result:
			case <-stop:
				return
			}
			jobs.Go(func() error { result <- produce(i); return nil })
		}
	}()
	defer func() { <-ended }()
	defer close(stop)
	i := 0
	for result := range waiting {
		if err := use(i, <-result); err != nil {
			return err
		}
		i++
	}
	return nil
}
