package publish

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"tarepage/internal/thorough"
)

// TestMain lets the test binary be the build that is killed.
func TestMain(m *testing.M) {
	if do := os.Getenv("PUBLISH_TEST_CHILD"); do != "" {
		if err := child(do); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// yards are two sites large enough that a build of one takes some milliseconds.
func yards() (a, b pages) {
	a, b = make(pages), make(pages)
	for i := range 60 {
		same := strings.Repeat(strconv.Itoa(i), 2000)
		a[fmt.Sprintf("units/%d/index.html", i)] = same
		b[fmt.Sprintf("units/%d/index.html", i)] = same
		a[fmt.Sprintf("pages/%d.html", i)] = same + "a"
		b[fmt.Sprintf("pages/%d.html", i)] = same + "b"
		a[fmt.Sprintf("only-a/%d.html", i)] = same
		b[fmt.Sprintf("only-b/%d.html", i)] = same
	}
	return a, b
}

// child builds into the folder public until it is killed, or until it kills itself.
func child(do string) error {
	verb, arg, _ := strings.Cut(do, " ")
	number, err := strconv.Atoi(arg)
	if err != nil {
		return err
	}
	switch verb {
	case "loop": // in the way of the number, until somebody kills it
		// Tests that were stopped themselves kill nobody: then the pipe ends.
		go func() {
			_, _ = io.Copy(io.Discard, os.Stdin)
			os.Exit(1)
		}()
		a, b := yards()
		sites := []*Site{{}, {}}
		for i, w := range []pages{a, b} {
			for path, text := range w {
				if err := sites[i].Add(path, []byte(text)); err != nil {
					return err
				}
			}
		}
		s := swapperFor(number)
		fmt.Println("ready")
		for i := 0; ; i++ {
			if _, err := s.swap(sites[i%2], "public", nil); err != nil {
				return err
			}
		}
	case "die0", "die1": // at the step of the number
		s := swapperFor(int(verb[3] - '0'))
		s.step = func(name string) error {
			if name == "exchange" && os.Getenv("PUBLISH_TEST_STRANGER") != "" {
				if err := os.WriteFile("public/notes.txt", []byte("mine"), 0o644); err != nil {
					return err
				}
			}
			if number == 0 {
				fmt.Println(name)
				self, err := os.FindProcess(os.Getpid())
				if err != nil {
					return err
				}
				if err := self.Kill(); err != nil {
					return err
				}
				select {}
			}
			number--
			return nil
		}
		site := new(Site)
		for path, text := range newer {
			if err := site.Add(path, []byte(text)); err != nil {
				return err
			}
		}
		_, err := s.swap(site, "public", nil)
		return err
	}
	return fmt.Errorf("child: unknown verb %q", verb)
}

func startChild(t *testing.T, dir, do string, env ...string) (*exec.Cmd, *bufio.Reader, *strings.Builder) {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(exe)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), append(env, "PUBLISH_TEST_CHILD="+do)...)
	var stderr strings.Builder
	cmd.Stderr = &stderr
	if _, err := cmd.StdinPipe(); err != nil { // open as long as these tests run
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, bufio.NewReader(out), &stderr
}

// Killed at any moment, one build or two at once, the target is one of the sites.
func TestKilledAtRandom(t *testing.T) {
	kills := 5
	switch {
	case os.Getenv("TAREPAGE_LONG") != "":
		kills = 250
	case thorough.BeforePush():
		kills = 13
	}
	a, b := yards()
	for way := range ways {
		t.Run(ways[way].name, func(t *testing.T) {
			dir := t.TempDir()
			target := filepath.Join(dir, "public")
			mustSwap(t, swapperFor(way), a, target)
			left, missing := 0, 0
			// On a busy machine a build may not have begun when it is killed: go on until one was hit.
			for i := 0; i < kills || left == 0 && i < 20*kills; i++ {
				builds := 1 + i%2
				var cmds []*exec.Cmd
				var stderrs []*strings.Builder
				for range builds {
					cmd, out, stderr := startChild(t, dir, fmt.Sprintf("loop %d", way))
					if _, err := out.ReadString('\n'); err != nil {
						t.Fatalf("%v: %s", err, stderr)
					}
					cmds, stderrs = append(cmds, cmd), append(stderrs, stderr)
				}
				time.Sleep(time.Duration(rand.Int64N(int64(60 * time.Millisecond))))
				for _, cmd := range cmds {
					if err := cmd.Process.Kill(); err != nil {
						t.Fatal(err)
					}
				}
				for j, cmd := range cmds {
					cmd.Wait() // its error is that it was killed
					if stderrs[j].Len() > 0 {
						t.Fatalf("the build failed before it was killed: %s", stderrs[j])
					}
				}

				if entries, err := os.ReadDir(dir); err != nil {
					t.Fatal(err)
				} else if len(entries) > 2 { // more than the target and the lock
					left++
				}
				if _, err := os.Lstat(target); errors.Is(err, fs.ErrNotExist) && ways[way].exchange != nil {
					missing++
					if err := Check(target); err != nil {
						t.Fatal(err)
					}
				}
				wantSite(t, target, a, b)
				if i%3 != 0 {
					continue // let the next build find it
				}
				if err := Check(target); err != nil {
					t.Fatal(err)
				}
				wantSite(t, target, a, b)
				wantAlone(t, dir, "public")
			}
			t.Logf("%d kills: %d left something next to the target, %d left no target until the next start", kills, left, missing)
			if left == 0 {
				t.Error("no kill hit a build at work: this test has shown nothing")
			}
		})
	}
}

// A build is killed before each of its operations in turn.
func TestKilledAtEveryStep(t *testing.T) {
	thorough.Only(t)
	for _, tt := range []struct {
		name  string
		way   int
		first bool // no site yet; then both ways are one
	}{{"exchange", 0, false}, {"two renames", 1, false}, {"first", 0, true}} {
		t.Run(tt.name, func(t *testing.T) {
			first, way := tt.first, tt.way
			var steps []string
			for n := 0; ; n++ {
				dir := t.TempDir()
				target := filepath.Join(dir, "public")
				if !first {
					mustSwap(t, swapperFor(way), older, target)
				}
				cmd, out, stderr := startChild(t, dir, fmt.Sprintf("die%d %d", way, n))
				step, _ := out.ReadString('\n')
				err := cmd.Wait()
				if stderr.Len() > 0 {
					t.Fatal(stderr)
				}
				if err == nil {
					break
				}
				step = strings.TrimSpace(step)
				steps = append(steps, step)
				between := way == 1 && (step == "survey old" || step == "rename staged")
				if between { // the one gap of the two renames
					if _, err := os.Lstat(target); !errors.Is(err, fs.ErrNotExist) {
						t.Errorf("%s: the target is there", step)
					}
				} else if !first {
					wantSite(t, target, older, newer)
				}
				if err := Check(target); err != nil {
					t.Fatalf("%s: %v", step, err)
				}
				if _, err := os.Lstat(target); err == nil {
					wantSite(t, target, older, newer)
					wantAlone(t, dir, "public")
				} else if !first {
					t.Fatalf("%s: %v", step, err)
				} else {
					wantAlone(t, dir)
				}
				mustSwap(t, swapperFor(way), newer, target)
				wantSite(t, target, newer)
				wantAlone(t, dir, "public")
			}
			t.Logf("killed before each of %q", steps)
			if len(steps) < 10 {
				t.Errorf("only %d steps were tried", len(steps))
			}
		})
	}
}

// A file that came into the target in the last moment of a build that was then
// killed lies with the old site. It is not removed with it.
func TestKilledWithStranger(t *testing.T) {
	thorough.Only(t)
	for way := range ways {
		t.Run(ways[way].name, func(t *testing.T) {
			found := false
			for n := 0; ; n++ {
				dir := t.TempDir()
				mustSwap(t, swapperFor(way), older, filepath.Join(dir, "public"))
				cmd, out, stderr := startChild(t, dir, fmt.Sprintf("die%d %d", way, n), "PUBLISH_TEST_STRANGER=1")
				step, _ := out.ReadString('\n')
				cmd.Wait()
				if step == "" {
					if !strings.Contains(stderr.String(), "public holds notes.txt") {
						t.Errorf("the build that was not killed says %s", stderr)
					}
					break
				}
				var notes []string
				err := filepath.WalkDir(dir, func(full string, e fs.DirEntry, err error) error {
					if err == nil && e.Name() == "notes.txt" {
						notes = append(notes, full)
					}
					return err
				})
				if err != nil {
					t.Fatal(err)
				}
				if len(notes) == 0 {
					continue // killed before the file came
				}
				found = true
				err = Check(filepath.Join(dir, "public"))
				var r *Refusal
				if !errors.As(err, &r) || !strings.Contains(r.Reason, "holds notes.txt, which this tool did not write") {
					t.Errorf("%s: got %v", strings.TrimSpace(step), err)
				}
				kept := false
				filepath.WalkDir(dir, func(full string, e fs.DirEntry, err error) error {
					kept = kept || e != nil && e.Name() == "notes.txt"
					return err
				})
				if !kept {
					t.Errorf("%s: the file is gone", strings.TrimSpace(step))
				}
			}
			if !found {
				t.Error("the file never came in")
			}
		})
	}
}
