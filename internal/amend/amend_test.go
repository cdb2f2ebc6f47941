package amend

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "tarepage/internal/fixedseed"
)

// TestApply changes one key in a file, and the rest of the file stays as it is.
func TestApply(t *testing.T) {
	for _, c := range []struct{ name, file, path, value, want string }{
		{"a value", "---\nprice: $5,200 # ask first\ncolor: black\n---\nwords\n", "price", "$4,900", "---\nprice: $4,900 # ask first\ncolor: black\n---\nwords\n"},
		{"in a section", "---\nweights:\n  gvwr: 7,000 lb (tag)\n  empty: 1,900 lb\n---\n", "weights.empty", "1,940 lb (scale ticket 2026-11-03)",
			"---\nweights:\n  gvwr: 7,000 lb (tag)\n  empty: 1,940 lb (scale ticket 2026-11-03)\n---\n"},
		{"an empty value", "---\nprice:   # nobody said it\n---\n", "price", "$4,900", "---\nprice: $4,900   # nobody said it\n---\n"},
		{"in quotation marks", "---\ntitle: \"A \\\"big\\\" one\" # x\n---\n", "title", "Small one", "---\ntitle: Small one # x\n---\n"},
		{"in single ones", "---\ntitle: 'It''s big'\nyear: 2026\n---\n", "title", "Small", "---\ntitle: Small\nyear: 2026\n---\n"},
		{"a value that needs them", "---\ntitle: Dump\n---\n", "title", `83" x 14' dump #1`, "---\ntitle: '83\" x 14'' dump #1'\n---\n"},
		{"a value of several lines", "---\ntitle: Dump\n  trailer\n# a comment\nyear: 2026\n---\n", "title", "Tilt", "---\ntitle: Tilt\n# a comment\nyear: 2026\n---\n"},
		{"a block", "---\ntitle: |\n  Dump\n  trailer\n\nyear: 2026\n---\n", "title", "Tilt", "---\ntitle: Tilt\n\nyear: 2026\n---\n"},
		{"a missing key", "---\nstock: A-1\n---\n", "price", "$4,900", "---\nstock: A-1\nprice: $4,900\n---\n"},
		{"a missing key of a section", "---\nhitch:\n    kind: pintle\n    # more\n\n# the deck\ndeck:\n  length: 18 ft\n---\n", "hitch.ball", "2 in",
			"---\nhitch:\n    kind: pintle\n    ball: 2 in\n    # more\n\n# the deck\ndeck:\n  length: 18 ft\n---\n"},
		{"a missing section", "---\nstock: A-1\n---\n", "weights.empty", "1,900 lb", "---\nstock: A-1\nweights:\n  empty: 1,900 lb\n---\n"},
		{"an empty section", "---\nweights:\nstock: A-1\n---\n", "weights.empty", "1,900 lb", "---\nweights:\n  empty: 1,900 lb\nstock: A-1\n---\n"},
		{"two sections deep", "---\nhitch:\n  kind: pintle\n---\n", "hitch.chains.count", "2", "---\nhitch:\n  kind: pintle\n  chains:\n    count: 2\n---\n"},
		{"no key at all", "---\n# nothing yet\n---\n", "stock", "A-1", "---\n# nothing yet\nstock: A-1\n---\n"},
		{"line ends of Windows", "\ufeff---\r\nprice: $1\r\n---\r\nwords\r\n", "year", "2026", "\ufeff---\r\nprice: $1\r\nyear: 2026\r\n---\r\nwords\r\n"},
		{"the same word below", "---\nprice: $1\n---\nprice: $1\n", "price", "$2", "---\nprice: $2\n---\nprice: $1\n"},
	} {
		got, err := Apply([]byte(c.file), []Change{{c.path, c.value}})
		if err != nil || string(got) != c.want {
			t.Errorf("%s: %v\n%s\nwant\n%s", c.name, err, got, c.want)
		}
	}
}

