package filestamp

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"
)

// made is a file that was made at a time.
type made struct {
	fs.FileInfo
	at time.Time
}

func (m made) ModTime() time.Time { return m.at }

// TestSettled has the two clocks that a file system may have (time(7): a tick of the kernel
// is 10 ms at most; FAT keeps two seconds).
func TestSettled(t *testing.T) {
	fineClock := time.Date(2026, 11, 14, 12, 0, 0, 123_456_789, time.UTC)
	coarseClock := time.Date(2026, 11, 14, 12, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		now     time.Time
		before  time.Duration
		settled bool
	}{
		{fineClock, 51 * time.Millisecond, true},
		{fineClock, 50 * time.Millisecond, false},
		{fineClock, 0, false},
		{fineClock, -time.Hour, false},
		{coarseClock, 51 * time.Millisecond, false},
		{coarseClock, 4 * time.Second, false},
		{coarseClock, 5 * time.Second, true},
	} {
		s := Stamp{Bytes: 1, Time: 1, Touched: c.now.Add(-c.before).UnixNano()}
		if got := s.Settled(made{at: c.now}); got != c.settled {
			t.Errorf("touched %v before %v: settled is %v", c.before, c.now, got)
		}
	}
	if (Stamp{Bytes: 1, Time: 1}).Settled(made{at: fineClock}) {
		t.Error("a stamp without the time of the last touch is settled")
	}
}

// TestHolds changes one thing about a file at a time.
func TestHolds(t *testing.T) {
	name := filepath.Join(t.TempDir(), "page")
	if err := os.WriteFile(name, []byte("one"), 0o644); err != nil {
		t.Fatal(err)
	}
	stat := func() fs.FileInfo {
		info, err := os.Lstat(name)
		if err != nil {
			t.Fatal(err)
		}
		return info
	}
	first := stat()
	s := Of(first)
	if s.Touched == 0 {
		if s.Holds(first) {
			t.Error("it holds without the time of the last touch")
		}
		t.Skip("NOT CHECKED: this system does not tell when a file was last touched")
	}
	if !s.Holds(first) {
		t.Errorf("%+v does not hold", s)
	}
	for what, other := range map[string]Stamp{
		"bytes":   {s.Bytes + 1, s.Time, s.Touched},
		"time":    {s.Bytes, s.Time + 1, s.Touched},
		"touched": {s.Bytes, s.Time, s.Touched + 1},
	} {
		if other.Holds(first) {
			t.Errorf("it holds with other %s", what)
		}
	}
	// Other bytes of the same size, with the time set back.
	time.Sleep(30 * time.Millisecond)
	if err := os.WriteFile(name, []byte("two"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(name, first.ModTime(), first.ModTime()); err != nil {
		t.Fatal(err)
	}
	if s.Holds(stat()) {
		t.Error("it holds for other bytes whose time was set back")
	}
}

// told is what a system tells of a file.
type told struct {
	fs.FileInfo
	size int64
	at   time.Time
	sys  any
}

func (f told) Size() int64        { return f.size }
func (f told) ModTime() time.Time { return f.at }
func (f told) Sys() any           { return f.sys }

// TestOf: a stamp has the size and both times, and a system that does not tell when a file was touched
// leaves that at 0, which never holds.
func TestOf(t *testing.T) {
	at := time.Unix(1_700_000_000, 123)
	quiet := told{size: 7, at: at}
	if s := Of(quiet); s != (Stamp{Bytes: 7, Time: 1_700_000_000_000_000_123}) || s.Holds(quiet) {
		t.Errorf("%+v", s)
	}
	name := filepath.Join(t.TempDir(), "page")
	before := time.Now().Add(-time.Minute).UnixNano()
	if err := os.WriteFile(name, []byte("one"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(name, at, at); err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(name)
	if err != nil {
		t.Fatal(err)
	}
	s := Of(info)
	if s.Bytes != 3 || s.Time/1e9 != 1_700_000_000 {
		t.Errorf("%+v", s)
	}
	switch runtime.GOOS {
	case "linux", "darwin": // stat(2): the time of the last change of status
		if s.Touched < before || s.Touched > before+int64(2*time.Minute) {
			t.Errorf("touched at %d, about %d is right", s.Touched, before)
		}
	}
}
