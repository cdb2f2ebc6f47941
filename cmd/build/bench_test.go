package main

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/adrg/frontmatter"
	"github.com/tdewolff/minify/v2"
	minifyhtml "github.com/tdewolff/minify/v2/html"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"go.yaml.in/yaml/v4"

	"tarepage/internal/testyard"
)

// sizes are the yards that are measured: cost per unit should not grow with them.
var sizes = []int{100, 1000, 10_000}

// proved makes a yard of n units once for all benchmarks of that size. If TMPDIR is on a disk,
// the benchmarks measure the disk; put it on tmpfs.
func proved(b *testing.B, n int) string {
	b.Helper()
	// Tests collect garbage less often (internal/thorough); here it is collected as in the program,
	// also in the processes that measure memory.
	b.Setenv("GOGC", "100")
	before := debug.SetGCPercent(100)
	b.Cleanup(func() { debug.SetGCPercent(before) })
	dir := b.TempDir()
	if err := testyard.Write(dir, n); err != nil {
		b.Fatal(err)
	}
	return dir
}

// ran runs the command inside this process, so that its allocations are counted.
func ran(b *testing.B, args ...string) {
	b.Helper()
	if got := run(append(args, "-quiet"), io.Discard, io.Discard); got != clean {
		b.Fatalf("%v: status %d", args, got)
	}
}

// cost runs f in the benchmark's loop, each time after ready, and reports the processor time
// that it took: on a machine that others use too, the clock measures them as well.
func cost(b *testing.B, n int, ready, f func()) {
	b.Helper()
	var spent time.Duration
	for b.Loop() {
		b.StopTimer()
		ready()
		before := processor()
		b.StartTimer()
		f()
		b.StopTimer()
		spent += processor() - before
		b.StartTimer()
	}
	b.ReportMetric(spent.Seconds()/float64(b.N), "cpu-s")
	b.ReportMetric(float64(spent.Microseconds())/float64(b.N)/float64(n), "cpu-µs/unit")
}

// memory reports the most memory that the command has at once, in a process of its own.
func memory(b *testing.B, args ...string) {
	b.Helper()
	b.ReportMetric(peak(b, args...), "peak-MB")
}

// peak runs the command as a process and returns the most memory that it had at once, in
// megabytes; 0 if the system does not tell.
func peak(t testing.TB, args ...string) float64 {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	// This test's binary is the command when it has that name (testscript.Main).
	var out bytes.Buffer
	cmd := &exec.Cmd{Path: self, Args: append(append([]string{"build-peak"}, args...), "-quiet"), Stdout: &out}
	if err := cmd.Run(); err != nil {
		t.Fatalf("%v: %v\n%s", args, err, out.String())
	}
	_, told, _ := strings.Cut(out.String(), "\nVmHWM:")
	var kB float64
	if _, err := fmt.Sscan(told, &kB); err != nil {
		return 0
	}
	return kB / 1024
}

// buildAndPeak is the command, followed by what Linux says of the process at its end (proc(5),
// VmHWM). The resource usage that a parent gets does not help: it counts what the parent had
// when it started the child.
func buildAndPeak() {
	status := run(os.Args[1:], io.Discard, io.Discard)
	told, _ := os.ReadFile("/proc/self/status")
	_, _ = os.Stdout.Write(told)
	os.Exit(status)
}

func each(b *testing.B, f func(b *testing.B, n int, dir, to string)) {
	for _, n := range sizes {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			dir := proved(b, n)
			b.ReportAllocs()
			f(b, n, dir, filepath.Join(dir, "public"))
		})
	}
}

// forget removes the site and what was kept of it.
func forget(b *testing.B, to string) {
	b.Helper()
	if err := errors.Join(os.RemoveAll(to), os.RemoveAll(filepath.Join(filepath.Dir(to), ".public.kept"))); err != nil {
		b.Fatal(err)
	}
}

