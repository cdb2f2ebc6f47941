package main

import (
	"bufio"
	"bytes"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"tarepage/internal/thorough"
)

// patience is how long a test waits for something that must happen.
const patience = 20 * time.Second

// opened is a running showroom with a copy of the demo yard.
type opened struct {
	t       *testing.T
	dir     string
	url     string
	process *exec.Cmd
	out     *bufio.Reader
	errors  *bytes.Buffer
	told    <-chan string
}

// open starts the command as a process: this test's binary is the command when it has the name
// build (testscript.Main).
func open(t *testing.T) *opened {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	o := &opened{t: t, dir: t.TempDir(), errors: &bytes.Buffer{}}
	if err := os.CopyFS(filepath.Join(o.dir, "content"), os.DirFS("../../content")); err != nil {
		t.Fatal(err)
	}
	o.process = &exec.Cmd{Path: self, Args: []string{"build", "showroom", "-at", "127.0.0.1:0"}, Dir: o.dir, Stderr: o.errors}
	pipe, err := o.process.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := o.process.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = o.process.Process.Kill() })
	o.out = bufio.NewReader(pipe)
	line, err := o.out.ReadString('\n')
	url, ok := strings.CutPrefix(line, "the showroom is open at ")
	if err != nil || !ok {
		t.Fatalf("the first line is %q (%v)", line, err)
	}
	o.url = strings.TrimSpace(url)
	o.listen()
	return o
}

func (o *opened) listen() {
	o.t.Helper()
	resp, err := http.Get(o.url + "showroom/events")
	if err != nil {
		o.t.Fatal(err)
	}
	told := make(chan string, 100)
	o.told = told
	go func() {
		defer resp.Body.Close()
		lines := bufio.NewScanner(resp.Body)
		for lines.Scan() {
			if version, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				told <- version
			}
		}
		close(told)
	}()
	<-told // the version that is shown now
}

