package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/unit"
	"tarepage/internal/walkaround"
)

// A Sheet is the first unit file of a recording.
type Sheet struct {
	// Text is the file.
	Text []byte
	// Missing are the keys that a listing needs and nobody said.
	Missing []unit.KeyDoc
	// LeftOut is the time from which on notes are left out because the file would become
	// larger than a unit file may be; 0 if none is.
	LeftOut int
}

// What is written stays below what the reader takes: the file whole, and its words.
const (
	room = unit.MostBytes - 1<<10
	talk = unit.MostWords - 1<<10
)

// Sheet writes the unit file. The stock number is the yard's; captions is the path of the
// captions file below content/ as the unit names it.
func (t *Talk) Sheet(stock, captions string) Sheet {
	w := &writer{taken: map[string]Taken{}, keys: unit.Keys()}
	for _, v := range t.Taken {
		w.taken[v.Path] = v
	}
	w.fixed("stock", stock, "")
	w.fixed("recording.length", measure.Clock(t.Length), "the end of the last cue; the video may run longer")
	w.fixed("recording.captions", captions, "")
	w.unsaid(t)
	w.kind = w.taken["kind"].Value
	w.length = w.lengthKey()
	if title := w.title(); title != "" {
		w.fixed("title", title, "made from the values below")
	}

	w.line(0, "---")
	for i, k := range w.keys {
		if k.Kind == "section" {
			if w.holds(i) {
				w.line(depth(k.Path), name(k.Path)+":")
			}
			continue
		}
		switch {
		case k.Path == "tie-downs":
			w.ties(t.Taken)
		case k.Path == "standard", k.Path == "options":
			w.items(k, t.Items)
		case inList(w.keys, k.Path):
			// What an entry of a list holds: a list that is empty needs none of it.
		default:
			w.key(k)
		}
	}
	w.unclear(t)
	w.omitted(t)
	w.line(0, "---")
	d := Sheet{Missing: w.missing}
	front := w.b.Len()
	heading := ""
	for _, n := range t.Notes {
		text := "\n"
		if n.Heading != heading {
			text += "## " + n.Heading + "\n\n"
		}
		text += measure.Clock(int(n.Start)) + " " + markdown(n.Text) + "\n"
		if w.b.Len()+len(text) > room || w.b.Len()-front+len(text) > talk {
			d.LeftOut = max(int(n.Start), 1)
			break
		}
		heading = n.Heading
		w.b.WriteString(text)
	}
	d.Text = []byte(w.b.String())
	return d
}

// unsaid enters what nobody says in a recording.
func (w *writer) unsaid(t *Talk) {
	if len(t.Notes) > 0 {
		w.fixed("recording.notes", "heard", "delete below what is not for customers, then write read")
	}
	if w.taken["availability"].Path == "" {
		// Somebody walked around it with a phone.
		w.fixed("availability", "on the yard", "where it was recorded; or on order, spoken for, sold")
	}
}

// A writer writes front matter.
type writer struct {
	b       strings.Builder
	keys    []unit.KeyDoc
	taken   map[string]Taken
	comment map[string]string // of fixed values
	kind    string            // the kind of trailer that was said, if one was
	length  string            // the length to ask for where neither kind nor length was said
	missing []unit.KeyDoc
}

// fixed enters a value that was not said.
func (w *writer) fixed(path, value, comment string) {
	if w.comment == nil {
		w.comment = map[string]string{}
	}
	w.taken[path] = Taken{Path: path, Value: value}
	w.comment[path] = comment
}

// lengthKey is the length to ask for where nobody said what kind of trailer it is, which
// would tell. Most trailers have a deck.
func (w *writer) lengthKey() string {
	if w.kind != "" {
		return ""
	}
	for _, k := range kinds.All() {
		if k.Space != kinds.None && w.taken[string(k.Space)+".length"].Path != "" {
			return ""
		}
	}
	return "deck.length"
}