// BenchmarkCold builds without an old site.
func BenchmarkCold(b *testing.B) {
	each(b, func(b *testing.B, n int, dir, to string) {
		cost(b, n, func() { forget(b, to) }, func() { ran(b, "-from", dir, "-to", to) })
		forget(b, to)
		memory(b, "-from", dir, "-to", to)
	})
}

// BenchmarkNothingChanged builds again after no change.
func BenchmarkNothingChanged(b *testing.B) {
	each(b, func(b *testing.B, n int, dir, to string) {
		ran(b, "-from", dir, "-to", to)
		cost(b, n, func() {}, func() { ran(b, "-from", dir, "-to", to) })
		memory(b, "-from", dir, "-to", to)
	})
}

// BenchmarkOneChanged builds again after the notes of one unit changed.
func BenchmarkOneChanged(b *testing.B) {
	each(b, func(b *testing.B, n int, dir, to string) {
		ran(b, "-from", dir, "-to", to)
		file, i := filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(n/2))), 0
		change := func() {
			i++
			if err := os.WriteFile(file, append(testyard.Unit(n/2), fmt.Sprintf("\nSaid %s.\n", strings.Repeat("more ", i))...), 0o644); err != nil {
				b.Fatal(err)
			}
		}
		cost(b, n, change, func() { ran(b, "-from", dir, "-to", to) })
		change()
		memory(b, "-from", dir, "-to", to)
	})
}

// BenchmarkInspect checks and writes nothing.
func BenchmarkInspect(b *testing.B) {
	each(b, func(b *testing.B, n int, dir, to string) {
		cost(b, n, func() {}, func() { ran(b, "inspect", "-from", dir) })
		memory(b, "inspect", "-from", dir)
	})
}

// BenchmarkFloor is what a minimal program takes to read the same files, decode their front
// matter into a tree, convert their notes, fill in one template of the size of all pages of
// a unit, minify the result, and write the same number of files and bytes.
func BenchmarkFloor(b *testing.B) {
	each(b, func(b *testing.B, n int, dir, to string) {
		ran(b, "-from", dir, "-to", to)
		files, size := sizeOf(b, to)
		forget(b, to)
		cost(b, n, func() { forget(b, to) }, func() { floor(b, dir, to, n, (files+n/2)/n, size/n) })
	})
}

// sizeOf is how many files a site has, and how many bytes these have together.
func sizeOf(b *testing.B, to string) (files, size int) {
	b.Helper()
	err := filepath.WalkDir(to, func(_ string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		info, err := e.Info()
		files, size = files+1, size+int(info.Size())
		return err
	})
	if err != nil {
		b.Fatal(err)
	}
	return files, size
}

// BenchmarkTable prints the table of docs/notes/speed.md, a line for each yard: what a first
// build, one after no change and one after a change of one unit take, with the floor in the same
// run. It never fails because of a time. The long tests add a chain of yards, of 100,000 units.
func BenchmarkTable(b *testing.B) {
	all := sizes
	if os.Getenv("TAREPAGE_LONG") != "" {
		all = append(slices.Clone(sizes), 100_000)
	}
	fmt.Println("\n| units | first build, CPU s | floor | times the floor | peak MB | nothing changed | µs a unit | one unit changed | times nothing | peak MB | site, KB a unit | kept, KB a unit |\n|" + strings.Repeat(" --- |", 12))
	for _, n := range all {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			fmt.Println(tableRow(b, n))
		})
	}
}

