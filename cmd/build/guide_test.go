package main

import (
	"bytes"
	"context"
	"image"
	"image/jpeg"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

// TestGuide follows docs/owners.md from top to bottom in an empty folder: it runs every
// command, writes every file and makes every change as printed, and finds every line of
// output that the guide shows.
func TestGuide(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("../../docs/owners.md")
	if err != nil {
		t.Fatal(err)
	}
	g := &guide{t: t, dir: t.TempDir()}
	g.follow(string(text))
	if g.commands < 10 || g.files < 3 || g.said < 10 {
		t.Errorf("%d commands, %d files, %d printed lines", g.commands, g.files, g.said)
	}
	// At the end of the guide the trailer is published, and the example is not.
	if _, err := os.Stat(filepath.Join(g.dir, "my-yard/public/u/ex-1.html")); err == nil {
		t.Error("the example is published next to a trailer that is for sale")
	}
	for _, page := range []string{"u/sb-1050.html", "index.html", "SHA256SUMS"} {
		if _, err := os.Stat(filepath.Join(g.dir, "my-yard/public", page)); err != nil {
			t.Error(err)
		}
	}
	// Every file that it names exists at the end.
	for _, m := range regexp.MustCompile("(?m)(?:`|^    )(my-yard/[A-Za-z0-9/.-]+)").FindAllStringSubmatch(string(text), -1) {
		if _, err := os.Stat(filepath.Join(g.dir, m[1])); err != nil {
			t.Errorf("the guide names %s: %v", m[1], err)
		}
	}
	g.photos(string(text))
	g.publishes(string(text))
	// And every page that it links to.
	for _, m := range regexp.MustCompile(`\]\(([a-z-]+\.md)\)`).FindAllStringSubmatch(string(text), -1) {
		if _, err := os.Stat(filepath.Join("../../docs", m[1])); err != nil {
			t.Error(err)
		}
	}
}

// TestGuideInSpanish follows docs/empleados.md as TestGuide follows the owner's guide: a recording in
// both languages becomes a page in each.
func TestGuideInSpanish(t *testing.T) {
	text, err := os.ReadFile("../../docs/empleados.md")
	if err != nil {
		t.Fatal(err)
	}
	g := &guide{t: t, dir: t.TempDir()}
	g.follow(string(text))
	if g.commands != 3 || g.files != 3 || g.said != 2 {
		t.Errorf("%d commands, %d files, %d printed lines", g.commands, g.files, g.said)
	}
	for name, says := range map[string]string{"u/sb-1060.html": "The notes are in Spanish.", "es/u/sb-1060.html": "Remolque para maquinaria de"} {
		page, err := os.ReadFile(filepath.Join(g.dir, "my-yard/public", name))
		if err != nil || !bytes.Contains(page, []byte(says)) {
			t.Errorf("%s does not say %q (%v)", name, says, err)
		}
	}
}

// photos adds the guide's lines on photos and on proofs to the unit's file, and a photo where they
// say.
func (g *guide) photos(text string) {
	g.t.Helper()
	block := strings.Join(regexp.MustCompile(`(?m)^    (?:photos|proof):\n(?:    .*\n)+`).FindAllString(text, -1), "")
	lines := strings.ReplaceAll("\n"+strings.TrimSuffix(block, "\n"), "\n    ", "\n")
	files := regexp.MustCompile(`file: (media/\S+)`).FindAllStringSubmatch(lines, -1)
	if len(files) != 3 {
		g.t.Fatalf("the guide shows the files %q; want a photo, a label and a ticket", files)
	}
	for k, m := range files {
		picture := image.NewGray(image.Rect(0, 0, 1280, 960))
		for i := range picture.Pix {
			picture.Pix[i] = uint8(i * (7 + 2*k)) // three pictures: the ticket's is not published
		}
		var b bytes.Buffer
		if err := jpeg.Encode(&b, picture, nil); err != nil {
			g.t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(g.dir, "my-yard/content", m[1]), b.Bytes(), 0o644); err != nil {
			g.t.Fatal(err)
		}
	}
	g.rewrite("my-yard/content/units/sb-1050.md", "\nrecording:", lines+"\nrecording:")
	g.out = nil
	g.run("tarepage -from my-yard -to my-yard/public", nil)
	if bytes.Contains(g.out, []byte("photo")) {
		g.t.Errorf("the guide's photo is found at fault:\n%s", g.out)
	}
	page, err := os.ReadFile(filepath.Join(g.dir, "my-yard/public/u/sb-1050.html"))
	if err != nil || !bytes.Contains(page, []byte(`alt="Left side from the front corner, ramps down"`)) {
		g.t.Errorf("the page does not show the guide's photo (%v)", err)
	}
	for _, says := range []string{">label photographed</a>", "scale ticket 2026-11-18 photographed, the photo is not public"} {
		if !bytes.Contains(page, []byte(says)) {
			g.t.Errorf("the page does not say %q", says)
		}
	}
}

// publishes copies the site into a folder of a host as the guide says, checks the copy
// against SHA256SUMS, and gives the site the guide's address.
func (g *guide) publishes(text string) {
	g.t.Helper()
	host := filepath.Join(g.t.TempDir(), "trailers")
	copyDir(g.t, filepath.Join(g.dir, "my-yard/public"), host)
	checkWhole(g.t, host)
	m := regexp.MustCompile("`(address: https://[^`]+)`").FindStringSubmatch(text)
	if m == nil {
		g.t.Fatal("the guide gives no address")
	}
	g.rewrite("my-yard/content/yard.md", "\nas-of:", "\n"+m[1]+"\nas-of:")
	g.run("tarepage -from my-yard -to my-yard/public", nil)
	for _, name := range []string{"arrivals.atom", "arrivals.json", "sitemap.xml"} {
		if _, err := os.Stat(filepath.Join(g.dir, "my-yard/public", name)); err != nil {
			g.t.Errorf("with the guide's address: %v", err)
		}
	}
}

// rewrite replaces a text in a file that has it exactly once.
func (g *guide) rewrite(file, old, instead string) {
	g.t.Helper()
	path := filepath.Join(g.dir, filepath.FromSlash(file))
	src, err := os.ReadFile(path)
	if err != nil || strings.Count(string(src), old) != 1 {
		g.t.Fatalf("%s does not hold %q once (%v)", file, old, err)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(string(src), old, instead, 1)), 0o644); err != nil {
		g.t.Fatal(err)
	}
}

