package captions

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"
)

// TestBoxesOfAVideo finds the tables among boxes whose sizes are written in each way (ISO/IEC
// 14496-12, 4.2): a word, 0 for the rest of the file, 1 for 64 bits that follow.
func TestBoxesOfAVideo(t *testing.T) {
	long := func(kind string, body []byte) []byte {
		return slices.Concat(words(1), []byte(kind), words(0, uint32(16+len(body))), body)
	}
	rest := func(kind string, body []byte) []byte { return slices.Concat(words(0), []byte(kind), body) }
	body := []byte("tables")
	for name, c := range map[string]struct {
		video     []byte
		want      string
		fragments bool
	}{
		"plain":             {slices.Concat(boxOf("ftyp", words(0)), boxOf("moov", body)), "tables", false},
		"64 bits":           {slices.Concat(long("free", words(0)), long("moov", body)), "tables", false},
		"the rest":          {slices.Concat(boxOf("ftyp"), rest("moov", body)), "tables", false},
		"fragments":         {slices.Concat(boxOf("moov", body), boxOf("moof"), boxOf("mdat")), "tables", true},
		"after fragments":   {slices.Concat(boxOf("moof", words(1)), boxOf("moov", body)), "tables", true},
		"empty":             {boxOf("moov"), "", false},
		"none":              {boxOf("ftyp"), "no moov box", false},
		"nothing":           {nil, "no moov box", false},
		"cut off":           {boxOf("moov", body)[:13], "no moov box", false},
		"a size of 7":       {slices.Concat(words(7), []byte("free"), boxOf("moov", body)), "no moov box", false},
		"64 bits, too few":  {slices.Concat(words(1), []byte("free"), words(0, 15), boxOf("moov", body)), "no moov box", false},
		"past the end":      {slices.Concat(words(99), []byte("free"), boxOf("moov", body)), "no moov box", false},
		"far past the end":  {slices.Concat(words(1), []byte("free"), words(math.MaxUint32, 0), boxOf("moov", body)), "no moov box", false},
		"one at the end":    {slices.Concat(boxOf("moov", body), boxOf("free")), "tables", false},
		"seven bytes there": {slices.Concat(boxOf("moov", body), make([]byte, 7)), "tables", false},
	} {
		got, fragments, err := moov(bytes.NewReader(c.video), int64(len(c.video)))
		if err != nil {
			if !strings.Contains(err.Error(), c.want) || c.want == "" {
				t.Errorf("%s: %v", name, err)
			}
			continue
		}
		if string(got) != c.want || fragments != c.fragments {
			t.Errorf("%s: %q, fragments %v", name, got, fragments)
		}
		// Inside a box the same ways are read.
		var kinds []string
		for _, b := range boxesIn(c.video) {
			kinds = append(kinds, b.kind+" "+string(b.body))
		}
		if c.want != "" && !slices.ContainsFunc(kinds, func(k string) bool { return k == "moov "+c.want }) {
			t.Errorf("%s: boxes %q", name, kinds)
		}
	}
	// Tables of more than 64 MB are not read; the file here only claims to hold them.
	claims := slices.Concat(words(maxHead+1), []byte("moov"))
	if _, _, err := moov(bytes.NewReader(claims), maxHead+1); err == nil || !strings.Contains(err.Error(), "at most") {
		t.Errorf("%v", err)
	}
}

// track is a track of text by its tables. Each part may be replaced.
func track(replace map[string][]byte) []byte {
	part := func(kind string, body []byte) []byte {
		if r, ok := replace[kind]; ok {
			if r == nil {
				return nil
			}
			body = r
		}
		return boxOf(kind, body)
	}
	stbl := slices.Concat(
		part("stsd", slices.Concat(words(0, 1, 16), []byte("tx3g"), make([]byte, 8))),
		part("stsz", words(0, 0, 4, 10, 20, 30, 40)),
		part("stts", words(0, 2, 1, 500, 3, 250)),
		part("stsc", words(0, 2, 1, 2, 1, 2, 1, 1)),
		part("stco", words(0, 3, 1000, 2000, 3000)),
		part("co64", nil))
	return boxOf("mdia", part("mdhd", words(0, 0, 0, 1000, 1250, 0)), boxOf("minf", boxOf("stbl", stbl)))
}

