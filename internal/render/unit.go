package render

import (
	"cmp"
	"html/template"
	"maps"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"tarepage/internal/compute"
	"tarepage/internal/elevation"
	"tarepage/internal/inspect"
	"tarepage/internal/kinds"
	"tarepage/internal/measure"
	"tarepage/internal/pagedata"
	"tarepage/internal/phrases"
	"tarepage/internal/schemaorg"
	"tarepage/internal/sitepath"
	"tarepage/internal/unit"
)

// unit is the page of one trailer.
func (m *maker) unit(e *entry) ([]byte, error) {
	p := &unitPage{frame: m.frame}
	m.dress(&p.frame, m.unitStyle, m.unitPolicy)
	m.twofold(&p.frame)
	for _, fill := range []func(*unitPage, *entry) error{m.head, m.firstFigures, m.walkAround, m.tries, m.moreOf} {
		if err := fill(p, e); err != nil {
			return nil, err
		}
	}
	// Of other trailers, take only what the page shows; this trailer's own texts come last,
	// because another one's 14 ft 10 in may be rounded from a different length.
	exact := map[string]string{}
	for _, n := range e.nearest() {
		maps.Copy(exact, n.work.Brief().MetricOf())
	}
	maps.Copy(exact, e.work.MetricOf())
	return m.turned("unit", p, exact)
}

// head fills in what the page is about, for people and for programs.
func (m *maker) head(p *unitPage, e *entry) error {
	p.Root = "../"
	m.place(&p.frame, e.path)
	card, err := m.linkCard(e)
	if err != nil {
		return err
	}
	if card != nil {
		p.Picture = &card.picture
	}
	short, more := shortTitle(m.title(e))
	p.Heading = unbroken(short)
	p.Title = m.titled(e, short)
	p.Description = m.describe(m.title(e), m.frame.Yard.Town, e.work)
	p.Kind, p.KindLink = strings.ToLower(kinds.Of(e.Kind.Value).Label), p.Root+e.kind
	p.Facts = m.facts(e.Unit, more)
	p.Availability = e.Availability.Value
	p.AvailMark = map[string]string{"on the yard": "here", "sold": "gone"}[e.Availability.Value]
	p.Price, p.Excludes, p.Sold = pagedata.Price(m.lang, e.Unit), m.offered(e.Unit), e.sold()
	for _, n := range e.nearest() {
		p.Nearest = append(p.Nearest, m.near(n))
	}
	p.Data, err = m.trailerStated(e)
	return err
}

// drawingName matches the names by which a drawing is labeled. A second copy on the page takes
// other ones.
var drawingName = regexp.MustCompile(`"(el-[a-z0-9-]+-[td])"`)

// firstFigures fills in the tag, the cautions, the drawing and the payload.
func (m *maker) firstFigures(p *unitPage, e *entry) error {
	p.Plate, p.Firsts = m.plates(e.Unit, e.work), m.firsts(e.Unit, e.work)
	for i := range p.Plate {
		pl := &p.Plate[i]
		pl.From, pl.Proof = m.from(e, pl.path, pl.From)
		if pl.Proof == "" {
			pl.From = m.saidFrom(pl.From)
		}
	}
	for _, c := range e.cautions {
		p.Cautions = append(p.Cautions, caution{Message: m.lang.Told(upper(ending(c.Message))), Why: c.Rule.Why, Source: c.Source, Rule: c.Rule.Name,
			Danger: isDanger(c)})
	}
	p.Careful = pagedata.CautionCount(m.lang, dangers(e))
	p.Fills = m.fills(e)
	if svg, ok := elevation.Side(e.work); ok {
		// internal/elevation draws it and escapes what it writes.
		p.View, p.ViewWords = template.HTML(svg), elevation.Words(e.work)
		p.Front = template.HTML(drawingName.ReplaceAllString(svg, `"front-$1"`))
	}
	m.carries(p, e.work)
	return nil
}

// walkAround fills in the notes, the recording and the photos.
func (m *maker) walkAround(p *unitPage, e *entry) (err error) {
	if p.Body, err = notes(&e.Body, e.work, p.Root+e.workings, m.moments(e), m.lang.Say("walk"), phrases.English.Say("walk")); err != nil {
		return err
	}
	p.NotesIn, p.NotesSay = m.notesIn(&e.Body)
	if p.Recording, err = m.recorded(e); err != nil {
		return err
	}
	shots := m.photos(e)
	p.Photos = shots
	if p.Recording == nil && len(e.Body.Whole().Notes) > 0 && m.moments(e)(0).href == "" {
		p.Untimed = m.lang.Say("walk times")
	}
	if p.Recording != nil {
		p.Recording.Poster, p.Policy = m.poster(shots), m.watched(p.Policy)
	}
	return nil
}

