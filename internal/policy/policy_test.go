package policy

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"golang.org/x/tools/go/packages"
)

const module = "tarepage"

const root = "../.."

// project loads every package once, without its tests, for all the rules.
var project = sync.OnceValues(func() ([]*packages.Package, error) {
	all, err := packages.Load(&packages.Config{
		Mode: packages.NeedName | packages.NeedFiles | packages.NeedImports | packages.NeedSyntax | packages.NeedTypes | packages.NeedTypesInfo | packages.NeedExportFile,
		Dir:  root,
	}, "./...")
	if err != nil {
		return nil, err
	}
	for _, p := range all {
		if len(p.Errors) > 0 {
			return nil, fmt.Errorf("%s does not build: %v", p.PkgPath, p.Errors[0])
		}
	}
	if len(all) < 8 {
		return nil, fmt.Errorf("only %d packages were found", len(all))
	}
	return all, nil
})

func load(t *testing.T) []*packages.Package {
	t.Helper()
	all, err := project()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// short is a package's path without the module and internal/: measure, cmd/build.
func short(path string) string {
	return strings.TrimPrefix(strings.TrimPrefix(path, module+"/"), "internal/")
}

// place is a position with the file's path below the top folder of the project.
func place(p *packages.Package, n interface{ Pos() (pos tokenPos) }) string {
	at := p.Fset.Position(n.Pos())
	abs, err := filepath.Abs(root)
	if err == nil {
		if rel, err := filepath.Rel(abs, at.Filename); err == nil {
			return fmt.Sprintf("%s:%d:%d", filepath.ToSlash(rel), at.Line, at.Column)
		}
	}
	return at.String()
}

// sources lists the files below cmd/, internal/ and themes/.
func sources(t *testing.T, each func(path string, data []byte)) {
	t.Helper()
	for _, top := range []string{"cmd", "internal", "themes"} {
		err := filepath.WalkDir(filepath.Join(root, top), func(path string, d os.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			rel, err := filepath.Rel(root, path)
			each(filepath.ToSlash(rel), data)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}
