package parallel_test

import (
	"errors"
	"runtime"
	"slices"
	"sync/atomic"
	"testing"
	"time"

	"tarepage/internal/parallel"
)

func TestEachCallsEveryNumberOnce(t *testing.T) {
	for _, n := range []int{0, 1, 2, 7, 1000} {
		calls := make([]atomic.Int32, n)
		parallel.Each(n, func(i int) { calls[i].Add(1) })
		for i := range calls {
			if got := calls[i].Load(); got != 1 {
				t.Errorf("n = %d: %d was called %d times, want once", n, i, got)
			}
		}
	}
}

// atATime runs jobs that each wait a little, and returns the most that ran together.
func atATime(run func(job func())) int32 {
	var now, most atomic.Int32
	run(func() {
		n := now.Add(1)
		for m := most.Load(); n > m && !most.CompareAndSwap(m, n); m = most.Load() {
		}
		time.Sleep(time.Millisecond)
		now.Add(-1)
	})
	return most.Load()
}

func TestAsManyAtATimeAsProcessors(t *testing.T) {
	for _, processors := range []int{1, 3} {
		before := runtime.GOMAXPROCS(processors)
		each := atATime(func(job func()) { parallel.Each(30, func(int) { job() }) })
		inOrder := atATime(func(job func()) {
			_ = parallel.InOrder(30, 30, func(int) int { job(); return 0 }, func(int, int) error { return nil })
		})
		runtime.GOMAXPROCS(before)
		if int(each) != processors || int(inOrder) != processors {
			t.Errorf("with %d processors Each ran %d jobs at a time and InOrder %d", processors, each, inOrder)
		}
	}
}

func TestInOrderKeepsTheOrder(t *testing.T) {
	const n = 500
	var got []int
	err := parallel.InOrder(n, 8, func(i int) int {
		if i%7 == 0 {
			time.Sleep(time.Millisecond) // a slow job does not let later ones pass
		}
		return i * 2
	}, func(i, result int) error {
		if result != i*2 {
			t.Errorf("the result of %d is %d", i, result)
		}
		got = append(got, i)
		return nil
	})
	if err != nil || len(got) != n || !slices.IsSorted(got) {
		t.Errorf("error %v; %d results, in order: %v", err, len(got), slices.IsSorted(got))
	}
}

func TestInOrderStopsAtAnError(t *testing.T) {
	bad := errors.New("no room")
	var produced atomic.Int32
	used := 0
	err := parallel.InOrder(1000, 4, func(i int) int { produced.Add(1); return i }, func(i, _ int) error {
		used++
		if i == 2 {
			return bad
		}
		return nil
	})
	if err != bad {
		t.Errorf("error %v, want %v", err, bad)
	}
	if used != 3 {
		t.Errorf("%d results were used, want 3", used)
	}
	// Three were used, four may wait, and one may be between the two.
	if p := produced.Load(); p > 3+4+1 {
		t.Errorf("%d results were produced after use had failed at the third", p)
	}
	// Nothing runs any more.
	before := produced.Load()
	time.Sleep(5 * time.Millisecond)
	if produced.Load() != before {
		t.Error("jobs go on after InOrder returned")
	}
}
