package report

import (
	"fmt"
	"io"
)

// SetUp prints the files of a first yard and what to do next.
func SetUp(w io.Writer, files []string, program, from string) {
	for _, f := range files {
		fmt.Fprintf(w, "wrote %s\n", f)
	}
	fmt.Fprintf(w, "see it while you write: %s\n", command(program, "showroom", from))
	fmt.Fprintf(w, "check it: %s\n", command(program, "inspect", from))
}

// EditorHelp prints where the editor files are and the line by which an editor finds them.
func EditorHelp(w io.Writer, files []string) {
	for _, f := range files {
		fmt.Fprintf(w, "wrote %s\n", f)
	}
	fmt.Fprintln(w, "a first line in the front matter leads an editor there, by the path from the file:")
	fmt.Fprintln(w, "  # yaml-language-server: $schema=../../editor-help/unit.schema.json")
}