// notesIn is the language of an owner's notes, and the sentence that says so. The sentence is empty
// where page and notes have the same language, and so is the language on a page in English: the page
// says it.
func (m *maker) notesIn(notes *unit.Body) (tag, says string) {
	in := writtenIn(notes)
	base, _ := in.Tag.Base()
	switch {
	case in.Foreign() != m.lang.Foreign():
		return base.String(), m.lang.Say("walk language " + base.String())
	case in.Foreign():
		return base.String(), ""
	}
	return "", ""
}

// writtenIn is the language of an owner's notes.
func writtenIn(notes *unit.Body) phrases.Language {
	if notes.Spanish || phrases.Written(string(notes.Source)) {
		return phrases.Spanish
	}
	return phrases.English
}

// moreOf fills in what the file states, and where the page leads.
func (m *maker) moreOf(p *unitPage, e *entry) error {
	p.Specs = m.specs(e)
	p.Proven = m.proven(e)
	p.Standard, p.Options = m.equipment(e.Standard), m.equipment(e.Options)
	p.Workings, p.Worked = p.Root+e.workings, measure.Count(len(e.work.Figures))
	if !e.sold() {
		p.Compare = comparing(p.Root, e)
	}
	p.LotSheet, p.HandOver = p.Root+e.lot, p.Root+e.handOver
	p.Absent = lacking(e.work)
	return nil
}

// proven says how many ratings have a photo as proof, or nothing where none has.
func (m *maker) proven(e *entry) string {
	some, all := e.PhotographedRatings()
	if some == 0 {
		return ""
	}
	return m.lang.Say("specs proven", measure.Count(some), measure.Count(all))
}

// trailerStated is what a trailer's page states for programs.
func (m *maker) trailerStated(e *entry) (template.JS, error) {
	t := &schemaorg.Trailer{Unit: e.Unit, Name: m.lang.Plain(m.title(e)), Work: e.work, Terms: m.offered(e.Unit)}
	for _, made := range m.worked(e) {
		if made != nil {
			t.Photos = append(t.Photos, made.JPEG.Name)
		}
	}
	if c, err := m.linkCard(e); err == nil && c != nil {
		t.Card = c.path
	}
	if v := e.video(); v != nil {
		t.Video, t.Poster = sitepath.Video(e.Unit, v.Name), strings.TrimPrefix(m.poster(m.photos(e)), "../"+m.up)
	}
	return stated(m.says.Trailer(t))
}

// workings is the page of every figure of one trailer.
func (m *maker) workings(e *entry) ([]byte, error) {
	p := &figuresPage{frame: m.frame, Heading: m.title(e)}
	p.Sheet, p.Switch, p.Policy = m.figuresSheet.Path, m.figuresScript.Path, m.figuresPolicy
	p.Root = "../"
	p.Back = p.Root + e.path
	p.Title = m.lang.Say("workings titled", m.title(e), e.Stock.Value, m.frame.Yard.Name)
	m.place(&p.frame, e.workings)
	var err error
	if p.Data, err = stated(m.says.Page(e.workings, m.lang.Say("workings of", e.Stock.Value))); err != nil {
		return nil, err
	}
	p.Description = m.lang.Say("workings about", e.Stock.Value)
	p.Forces = m.forcesOf(e)
	if drawn, ok := elevation.EnvelopeOf(e.work); ok {
		// internal/elevation draws it and escapes what it writes.
		p.Envelope, p.EnvelopeWords, p.EnvelopeLoad = template.HTML(drawn.SVG), drawn.Words, drawn.Long
	}
	exact := e.work.MetricOf()
	given := givenList{number: map[labeled]int{}}
	for _, d := range compute.All {
		if f := e.work.Figure(d.Name); f != nil {
			p.Figures = append(p.Figures, m.figured(d, f, e, &given, exact))
		}
	}
	p.Given = given.rows
	p.Absent = lacking(e.work)
	return m.turned("workings", p, exact)
}