// holds reports whether anything is written in the section that keys[i] is.
func (w *writer) holds(i int) bool {
	section := w.keys[i].Path + "."
	for _, k := range w.keys[i+1:] {
		if !strings.HasPrefix(k.Path, section) {
			return false
		}
		if w.writes(k) {
			return true
		}
	}
	return false
}

func (w *writer) writes(k unit.KeyDoc) bool {
	return k.Kind != "section" && (w.taken[k.Path].Path != "" || k.NeededFor(w.kind) || k.Path == w.length)
}

func (w *writer) line(indent int, text string) {
	w.b.WriteString(strings.Repeat("  ", indent))
	w.b.WriteString(text)
	w.b.WriteByte('\n')
}

// key writes one key with its value, or empty if a listing needs it.
func (w *writer) key(k unit.KeyDoc) {
	if !w.writes(k) {
		return
	}
	indent := depth(k.Path)
	v := w.taken[k.Path]
	if v.Path == "" {
		w.missing = append(w.missing, k)
		doc := k.Doc
		if len(k.Choices) > 0 {
			doc += ": " + strings.Join(k.Choices, ", ")
		} else if k.Example != "" {
			doc += ", as in " + k.Example
		}
		w.line(indent, name(k.Path)+":  # "+doc)
		return
	}
	text := name(k.Path) + ": " + scalar(v.Value)
	if comment := w.comment[k.Path]; comment != "" {
		text += "  # " + comment
	}
	if v.Quote != "" {
		text += "  # " + words(v)
	}
	w.line(indent, text)
	w.others(indent, v)
}

// words is the comment after a value.
func words(v Taken) string {
	text := quoted(v.Quote)
	if !strings.Contains(v.Value, "(said ") {
		text = "said " + measure.Clock(v.At) + ": " + text
	}
	for _, r := range v.Remarks {
		text += "; " + plain(r)
	}
	return text
}

// most is how many comments of one kind are written.
const most = 200

func (w *writer) others(indent int, v Taken) {
	for i, o := range v.Others {
		if i == 5 {
			w.line(indent, fmt.Sprintf("#   and %d more", len(v.Others)-i))
			return
		}
		w.line(indent, fmt.Sprintf("#   but %s says %s: %s", measure.Clock(o.At), plain(o.Value), quoted(o.Quote)))
	}
}

func (w *writer) ties(taken []Taken) {
	open := false
	for _, v := range taken {
		kind, ok := strings.CutPrefix(v.Path, "tie-downs.")
		if !ok {
			continue
		}
		if !open {
			open = true
			w.line(0, "tie-downs:")
		}
		if kind != "d-rings" {
			kind = strings.ReplaceAll(kind, "-", " ")
		}
		w.line(1, "- "+kind+": "+scalar(v.Value)+"  # "+words(v))
		w.others(1, v)
	}
}

// items writes the equipment that was named for the key, each with what was said.
func (w *writer) items(k unit.KeyDoc, list []walkaround.Item) {
	n := 0
	for _, it := range list {
		if it.Optional != (k.Path == "options") {
			continue
		}
		if n++; n == 1 {
			w.line(0, k.Path+":")
		}
		w.line(1, "- "+scalar(it.Name+" (said "+measure.Clock(int(it.Start))+")")+"  # "+quoted(it.Quote))
	}
}

func (w *writer) unclear(t *Talk) {
	if len(t.Unclear) == 0 {
		return
	}
	w.line(0, "# heard and not understood:")
	for i, c := range t.Unclear {
		if i == most {
			w.line(0, fmt.Sprintf("#   and %d more", len(t.Unclear)-i))
			return
		}
		w.line(0, fmt.Sprintf("#   %s %s: %s; %s", measure.Clock(int(c.Start)), quoted(c.Quote), plain(c.Value.String()), plain(c.Doubt)))
	}
}