// TestGuideWaives writes the guide's waiver into a unit that the rule stops. The unit is
// published, and its page shows the reason.
func TestGuideWaives(t *testing.T) {
	text, err := os.ReadFile("../../docs/owners.md")
	if err != nil {
		t.Fatal(err)
	}
	block := regexp.MustCompile(`(?m)^    waive:\n(?:    .*\n)+`).FindString(string(text))
	reason := regexp.MustCompile(`reason: (.+)`).FindStringSubmatch(block)
	if reason == nil {
		t.Fatal("the guide shows no waiver with its reason")
	}
	g := &guide{t: t, dir: t.TempDir()}
	g.run("tarepage first-yard -from my-yard -quiet", nil)
	g.rewrite("my-yard/content/units/ex-1.md", "price: $5,200", "price: $520")
	g.out = nil
	g.run("tarepage -from my-yard -to my-yard/public", []int{stops})
	if !bytes.Contains(g.out, []byte("[price-implausible]")) {
		t.Fatalf("the rule that the guide waives does not stop the unit:\n%s", g.out)
	}
	lines := strings.ReplaceAll("\n"+strings.TrimSuffix(block, "\n"), "\n    ", "\n")
	g.rewrite("my-yard/content/units/ex-1.md", "\nstock:", lines+"\nstock:")
	g.run("tarepage -from my-yard -to my-yard/public", nil)
	page, err := os.ReadFile(filepath.Join(g.dir, "my-yard/public/u/ex-1.html"))
	if err != nil || !bytes.Contains(page, []byte(reason[1])) {
		t.Errorf("the page does not show the reason %q (%v)", reason[1], err)
	}
}