// tableRow measures one yard and returns its line of the table.
func tableRow(b *testing.B, n int) string {
	dir := proved(b, n)
	to, file := filepath.Join(dir, "public"), filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(n/2)))
	time.Sleep(3 * time.Second) // a file that was just written is not known by its times
	seconds := func(f func()) float64 {
		before := processor()
		f()
		return (processor() - before).Seconds()
	}
	build := func() { ran(b, "-from", dir, "-to", to) }
	first := seconds(build)
	files, size := sizeOf(b, to)
	kept, err := os.Stat(filepath.Join(dir, ".public.kept"))
	if err != nil {
		b.Fatal(err)
	}
	nothing := seconds(build)
	change := func(words string) {
		if err := os.WriteFile(file, append(testyard.Unit(n/2), words...), 0o644); err != nil {
			b.Fatal(err)
		}
	}
	change("\nSaid more.\n")
	one := seconds(build)
	change("\nSaid still more.\n")
	onePeak := peak(b, "-from", dir, "-to", to)
	forget(b, to)
	bare := seconds(func() { floor(b, dir, to, n, (files+n/2)/n, size/n) })
	forget(b, to)
	firstPeak := peak(b, "-from", dir, "-to", to)
	return fmt.Sprintf("| %d | %.2f | %.2f | %.2f | %.0f | %.3f | %.0f | %.2f | %.1f | %.0f | %.0f | %.1f |",
		n, first, bare, first/bare, firstPeak, nothing, nothing*1e6/float64(n), one, one/nothing, onePeak, float64(size)/1024/float64(n), float64(kept.Size())/1024/float64(n))
}

// row is one line of the floor's template. As on the pages, it has a name, a value and where
// the value comes from.
type row struct{ Name, Text, From string }

var floorPage = template.Must(template.New("floor").Parse(`<!doctype html><html lang="en-US"><head><meta charset="utf-8"><title>{{.Title}}</title></head><body>
<main><h1>{{.Title}}</h1>{{.Body}}<dl>{{range .Rows}}<dt class="name">{{.Name}}</dt><dd class="text">{{.Text}} <small>{{.From}}</small></dd>{{end}}</dl></main></body></html>`))

func floor(b *testing.B, dir, to string, n, pages, size int) {
	if err := os.MkdirAll(to, 0o755); err != nil {
		b.Fatal(err)
	}
	md := goldmark.New(goldmark.WithExtensions(extension.Table, extension.Strikethrough))
	m := minify.New()
	m.Add("text/html", &minifyhtml.Minifier{KeepDocumentTags: true, KeepEndTags: true, KeepQuotes: true, KeepDefaultAttrVals: true})
	format := frontmatter.NewFormat("---", "---", func(src []byte, v any) error { return yaml.Load(src, v.(*yaml.Node)) })
	one := func(i int) error {
		src, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(testyard.UnitFile(i))))
		if err != nil {
			return err
		}
		var doc yaml.Node
		words, err := frontmatter.Parse(bytes.NewReader(src), &doc, format)
		if err != nil {
			return err
		}
		var body bytes.Buffer
		if err := md.Convert(words, &body); err != nil {
			return err
		}
		data := struct {
			Title string
			Body  template.HTML
			Rows  []row
		}{Title: testyard.Stock(i), Body: template.HTML(body.String())}
		const one = len(`<dt class="name">the name of a figure</dt><dd class="text">7,040 lb - 20,000 lb x 12 ft / 25.5 ft, more <small>scale ticket 2026-11-03</small></dd>`)
		for range max(size-body.Len(), 0) / one {
			data.Rows = append(data.Rows, row{"the name of a figure", "7,040 lb - 20,000 lb x 12 ft / 25.5 ft, more", "scale ticket 2026-11-03"})
		}
		var raw bytes.Buffer
		if err := floorPage.Execute(&raw, data); err != nil {
			return err
		}
		out, err := m.Bytes("text/html", raw.Bytes())
		if err != nil {
			return err
		}
		for p := range pages {
			part := out[len(out)*p/pages : len(out)*(p+1)/pages]
			if err := os.WriteFile(filepath.Join(to, fmt.Sprintf("%d-%d.html", i, p)), part, 0o644); err != nil {
				return err
			}
		}
		return nil
	}
	var wg sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				if err := one(i); err != nil {
					b.Error(err)
				}
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}
