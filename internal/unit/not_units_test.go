package unit

import (
	"maps"
	"path"
	"strings"
	"testing"
	"testing/fstest"
)

// TestNotUnits holds that each row of notUnits knows its own example, that a file of such a
// name is named and stops nothing, and that a hidden file is not a unit either.
func TestNotUnits(t *testing.T) {
	root := fstest.MapFS{"content/units/sb-1.md": {Data: []byte("x")}, "content/units/SB-2.MD": {Data: []byte("x")},
		"content/units/.hidden.md": {}, "content/units/sold/sb-3.md": {}}
	for i := range notUnits {
		row := &notUnits[i]
		if got := passedOver(row.example); got != row {
			t.Errorf("%q is %v, want %q", row.example, got, row.what)
		}
		root["content/units/"+row.example] = &fstest.MapFile{}
	}
	names, problems, err := markdownFiles(root, "content/units")
	if err != nil || strings.Join(names, " ") != "content/units/SB-2.MD content/units/sb-1.md" {
		t.Errorf("%v are read (%v)", names, err)
	}
	if len(problems) != len(notUnits) {
		t.Errorf("%d files are named, want %d", len(problems), len(notUnits))
	}
	for _, p := range problems {
		if p.Rule != FileIgnored || p.Remedy == "" {
			t.Errorf("%s: rule %s, remedy %q", p.At.File, p.Rule, p.Remedy)
		}
	}
}

// TestStrays holds that a trailer's file is named wherever it is put by mistake, with where it should
// go, and that other files are not: the text of a site's own folder has no stock number.
func TestStrays(t *testing.T) {
	unit := func(stock string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte("---\nstock: " + stock + "\n---\n")}
	}
	root := fstest.MapFS{
		"content/yard.md": {Data: []byte("---\nname: A yard\nphone: 555-0101\n---\n")}, "content/columns.txt": {}, "content/from-sheets.csv": {},
		"content/units/a-1.md": unit("A-1"),
		// Not trailers.
		"README.md": {Data: []byte("# stock: none\n")}, "content/media/a-1.jpg": {}, "content/models/box.md": {Data: []byte("---\nkind: utility\n---\n")},
		"content/logo.png": {}, "docs/a-2.md": unit("A-2"),
	}
	strayed := map[string]string{
		"a-3.md":                    "move it to content/units/a-3.md",
		"content/a-4.md":            "move it to content/units/a-4.md",
		"content/A-5.md.txt":        "move it to content/units/A-5.md",
		"content/models/a-6.md":     "move it to content/units/a-6.md; if it is a model, delete the line stock:",
		"content/media/a-7.md":      "move the file to content/units/",
		"content/units/sold/a-8":    "move the file to content/units/",
		"content/Units/a-9.md":      "move the file to content/units/",
		"units/deep/er/a-10.md":     "move the file to content/units/",
		"content/drafts/a-11.txt":   "move the file to content/units/",
		"a-12":                      "move it to content/units/a-12.md",
		"content/units/a-13.md.txt": "take the last ending off, so that the name ends in .md",
	}
	want := map[string]string{}
	for file := range strayed {
		stock, _, _ := strings.Cut(strings.ToUpper(path.Base(file)), ".")
		root[file] = unit(stock)
		want[stock] = file
	}
	stock, problems, err := Read(root)
	if err != nil || len(stock.Units) != 1 {
		t.Fatal(err)
	}
	for _, p := range problems {
		remedy, known := strayed[p.At.File]
		if p.Rule != FileIgnored || !known || !strings.HasPrefix(p.Remedy, remedy) {
			t.Errorf("%s: %s; %s [%s]; want %s", p.At.File, p.Message, p.Remedy, p.Rule, remedy)
		}
		delete(strayed, p.At.File)
	}
	for file := range strayed {
		t.Errorf("nobody names %s", file)
	}
	if !maps.Equal(stock.Strays, want) {
		t.Errorf("%v", stock.Strays)
	}
	digest, ok := stock.Digest()
	if again, err := DigestOf(root, nil); !ok || err != nil || again != digest {
		t.Errorf("the digests of what was read differ: %v %v", ok, err)
	}
	root["content/drafts/a-13.md"], root["content/drafts/a-14.md"] = unit("A-13"), unit("A-14")
	if again, _ := DigestOf(root, nil); again == digest {
		t.Error("a second trailer in a folder that is not read changes nothing")
	}
	_, problems, _ = Read(root)
	for _, p := range problems {
		if p.At.File == "content/drafts" && strings.Contains(p.Message, "the files of 3 trailers: a-11.txt, a-13.md, a-14.md") {
			return
		}
	}
	t.Errorf("%v", problems)
}