// omitted lists what the notes leave out, by time and reason: the captions still hold it.
func (w *writer) omitted(t *Talk) {
	for i, o := range t.Omitted {
		switch i {
		case 0:
			w.line(0, "# left out of the notes; the captions still hold it:")
		case most:
			w.line(0, fmt.Sprintf("#   and %d more", len(t.Omitted)-i))
			return
		}
		w.line(0, "#   "+measure.Clock(int(o.At))+" "+o.Reason)
	}
}

// inList reports whether a key is one of a list's entries: photos.file.
func inList(keys []unit.KeyDoc, path string) bool {
	return slices.ContainsFunc(keys, func(k unit.KeyDoc) bool { return k.Kind == "list" && strings.HasPrefix(path, k.Path+".") })
}

func depth(path string) int   { return strings.Count(path, ".") }
func name(path string) string { return path[strings.LastIndexByte(path, '.')+1:] }

// bareScalar is what needs no quotes in YAML 1.2: it begins with a letter, a digit or $,
// and holds nothing that could end it or begin a comment; a colon only inside a time.
var bareScalar = regexp.MustCompile(`^[A-Za-z0-9$](?:[A-Za-z0-9 $%&'()*+,./_~\p{L}-]|:[0-9])*$`)

// words that YAML 1.1 readers, though not ours, take for something else than text.
var notText = regexp.MustCompile(`^(?i:y|n|yes|no|on|off|true|false|null|[0-9]+:[0-9:]+)$`)

// scalar writes a value as YAML.
func scalar(s string) string {
	s = plain(s)
	if bareScalar.MatchString(s) && !notText.MatchString(s) || clock.MatchString(s) {
		return s
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) + `"`
}

var clock = regexp.MustCompile(`^[0-9]{1,2}(:[0-9]{2}){1,2}$`)

// quoted is somebody's words in a comment.
func quoted(s string) string { return strconv.Quote(clip(plain(s))) }

// clip keeps a quote to a line that can be read.
func clip(s string) string {
	const most = 160
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "..."
	}
	return s
}

// plain is text of one line without what no unit file may hold: controls, breaks,
// characters that are none.
func plain(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r) || r == '\u2028' || r == '\u2029':
			return ' '
		case unicode.IsControl(r) || r == unicode.ReplacementChar || r == 0xfeff || r == 0xfffe || r == 0xffff:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
	return strings.Join(strings.Fields(s), " ")
}

// markdown keeps a speaker's words from being read as marks: each mark of CommonMark
// that can be inside a line gets a backslash (CommonMark 0.31.2, 2.4).
func markdown(s string) string {
	return strings.NewReplacer(`\`, `\\`, "`", "\\`", `*`, `\*`, `_`, `\_`, `[`, `\[`, `]`, `\]`, `<`, `\<`, `>`, `\>`, `&`, `\&`, `~`, `\~`, `|`, `\|`).Replace(s)
}

// title is what a customer reads first, made from the values: "2024 102 in x 28 ft gooseneck
// deck-over, hydraulic tail, 25,900 lb GVWR". It is empty where the kind was not said, or
// nothing that tells it from others of its kind.
func (w *writer) title() string {
	said := func(path string) string { return unsaid(w.taken[path].Value) }
	kind := kinds.Of(said("kind"))
	if w.taken["kind"].Path == "" {
		return ""
	}
	space := string(kind.Space)
	size, gross := said(space+".length"), said("weights.gvwr")
	if width := said(space + ".width"); size != "" && width != "" {
		size = width + " x " + size
	}
	if size == "" && gross == "" {
		return ""
	}
	hitch := said("hitch.kind")
	if hitch == "bumper-pull" {
		hitch = ""
	}
	title := strings.Join(strings.Fields(said("year")+" "+size+" "+hitch+" "+kind.Noun), " ")
	if said("deck.tail-kind") == "hydraulic dovetail" {
		title += ", hydraulic tail"
	}
	if gross != "" {
		title += ", " + gross + " GVWR"
	}
	return title
}

// unsaid is a value without "about" and without the time it was said.
func unsaid(v string) string {
	v, _, _ = strings.Cut(v, " (")
	return strings.TrimPrefix(v, "about ")
}