// forcesOf is the example of a trailer, or nil where too little was measured.
func (m *maker) forcesOf(e *entry) *forces {
	f, ok := elevation.ForcesOf(e.work)
	if !ok {
		return nil
	}
	// internal/elevation draws it and escapes what it writes.
	drawing := template.HTML(f.SVG(func(key, amount string) string { return m.lang.Say("forces "+key, amount) }))
	return &forces{Drawing: drawing, Empty: f.Empty, Tongue: f.Tongue, Balance: f.Balance, Payload: f.Payload, Middle: f.Middle, Group: f.Group,
		Truck: f.Truck, TruckSum: e.work.Figure("tongue-at-payload").Working(), Axles: f.Axles, AxlesSum: e.work.Figure("axles-at-payload").Working()}
}

// lacking says for each figure that could not be worked out what to weigh or measure.
func lacking(w *compute.Work) []absent {
	var out []absent
	for _, a := range w.Absent {
		var needs []string
		for _, n := range a.Needs {
			needs = append(needs, n.String())
		}
		out = append(out, absent{a.Label, strings.Join(needs, "; ")})
	}
	return out
}

// near is another trailer in a line: what it is, how long, what it can carry, what it costs.
func (m *maker) near(e *entry) labeled {
	var facts []string
	for _, name := range []string{"deck-length", "payload"} {
		if f := e.work.Figure(name); f != nil {
			facts = append(facts, short(name, e.work)+" "+f.Text)
		}
	}
	facts = append(facts, pagedata.Price(m.lang, e.Unit))
	if more := m.offered(e.Unit); more != "" {
		facts = append(facts, more)
	}
	return labeled{Label: m.title(e), What: path.Base(e.path), Text: strings.Join(facts, m.lang.Said(", "))}
}

// short is a figure's name within a line.
func short(name string, w *compute.Work) string {
	if name == "deck-length" {
		return w.Space.Name
	}
	return name
}

// unbroken keeps the numbers of a title on one line with their units.
func unbroken(title string) string {
	var b strings.Builder
	from := 0
	for _, q := range measure.Quantities(title, nil) {
		b.WriteString(title[from:q.Start])
		b.WriteString(strings.ReplaceAll(title[q.Start:q.End], " ", "\u00a0"))
		from = q.End
	}
	return b.String() + title[from:]
}

// ending closes a clause with a period for the page.
func ending(s string) string { return strings.TrimRight(s, ".") + "." }

// longTitle is how many letters of a title fit into two lines of a phone.
const longTitle = 36

// shortTitle is a title up to its first comma where it is long, and the rest of it.
func shortTitle(title string) (short, more string) {
	if short, more, ok := strings.Cut(title, ", "); ok && utf8.RuneCountInString(title) > longTitle {
		return short, more
	}
	return title, ""
}

// mostTitle is how many letters of a title search engines and messages show.
const mostTitle = 60

// titled is the title of a page for browsers and shared links: what it is, its price, the
// town and the stock number, as far as they fit.
func (m *maker) titled(e *entry, short string) string {
	title := short
	for _, more := range []string{pagedata.Price(m.lang, e.Unit), m.frame.Yard.Town, e.Stock.Value} {
		if longer := title + ", " + more; more != "" && utf8.RuneCountInString(longer) < mostTitle {
			title = longer
		}
	}
	return title
}

func (m *maker) facts(u *unit.Unit, more string) string {
	var out []string
	if more != "" {
		out = append(out, more)
	}
	if u.Year.Given() {
		out = append(out, u.Year.Words())
	}
	if u.Make.Given() {
		out = append(out, u.Make.Value)
	}
	// A title often ends with the condition or the color: "..., galvanized, used".
	title := append(strings.Split(u.Title.Value, ", "), strings.Split(more, ", ")...)
	for _, text := range []string{u.Condition.Value, u.Color.Value} {
		said := slices.ContainsFunc(title, func(part string) bool { return strings.EqualFold(part, text) })
		if text != "" && !said {
			out = append(out, text)
		}
	}
	if u.Arrived.Given() {
		out = append(out, m.lang.Say("arrived "+u.Availability.Value, u.Arrived.Value.Long()))
	}
	return strings.Join(out, m.lang.Said(", "))
}

func (m *maker) describe(heading, town string, w *compute.Work) string {
	if strings.Contains(heading, ", ") {
		heading += "," // the last of its parts
	}
	key := "link sale"
	if w.Unit.Availability.Value == "sold" {
		key, heading = "link sold", strings.TrimSuffix(heading, ",")
	}
	if town != "" {
		key += " in"
	}
	gvwr := w.Unit.Weights.GVWR.Words()
	numbers := m.lang.Say("news gvwr", gvwr)
	if f := w.Figure("payload"); f != nil {
		numbers = m.lang.Say("news payload", gvwr, f.Text)
	}
	return m.lang.Say(key, heading, numbers, town)
}

