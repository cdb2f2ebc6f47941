package unit_test

import (
	"flag"
	"hash/crc32"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"golang.org/x/tools/txtar"

	"tarepage/internal/thorough"
	"tarepage/internal/unit"
)

var rules = map[string]bool{
	unit.FileUnreadable: true, unit.UnknownKey: true, unit.KeyTwice: true, unit.ValueUnreadable: true,
	unit.CommaSplit: true, unit.ModelUnknown: true, unit.ModelUnfilled: true, unit.FileIgnored: true,
}

// fuzzing reports whether a fuzzer makes up texts, by the thousand a second; otherwise
// only those that are kept are read.
func fuzzing() bool { return flag.Lookup("test.fuzz").Value.String() != "" }

// FuzzReadUnit: no file makes the reader panic. Every problem names a known rule, says something
// and is at a place inside the file; so are every field and every note. Two readings are alike. The
// seeds are the example unit (docs/design.md) and the archives of the rules.
func FuzzReadUnit(f *testing.F) {
	example, err := os.ReadFile("testdata/sb-1043.md")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(example))
	archives, err := filepath.Glob("../inspect/*.txtar")
	if err != nil || len(archives) == 0 {
		f.Fatal("no archives to take seeds from", err)
	}
	for i, name := range archives {
		if i%3 > 0 && !fuzzing() && !thorough.BeforePush() {
			continue // inspect's own tests read all of them
		}
		a, err := txtar.ParseFile(name)
		if err != nil {
			f.Fatal(err)
		}
		for _, file := range a.Files {
			if strings.HasSuffix(file.Name, ".md") {
				f.Add(string(file.Data))
			}
		}
	}
	for _, s := range []string{"---\r---\r", "\ufeff---\n{a: &a [*a]}\n---", "---\n? a\n: b\n---\n", "---\nphotos: [{file: a, alt: [}]\n---\n",
		"---\nweights: {gvwr: 1,000, 000}\n---\n", "---\n\"title\\n\": x\n---\n", "---\ntitle: a\n...\n---\n[?](worked:", "---\ntitle: !!set {a}\n---\n",
		"---\ntie-downs: [{a: 8 at 1,000 lb}]\n---\n- 1:00", "---\nstock: \"a\\x00\"\n---\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src string) {
		u, problems := unit.ReadUnit("a.md", []byte(src))
		flat := strings.ReplaceAll(strings.ReplaceAll(src, "\r\n", "\n"), "\r", "\n")
		lines := strings.Split(flat, "\n")
		inside := func(what string, at unit.Pos) {
			if at.File != "a.md" || at.Line < 1 || int(at.Line) > len(lines) || at.Column < 1 || int(at.Column) > len(lines[at.Line-1])+1 {
				t.Fatalf("%s stands at %s, outside the file's %d lines", what, at, len(lines))
			}
		}
		for _, p := range problems {
			if !rules[p.Rule] || strings.TrimSpace(p.Message) == "" || strings.TrimSpace(p.Remedy) == "" {
				t.Fatalf("problem %+v", p)
			}
			inside(p.Message, p.At)
			for _, r := range p.Related {
				inside(r.What, r.At)
			}
		}
		if u.Broken && len(problems) == 0 {
			t.Fatal("a broken file without a problem")
		}
		fields := givenOf(u)
		for path, field := range fields {
			inside(path, field.Pos)
		}
		for _, n := range u.Body.Notes {
			inside("a note", n.Pos)
		}
		for _, l := range u.Body.Figures {
			inside("a figure", l.Pos)
		}
		for _, at := range u.Body.RawHTML {
			inside("raw HTML", at)
		}
		u.Missing()
		u.Stated()
		// A second reading of one text in eight, drawn by the text itself so that what failed once
		// fails again; of the seeds and of what is kept, every one.
		if fuzzing() && crc32.ChecksumIEEE([]byte(src))%8 != 0 {
			return
		}
		again, told := unit.ReadUnit("a.md", []byte(src))
		if !reflect.DeepEqual(problems, told) || !reflect.DeepEqual(fields, givenOf(again)) {
			t.Fatal("two readings differ")
		}
	})
}