// TestGuideLooks: every key that the guide says to look for on the trailer is a key.
func TestGuideLooks(t *testing.T) {
	text, err := os.ReadFile("../../docs/owners.md")
	if err != nil {
		t.Fatal(err)
	}
	_, list, _ := strings.Cut(string(text), "\nlook at the trailer before you write its file:\n")
	list, _, _ = strings.Cut(list, "\n## ")
	named := regexp.MustCompile("`([a-z.-]+)`").FindAllStringSubmatch(list, -1)
	if len(named) < 10 {
		t.Errorf("the guide names only %d keys to look for", len(named))
	}
	for _, m := range named {
		if !slices.ContainsFunc(unit.Keys(), func(k unit.KeyDoc) bool { return k.Path == m[1] }) {
			t.Errorf("the guide says to write %s, which is not a key", m[1])
		}
	}
}

// TestGuideDays writes every line of the guide's table of daily changes into the unit's file,
// and finds no fault with any of them.
func TestGuideDays(t *testing.T) {
	thorough.Only(t)
	text, err := os.ReadFile("../../docs/owners.md")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, m := range regexp.MustCompile("(?m)^\\| [^|]*\\| `([a-z-]+): ([^`]+)`").FindAllStringSubmatch(string(text), -1) {
		n++
		dir := t.TempDir()
		g := &guide{t: t, dir: dir}
		g.run("tarepage first-yard -from my-yard -quiet", nil)
		file := filepath.Join(dir, "my-yard/content/units/ex-1.md")
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		out := regexp.MustCompile(`(?m)^`+m[1]+`:.*\n`).ReplaceAllString(string(src), "")
		out = strings.Replace(out, "\nstock:", "\n"+m[1]+": "+m[2]+"\nstock:", 1)
		// The stock is checked on a later day than that of the change.
		yard := filepath.Join(dir, "my-yard/content/yard.md")
		y, err := os.ReadFile(yard)
		if err != nil {
			t.Fatal(err)
		}
		for name, data := range map[string]string{file: out, yard: strings.Replace(string(y), "as-of: 2026-11-20", "as-of: 2026-11-25", 1)} {
			if err := os.WriteFile(name, []byte(data), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		g.run("tarepage -from my-yard -to my-yard/public", nil)
		if bytes.Contains(g.out, []byte("[")) {
			t.Errorf("%s: %s is found at fault:\n%s", m[1], m[2], g.out)
		}
	}
	if n < 4 {
		t.Errorf("only %d lines of the table were tried", n)
	}
}

// TestReadme runs the commands of README.md in a copy of the demo, and gets the finding that
// it shows.
func TestReadme(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	g := &guide{t: t, dir: t.TempDir()}
	copyDir(t, "../../content", filepath.Join(g.dir, "content"))
	guideText, err := os.ReadFile("../../docs/owners.md")
	if err != nil {
		t.Fatal(err)
	}
	_, captions, _ := strings.Cut(string(guideText), "```vtt my-yard/content/media/walk.vtt\n")
	captions, _, _ = strings.Cut(captions, "```")
	if err := os.WriteFile(filepath.Join(g.dir, "walk.vtt"), []byte(captions), 0o644); err != nil {
		t.Fatal(err)
	}
	write(t, g.dir, map[string]string{"stock.csv": "Stock,Price\nSB-1003,1995\n", "maker.csv": "Model,GVWR\nDT-14,14000\n"})
	for _, m := range regexp.MustCompile(`(?m)^    (go (?:run|build|test) [^#\n]*)`).FindAllStringSubmatch(string(text), -1) {
		line := strings.TrimSpace(m[1])
		switch {
		case line == "go test ./...":
			continue // whoever runs this runs that
		case strings.Contains(line, "intake"):
			// The new unit has stops, as the README says.
			g.run(line, nil)
			if err := os.Remove(filepath.Join(g.dir, "content/units/sb-1050.md")); err != nil {
				t.Error(err)
			}
		default:
			g.run(line, nil)
		}
	}
	if g.commands < 6 {
		t.Errorf("only %d commands were run", g.commands)
	}
	// The README names every flag and every verb of the program.
	for _, name := range flagNames() {
		if !strings.Contains(string(text), "`-"+name) {
			t.Errorf("README.md does not name the flag -%s", name)
		}
	}
	for _, verb := range verbNames() {
		if verb != "build" && verb != "help" && !strings.Contains(string(text), "./cmd/build "+verb) {
			t.Errorf("README.md does not name the verb %s", verb)
		}
	}
	for _, m := range regexp.MustCompile(`\]\(([A-Za-z/.-]+\.md)\)`).FindAllStringSubmatch(string(text), -1) {
		if _, err := os.Stat(filepath.Join("../..", m[1])); err != nil {
			t.Error(err)
		}
	}
}

// guide follows a page.
type guide struct {
	t                     *testing.T
	dir                   string
	out                   []byte // what the last commands printed
	commands, files, said int
}

var guideFence = regexp.MustCompile("(?ms)^```([a-z]+)(?: ([^\n]+))?\n(.*?)^```$")

func (g *guide) follow(text string) {
	g.t.Helper()
	for _, m := range guideFence.FindAllStringSubmatch(text, -1) {
		kind, file, body := m[1], m[2], m[3]
		switch {
		case kind == "sh":
			g.out = nil
			for line := range strings.Lines(body) {
				g.run(strings.TrimSpace(line), []int{clean, stops})
			}
		case kind == "text":
			for line := range strings.Lines(body) {
				g.said++
				if !bytes.Contains(g.out, []byte(strings.TrimRight(line, "\n"))) {
					g.t.Errorf("the guide shows this output: %sthe output is:\n%s", line, g.out)
				}
			}
		case kind == "change":
			old, instead, _ := strings.Cut(body, "\n")
			g.rewrite(file, old+"\n", instead)
			g.files++
		case file != "":
			if err := os.WriteFile(filepath.Join(g.dir, filepath.FromSlash(file)), []byte(body), 0o644); err != nil {
				g.t.Fatal(err)
			}
			g.files++
		default:
			g.t.Errorf("a block of kind %q is not commands, not a file and not output", kind)
		}
	}
}

// run runs one command of a page. The program is the test's own binary under the page's name
// for it; TestRelease builds from the project's folder.
func (g *guide) run(line string, statuses []int) {
	g.t.Helper()
	g.commands++
	args := strings.Fields(line)
	switch {
	case strings.HasPrefix(line, "go run ./cmd/build"):
		args = append([]string{"build"}, args[3:]...)
	case strings.Contains(line, "go build "):
		return
	case args[0] != "tarepage":
		g.t.Fatalf("a command that the test does not know: %s", line)
	}
	if len(args) > 1 && args[1] == "showroom" {
		g.showroom(args)
		return
	}
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Dir = g.dir
	out, err := cmd.CombinedOutput()
	g.out = append(g.out, out...)
	status := cmd.ProcessState.ExitCode()
	if err != nil && (statuses == nil || status != clean && status != stops) {
		g.t.Fatalf("%s: %v\n%s", line, err, out)
	}
}

// showroom opens the showroom, waits until it prints its address, and ends it.
func (g *guide) showroom(args []string) {
	g.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	cmd := exec.CommandContext(ctx, args[0], append(args[1:], "-at", "127.0.0.1:0")...)
	cmd.Dir = g.dir
	pipe, err := cmd.StdoutPipe()
	if err != nil {
		g.t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		g.t.Fatal(err)
	}
	said := make([]byte, 200)
	n, _ := io.ReadAtLeast(pipe, said, len("the showroom is open at http://"))
	if !strings.HasPrefix(string(said[:n]), "the showroom is open at http://") {
		g.t.Errorf("the showroom says %q", said[:n])
	}
	cancel()
	_ = cmd.Wait() // it was killed
}