// TestTablesOfText reads tables worked by hand after ISO/IEC 14496-12, 8.6.1 and 8.7: where each
// sample is, how long it is, and when it begins.
func TestTablesOfText(t *testing.T) {
	const whole = "1000 [1000+10 1010+20 2000+30 3000+40] [0 500 750 1000 1250]"
	for name, c := range map[string]struct {
		replace map[string][]byte
		want    string
	}{
		"whole":             {nil, whole},
		"version 1":         {map[string][]byte{"mdhd": words(1<<24, 0, 0, 0, 0, 1000, 0, 1250, 0)}, whole},
		"one size":          {map[string][]byte{"stsz": words(0, 15, 4)}, "1000 [1000+15 1015+15 2000+15 3000+15] [0 500 750 1000 1250]"},
		"places of 64 bits": {map[string][]byte{"stco": nil, "co64": words(0, 3, 0, 1000, 1, 0, 0, 3000)}, "1000 [1000+10 1010+20 4294967296+30 3000+40] [0 500 750 1000 1250]"},
		"more chunks":       {map[string][]byte{"stco": words(0, 4, 1000, 2000, 3000, 4000)}, whole},
		"fewer chunks":      {map[string][]byte{"stco": words(0, 1, 1000)}, "1000 [1000+10 1010+20] [0 500 750 1000 1250]"},
		"no rows":           {map[string][]byte{"stsc": words(0, 0)}, "1000 [] [0 500 750 1000 1250]"},
		"three rows":        {map[string][]byte{"stsc": words(0, 3, 1, 1, 1, 2, 2, 1, 3, 1, 1)}, "1000 [1000+10 2000+20 2020+30 3000+40] [0 500 750 1000 1250]"},
		"times cut off":     {map[string][]byte{"stts": words(0, 2, 1, 500)}, "1000 [1000+10 1010+20 2000+30 3000+40] [0 500]"},
		"more times":        {map[string][]byte{"stts": words(0, 1, 9, 100)}, "1000 [1000+10 1010+20 2000+30 3000+40] [0 100 200 300 400 500]"},
		"sizes cut off":     {map[string][]byte{"stsz": words(0, 0, 9, 10, 20)}, "1000 [1000+10 1010+20] [0 500 750 1000]"},
		"no scale":          {map[string][]byte{"mdhd": words(0, 0, 0, 0, 1250, 0)}, ""},
		"a short header":    {map[string][]byte{"mdhd": words(0, 0, 0)}, ""},
		"short, version 1":  {map[string][]byte{"mdhd": words(1<<24, 0, 0, 1000, 1250)}, ""},
		"another codec":     {map[string][]byte{"stsd": slices.Concat(words(0, 1, 16), []byte("avc1"))}, ""},
		"no codec":          {map[string][]byte{"stsd": words(0, 1, 16)}, ""},
		"QuickTime's text":  {map[string][]byte{"stsd": slices.Concat(words(0, 1, 16), []byte("text"))}, whole},
	} {
		x, ok := textTrack(track(c.replace))
		if !ok {
			if c.want != "" {
				t.Errorf("%s is not a track of text", name)
			}
			continue
		}
		var places []string
		for i, at := range x.places {
			places = append(places, fmt.Sprintf("%d+%d", at, x.sizes[i]))
		}
		if got := fmt.Sprintf("%v %v %v", x.scale, places, x.starts); got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
	if x, _ := textTrack(track(map[string][]byte{"stsz": words(0, 1, mostSamples+9)})); len(x.sizes) != mostSamples {
		t.Errorf("%d samples", len(x.sizes))
	}
	for _, c := range []struct{ bytes, at, each, want int }{{8, 4, 4, 0}, {12, 4, 4, 1}, {15, 4, 4, 1}, {16, 4, 4, 2}, {100, 4, 4, 5}, {7, 4, 4, 0}, {3, 0, 4, 0}} {
		b := make([]byte, c.bytes)
		if c.bytes >= c.at+4 {
			binary.BigEndian.PutUint32(b[c.at:], 5)
		}
		if got := entries(b, c.at, c.each); got != c.want {
			t.Errorf("%d bytes hold %d entries", c.bytes, got)
		}
	}
}

// TestTextOfASample: a length, then UTF-8, or UTF-16 after a byte order mark (3GPP TS 26.245,
// 5.17); what follows is about looks.
func TestTextOfASample(t *testing.T) {
	sample := func(text []byte, more string) []byte {
		return slices.Concat(binary.BigEndian.AppendUint16(nil, uint16(len(text))), text, []byte(more))
	}
	utf := func(order binary.AppendByteOrder, text string) (out []byte) {
		for _, u := range utf16.Encode([]rune("\ufeff" + text)) {
			out = order.AppendUint16(out, u)
		}
		return out
	}
	for name, c := range map[string]struct {
		sample []byte
		want   string
	}{
		"UTF-8":         {sample([]byte("zwölf <2> & 3"), "styl"), "zwölf &lt;2&gt; &amp; 3"},
		"big endian":    {sample(utf(binary.BigEndian, "zwölf 🚜 <"), "styl"), "zwölf 🚜 &lt;"},
		"little endian": {sample(utf(binary.LittleEndian, "zwölf 🚜 <"), "styl"), "zwölf 🚜 &lt;"},
		"half a unit":   {sample(append(utf(binary.LittleEndian, "ab"), 'c'), ""), "ab"},
		"a mark alone":  {sample(utf(binary.BigEndian, ""), ""), ""},
		"cut off":       {sample([]byte("twelve"), "")[:5], "twe"},
		"empty":         {sample(nil, "styl"), ""},
		"one byte":      {[]byte{0}, "-"},
		"not UTF-8":     {sample([]byte("a\xffb"), ""), "-"},
		"half a mark":   {sample([]byte("\xfe"), ""), "-"},
		"FE and more":   {sample([]byte("\xfe\xfe"), ""), "-"},
		"FF and more":   {sample([]byte("\xff\xff"), ""), "-"},
	} {
		got := "-"
		if list := plainText(c.sample); len(list) > 0 {
			got = list[0]
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// TestTimesAtTheLimits: 59 minutes of an hour, 59 seconds of a minute, and up to 999 minutes
// without hours (WebVTT 1, 4.1: a timestamp's minutes and seconds are 0 to 59).
func TestTimesAtTheLimits(t *testing.T) {
	for s, want := range map[string]string{
		"00:00:00.000": "0", "00:59:59.999": "3599.999", "01:00:00.000": "3600", "99:59:59,5": "359999.5",
		"00:60:00.000": "-", "00:00:60.000": "-", "59:59.000": "3599", "60:00.000": "3600 odd", "999:59.25": "59999.25 odd", "1000:00.000": "-",
		"1:2": "62", "1:02:03:400": "3723.4", "02:03:400": "-", "00:01.123456789": "1.123", "00:01.1234567890": "-", "1": "-", "": "-", "-1:00": "-",
		"1000000:00:00": "-", "00:01.": "-",
	} {
		at, odd, ok := readTime(s)
		got := "-"
		if ok {
			got = fmt.Sprint(at)
			if odd != "" {
				got += " odd"
			}
		}
		if got != want {
			t.Errorf("%q is read as %s, want %s", s, got, want)
		}
	}
}

// TestHeaderOfAFile: the header ends with a blank line or with the first cue, with or without a
// name (WebVTT 1, 4.1), and a broadcast clock is told of.
func TestHeaderOfAFile(t *testing.T) {
	const cue = "00:01.000 --> 00:02.000\nwords\n"
	for name, c := range map[string]struct {
		file string
		odd  int
	}{
		"a blank line":      {"WEBVTT\n\n" + cue, 0},
		"text":              {"WEBVTT\nKind: captions\nLanguage: en\n\n" + cue, 0},
		"no blank line":     {"WEBVTT\n" + cue, 0},
		"a name, no blank":  {"WEBVTT\nfirst\n" + cue, 0},
		"text and a name":   {"WEBVTT\nKind: captions\nfirst\n" + cue, 0},
		"a broadcast clock": {"WEBVTT\nX-TIMESTAMP-MAP=LOCAL:00:00:00.000,MPEGTS:900000\n\n" + cue, 1},
		"a note":            {"WEBVTT\n\nNOTE\nno --\nno\n\n" + cue, 0},
		"a note, no blank":  {"WEBVTT\n\nNOTE why\n" + cue, 0},
		"a style":           {"WEBVTT\n\nSTYLE\n::cue { color: red }\n\n" + cue, 0},
		"a name":            {"WEBVTT\n\nfirst\n" + cue, 0},
		"words first":       {"WEBVTT\n\nfirst\n\n" + cue, 0},
		"words last":        {"WEBVTT\n\n" + cue + "\nlast\n", 1},
		"a counter last":    {"WEBVTT\n\n" + cue + "\n17\n", 0},
	} {
		got, doubts, err := Read("a.vtt", []byte(c.file))
		if err != nil || len(got.Cues) != 1 || got.Cues[0].Text != "words" || len(doubts) != c.odd {
			t.Errorf("%s: %+v, %v, %v", name, got.Cues, doubts, err)
		}
	}
	// The header alone, cut off at each place, does not crash and makes no cue.
	const header = "WEBVTT\nKind: captions\nNOTE"
	for n := range header {
		if got, _, err := Read("a.vtt", []byte(header[:n])); err == nil && len(got.Cues) > 0 {
			t.Errorf("%q: %+v", header[:n], got)
		}
	}
}

// TestSubRipBlocks: a blank line inside a cue is part of it, unless what follows begins another.
func TestSubRipBlocks(t *testing.T) {
	const one, two = "1\n00:00:01,000 --> 00:00:02,000\n", "2\n00:00:03,000 --> 00:00:04,000\nlast\n"
	for name, c := range map[string]struct{ file, want string }{
		"a blank line":         {one + "a\n\nb\n\n" + two, "a/b|last"},
		"blank lines":          {one + "a\n\n\n\nb\n\n\n" + two, "a/b|last"},
		"no counter":           {one + "a\n\n00:00:03,000 --> 00:00:04,000\nlast\n", "a|last"},
		"a number inside":      {one + "a\n\n42\nb\n\n" + two, "a/42/b|last"},
		"a counter and blanks": {one + "a\n\n2\n\n00:00:03,000 --> 00:00:04,000\nlast\n", "a|last"},
		"a number at the end":  {one + "a\n\n42\n", "a"},
		"a number, blanks":     {one + "a\n\n42\n\n\n", "a"},
		"nothing follows":      {one + "a\n\n\n", "a"},
		"no blank between":     {one + "a\n" + two, "a|last"},
	} {
		got, _, err := Read("a.srt", []byte(c.file))
		var text []string
		for _, q := range got.Cues {
			text = append(text, strings.ReplaceAll(q.Text, "\n", "/"))
		}
		if err != nil || strings.Join(text, "|") != c.want {
			t.Errorf("%s: %q, %v, want %s", name, text, err, c.want)
		}
	}
}

// TestHeldCues: captions that roll repeat a line for a moment; a cue of less than 0.05 s that
// says nothing new is only held. A cue of more says its words again for as long as it lasts, up
// to a pause of 1.5 s.
func TestHeldCues(t *testing.T) {
	said := func(list ...Cue) string {
		var out []string
		for _, w := range (Track{Cues: list}).Words() {
			out = append(out, fmt.Sprintf("%s %.2f-%.2f", w.Text, w.Start, w.End))
		}
		return strings.Join(out, "; ")
	}
	for name, c := range map[string]struct {
		list []Cue
		want string
	}{
		"at once again":      {[]Cue{{Text: "a b", Start: 1, End: 2}, {Text: "a b", Start: 2.04, End: 3}}, "a 1.00-2.00; b 1.00-3.00"},
		"a moment later":     {[]Cue{{Text: "a b", Start: 1, End: 2}, {Text: "c d e", Start: 2, End: 3}, {Text: "c d e", Start: 3.06, End: 4}}, "a 1.00-2.00; b 1.00-2.00; c 2.00-3.00; d 2.00-3.00; e 2.00-3.00; c 3.06-4.00; d 3.06-4.00; e 3.06-4.00"},
		"for long":           {[]Cue{{Text: "a b", Start: 1, End: 2}, {Text: "a b", Start: 2, End: 9}}, "a 1.00-2.00; b 1.00-3.50"},
		"rolling":            {[]Cue{{Text: "a b", Start: 1, End: 2}, {Text: "a b\nc d", Start: 2, End: 3}, {Text: "c d", Start: 3, End: 3.01}, {Text: "c d\ne", Start: 3.01, End: 4}}, "a 1.00-2.00; b 1.00-2.00; c 2.00-3.00; d 2.00-3.00; e 3.01-4.00"},
		"rolling and held":   {[]Cue{{Text: "a b\nc d", Start: 1, End: 2}, {Text: "b", Start: 2, End: 2.04}, {Text: "b\nc", Start: 2.04, End: 3}}, "a 1.00-2.00; b 1.00-2.00; c 1.00-2.00; d 1.00-2.00; c 2.04-3.00"},
		"three words again":  {[]Cue{{Text: "x a b c", Start: 1, End: 2}, {Text: "a b c y", Start: 2, End: 3}}, "x 1.00-2.00; a 1.00-2.00; b 1.00-2.00; c 1.00-2.00; a 2.00-3.00; b 2.00-3.00; c 2.00-3.00; y 2.00-3.00"},
		"four words again":   {[]Cue{{Text: "x a b c d", Start: 1, End: 2}, {Text: "a b c d y", Start: 2, End: 3}}, "x 1.00-2.00; a 1.00-2.00; b 1.00-2.00; c 1.00-2.00; d 1.00-2.00; y 2.00-3.00"},
		"its own times":      {[]Cue{{Text: "a b c", Start: 1, End: 2, Times: []Mark{{2, 1.4}, {4, 1.6}}}}, "a 1.00-1.40; b 1.40-1.60; c 1.60-2.00"},
		"times that go back": {[]Cue{{Text: "a b c", Start: 1, End: 2, Times: []Mark{{2, 1.6}, {4, 1.2}}}}, "a 1.00-1.60; b 1.60-2.00; c 1.60-2.00"},
		"times past the end": {[]Cue{{Text: "a b c", Start: 1, End: 2, Times: []Mark{{2, 2}, {4, 2.1}}}}, "a 1.00-2.00; b 2.00-2.00; c 2.00-2.00"},
		"an empty cue":       {[]Cue{{Text: " \n", Start: 0, End: 1}, {Text: "a", Start: 1, End: 2}}, "a 1.00-2.00"},
		"said twice, apart":  {[]Cue{{Text: "no", Start: 1, End: 2}, {Text: "no", Start: 5, End: 6}, {Text: "a", Start: 6, End: 7}, {Text: "b", Start: 7, End: 8}, {Text: "c", Start: 8, End: 9}}, "no 1.00-2.00; no 5.00-6.00; a 6.00-7.00; b 7.00-8.00; c 8.00-9.00"},
	} {
		if got := said(c.list...); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", name, got, c.want)
		}
	}
}

// TestMarksStayAtTheirWords: times inside a cue stay in front of their words when blanks, lines
// and tags around them go. A tag of a name or a class is markup; a "<" before anything else is
// a character (WebVTT 1, 4.2).
func TestMarksStayAtTheirWords(t *testing.T) {
	for raw, want := range map[string]string{
		"a <00:01.500>b":                 "a b [2 1.5]",
		"  a <00:01.500> b  ":            "a  b [2 1.5]",
		"\n  \n a\n <00:02.000> b":       "a/b [2 2]",
		"a<00:01.000>":                   "a [1 1]",
		"a  \n<00:01.000>b":              "a/b [2 1]",
		"<c.red>a</c> <b>b</b> <i.x.y>c": "a b c ",
		"<v.loud Sam>a</v> <v Pat>b":     "a b  by Sam",
		"a <1 b> c <3":                   "a <1 b> c <3 ",
		"<.red>a</>":                     "a ",
		"a <00:99.000>b":                 "a <00:99.000>b ",
		"&lt;b&gt; &amp;amp;\u00a0x":     "<b> &amp; x ",
		"a\u200e\u00adb\u2009c\td":       "ab c d ",
		`{\an8}a {b}`:                    "a {b} ",
	} {
		text, speaker, marks := plain(raw)
		got := strings.ReplaceAll(text, "\n", "/") + " "
		for _, m := range marks {
			got += fmt.Sprintf("[%d %v]", m.At, m.Second)
		}
		if speaker != "" {
			got += " by " + speaker
		}
		if got != want {
			t.Errorf("%q is %q, want %q", raw, got, want)
		}
	}
}
