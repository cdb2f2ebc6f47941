package main

import (
	"bytes"
	"encoding/json"
	"io"
	"maps"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"tarepage/internal/report"
	"tarepage/internal/showroom"
)

// TestParse: each flag sets its field, before the verb and after it, and nothing else.
func TestParse(t *testing.T) {
	usual := command{verb: "build", from: ".", to: "public", at: showroom.Usual, by: report.ByUnit}
	for args, change := range map[string]func(c *command){
		"":                            func(*command) {},
		"build":                       func(*command) {},
		"inspect":                     func(c *command) { c.verb = "inspect" },
		"-from a inspect":             func(c *command) { c.verb, c.from = "inspect", "a" },
		"inspect -by rule":            func(c *command) { c.verb, c.by = "inspect", report.ByRule },
		"inspect -reread -json":       func(c *command) { c.verb, c.reread, c.json = "inspect", true, true },
		"build -to b -look c":         func(c *command) { c.to, c.look = "b", "c" },
		"-fewer 3 -leave-out":         func(c *command) { c.fewer, c.leaveOut = 3, true },
		"-quiet":                      func(c *command) { c.quiet = true },
		"rule":                        func(c *command) { c.verb = "rule" },
		"rule gvwr":                   func(c *command) { c.verb, c.name = "rule", "gvwr" },
		"showroom -phone":             func(c *command) { c.verb, c.phone, c.at = "showroom", true, showroom.UsualPort },
		"showroom -at 127.0.0.1:1":    func(c *command) { c.verb, c.at = "showroom", "127.0.0.1:1" },
		"intake a.vtt -stock SB-1":    func(c *command) { c.verb, c.name, c.stock = "intake", "a.vtt", "SB-1" },
		"-stock SB-1 intake -- -.vtt": func(c *command) { c.verb, c.name, c.stock = "intake", "-.vtt", "SB-1" },
		"sheet s.csv -apply -models -anyway A,B": func(c *command) {
			c.verb, c.name, c.apply, c.models, c.anyway = "sheet", "s.csv", true, true, "A,B"
		},
		"-version":      func(c *command) { c.verb, c.version = "version", true },
		"inspect -help": func(c *command) { c.verb = "help" },
	} {
		want := usual
		change(&want)
		got, err := parse(strings.Fields(args))
		if err != nil {
			t.Errorf("%q: %v", args, err)
			continue
		}
		got.given = nil
		// Where the flag for phones opens depends on no more than the port.
		if want.phone {
			got.at = want.at
		}
		if got := *got; !sameCommand(got, want) {
			t.Errorf("%q is read as %+v, want %+v", args, got, want)
		}
	}
}

func sameCommand(a, b command) bool {
	return a.verb == b.verb && a.name == b.name && a.from == b.from && a.to == b.to && a.look == b.look && a.at == b.at && a.phone == b.phone && a.json == b.json &&
		a.leaveOut == b.leaveOut && a.quiet == b.quiet && a.by == b.by && a.apply == b.apply && a.anyway == b.anyway && a.models == b.models && a.reread == b.reread &&
		a.fewer == b.fewer && a.stock == b.stock
}

// TestRefusedArguments: what cannot be read is refused in one line, with the bad word and what would
// be right.
func TestRefusedArguments(t *testing.T) {
	for args, want := range map[string]string{
		"inspect x":                 `inspect takes nothing more, not "x"`,
		"rule a b":                  `rule takes nothing more, not "b"`,
		"intake":                    "intake needs the captions after it: intake walk.vtt -stock SB-1050",
		"intake a.vtt":              "intake needs the yard's number for the unit: -stock SB-1050, or -into FILE to compare with a file that exists",
		"intake a.vtt -stock /":     `stock number "/" cannot name a page; use `,
		"sheet":                     "sheet needs the spreadsheet after it: sheet stock.xlsx",
		"-fewer x":                  `flag -fewer needs the number of units that may be gone: -fewer 12; "x" is not a number of units`,
		"-fewer 0":                  `"0" is not a number of units`,
		"-quiet -quiet":             "flag -quiet is given twice; keep one",
		"-quiet=no":                 "flag -quiet takes no value; write -quiet alone",
		"-from=":                    "flag -from needs a folder after it",
		"-from":                     "flag -from needs a folder after it",
		"inspct":                    `"inspct"`,
		"-theme x":                  "-look",
		"intake a -into b -stock c": "intake -into takes no -stock: the file has its number, and nothing is written",
	} {
		c, err := parse(strings.Fields(args))
		if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %+v, %v; want %s", args, c, err, want)
		}
	}
}

