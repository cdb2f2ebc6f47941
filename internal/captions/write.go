package captions

import (
	"fmt"
	"math"
	"regexp"
	"strings"
)

// WebVTT writes the captions as a WebVTT file that any player reads (WebVTT 4.1): times
// with three decimals, cues in order, no blank line inside one, marks escaped. The times of
// single words are left out, and so are the speakers' names: no player shows them, so whoever
// publishes the file does not know that they are in it.
func (c Track) WebVTT() string {
	var b strings.Builder
	b.WriteString("WEBVTT\n")
	for _, cue := range c.Cues {
		writeCue(&b, cue.Start, cue.End, unnamed(cue.Text))
	}
	return b.String()
}

var (
	// voiceLeftOpen is a mark of a speaker that does not close on its line.
	voiceLeftOpen = regexp.MustCompile(`(?i)</?v(?:[\s.][^<>\n]*)?(?:\n|$)`)
	// turn is a change of the speaker with a name, as captions for television write it: >> BOB:
	turn = regexp.MustCompile(`(?m)^[ \t]*(?:>>+|[-–—])[ \t]*\[?[\p{L}][\p{L}\p{M} .,'’-]{0,40}\]?:`)
)

// unnamed is a text without the names of who speaks, in the forms in which no player marks them.
func unnamed(text string) string {
	return turn.ReplaceAllString(voiceLeftOpen.ReplaceAllString(text, "\n"), ">>")
}

// A Chapter is a part of a recording.
type Chapter struct {
	Start, End float64 // seconds
	Title      string
}

// Chapters writes chapters as a WebVTT file: plain titles, one after the other (WebVTT
// 1.1 and 4.1, chapter titles). Chapters without a length are left out.
func Chapters(list []Chapter) string {
	var b strings.Builder
	b.WriteString("WEBVTT\n")
	for _, c := range list {
		writeCue(&b, c.Start, c.End, c.Title)
	}
	return b.String()
}

var escapeVTT = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

func writeCue(b *strings.Builder, start, end float64, text string) {
	from, to := milliseconds(start), milliseconds(end)
	var lines []string
	for line := range strings.Lines(text) {
		if line = strings.Join(strings.Fields(line), " "); line != "" {
			lines = append(lines, escapeVTT.Replace(line))
		}
	}
	if to <= from || len(lines) == 0 {
		return
	}
	fmt.Fprintf(b, "\n%s --> %s\n", stamp(from), stamp(to))
	b.WriteString(strings.Join(lines, "\n"))
	b.WriteByte('\n')
}

func milliseconds(s float64) int { return int(math.Round(s * 1000)) }

func stamp(ms int) string {
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3_600_000, ms/60_000%60, ms/1000%60, ms%1000)
}