// plates are the four figures of the tag, each with where it comes from. What was only said
// is marked.
func (m *maker) plates(u *unit.Unit, w *compute.Work) []plate {
	out := tagPlates{lang: m.lang}
	out.worked(m.lang.Say("tag payload"), w, "payload", cmp.Or(w.Decides(), m.lang.Say("tag decides")))
	out.stated(m.lang.Say("tag empty"), "weights.empty", u.Weights.Empty.Given(), u.Weights.Empty.Words(), u.Weights.Empty.From.String())
	out.stated(m.lang.Say("card gvwr"), "weights.gvwr", u.Weights.GVWR.Given(), u.Weights.GVWR.Words(), u.Weights.GVWR.From.String())
	var coupling []string
	if u.Hitch.Ball.Given() {
		coupling = append(coupling, m.lang.Say("tag ball", u.Hitch.Ball.Words()))
	}
	if u.Hitch.Plug.Given() {
		coupling = append(coupling, m.lang.Say("tag plug", u.Hitch.Plug.Value))
	}
	out.stated(m.lang.Say("tag hitch"), "", u.Hitch.Kind.Given(), upper(u.Hitch.Kind.Words()), strings.Join(coupling, ", "))
	return out.list
}

// remarkable are the cautions about licenses, permits and money, and about what nobody measured.
// They are plain lines: the tape marks a fault or a danger. A missing title is a fault of what the
// buyer gets.
var remarkable = map[string]bool{
	"license-class": true, "overall-width-missing": true, "tire-from-memory": true, "excise-threshold": true, "wide-load": true,
	"tank-endorsement": true, "financing-terms": true, "weighed-long-ago": true,
}

// isDanger says whether a caution wears the tape.
func isDanger(c inspect.Finding) bool { return c.First || !remarkable[c.Rule.Name] }

// dangers is how many of a trailer's cautions wear it: what a card and the first screen count.
func dangers(e *entry) int {
	n := 0
	for _, c := range e.cautions {
		if isDanger(c) {
			n++
		}
	}
	return n
}

// told says next to a number where it comes from, as people say it, and once that it was only
// said so far. The specifications keep the owner's own notes.
func (m *maker) saidFrom(from string) string {
	switch p := measure.ParseProvenance(from); {
	case p.Origin == measure.Tag:
		return m.lang.Say("from label")
	case p.Origin == measure.ScaleTicket && p.Date() != "":
		if day, err := unit.ParseDay(p.Date()); err == nil {
			return m.lang.Say("from scale", day.Long())
		}
	case p.Origin == measure.Said && p.Timed:
		return m.lang.Say("told at", measure.Clock(int(p.At)))
	case p.Origin == measure.Said:
		return m.lang.Say("told")
	}
	return from
}

// equipment are the words of items, each with the mark "as told" until somebody has looked.
func (m *maker) equipment(list []unit.Text) []string {
	var out []string
	for _, t := range list {
		switch {
		case t.From.Origin != measure.Said:
			out = append(out, t.Value)
		case t.From.Timed:
			out = append(out, m.lang.Say("kit told at", t.Value, measure.Clock(int(t.From.At))))
		default:
			out = append(out, m.lang.Say("kit told", t.Value))
		}
	}
	return out
}

// fills say how high each loose material may be filled into a dump bed, so that its payload
// is kept: rounded down, the heaviest first.
func (m *maker) fills(e *entry) []labeled {
	heaps := slices.Clone(e.work.Heaps)
	slices.SortStableFunc(heaps, func(a, b compute.Heap) int { return cmp.Compare(b.Density, a.Density) })
	var out []labeled
	for _, h := range heaps {
		l := labeled{Label: upper(h.Material), What: h.Density.String()}
		flat := e.Bed.Heap.Given() && !e.Bed.Heap.Value || e.Bed.Volume.Given()
		switch {
		case !e.work.Payload.Known:
			return nil
		case h.FitsHeaped && !flat:
			l.Text = m.lang.Say("fill heaped")
		case h.FitsStruck:
			l.Text = m.lang.Say("fill level")
		case h.Level > 0:
			l.Text = measure.Down(h.Level, 1).String()
			l.Metric = measure.Metric.AtMost(h.Level)
		default:
			l.Text = m.lang.Say("fill volume", measure.Down(h.Fits, 0.1).Near())
		}
		out = append(out, l)
	}
	return out
}