func (o *opened) get(path string) (int, string) {
	o.t.Helper()
	resp, err := http.Get(o.url + path)
	if err != nil {
		o.t.Fatal(err)
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	if err != nil {
		o.t.Fatal(err)
	}
	return resp.StatusCode, string(body)
}

// until waits, message by message, until the page holds the text.
func (o *opened) until(path string, status int, text string) string {
	o.t.Helper()
	for {
		select {
		case <-o.told:
		case <-time.After(patience):
			_, body := o.get(path)
			o.t.Fatalf("%s never has %q:\n%.3000s", path, text, body)
		}
		if got, body := o.get(path); got == status && strings.Contains(body, text) {
			return body
		}
	}
}

func (o *opened) edit(name string, change func(string) string) {
	o.t.Helper()
	path := filepath.Join(o.dir, "content", filepath.FromSlash(name))
	text, err := os.ReadFile(path)
	if err != nil {
		o.t.Fatal(err)
	}
	changed := change(string(text))
	if changed == string(text) {
		o.t.Fatalf("%s is not changed", name)
	}
	if err := os.WriteFile(path, []byte(changed), 0o644); err != nil {
		o.t.Fatal(err)
	}
}

// end interrupts the command and returns its exit status.
func (o *opened) end(s os.Signal) int {
	o.t.Helper()
	if err := o.process.Process.Signal(s); err != nil {
		o.t.Fatal(err)
	}
	_, _ = io.Copy(io.Discard, o.out)
	_ = o.process.Wait()
	return o.process.ProcessState.ExitCode()
}

// What the showroom adds to a page. The policy that allows it is removed from both pages before
// they are compared.
var (
	added  = regexp.MustCompile(`(?s)<script data-version=.*?</script>|<div><template shadowrootmode="open">.*?</template></div>`)
	policy = regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>`)
)

// TestShowroomShowsWhatIsPublished: every page of the demo is the published page, byte for byte
// except for the showroom's additions, and the showroom writes nothing.
func TestShowroomShowsWhatIsPublished(t *testing.T) {
	thorough.Only(t)
	o := open(t)
	if status := o.end(os.Interrupt); status != clean {
		t.Errorf("interrupted, it ends with status %d, want %d; it said %s", status, clean, o.errors)
	}
	if entries, _ := os.ReadDir(o.dir); len(entries) != 1 {
		t.Errorf("the showroom left %v next to content/", entries)
	}

	o = open(t)
	var out, errs bytes.Buffer
	public := filepath.Join(t.TempDir(), "public")
	if status := run([]string{"-from", o.dir, "-to", public}, &out, &errs); status != clean {
		t.Fatalf("build: status %d: %s", status, &errs)
	}
	pages := 0
	err := fs.WalkDir(os.DirFS(public), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path == "SHA256SUMS" || path == "tarepage.txt" {
			return err
		}
		data, err := os.ReadFile(filepath.Join(public, path))
		if err != nil {
			return err
		}
		status, shown := o.get(path)
		want := policy.ReplaceAllString(string(data), "")
		if got := policy.ReplaceAllString(added.ReplaceAllString(shown, ""), ""); status != 200 || got != want {
			t.Errorf("%s: status %d, %d bytes without what was added, published %d", path, status, len(got), len(want))
		}
		pages++
		return nil
	})
	if err != nil || pages < 10 {
		t.Errorf("%d pages compared: %v", pages, err)
	}
	if status := o.end(syscall.SIGTERM); status != clean {
		t.Errorf("terminated, it ends with status %d, want %d", status, clean)
	}
}

// TestShowroomWhileWriting: a unit that does not add up, one that cannot be read and a missing
// yard are each shown with their places, and then fixed.
func TestShowroomWhileWriting(t *testing.T) {
	t.Parallel()
	o := open(t)
	const file, page = "units/sb-1043.md", "u/sb-1043.html"
	sound, err := os.ReadFile(filepath.Join(o.dir, "content", file))
	if err != nil {
		t.Fatal(err)
	}
	mend := func() { o.edit(file, func(string) string { return string(sound) }) }

	// The page changes as the file does.
	o.edit(file, func(s string) string { return s + "\nSwept and washed.\n" })
	o.until(page, 200, "Swept and washed.")

	// A stop: the page is shown, with what to fix, where, and that it is not published.
	o.edit(file, func(s string) string {
		return regexp.MustCompile(`(?m)^stock: .*$`).ReplaceAllString(s, "stock: SB-1043\nstokc: x")
	})
	shown := o.until(page, 200, "this unit is not published until you fix the stops")
	for _, want := range []string{"content/units/sb-1043.md:4:1", "stokc", "fix: ", "[unknown-key]", `class="tag"`} {
		if !strings.Contains(shown, want) {
			t.Errorf("the page of a unit with a stop lacks %q", want)
		}
	}
	if strings.Contains(o.page("u/sb-1012.html"), "stokc") {
		t.Error("a stop shows on the page of another unit")
	}
	mend()
	if body := o.until(page, 200, "<h1"); strings.Contains(body, "below is the page") || strings.Contains(body, "units/sb-1043.md:4:1") {
		t.Error("what was fixed is still shown over the page")
	}

	// The notes name a figure that does not exist: the page cannot be made, and is shown as it was
	// below what was found. The other pages can be made.
	o.edit(file, func(s string) string { return s + "\nIt has [a figure](worked:no-such-figure).\n" })
	shown = o.until(page, 200, "no-such-figure")
	if !strings.Contains(shown, "below is the page as it was before") || !strings.Contains(shown, "<h1") {
		t.Errorf("the page that cannot be made is not shown as it was")
	}
	if status, _ := o.get("u/sb-1012.html"); status != 200 {
		t.Errorf("the page of a sound unit has status %d because of one that cannot be made", status)
	}
	mend()
	if body := o.until(page, 200, "<h1"); strings.Contains(body, "below is the page") || strings.Contains(body, "units/sb-1043.md:4:1") {
		t.Error("what was fixed is still shown over the page")
	}

	// Broken YAML: there is no new page, and the front page and the old page say where it is.
	o.edit(file, func(s string) string { return strings.Replace(s, "weights:", "weights: [", 1) })
	o.until("", 200, "content/units/sb-1043.md:")
	if status, body := o.get(page); status != 200 || !strings.Contains(body, "content/units/sb-1043.md:") || !strings.Contains(body, "<h1") {
		t.Errorf("a unit that cannot be read: status %d, %s", status, body)
	}
	if !strings.Contains(o.page(""), "sb-1016.html") {
		t.Error("the rest of the yard is not shown")
	}
	// The page as it was has its photos.
	photos := regexp.MustCompile(`\.\./(photos/[^"\s]+-800\.[a-z]+)`).FindAllStringSubmatch(o.page(page), -1)
	for _, p := range photos {
		if status, body := o.get(p[1]); status != 200 || len(body) < 1000 {
			t.Errorf("%s of the page as it was: status %d, %d bytes", p[1], status, len(body))
		}
	}
	if len(photos) == 0 {
		t.Error("the page as it was names no photo")
	}
	mend()
	if body := o.until(page, 200, "<h1"); strings.Contains(body, "below is the page") || strings.Contains(body, "units/sb-1043.md:4:1") {
		t.Error("what was fixed is still shown over the page")
	}

	// A unit whose file is deleted has no page, not even the old one.
	unit := filepath.Join(o.dir, "content", file)
	if err := os.Rename(unit, unit+"~"); err != nil {
		t.Fatal(err)
	}
	o.until(page, 404, "No page here")
	if err := os.Rename(unit+"~", unit); err != nil {
		t.Fatal(err)
	}
	o.until(page, 200, "<h1")

	// Without a yard the error is shown over every page, and the showroom goes on.
	yard := filepath.Join(o.dir, "content", "yard.md")
	if err := os.Rename(yard, yard+"~"); err != nil {
		t.Fatal(err)
	}
	o.until(page, 200, "no content/yard.md here")
	if status, body := o.get("showroom/findings"); status != 503 || !strings.Contains(body, "no content/yard.md here") {
		t.Errorf("the findings without a yard: status %d, %.300s", status, body)
	}
	if err := os.Rename(yard+"~", yard); err != nil {
		t.Fatal(err)
	}
	o.until(page, 200, "<h1")
	if status := o.end(os.Interrupt); status != clean {
		t.Errorf("status %d after stops and errors, want %d", status, clean)
	}
	for _, want := range []string{"content/units/sb-1043.md:4:1: stop: ", "build: in \".\": no content/yard.md here"} {
		if !strings.Contains(o.errors.String(), want) {
			t.Errorf("the terminal was not told %q", want)
		}
	}
}

func (o *opened) page(path string) string {
	_, body := o.get(path)
	return body
}

func TestShowroomTakenPort(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	var out, errs bytes.Buffer
	status := run([]string{"showroom", "-from", "../..", "-at", l.Addr().String()}, &out, &errs)
	if status != failed || !strings.Contains(errs.String(), "is in use, perhaps by another showroom; end that one, or write -at 127.0.0.1:") || out.Len() > 0 {
		t.Errorf("status %d, %q, %q", status, &errs, &out)
	}
}
