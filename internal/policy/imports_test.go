package policy

import (
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The import table: each package and the packages it may import. Data flows one way: read
// (unit), compute, inspect, render, publish.
//
// DO NOT EDIT THIS TABLE TO MAKE A BUILD PASS. A line may change only where the design
// changes, and then DEVELOPERS.md changes with it. Every package needs a line. A line for a package
// that is gone fails, and so does a permission that no package uses.
const importTable = `
measure:
kinds:          measure
tables:         measure
unit:           measure media parallel filestamp orderedjson kinds glossary
compute:        measure tables unit parallel kinds
phrases:        glossary
glossary:
oracle:         measure compute phrases
inspect:        measure tables unit kinds compute captions walkaround crosscheck media parallel
elevation:      measure tables unit compute kinds
report:         measure tables unit compute inspect intake orderedjson stockfile spreadsheet
amend:
spreadsheet:    unit kinds amend stockfile files
walkback:       measure unit kinds amend
walkpage:       unit compute inspect walkback amend files phrases
feed:           unit
stockfile:      measure unit compute orderedjson
sitepath:       unit
schemaorg:      compute sitepath unit kinds
pagedata:       measure tables unit compute elevation kinds phrases
render:         measure tables unit compute inspect elevation captions photo linkcard feed stockfile parallel kinds sitepath schemaorg pagedata phrases
publish:        parallel seal filestamp
showroom:       inspect
files:
filestamp:
site:           unit compute inspect media packed pagedata parallel photo render stockfile publish files themes/default
captions:
walkaround:     measure captions kinds
crosscheck:        measure tables unit walkaround
intake:         measure unit captions walkaround crosscheck spanishtalk kinds
spanishtalk:    captions
media:
orderedjson:
packed:
parallel:
photo:          media parallel seal
seal:
linkcard:       elevation photo
testyard:
testdisk:
fixedseed:
thorough:
recording:      captions files
starter:        unit amend files
themes/default:
cmd/build:      unit compute inspect files report site showroom recording intake starter spreadsheet walkpage
yardphotos:     compute kinds measure tables unit
policy:
policy/mutation:
policy/sbom:
`

// The parts of Go's standard library that a package may not use. Code that computes figures
// or judges them knows no files, no clock, no network and no pages, so the same unit gives the
// same figures everywhere.
const closedTable = `
kinds:      os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
measure:    os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
tables:     os io/fs time net net/* html/template text/template math/rand math/rand/v2 os/*
compute:    os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
inspect:    os time net net/* html/template text/template math/rand math/rand/v2 os/*
elevation:  os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
media:      os embed time net net/* html/template text/template math/rand math/rand/v2 os/*
photo:      net net/* html/template text/template math/rand math/rand/v2 os/*
linkcard:   os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
unit:       os embed net net/* html/template text/template math/rand math/rand/v2 os/*
crosscheck:    os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
walkback:   os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
intake:     os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
captions:   os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
walkaround: os io/fs time net net/* html/template text/template math/rand math/rand/v2 os/*
report:     os embed net net/* html/template text/template math/rand math/rand/v2 os/*
feed:       os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
stockfile:  os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
sitepath:   os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
schemaorg:  os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
phrases:    os io/fs time net net/* html/template text/template math/rand math/rand/v2 os/*
pagedata:   os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
render:     embed time net net/* text/template math/rand math/rand/v2 os/*
publish:    net net/* html/template text/template math/rand math/rand/v2
`

// Exceptions: inspect embeds the archives of its rules, and walkaround its spelling of trade
// words, so they may use io/fs or embed. unit reads through the fs.FS it is given, and parses
// dates with time. linkcard draws finished texts; it imports elevation for the shape of a sketch,
// and photo for processed photos and the folder in which cards are kept.

func table(t *testing.T, text string) map[string][]string {
	out := map[string][]string{}
	for line := range strings.Lines(text) {
		name, list, ok := strings.Cut(strings.TrimSpace(line), ":")
		if !ok {
			continue
		}
		if _, twice := out[name]; twice {
			t.Fatalf("%s is in the table twice", name)
		}
		out[name] = strings.Fields(list)
	}
	return out
}

func TestImportTable(t *testing.T) {
	allowed, closed := table(t, importTable), table(t, closedTable)
	for name := range closed {
		if _, ok := allowed[name]; !ok {
			t.Errorf("%s is in closedTable and not in importTable", name)
		}
	}
	gone := maps.Clone(allowed)
	for _, p := range load(t) {
		name := short(p.PkgPath)
		delete(gone, name)
		mayImport, ok := allowed[name]
		for _, other := range mayImport {
			if p.Imports[module+"/internal/"+other] == nil && p.Imports[module+"/"+other] == nil {
				t.Errorf("%s does not import %s; take it off its line in importTable", name, other)
			}
		}
		if !ok {
			t.Errorf("package %s is not in the import table; add a line to importTable", p.PkgPath)
			continue
		}
		for path := range p.Imports {
			if strings.HasPrefix(path, module+"/") {
				if !slices.Contains(mayImport, short(path)) {
					t.Errorf("%s imports %s; it may import only: %s", name, short(path), strings.Join(mayImport, ", "))
				}
				continue
			}
			for _, c := range closed[name] {
				if path == c || strings.HasSuffix(c, "/*") && strings.HasPrefix(path, strings.TrimSuffix(c, "*")) {
					t.Errorf("%s imports %s, which closedTable forbids", name, path)
				}
			}
		}
	}
	for name := range gone {
		t.Errorf("importTable has a line for %s, which is gone; take it off", name)
	}
}

// The table has no cycle: no package may import another that may import it, directly or not.
func TestImportTableRunsOneWay(t *testing.T) {
	allowed := table(t, importTable)
	var reaches func(from, to string, seen map[string]bool) bool
	reaches = func(from, to string, seen map[string]bool) bool {
		for _, next := range allowed[from] {
			if next == to || !seen[next] && func() bool { seen[next] = true; return reaches(next, to, seen) }() {
				return true
			}
		}
		return false
	}
	for name, list := range allowed {
		if reaches(name, name, map[string]bool{}) {
			t.Errorf("%s leads back to itself", name)
		}
		for _, r := range list {
			if _, ok := allowed[r]; !ok {
				t.Errorf("%s may import %s, which has no line in the table", name, r)
			}
		}
	}
}

// TestPropertiesUseTheSameExamples: a folder whose tests import rapid imports fixedseed too.
func TestPropertiesUseTheSameExamples(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(root, "internal", "*", "*_test.go"))
	if err != nil {
		t.Fatal(err)
	}
	imports := map[string]map[string]bool{}
	for _, name := range files {
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		folder := filepath.Base(filepath.Dir(name))
		if imports[folder] == nil {
			imports[folder] = map[string]bool{}
		}
		for _, i := range f.Imports {
			imports[folder][strings.Trim(i.Path.Value, `"`)] = true
		}
	}
	drawn := 0
	for folder, has := range imports {
		if !has["pgregory.net/rapid"] {
			continue
		}
		drawn++
		if !has[module+"/internal/fixedseed"] {
			t.Errorf("%s draws its examples at random: import _ %q in a test", folder, module+"/internal/fixedseed")
		}
	}
	if drawn < 5 {
		t.Errorf("found %d folders with property tests", drawn)
	}
}
