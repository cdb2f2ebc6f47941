package report

import (
	"fmt"
	"io"
	"strings"

	"tarepage/internal/intake"
	"tarepage/internal/measure"
)

// Heard prints what was taken from a recording, what is doubtful, and what a listing needs and
// nobody said. With quiet it prints only the doubts.
func Heard(w io.Writer, t *intake.Talk, d intake.Sheet, quiet bool) error {
	var b strings.Builder
	if !quiet {
		summary(&b, t)
		fmt.Fprintf(&b, "\ntaken, and not yet confirmed:\n")
		rows(&b, t.Taken)
		if len(t.Taken) == 0 {
			b.WriteString("  nothing\n")
		}
	}
	doubts(&b, t, "; the first is taken")
	if d.LeftOut > 0 {
		fmt.Fprintf(&b, "  the notes from %s on are left out: a unit file stays below 1 MB\n", measure.Clock(d.LeftOut))
	}
	if !quiet && len(d.Missing) > 0 {
		fmt.Fprintf(&b, "\nmissing, and left empty in the file:\n")
		for _, k := range d.Missing {
			fmt.Fprintf(&b, "  %-18s %s\n", k.Path, k.Doc)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func summary(b *strings.Builder, t *intake.Talk) {
	fmt.Fprintf(b, "%s: %s, %s, %s long; %s, %s\n", t.Name, t.Format, count(t.Cues, "cue"), measure.Clock(t.Length),
		count(len(t.Taken), "value"), count(len(t.Notes), "timed note"))
}

func rows(b *strings.Builder, taken []intake.Taken) {
	key, value := 0, 0
	for _, v := range taken {
		key, value = max(key, len(v.Path)), max(value, len(v.Value))
	}
	for _, v := range taken {
		fmt.Fprintf(b, "  %-*s  %-*s  %s %q", key, v.Path, value, v.Value, measure.Clock(v.At), v.Quote)
		if len(v.Remarks) > 0 {
			fmt.Fprintf(b, "; %s", strings.Join(v.Remarks, "; "))
		}
		b.WriteByte('\n')
	}
}

// doubts prints what a person has to decide. After two figures for one key it says which of them
// was taken.
func doubts(b *strings.Builder, t *intake.Talk, became string) {
	var lines []string
	for _, v := range t.Taken {
		for _, o := range v.Others {
			lines = append(lines, fmt.Sprintf("%s: %s says %s (%q), %s says %s (%q)%s",
				v.Path, measure.Clock(v.At), strings.TrimSuffix(v.Value, " (said "+measure.Clock(v.At)+")"), v.Quote, measure.Clock(o.At), o.Value, o.Quote, became))
		}
	}
	for _, c := range t.Unclear {
		lines = append(lines, fmt.Sprintf("%s %q: %s", measure.Clock(int(c.Start)), c.Quote, c.Doubt))
	}
	for _, d := range t.Doubts {
		lines = append(lines, fmt.Sprintf("%s, %s", t.Name, d))
	}
	if len(lines) == 0 {
		return
	}
	b.WriteString("\ndoubted:\n")
	for i, line := range lines {
		if i == 40 {
			fmt.Fprintf(b, "  and %d more\n", len(lines)-i)
			return
		}
		fmt.Fprintf(b, "  %s\n", line)
	}
}

// Written prints where the unit file is and what to do next.
func Written(w io.Writer, file, captions, program, from string) {
	fmt.Fprintf(w, "\nwrote %s\n", file)
	if captions != "" {
		fmt.Fprintf(w, "put the captions where it looks for them: %s\n", captions)
	}
	next := command(program, "inspect", from)
	fmt.Fprintf(w, "what to confirm: %s\n", next)
	fmt.Fprintf(w, "confirm it at the trailer, with a phone: %s\n", command(program, "showroom -phone", from))
}

// Compared prints how a recording compares with a unit file. With quiet it prints only what differs.
func Compared(w io.Writer, t *intake.Talk, c intake.Comparison, quiet bool) error {
	var b strings.Builder
	if !quiet {
		summary(&b, t)
	}
	if len(c.Differs) > 0 {
		b.WriteString("\ndiffers:\n")
		for _, h := range c.Differs {
			fmt.Fprintf(&b, "  %s: %s is %s, at %s it was said to be %s: %q\n", h.File.Pos, h.File.Path, h.File.Text,
				measure.Clock(int(h.Said.Start)), h.Said.Written(false), h.Said.Quote)
		}
	}
	if quiet {
		_, err := io.WriteString(w, b.String())
		return err
	}
	if len(c.Agrees) > 0 {
		b.WriteString("\nagrees:\n")
		for _, h := range c.Agrees {
			fmt.Fprintf(&b, "  %-18s %-16s %s %q\n", h.File.Path, h.File.Text, measure.Clock(int(h.Said.Start)), h.Said.Quote)
		}
	}
	if len(c.Unstated) > 0 {
		b.WriteString("\nsaid, and not in the file:\n")
		rows(&b, c.Unstated)
	}
	doubts(&b, t, "")
	if len(c.Missing) > 0 {
		b.WriteString("\nneither said nor in the file:\n")
		for _, m := range c.Missing {
			fmt.Fprintf(&b, "  %-18s %s\n", m.Path, m.Doc)
		}
	}
	b.WriteString("\nnothing written\n")
	_, err := io.WriteString(w, b.String())
	return err
}