// TestRefused holds what is not changed, and that the error says why.
func TestRefused(t *testing.T) {
	for _, c := range []struct{ name, file, path, value, want string }{
		{"no front matter", "words\n", "price", "$1", "price: the file has no front matter between two lines of ---"},
		{"it never closes", "---\nprice: $1\n", "price", "$1", "price: the file has no front matter between two lines of ---"},
		{"front matter that does not read", "---\nprice: \"$1\n---\n", "price", "$1", "price: the front matter does not read"},
		{"a section", "---\nhitch:\n  kind: pintle\n---\n", "hitch", "x", "hitch: line 2: there are keys, a list or a mark of YAML's where one value is expected"},
		{"a list", "---\nstandard:\n- spare\n---\n", "standard", "x", "standard: line 2: there are keys"},
		{"braces", "---\nhitch: {kind: pintle}\n---\n", "hitch.ball", "2 in", "hitch.ball: line 2: hitch is not written with its keys on lines of their own below it"},
		{"an alias", "---\nmake: &a X\n---\n", "make", "Y", "make: line 2: "},
		{"two lines", "---\nmake: X\n---\n", "make", "Y\nZ", `make: "Y\nZ" is not a value for one line`},
		{"nothing", "---\nmake: X\n---\n", "make", "", `make: "" is not a value for one line`},
	} {
		got, err := Apply([]byte(c.file), []Change{{c.path, c.value}})
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: %v\n%s\nwant %s", c.name, err, got, c.want)
		}
	}
}

// TestRandomFiles makes random files and changes, and reads the result with the YAML library:
// only the changed key differs, and every line that has no changed key stays.
func TestRandomFiles(t *testing.T) {
	value := rapid.StringMatching(`[A-Za-z0-9$"'#:*&,. -]{0,12}[A-Za-z0-9"'#:]`)
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		eol := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "eol")
		line := func(format string, args ...any) { b.WriteString(fmt.Sprintf(format, args...) + eol) }
		filler := func() {
			switch rapid.IntRange(0, 3).Draw(t, "filler") {
			case 0:
				line("# a comment: with a colon")
			case 1:
				line("")
			}
		}
		write := func(indent, name string) {
			text, err := scalar(strings.TrimSpace(value.Draw(t, "value")))
			if err != nil {
				text = ""
			}
			comment := rapid.SampledFrom([]string{"", " # why"}).Draw(t, "comment")
			line("%s%s: %s%s", indent, name, text, comment)
		}
		line("---")
		for i := range rapid.IntRange(0, 3).Draw(t, "keys") {
			filler()
			write("", fmt.Sprintf("key%d", i))
		}
		for i := range rapid.IntRange(0, 2).Draw(t, "sections") {
			filler()
			line("part%d:", i)
			for j := range rapid.IntRange(0, 2).Draw(t, "kids") {
				filler()
				write("  ", fmt.Sprintf("kid%d", j))
			}
		}
		filler()
		line("---")
		line("key0: words")
		file := []byte(b.String())
		change := Change{
			rapid.SampledFrom([]string{"key0", "key2", "key9", "part0.kid0", "part1.kid1", "part1.kid9", "part9.kid0"}).Draw(t, "path"),
			strings.TrimSpace(value.Draw(t, "new")),
		}
		got, err := Apply(file, []Change{change})
		if err != nil {
			if _, bad := scalar(change.Value); bad != nil {
				return
			}
			t.Fatalf("%s = %q: %v\n%s", change.Path, change.Value, err, file)
		}
		was, _ := Values(file)
		is, err := Values(got)
		if err != nil {
			t.Fatal(err)
		}
		section, _, _ := strings.Cut(change.Path, ".")
		delete(was, section)
		was[change.Path] = change.Value
		if section == change.Path {
			was[section] = change.Value
		}
		if !maps.Equal(was, is) {
			t.Fatalf("%v became %v\n%s\n%s", was, is, file, got)
		}
		// At most one line is another one, and at most two are new.
		before, after := lines(file), lines(got)
		for l, n := range before {
			if missing := n - after[l]; missing > 1 || missing == 1 && !strings.Contains(l, section) && !strings.Contains(l, "kid") {
				t.Fatalf("the line %q is gone\n%s\n%s", l, file, got)
			}
		}
	})
}

func lines(text []byte) map[string]int {
	out := map[string]int{}
	for _, l := range strings.Split(string(text), "\n") {
		out[l]++
	}
	return out
}

// TestPlainForm holds that YAML reads every value that plainForm matches as it is.
func TestPlainForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := strings.TrimSpace(rapid.StringMatching(`[A-Za-z0-9$][A-Za-z0-9$ ,.()'"/-]{0,12}`).Draw(t, "value"))
		if !plainForm.MatchString(v) || strings.EqualFold(v, "null") {
			return
		}
		got, err := Values([]byte("---\nk: " + v + "\n---\n"))
		if err != nil || got["k"] != v {
			t.Fatalf("%q reads as %q, %v", v, got["k"], err)
		}
	})
}