// firsts are what buyers ask for next, in short. What was only told says so.
func (m *maker) firsts(u *unit.Unit, w *compute.Work) []labeled {
	var out []labeled
	add := func(key, text string, from measure.Provenance) {
		if text != "" {
			l := labeled{Label: m.lang.Say("first " + key), Text: text}
			if from.Origin == measure.Said {
				l.From = m.saidFrom(from.String())
			}
			out = append(out, l)
		}
	}
	worked := func(key, name string) {
		if f := w.Figure(name); f != nil {
			out = append(out, labeled{Label: m.lang.Say("first " + key), Text: f.Text, Metric: w.Metric(f), Figure: name})
		}
	}
	worked("angle", "loading-angle")
	add("floor", w.Space.Floor.Words(), w.Space.Floor.From)
	add("brakes", u.Brakes.Kind.Words(), u.Brakes.Kind.From)
	for _, l := range []struct {
		key  string
		over unit.Length
	}{{"wide", u.OverallWidth}, {"tall", u.OverallHeight}} {
		if l.over.Given() {
			add(l.key, l.over.Words(), l.over.From)
		} else {
			add(l.key, m.lang.Say("first missing"), measure.Provenance{})
		}
	}
	if add("long", u.OverallLength.Words(), u.OverallLength.From); !u.OverallLength.Given() {
		worked("long", "overall-length")
	}
	tires := u.Tires.Size.Value
	if u.Tires.LoadRange.Given() {
		tires = m.lang.Say("tire load range", tires, u.Tires.LoadRange.Value)
	}
	add("tires", tires, u.Tires.Size.From)
	if f := w.Figure("tire-capacity"); f != nil {
		l := labeled{Label: m.lang.Say("first tires carry"), Text: f.Text, Metric: w.Metric(f), Figure: f.Name}
		if u.Axles.Count.Value == 1 {
			l.Label = m.lang.Say("first tires alone") // what one axle's tires carry is all that they carry
		} else {
			l.Text, l.Metric = m.tiresCarry(w, l.Text, measure.American), m.tiresCarry(w, l.Metric, measure.Metric)
		}
		out = append(out, l)
	}
	worked("truck", "tongue-at-gvwr")
	worked("working", "working-payload")
	add("serial", u.Serial.Value, u.Serial.From)
	return out
}

// tiresCarry adds to what the tires of one axle carry what all of them carry, so that nobody has to
// double a number. No line ends between a number and its unit.
func (m *maker) tiresCarry(w *compute.Work, one string, in measure.System) string {
	if all := w.TiresInAll(); all.Known {
		return strings.ReplaceAll(m.lang.Say("first tires all", one, in.Limit(all.Value)), " lb", "\u00a0lb")
	}
	return one
}

// tagPlates are the tag's figures while they are gathered.
type tagPlates struct {
	lang phrases.Language
	list []plate
}

// stated adds a value that the trailer's file states under a key.
func (t *tagPlates) stated(label, key string, given bool, text, from string) {
	if !given || text == "" {
		return
	}
	t.list = append(t.list, plate{Label: label, Text: text, From: from, path: key})
}

// worked adds a figure with what it rests on, or why it could not be worked out.
func (t *tagPlates) worked(label string, w *compute.Work, name, from string) {
	if f := w.Figure(name); f != nil {
		t.list = append(t.list, plate{Label: label, Text: f.Text, From: from, Metric: w.Metric(f), Figure: name})
		return
	}
	for _, a := range w.Absent {
		if a.Name != name {
			continue
		}
		p := plate{Label: label, Text: t.lang.Say("not figured"), From: a.Needs[0].Advice}
		if because := a.Needs[0].Because; because != "" {
			p.Text, p.From = t.lang.Say("not known"), t.lang.Say("because", because)
		}
		t.list = append(t.list, p)
	}
}

// carries fills in the payload with every limit of it, and other numbers that people quote.
func (m *maker) carries(p *unitPage, w *compute.Work) {
	f := w.Figure("payload")
	if f == nil {
		return
	}
	p.PayloadText, p.PayloadMetric = f.Text, w.Metric(f)
	notes := f.Notes()
	if says := w.PayloadSays(); !slices.Contains(notes, says) {
		notes = append([]string{says}, notes...)
	}
	p.PayloadNote = ending(strings.Join(notes, "; "))
	p.WhyMore = compute.WhyMore
	for _, r := range w.Ladder {
		p.Ladder = append(p.Ladder, rung{Label: r.Label, Text: r.Text(), Metric: r.Metric(), Working: r.Working(), Governs: r.Governs})
	}
	for _, d := range compute.All {
		b := w.Figure(d.Name)
		if b == nil {
			continue
		}
		row := labeled{Label: b.Label, Text: b.Text, Metric: w.Metric(b), What: d.What, Source: b.Source}
		switch d.Name {
		case "tongue-at-payload", "axles-at-payload", "cargo-with-water":
			p.AtPayload = append(p.AtPayload, row)
		case "even-load-payload":
			p.Others = append(p.Others, row)
		}
	}
}

