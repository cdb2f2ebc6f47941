package report

import (
	"fmt"
	"io"
	"runtime/debug"

	"tarepage/internal/tables"
)

// Version prints which program this is, and the tables that it computes with. The edition of a
// table is the beginning of its file's SHA-256, so two programs with the same edition use the
// same numbers.
func Version(w io.Writer) {
	if info, ok := debug.ReadBuildInfo(); ok {
		revision, changed := "", ""
		for _, s := range info.Settings {
			switch {
			case s.Key == "vcs.revision":
				revision = ", revision " + s.Value[:min(len(s.Value), 12)]
			case s.Key == "vcs.modified" && s.Value == "true":
				changed = ", with changes that are not committed"
			}
		}
		number := info.Main.Version
		if number == "(devel)" {
			// Go knows the version only in a clone with Git, or if it fetched the module itself.
			number = "version unknown: built outside a Git checkout"
		}
		fmt.Fprintf(w, "%s %s (%s%s%s)\n", info.Main.Path, number, info.GoVersion, revision, changed)
	} else {
		fmt.Fprintln(w, "version unknown")
	}
	fmt.Fprintln(w, "\ntables, with the edition of each:")
	for _, t := range tables.All() {
		fmt.Fprintf(w, "  %s  %-17s %3d rows, %2d sources: %s\n", t.Edition, t.Name, t.Rows, len(t.Sources), t.Title)
	}
}
