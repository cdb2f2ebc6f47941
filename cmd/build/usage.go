package main

import (
	"fmt"
	"strings"
)

// usage is what help prints. It is made from the verbs and the flags.
func usage() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s makes the yard's site out of content/.\n\nThe verb follows the program name; flags may come before it and after it:\n\n", name())
	for _, v := range verbs {
		entry(&b, strings.TrimSpace(v.name+" "+v.argument), v.help)
	}
	b.WriteString("\n")
	for _, f := range flags {
		entry(&b, f.written(), strings.ReplaceAll(f.help, "`", ""))
	}
	b.WriteString("\nExit status: 0 nothing stops, 1 stops found, 2 could not run.\n")
	return b.String()
}

// written is a flag as it is typed.
func (f *flagDeclaration) written() string { return strings.TrimSpace("-" + f.name + " " + f.value) }

// The columns of the help: where its texts begin, and where they end.
const (
	textColumn = 19
	lastColumn = 80
)

// entry writes a name and its text, in as many lines as it takes.
func entry(b *strings.Builder, name, text string) {
	line := fmt.Sprintf("  %-*s", textColumn-2, name)
	for word := range strings.FieldsSeq(text) {
		if len(line)+len(word)+1 > lastColumn {
			b.WriteString(strings.TrimRight(line, " ") + "\n")
			line = strings.Repeat(" ", textColumn)
		}
		if !strings.HasSuffix(line, " ") {
			line += " "
		}
		line += word
	}
	b.WriteString(line + "\n")
}