// figured is a figure as its page shows it. What it rests on is entered in the list of what was given.
func (m *maker) figured(d *compute.Definition, f *compute.Figure, e *entry, given *givenList, exact map[string]string) figure {
	out := figure{Name: f.Name, Label: f.Label, Text: f.Text, Metric: e.work.Metric(f), Working: f.Working(), What: d.What, Source: f.Source}
	if out.Metric == measure.InMetric(f.Text, exact) {
		out.Metric = "" // the page's list has it
	}
	for _, n := range f.Notes() {
		out.Notes = append(out.Notes, ending(n))
	}
	var numbers []int
	for _, in := range f.Inputs {
		numbers = append(numbers, given.enter(m, e, in))
	}
	out.From = m.lang.Said(spans(numbers))
	return out
}

// givenList is what the figures of a page rest on: what was stated, weighed and measured, each
// once, in the order in which figures take it.
type givenList struct {
	rows   []labeled
	number map[labeled]int
}

// enter is the number of an input in the list.
func (g *givenList) enter(m *maker, e *entry, in *compute.Input) int {
	row := labeled{Label: m.label(in.Key), Text: in.Text()}
	row.From, row.Proof = m.from(e, in.Key, in.From.String())
	if n, ok := g.number[row]; ok {
		return n
	}
	g.rows = append(g.rows, row)
	g.number[row] = len(g.rows)
	return len(g.rows)
}

// spans writes numbers in their order, with three or more in a row as a span: 1, 3–5.
func spans(numbers []int) string {
	slices.Sort(numbers)
	numbers = slices.Compact(numbers)
	var b strings.Builder
	for i := 0; i < len(numbers); {
		end := i
		for end+1 < len(numbers) && numbers[end+1] == numbers[end]+1 {
			end++
		}
		if end == i+1 {
			end = i
		}
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(strconv.Itoa(numbers[i]))
		if end > i {
			b.WriteString("–" + strconv.Itoa(numbers[end]))
		}
		i = end + 1
	}
	return b.String()
}

// section is a section as a page calls it.
func (m *maker) section(path string) string {
	key := "section " + cmp.Or(path, "whole")
	if name := m.lang.Say(key); name != key {
		return name
	}
	return label(path)
}

func (m *maker) specs(e *entry) []specGroup {
	var out []specGroup
	for _, g := range e.Stated() {
		if g.Path == "offer" && e.Availability.Value == "sold" {
			continue
		}
		group := specGroup{Name: m.section(g.Path)}
		for _, r := range g.Rows {
			row := labeled{Label: m.labelIn(g.Path, r.Path), Text: r.Text}
			if text, ok := m.lang.Fact("choice/" + r.Path + "/" + r.Text); ok && m.lang.Foreign() {
				row.Text = text
			}
			row.From, row.Proof = m.from(e, r.Key, r.From)
			group.Rows = append(group.Rows, row)
		}
		out = append(out, group)
	}
	return out
}

// label is a key in words: "Axles, rating".
func (m *maker) label(key string) string {
	if text, ok := m.lang.Fact("key/" + key); ok && m.lang.Foreign() {
		return text
	}
	return label(key)
}

// labelIn is a key's label within its section.
func (m *maker) labelIn(section, key string) string {
	if m.lang.Foreign() {
		return m.label(key)
	}
	return label(strings.TrimPrefix(key, section+"."))
}

// abbreviations keep the trade's capitals.
var abbreviations = map[string]string{"gvwr": "GVWR", "led": "LED", "abs": "ABS", "d-rings": "D-rings", "vin": "VIN"}

// label makes a key into words: tongue-limit to Tongue limit.
func label(key string) string {
	var words []string
	for _, part := range strings.Split(key, ".") {
		if a := abbreviations[part]; a != "" {
			words = append(words, a)
			continue
		}
		words = append(words, strings.ReplaceAll(part, "-", " "))
	}
	s := strings.Join(words, ", ")
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
