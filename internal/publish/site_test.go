package publish

import (
	"slices"
	"strings"
	"testing"
)

// Source of the Windows names and characters: Microsoft, Naming Files, Paths, and
// Namespaces (from memory).
func TestAddRefuses(t *testing.T) {
	long := strings.Repeat("a", 256)
	tests := []struct {
		before, path string
		want         string
	}{
		{"", "", `site file "" has no path; a path looks like units/sb-1043/index.html`},
		{"", "/etc/passwd", `site file "/etc/passwd" is absolute; a path is relative to the target`},
		{"", "../up.html", `site file "../up.html" has the element ".."; a path goes straight down from the target`},
		{"", "a/../b", `site file "a/../b" has the element ".."; a path goes straight down from the target`},
		{"", "./a", `site file "./a" has the element "."; a path goes straight down from the target`},
		{"", "a//b", `site file "a//b" has an empty folder or file name`},
		{"", "a/", `site file "a/" has an empty folder or file name`},
		{"", `a\b`, `site file "a\\b" has a backslash; folders are separated by /`},
		{"", "C:/a", `site file "C:/a" has the character ':', which Windows reserves`},
		{"", "what?.html", `site file "what?.html" has the character '?', which Windows reserves`},
		{"", "a\nb", `site file "a\nb" has the control character U+000A`},
		{"", "a\xff", `site file "a\xff" is not valid UTF-8`},
		{"", "a./b", `site file "a./b" has a name that ends in a period or a space, which Windows drops`},
		{"", "a ", `site file "a " has a name that ends in a period or a space, which Windows drops`},
		{"", "con", `site file "con" has the name "con", which is a device on Windows`},
		{"", "a/NUL.tar.gz", `site file "a/NUL.tar.gz" has the name "NUL.tar.gz", which is a device on Windows`},
		{"", "Com7.txt/a", `site file "Com7.txt/a" has the name "Com7.txt", which is a device on Windows`},
		{"", "lpt³", `site file "lpt³" has the name "lpt³", which is a device on Windows`},
		{"", long, `site file "` + long + `" has a name of more than 255 bytes`},
		{"", "SHA256SUMS", `site file "SHA256SUMS" has the name of a file every build writes; choose another`},
		{"", "Tarepage.TXT", `site file "Tarepage.TXT" has the name of a file every build writes; choose another`},
		{"a/b", "a/b", `site file "a/b" is added twice`},
		{"units/A.html", "units/a.html", `site file "units/a.html" differs from "units/A.html" by case or accents only; rename one`},
		{"Straße", "STRAßE", `site file "STRAßE" differs from "Straße" by case or accents only; rename one`},
		{"caf\u00e9.mp4", "CAFE\u0301.mp4", `site file "CAFÉ.mp4" differs from "café.mp4" by case or accents only; rename one`},
		{"kelvin", "\u212aelvin", `site file "\u212aelvin" differs from "kelvin" by case or accents only; rename one`},
		{"Units/a.html", "units/b.html", `site folder "units" differs from "Units" by case or accents only; write both alike`},
		{"a", "A/b", `site file "A/b" lies below "a", which is a file`},
		{"A/b", "a", `site file "a" has the name of the folder "A"`},
	}
	for _, tt := range tests {
		t.Run(tt.path, func(t *testing.T) {
			var s Site
			if tt.before != "" {
				if err := s.Add(tt.before, nil); err != nil {
					t.Fatal(err)
				}
			}
			n := s.Len()
			err := s.Add(tt.path, nil)
			// %q prints U+212A as itself.
			want := strings.ReplaceAll(tt.want, `\u212a`, "\u212a")
			if err == nil || err.Error() != want {
				t.Errorf("Add(%q) = %v\nwant %s", tt.path, err, want)
			}
			if s.Len() != n {
				t.Errorf("a refused file was added")
			}
			if tt.before == "" {
				return
			}
			if err := s.Add("other/"+tt.before, nil); err != nil {
				t.Errorf("after the refusal: %v", err)
			}
		})
	}
}

func TestAddTakes(t *testing.T) {
	var s Site
	want := []string{
		".nojekyll", "-dash", "com10", "console.html", "nully/x", "photos/größe 1.jpg",
		strings.Repeat("b", 255), "units/a/index.html", "units/b/index.html", "~",
	}
	for _, path := range slices.Backward(want) {
		if err := s.Add(path, nil); err != nil {
			t.Error(err)
		}
	}
	slices.Sort(want)
	if got := s.Paths(); !slices.Equal(got, want) {
		t.Errorf("Paths() = %q, want %q", got, want)
	}
}

// A list that is accepted may be replaced file by file, so anything doubtful in it
// has to be refused.
func TestParseListRefuses(t *testing.T) {
	digest := strings.Repeat("0a", 32)
	note := digest + "  tarepage.txt\n"
	tests := []struct{ name, text, want string }{
		{"empty", "", "its SHA256SUMS does not list tarepage.txt, so another program wrote it"},
		{"foreign", digest + "  disk.iso\n", "its SHA256SUMS does not list tarepage.txt, so another program wrote it"},
		{"short digest", note + "0a  a\n", "line 2 of its SHA256SUMS is not 64 hexadecimal digits, two spaces and a path"},
		{"no hex", note + strings.Repeat("0g", 32) + "  a\n", "line 2 of its SHA256SUMS is not 64 hexadecimal digits, two spaces and a path"},
		{"binary form", digest + " *tarepage.txt\n", "line 1 of its SHA256SUMS is not 64 hexadecimal digits, two spaces and a path"},
		{"cut off", note + digest + "  a", "line 2 of its SHA256SUMS is not 64 hexadecimal digits, two spaces and a path"},
		{"up", note + digest + "  ../a\n", `line 2 of its SHA256SUMS names "../a", which has the element ".."; a path goes straight down from the target`},
		{"absolute", note + digest + "  /etc/passwd\n", `line 2 of its SHA256SUMS names "/etc/passwd", which is absolute; a path is relative to the target`},
		{"carriage return", digest + "  tarepage.txt\r\n", `line 1 of its SHA256SUMS names "tarepage.txt\r", which has the control character U+000D`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got, err := parseList(tt.text); err == nil || err.Error() != tt.want || got != nil {
				t.Errorf("parseList = %v, %v\nwant %s", got, err, tt.want)
			}
		})
	}
}

func FuzzParseList(f *testing.F) {
	f.Add(strings.Repeat("0a", 32) + "  tarepage.txt\n")
	f.Add(strings.Repeat("0a", 32) + "  tarepage.txt\n" + strings.Repeat("0a", 32) + "  ../x\n")
	f.Fuzz(func(t *testing.T, text string) {
		listed, err := parseList(text)
		if err != nil {
			return
		}
		for path := range listed {
			if strings.HasPrefix(path, "/") || slices.Contains(strings.Split(path, "/"), "..") || strings.Contains(path, `\`) {
				t.Errorf("accepted %q", path)
			}
		}
	})
}
