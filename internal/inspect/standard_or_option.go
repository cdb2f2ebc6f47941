package inspect

import (
	"strings"
	"unicode"

	"tarepage/internal/captions"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

var standardOrOption = &Rule{
	Name: "standard-or-option", Severity: Caution,
	Title:  "nothing that the notes or the recording call standard is listed as an option",
	Why:    "A customer who counts on it finds it missing or on the bill. Ask before you buy.",
	Source: Practice,
	Remedy: "correct the note, or move the item from options to standard",
	check: func(c *Case, f *Findings) {
		if len(c.Options) == 0 {
			return
		}
		told := map[unit.Pos]int{} // where in the list the notes' findings are
		for _, p := range c.Passages() {
			for from := 0; from < len(p.Text); {
				to := from + sentenceEnd(p.Text[from:])
				sentence := p.Text[from:to]
				if claimsStandard(sentence) && !walkaround.OfAnother(sentence) {
					for _, o := range c.Options {
						if at := names(sentence, o); at >= 0 {
							told[o.Pos] = len(f.list)
							f.add(p.Pos(from+at), "the notes call %q standard; the file lists it as an option", o.Value).
								also(o.Pos, "the option is here")
						}
					}
				}
				if from = to; from < len(p.Text) {
					from += len(". ")
				}
			}
		}
		for _, m := range c.Media {
			if m.Path == "recording.captions" && m.Fault == "" {
				calledStandard(m, c.Options, told, f)
			}
		}
	},
}

// calledStandard compares what the captions call standard with the options. Each option is
// found once, and what the notes say too is one finding with both places.
func calledStandard(m unit.Media, options []unit.Text, told map[unit.Pos]int, f *Findings) {
	track, _, err := captions.Read(m.Name, m.Data)
	if err != nil {
		return // captions-unreadable says so
	}
	once := map[unit.Pos]bool{}
	for _, said := range walkaround.Sayings(track) {
		if said.Another || !claimsStandard(said.Text) {
			continue
		}
		for _, o := range options {
			if once[o.Pos] || names(said.Text, o) < 0 {
				continue
			}
			once[o.Pos] = true
			at := unit.Pos{File: "content/" + m.Name, Line: int32(line(track, said.Start)), Column: 1}
			clock := measure.Clock(int(said.Start))
			if i, there := told[o.Pos]; there {
				f.list[i].also(at, "said at "+clock)
				continue
			}
			f.add(at, "the recording at %s calls %q standard; the file lists it as an option", clock, o.Value).
				also(o.Pos, "the option is here").
				fix("say in the notes that it is an option, or move the item from options to standard")
		}
	}
}

// free are the ways to say that something costs nothing more.
var free = strings.NewReplacer(" no extra charge ", " included ", " at no charge ", " included ")

// claimsStandard reports a sentence that says of something that it comes with the
// trailer, and nothing of options: what is which is then not for us to tell.
func claimsStandard(sentence string) bool {
	if !mentions(strings.ToLower(sentence), "standard", "come", "included", "charge") {
		return false // most sentences, which have nothing of what is asked below
	}
	words := " " + strings.Join(wordsOf(sentence), " ") + " "
	words = free.Replace(words)
	has := func(list ...string) bool {
		for _, w := range list {
			if strings.Contains(words, " "+w+" ") {
				return true
			}
		}
		return false
	}
	return has("standard", "comes with", "come with", "included") &&
		!has("not", "no", "isn't", "aren't", "without", "option", "options", "optional", "extra", "upgrade", "upgrades", "can be had",
			"can get", "can order", "could", "would", "order", "ordered", "available", "instead", "than", "add", "adds", "if", "unless")
}

// names is where a sentence names an item: all its words that mean something, anywhere
// in it; the place of the first, or -1.
func names(sentence string, item unit.Text) int {
	said := map[string]bool{}
	for _, w := range wordsOf(sentence) {
		said[singular(w)] = true
	}
	first, any := -1, false
	for _, w := range wordsOf(item.Value) {
		switch w {
		case "a", "an", "and", "the", "with", "of", "for", "in", "on", "to":
			continue
		}
		if !said[singular(w)] {
			return -1
		}
		if any = true; first < 0 {
			first = strings.Index(strings.ToLower(sentence), singular(w))
		}
	}
	if !any {
		return -1
	}
	return max(first, 0)
}

func wordsOf(s string) []string {
	return strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\'' && r != '/'
	})
}

// singular drops a plural's s, which is enough to compare two words.
func singular(w string) string {
	if len(w) > 3 && !strings.HasSuffix(w, "ss") {
		return strings.TrimSuffix(w, "s")
	}
	return w
}
