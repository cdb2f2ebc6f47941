package policy

import (
	"slices"
	"strings"
	"testing"
)

// The import table: each room of the house and the rooms it may enter. The road runs one
// way: read (unit) -> work (compute) -> check (inspect) -> render -> publish.
//
// DO NOT EDIT THIS TABLE TO MAKE A BUILD PASS. A line may change only where the design
// changes, and then DEVELOPERS.md changes with it. A room that is not in the table may
// not be in the house; a room of the table may be missing.
const importTable = `
measure:
kinds:          measure
tables:         measure
unit:           measure media parallel orderedjson kinds
compute:        measure tables unit parallel kinds
inspect:        measure tables unit compute captions walkaround crosscheck media parallel
elevation:      measure tables unit compute kinds
report:         measure unit compute inspect intake orderedjson
feed:           unit
stockfile:      measure unit compute orderedjson
render:         measure tables unit compute inspect elevation captions photo linkcard feed stockfile parallel kinds
publish:        parallel
showroom:       inspect
captions:
walkaround:     measure captions kinds
crosscheck:        measure unit walkaround
intake:         measure unit captions walkaround crosscheck kinds
media:
orderedjson:
parallel:
photo:          media parallel
linkcard:       elevation photo
testyard:
starter:
themes/default:
cmd/build:      measure tables unit compute inspect elevation report render stockfile publish showroom captions intake photo linkcard starter themes/default
policy:
policy/mutation:
`

// What of Go's own library a room may not use. What works figures or judges them sees no
// file, no clock, no network and no page, so that the same unit gives the same figures
// everywhere.
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
intake:     os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
captions:   os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
walkaround: os io/fs time net net/* html/template text/template math/rand math/rand/v2 os/*
report:     os embed net net/* html/template text/template math/rand math/rand/v2 os/*
feed:       os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
stockfile:  os io/fs embed time net net/* html/template text/template math/rand math/rand/v2 os/*
render:     embed time net net/* text/template math/rand math/rand/v2 os/*
publish:    net net/* html/template text/template math/rand math/rand/v2
`

// inspect opens the archives beside its rules, which are embedded: io/fs and embed are
// open to it. The spelling of walkaround's trade words is embedded. unit reads through the fs.FS it is given, and reads dates with time.

// linkcard draws what render gives it in finished texts; it enters elevation for a sketch's shape
// and photo for a worked photo and the place where cards are kept, and touches no file itself.

func table(t *testing.T, text string) map[string][]string {
	out := map[string][]string{}
	for line := range strings.Lines(text) {
		name, list, ok := strings.Cut(strings.TrimSpace(line), ":")
		if !ok {
			continue
		}
		if _, twice := out[name]; twice {
			t.Fatalf("%s stands twice in the table", name)
		}
		out[name] = strings.Fields(list)
	}
	return out
}

func TestImportTable(t *testing.T) {
	allowed, closed := table(t, importTable), table(t, closedTable)
	for name := range closed {
		if _, ok := allowed[name]; !ok {
			t.Errorf("%s is closed to some of the library and not in the import table", name)
		}
	}
	for _, p := range load(t) {
		name := short(p.PkgPath)
		mayEnter, ok := allowed[name]
		if !ok {
			t.Errorf("package %s is not in the import table; the design says what belongs there", p.PkgPath)
			continue
		}
		for path := range p.Imports {
			if strings.HasPrefix(path, module+"/") {
				if !slices.Contains(mayEnter, short(path)) {
					t.Errorf("%s imports %s; it may import only: %s", name, short(path), strings.Join(mayEnter, ", "))
				}
				continue
			}
			for _, c := range closed[name] {
				if path == c || strings.HasSuffix(c, "/*") && strings.HasPrefix(path, strings.TrimSuffix(c, "*")) {
					t.Errorf("%s imports %s, which is closed to it", name, path)
				}
			}
		}
	}
}

// The table itself runs one way: nobody may enter, by any road, a room that may enter him.
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
	for name, rooms := range allowed {
		if reaches(name, name, map[string]bool{}) {
			t.Errorf("%s leads back to itself", name)
		}
		for _, r := range rooms {
			if _, ok := allowed[r]; !ok {
				t.Errorf("%s may enter %s, which has no line of its own", name, r)
			}
		}
	}
}