// smallYard has one unit that may be published and what a person's mistakes are made in.
func smallYard(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "yard")
	if status, out, said := answers("first-yard", "-from", dir, "-quiet"); status != clean || out+said != "" {
		t.Fatalf("first-yard: %d %q %q", status, out, said)
	}
	return dir
}

func answers(args ...string) (status int, out, said string) {
	var stdout, stderr bytes.Buffer
	status = run(args, &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

// TestRun: each verb ends with its status, and says what it says where it belongs.
func TestRun(t *testing.T) {
	defer func(was string) { os.Args[0] = was }(os.Args[0])
	os.Args[0] = "build"
	dir := smallYard(t)
	site := filepath.Join(dir, "public")
	for _, row := range []struct {
		args      string
		status    int
		out, said []string // what is printed, and what is printed as an error
		silent    bool     // nothing is printed
	}{
		{args: "help", out: []string{"build makes the yard's site out of content/.\n\nThe verb follows", "help             show this text\n\n  -from DIR", "\nExit status: 0 nothing stops, 1 stops found, 2 could not run.\n"}},
		{args: "-version", out: []string{"tarepage"}},
		{args: "rule", out: []string{"words-private", "axles-under-gvwr"}},
		{args: "rule words-private", out: []string{"words-private"}},
		{args: "rule words-privat", status: failed, said: []string{"build: ", "words-private"}},
		{args: "bogus", status: failed, said: []string{`build: there is no verb "bogus"; the verbs are build, inspect,`}},
		{args: "inspect -from DIR", out: []string{"1 unit inspected"}},
		{args: "inspect -from DIR -quiet", silent: true},
		{args: "inspect -from DIR -by rule", out: []string{"1 unit inspected"}},
		{args: "inspect -from DIR/nowhere", status: failed, said: []string{"build: "}},
		{args: "build -from DIR -to DIR/public", out: []string{"1 unit"}},
		{args: "build -from DIR -to DIR/public -quiet", silent: true},
		{args: "build -from DIR -to DIR/public -look DIR/nowhere", status: failed, said: []string{"build: ", "nowhere"}},
		{args: "build -from DIR -to DIR/content", status: failed, said: []string{"build: "}},
		{args: "intake DIR/nowhere.vtt -stock SB-1 -from DIR", status: failed, said: []string{"build: ", "nowhere.vtt"}},
		{args: "sheet DIR/nowhere.csv -from DIR", status: failed, said: []string{"build: ", "nowhere.csv"}},
		{args: "showroom -from DIR/nowhere", status: failed, said: []string{"build: "}},
		{args: "first-yard -from DIR", status: failed, said: []string{"build: "}},
		{args: "editor-help -to DIR/help", out: []string{"unit.schema.json"}},
		{args: "editor-help -to DIR/help -quiet", silent: true},
	} {
		status, out, said := answers(strings.Fields(strings.ReplaceAll(row.args, "DIR", dir))...)
		if status != row.status {
			t.Errorf("%s: status %d, want %d: %s%s", row.args, status, row.status, out, said)
		}
		for _, want := range row.out {
			if !strings.Contains(out, want) {
				t.Errorf("%s: %q lacks %q", row.args, out, want)
			}
		}
		for _, want := range row.said {
			if !strings.Contains(said, want) {
				t.Errorf("%s: the error %q lacks %q", row.args, said, want)
			}
		}
		if row.silent && out+said != "" {
			t.Errorf("%s prints %q, %q", row.args, out, said)
		}
	}
	if _, err := os.Stat(filepath.Join(site, "index.html")); err != nil {
		t.Error(err)
	}
}

// TestJSON: with -json the figures and findings are one document, and nothing else is printed there. A
// stop is a status and not an error.
func TestJSON(t *testing.T) {
	dir := smallYard(t)
	units, err := filepath.Glob(filepath.Join(dir, "content", "units", "*.md"))
	if err != nil || len(units) != 1 {
		t.Fatal(units, err)
	}
	sound, err := os.ReadFile(units[0])
	if err != nil {
		t.Fatal(err)
	}
	broken := bytes.Replace(sound, []byte("stock:"), []byte("stok:"), 1)
	for _, row := range []struct {
		args   []string
		text   []byte
		status int
	}{
		{[]string{"inspect", "-from", dir, "-json"}, sound, clean},
		{[]string{"build", "-from", dir, "-to", filepath.Join(dir, "public"), "-json"}, sound, clean},
		{[]string{"inspect", "-from", dir, "-json"}, broken, stops},
		{[]string{"build", "-from", dir, "-to", filepath.Join(dir, "public"), "-json"}, broken, stops},
	} {
		if err := os.WriteFile(units[0], row.text, 0o644); err != nil {
			t.Fatal(err)
		}
		status, out, said := answers(row.args...)
		var doc map[string]json.RawMessage
		if err := json.Unmarshal([]byte(out), &doc); err != nil {
			t.Fatalf("%v prints %.200q, %q: %v", row.args, out, said, err)
		}
		if status != row.status || len(doc["findings"]) == 0 || len(doc["units"]) == 0 {
			t.Errorf("%v: status %d, want %d; keys %v", row.args, status, row.status, slices.Sorted(maps.Keys(doc)))
		}
	}
}

// TestIntakeHere: a recording becomes a unit file in place, once.
func TestIntakeHere(t *testing.T) {
	dir := smallYard(t)
	talk := filepath.Join(dir, "content", "media", "walk.vtt")
	if err := os.WriteFile(talk, []byte("WEBVTT\n\n00:01.000 --> 00:05.000\nit's a sixteen foot utility trailer with two thirty five hundred pound axles\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	status, out, said := answers("intake", talk, "-stock", "SB-7", "-from", dir)
	if status != clean || !strings.Contains(out, "content/units/sb-7.md") || said != "" {
		t.Fatalf("%d %q %q", status, out, said)
	}
	text, err := os.ReadFile(filepath.Join(dir, "content", "units", "sb-7.md"))
	if err != nil || !bytes.Contains(text, []byte("length: 16 ft")) || !bytes.Contains(text, []byte("media/walk.vtt")) {
		t.Errorf("%v\n%s", err, text)
	}
	if status, out, said := answers("intake", talk, "-stock", "SB-7", "-from", dir); status != failed || out != "" || !strings.Contains(said, "exists and stays as it is") {
		t.Errorf("the second time: %d %q %q", status, out, said)
	}
	if status, out, _ := answers("intake", talk, "-into", filepath.Join(dir, "content", "units", "sb-7.md"), "-from", dir); status != clean || out == "" {
		t.Errorf("compared: %d %q", status, out)
	}
	if status, out, said := answers("intake", talk, "-stock", "SB-8", "-from", dir, "-quiet"); status != clean || out+said != "" {
		t.Errorf("quiet: %d %q %q", status, out, said)
	}
}

// TestSheetHere: a row is a new unit; it is said first, and written with -apply.
func TestSheetHere(t *testing.T) {
	dir := smallYard(t)
	sheet := filepath.Join(dir, "stock.csv")
	if err := os.WriteFile(sheet, []byte("Stock,Kind,GVWR,Price\nSB-9,utility,\"2,990 lb\",\"$1,900\"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "content", "units", "sb-9.md")
	status, out, said := answers("sheet", sheet, "-from", dir)
	if _, err := os.Stat(file); err == nil || status != clean || !strings.Contains(out, "SB-9") || said != "" {
		t.Fatalf("%d %q %q, the file is there: %v", status, out, said, err == nil)
	}
	if status, out, said := answers("sheet", sheet, "-from", dir, "-anyway", "SB-1"); status != failed || out != "" || !strings.Contains(said, "SB-1") {
		t.Errorf("-anyway: %d %q %q", status, out, said)
	}
	if status, _, said := answers("sheet", sheet, "-from", dir, "-apply"); status != clean || said != "" {
		t.Errorf("-apply: %d %q", status, said)
	}
	if text, err := os.ReadFile(file); err != nil || !bytes.Contains(text, []byte("2,990 lb")) {
		t.Errorf("%v\n%s", err, text)
	}
}

// A page is what is printed while a command runs, read by a test at the same time.
type page struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (p *page) Write(data []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.text.Write(data)
}

// waits for a form in what is printed.
func (p *page) waits(t *testing.T, form string) []string {
	t.Helper()
	for range 600 {
		p.mu.Lock()
		m := regexp.MustCompile(form).FindStringSubmatch(p.text.String())
		p.mu.Unlock()
		if m != nil {
			return m
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatalf("%s is not printed: %s", form, p.text.String())
	return nil
}

// TestShowroomHere: the showroom opens, shows a unit, says what stops it once its file is broken, watches
// the look, and ends when it is interrupted.
func TestShowroomHere(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("NOT CHECKED: a process cannot interrupt itself on Windows")
	}
	dir := smallYard(t)
	look := filepath.Join(dir, "look")
	if err := os.Mkdir(look, 0o755); err != nil {
		t.Fatal(err)
	}
	var out, said page
	ended := make(chan int)
	go func() {
		ended <- run([]string{"showroom", "-from", dir, "-look", look, "-at", "127.0.0.1:0"}, &out, &said)
	}()
	address := out.waits(t, `http://127\.0\.0\.1:[0-9]+`)[0]
	get := func(path string) string {
		response, err := http.Get(address + path)
		if err != nil {
			t.Fatal(err)
		}
		defer response.Body.Close()
		text, err := io.ReadAll(response.Body)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	out.waits(t, "1 unit")
	if !strings.Contains(get("/"), "EXAMPLE") {
		t.Error("the front page does not say that the unit is an example")
	}
	units, err := filepath.Glob(filepath.Join(dir, "content", "units", "*.md"))
	if err != nil || len(units) != 1 {
		t.Fatal(units, err)
	}
	text, err := os.ReadFile(units[0])
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(units[0], bytes.Replace(text, []byte("stock:"), []byte("stok:"), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	said.waits(t, `unknown key "stok"`)
	if err := os.WriteFile(filepath.Join(look, "gone.html"), []byte("{{define}}"), 0o644); err != nil {
		t.Fatal(err)
	}
	said.waits(t, `build(\.test)?: .*gone\.html|package: .*gone\.html`)
	self, err := os.FindProcess(os.Getpid())
	if err != nil {
		t.Fatal(err)
	}
	if err := self.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	if status := <-ended; status != clean {
		t.Errorf("interrupted: status %d", status)
	}
}

// TestName: the command is called as it is started, without the ends of its file.
func TestName(t *testing.T) {
	defer func(was string) { os.Args[0] = was }(os.Args[0])
	for _, path := range []string{"/x/tarepage", "tarepage.exe", "/x/tarepage.test", "tarepage.test.exe"} {
		if os.Args[0] = path; name() != "tarepage" || program() != "tarepage" {
			t.Errorf("%s is called %q, and typed %q", path, name(), program())
		}
	}
	// What "go run ./cmd/build" starts is called build.
	if os.Args[0] = "/x/build"; program() != "go run ./cmd/build" {
		t.Errorf("build is typed %q", program())
	}
}
