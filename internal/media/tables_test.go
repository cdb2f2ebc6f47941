package media

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// on is a file of some bytes with its boxes.
func on(data []byte) (*file, []box) {
	f := &file{r: bytes.NewReader(data), size: int64(len(data))}
	return f, f.boxes(0, f.size)
}

func words(list ...uint32) (out []byte) {
	for _, v := range list {
		out = be.AppendUint32(out, v)
	}
	return out
}

// TestSampleSizes reads the sizes of five samples in each form of ISO/IEC 14496-12, 8.7.3: one
// size for all, sizes of 32 bits, and stz2 with 16, 8 and 4 bits, where a byte holds two sizes,
// the first in its upper half.
func TestSampleSizes(t *testing.T) {
	for name, c := range map[string]struct {
		table []byte
		want  []uint32
	}{
		"stsz, one size":       {full("stsz", 0, 0, words(7, 5)), []uint32{7, 7, 7, 7, 7}},
		"stsz":                 {full("stsz", 0, 0, words(0, 5, 1, 70_000, 3, 4, 5)), []uint32{1, 70_000, 3, 4, 5}},
		"stsz, no samples":     {full("stsz", 0, 0, words(0, 0)), []uint32{}},
		"stz2, 16 bits":        {full("stz2", 0, 0, words(16, 5), []byte{0, 1, 1, 0, 0, 3, 0, 4, 0, 5}), []uint32{1, 256, 3, 4, 5}},
		"stz2, 8 bits":         {full("stz2", 0, 0, words(8, 5), []byte{1, 200, 3, 4, 5}), []uint32{1, 200, 3, 4, 5}},
		"stz2, 4 bits":         {full("stz2", 0, 0, words(4, 5), []byte{0x1f, 0x34, 0x50}), []uint32{1, 15, 3, 4, 5}},
		"stz2, 4 bits, 6 of 6": {full("stz2", 0, 0, words(4, 6), []byte{0x1f, 0x34, 0x5a}), []uint32{1, 15, 3, 4, 5, 10}},
		"a byte is missing":    {full("stsz", 0, 0, words(0, 2, 1), []byte{0, 0, 0}), nil},
		"half a byte is":       {full("stz2", 0, 0, words(4, 7), []byte{1, 2, 3}), nil},
		"5 bits":               {full("stz2", 0, 0, words(5, 1), []byte{1, 2, 3}), nil},
		"no count":             {full("stsz", 0, 0, words(0)), nil},
		"too many":             {full("stsz", 0, 0, words(1, maxSamples+1)), nil},
		"as many as can be":    {full("stsz", 0, 0, words(1, maxSamples)), slices.Repeat([]uint32{1}, maxSamples)},
	} {
		f, list := on(c.table)
		got, err := f.sampleSizes(list)
		if (err != nil) != (c.want == nil) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		sizes := make([]uint32, len(got))
		for i, s := range got {
			sizes[i] = s.n
		}
		if c.want != nil && !slices.Equal(sizes, c.want) {
			t.Errorf("%s: %v", name, sizes)
		}
	}
}

// index is a table of samples as ISO/IEC 14496-12 describes it, worked by hand: three chunks at
// 100, 200 and 300 with 2, 2 and 1 samples, the last of them after the second description.
// Parts by their kind replace others; an empty one takes the box away.
func index(replace map[string][]byte) []byte {
	var out []byte
	for _, b := range [][2]any{
		{"stsz", full("stsz", 0, 0, words(0, 5, 10, 20, 30, 40, 50))},
		{"stsc", full("stsc", 0, 0, words(2, 1, 2, 1, 3, 1, 2))},
		{"stco", full("stco", 0, 0, words(3, 100, 200, 300))},
		{"stts", full("stts", 0, 0, words(2, 3, 11, 2, 12))},
		{"ctts", full("ctts", 1, 0, words(2, 1, 5, 4, 0xffff_fffe))},
		{"stss", full("stss", 0, 0, words(2, 1, 4))},
	} {
		data := b[1].([]byte)
		if r, ok := replace[b[0].(string)]; ok {
			data = r
		}
		out = append(out, data...)
	}
	return out
}

func TestIndex(t *testing.T) {
	const whole = "100+10 11/5 0!; 110+20 11/-2 0; 200+30 11/-2 0; 230+40 12/-2 0!; 300+50 12/-2 1"
	for name, c := range map[string]struct {
		replace map[string][]byte
		want    string
	}{
		"whole":             {nil, whole},
		"places of 64 bits": {map[string][]byte{"stco": full("co64", 0, 0, words(3, 0, 100, 0, 200, 1, 300))}, "100+10 11/5 0!; 110+20 11/-2 0; 200+30 11/-2 0; 230+40 12/-2 0!; 4294967596+50 12/-2 1"},
		"no shifts":         {map[string][]byte{"ctts": nil}, "100+10 11/0 0!; 110+20 11/0 0; 200+30 11/0 0; 230+40 12/0 0!; 300+50 12/0 1"},
		"each can begin":    {map[string][]byte{"stss": nil}, "100+10 11/5 0!; 110+20 11/-2 0!; 200+30 11/-2 0!; 230+40 12/-2 0!; 300+50 12/-2 1!"},
		"none can begin":    {map[string][]byte{"stss": full("stss", 0, 0, words(0))}, "100+10 11/5 0; 110+20 11/-2 0; 200+30 11/-2 0; 230+40 12/-2 0; 300+50 12/-2 1"},
		"times go on":       {map[string][]byte{"stts": full("stts", 0, 0, words(3, 3, 11, 2, 12, 9, 13))}, whole},
		"no times":          {map[string][]byte{"stts": nil}, ""},
		"four times":        {map[string][]byte{"stts": full("stts", 0, 0, words(1, 4, 11))}, ""},
		"half a time":       {map[string][]byte{"stts": full("stts", 0, 0, words(1, 5))}, ""},
		"times of nothing":  {map[string][]byte{"stts": full("stts", 0, 0)}, ""},
		"shifts of four":    {map[string][]byte{"ctts": full("ctts", 0, 0, words(1, 4, 0))}, ""},
		"no chunks":         {map[string][]byte{"stsc": nil}, ""},
		"no places":         {map[string][]byte{"stco": nil}, ""},
		"two places":        {map[string][]byte{"stco": full("stco", 0, 0, words(2, 100, 200))}, ""},
		"a place too few":   {map[string][]byte{"stco": full("stco", 0, 0, words(3, 100, 200))}, ""},
		"a place past all":  {map[string][]byte{"stco": full("co64", 0, 0, words(3, 0, 100, 0, 200, 1<<30, 1))}, ""},
		"a start of 0":      {map[string][]byte{"stss": full("stss", 0, 0, words(1, 0))}, ""},
		"a start of 5":      {map[string][]byte{"stss": full("stss", 0, 0, words(2, 1, 5))}, "100+10 11/5 0!; 110+20 11/-2 0; 200+30 11/-2 0; 230+40 12/-2 0; 300+50 12/-2 1!"},
		"a start of 6":      {map[string][]byte{"stss": full("stss", 0, 0, words(2, 1, 6))}, ""},
		"half a start":      {map[string][]byte{"stss": full("stss", 0, 0, words(2, 1), []byte{0, 0, 0})}, ""},
		"chunk 0":           {map[string][]byte{"stsc": full("stsc", 0, 0, words(1, 0, 5, 1))}, ""},
		"rows go back":      {map[string][]byte{"stsc": full("stsc", 0, 0, words(2, 2, 2, 1, 2, 3, 1))}, ""},
		"a chunk too many":  {map[string][]byte{"stsc": full("stsc", 0, 0, words(2, 1, 2, 1, 5, 1, 1))}, ""},
		"no row":            {map[string][]byte{"stsc": full("stsc", 0, 0, words(0))}, ""},
		"half a row":        {map[string][]byte{"stsc": full("stsc", 0, 0, words(1, 1, 2))}, ""},
		"all in the first":  {map[string][]byte{"stsc": full("stsc", 0, 0, words(1, 1, 5, 1))}, "100+10 11/5 0!; 110+20 11/-2 0; 130+30 11/-2 0; 160+40 12/-2 0!; 200+50 12/-2 0"},
		"six in the first":  {map[string][]byte{"stsc": full("stsc", 0, 0, words(1, 1, 6, 1))}, ""},
		"description 0":     {map[string][]byte{"stsc": full("stsc", 0, 0, words(1, 1, 5, 0))}, ""},
		"description 32768": {map[string][]byte{"stsc": full("stsc", 0, 0, words(1, 1, 5, 1<<15))}, "100+10 11/5 32767!; 110+20 11/-2 32767; 130+30 11/-2 32767; 160+40 12/-2 32767!; 200+50 12/-2 32767"},
		"description 32769": {map[string][]byte{"stsc": full("stsc", 0, 0, words(1, 1, 5, 1<<15+1))}, ""},
	} {
		f, list := on(index(c.replace))
		got, err := f.samples(list)
		if (err != nil) != (c.want == "") {
			t.Errorf("%s: %v, %s", name, err, listed(got))
			continue
		}
		if err == nil && listed(got) != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", name, listed(got), c.want)
		}
	}
}

// listed are samples as "place+size lasts/shift description", with ! where playing can begin.
func listed(list []sample) string {
	var b bytes.Buffer
	for i, s := range list {
		if i > 0 {
			b.WriteString("; ")
		}
		fmt.Fprintf(&b, "%d+%d %d/%d %d", s.at, s.n, s.lasts, s.shift, s.look)
		if s.whole {
			b.WriteString("!")
		}
	}
	return b.String()
}

// TestTablesReadBack: what is written of any samples reads back as these samples.
func TestTablesReadBack(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		var list []sample
		var chunks []chunk
		at, starts := int64(1000), r.IntN(3)
		for range 1 + r.IntN(6) {
			c := chunk{at: at, samples: uint32(1 + r.IntN(3)), look: uint16(r.IntN(2))}
			for range c.samples {
				s := sample{at: at, n: uint32(r.IntN(3) * 50), lasts: uint32(1 + r.IntN(2)), look: c.look, whole: starts > 1 || starts == 1 && r.IntN(2) == 0}
				if starts > 0 {
					s.shift = int32(r.IntN(3) - 1)
				}
				list = append(list, s)
				at += int64(s.n)
			}
			chunks = append(chunks, c)
			at += int64(r.IntN(2) * 77)
		}
		wide := r.IntN(2) == 0
		if wide {
			for i := range list {
				list[i].at += 1 << 33
			}
			for i := range chunks {
				chunks[i].at += 1 << 33
			}
		}
		for _, quickTime := range []bool{false, true} {
			f, tables := on(tablesOf(list, chunks, quickTime, true, wide))
			got, err := f.samples(tables)
			if err != nil || !slices.Equal(got, list) {
				t.Fatalf("%v\n%s\nbecame\n%s", err, listed(list), listed(got))
			}
			// Version 1 of ctts is for shifts below 0; QuickTime has no version 1 (8.6.1.3).
			back := slices.ContainsFunc(list, func(s sample) bool { return s.shift < 0 })
			if b := child(tables, "ctts"); b != nil && (f.bytes(b.at, 1)[0] == 1) != (back && !quickTime) {
				t.Errorf("version %d of ctts, QuickTime is %v, shifts back %v", f.bytes(b.at, 1)[0], quickTime, back)
			}
		}
		// Every piece of sound is whole: no table says so.
		if _, tables := on(tablesOf(list, chunks, false, false, wide)); child(tables, "stss") != nil {
			t.Error("sound has a table of where it can begin")
		}
	}
}

// TestFragments reads runs of samples that fragments list (ISO/IEC 14496-12, 8.8.3 to 8.8.8):
// a value is that of the sample, or of the track's fragment, or of the track. The flags are those
// of the standard: tfhd 000001 base, 000002 description, 000008 duration, 000010 size, 000020
// flags, 020000 base is moof; trun 000001 offset, 000004 first flags, 000100 duration, 000200
// size, 000400 flags, 000800 shift.
func TestFragments(t *testing.T) {
	const notFirst = 0x10000
	trex := full("trex", 0, 0, words(7, 1, 100, 10, notFirst))
	run := func(flags uint32, list ...uint32) []byte { return full("trun", 1, flags, words(list...)) }
	head := func(flags uint32, list ...uint32) []byte { return full("tfhd", 0, flags, words(list...)) }
	for name, c := range map[string]struct {
		traf [][]byte // one content for each track's part
		want string
	}{
		"all from the track":      {[][]byte{slices.Concat(head(0x20000, 7), run(1, 2, 500))}, "500+10 100/0 0; 510+10 100/0 0"},
		"from the fragment":       {[][]byte{slices.Concat(head(0x2003a, 7, 2, 90, 20, 0), run(1, 2, 500))}, "500+20 90/0 1!; 520+20 90/0 1!"},
		"from the samples":        {[][]byte{slices.Concat(head(0x20000, 7), run(0xf01, 2, 500, 80, 30, 0, 5, 81, 31, notFirst, 0xffff_ffff))}, "500+30 80/5 0!; 530+31 81/-1 0"},
		"the first is another":    {[][]byte{slices.Concat(head(0x20000, 7), run(5, 2, 500, 0))}, "500+10 100/0 0!; 510+10 100/0 0"},
		"a base":                  {[][]byte{slices.Concat(head(1, 7, 0, 700), run(1, 1, 5))}, "705+10 100/0 0"},
		"a base and no offset":    {[][]byte{slices.Concat(head(1, 7, 0, 700), run(0, 1))}, "700+10 100/0 0"},
		"an offset back":          {[][]byte{slices.Concat(head(1, 7, 0, 700), run(1, 1, 0xffff_fffb))}, "695+10 100/0 0"},
		"two runs":                {[][]byte{slices.Concat(head(0x20000, 7), run(1, 1, 500), run(0, 1), run(1, 1, 600))}, "500+10 100/0 0; 510+10 100/0 0; 600+10 100/0 0"},
		"after another track":     {[][]byte{slices.Concat(head(0x20018, 9, 1, 33), run(1, 2, 500)), slices.Concat(head(0, 7), run(0, 1))}, ""},
		"after another, with all": {[][]byte{slices.Concat(head(0x2001a, 9, 1, 1, 33), run(1, 2, 500)), slices.Concat(head(0, 7), run(0, 1))}, "566+10 100/0 0"},
		"no description":          {[][]byte{slices.Concat(head(0x20002, 7, 0), run(1, 1, 500))}, ""},
		"description 32768":       {[][]byte{slices.Concat(head(0x20002, 7, 1<<15), run(1, 1, 500))}, "500+10 100/0 32767"},
		"description 32769":       {[][]byte{slices.Concat(head(0x20002, 7, 1<<15+1), run(1, 1, 500))}, ""},
		"a word is missing":       {[][]byte{slices.Concat(head(0x20002, 7), run(1, 1, 500))}, ""},
		"a sample is missing":     {[][]byte{slices.Concat(head(0x20000, 7), run(0x101, 2, 500, 80))}, ""},
		"before the file":         {[][]byte{slices.Concat(head(0x20000, 7), run(1, 1, 0xffff_ffff))}, ""},
		"past the file":           {[][]byte{slices.Concat(head(0x20000, 7), run(1, 1, 5000))}, ""},
		"at the end of the file":  {[][]byte{slices.Concat(head(0x20000, 7), run(1, 1, 2000))}, "2000+10 100/0 0"},
		"too many":                {[][]byte{slices.Concat(head(0x20000, 7), run(1, maxSamples+1, 500))}, ""},
		"no head":                 {[][]byte{run(1, 1, 500)}, ""},
	} {
		var parts [][]byte
		for _, p := range c.traf {
			parts = append(parts, boxed("traf", p))
		}
		data := slices.Concat(boxed("moof", parts...), boxed("mvex", trex))
		f, top := on(append(data, make([]byte, 2000-len(data))...))
		tr := &track{id: 7}
		err := f.fragments(top, top[1:2], []*track{tr})
		if (err != nil) != (c.want == "") {
			t.Errorf("%s: %v, %s", name, err, listed(tr.samples))
		} else if err == nil && listed(tr.samples) != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", name, listed(tr.samples), c.want)
		}
	}
}

// TestBoxes reads the three ways to write a size (4.2): a word, 0 for the rest, 1 for 64 bits.
func TestBoxes(t *testing.T) {
	plain := boxed("aaaa", []byte("12"))
	long := slices.Concat(words(1), []byte("bbbb"), words(0, 19), []byte("123"))
	rest := slices.Concat(words(0), []byte("cccc"), []byte("all of it"))
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"each":             {slices.Concat(plain, long, rest), "aaaa 0-8-10; bbbb 10-26-29; cccc 29-37-46; "},
		"empty":            {boxed("aaaa"), "aaaa 0-8-8; "},
		"seven bytes":      {plain[:7], ""},
		"past the end":     {slices.Concat(plain, plain[:8]), "aaaa 0-8-10; aaaa 10-18-20; "},
		"too small":        {slices.Concat(plain, words(7), []byte("bbbb"), plain), "aaaa 0-8-10; "},
		"too small, long":  {slices.Concat(words(1), []byte("bbbb"), words(0, 15), []byte("123")), ""},
		"long and cut off": {long[:15], ""},
		"without end":      {slices.Concat(words(1), []byte("bbbb"), words(1<<30, 1), plain), ""},
	} {
		_, list := on(c.data)
		got := ""
		for _, b := range list {
			got += fmt.Sprintf("%s %d-%d-%d; ", b.kind, b.head, b.at, b.end)
		}
		if got != c.want {
			t.Errorf("%s: %s, want %s", name, got, c.want)
		}
	}
}

// TestHeaders reads headers and edits of version 0 and of version 1, which has longer times
// (8.2.2, 8.6.6), and leaves out what follows.
func TestHeaders(t *testing.T) {
	for name, c := range map[string]struct {
		data []byte
		want int
	}{
		"version 0":       {full("mvhd", 0, 0, make([]byte, 96), []byte("more")), 100},
		"version 1":       {full("mvhd", 1, 0, make([]byte, 108), []byte("more")), 112},
		"version 2":       {full("mvhd", 2, 0, make([]byte, 108)), 0},
		"version 0 short": {full("mvhd", 0, 0, make([]byte, 95)), 0},
		"version 1 short": {full("mvhd", 1, 0, make([]byte, 107)), 0},
		"nothing":         {boxed("mvhd"), 0},
	} {
		f, list := on(c.data)
		if got, err := f.header(&list[0], 100, 112); len(got) != c.want || (err != nil) != (c.want == 0) {
			t.Errorf("%s: %d bytes, %v", name, len(got), err)
		}
	}
	// Each entry shows one unit of time, from where the one before ended.
	entries := func(version byte, n uint32) (out []byte) {
		for i := range n {
			if version == 1 {
				out = append(out, words(0, 1, 0, i, 1<<16)...)
			} else {
				out = append(out, words(1, i, 1<<16)...)
			}
		}
		return out
	}
	for name, c := range map[string]struct {
		data []byte
		want uint64 // units of time that are shown, 0 for an error
	}{
		"version 0":      {full("elst", 0, 0, words(2), entries(0, 2), []byte("more")), 2},
		"version 1":      {full("elst", 1, 0, words(2), entries(1, 2), []byte("more")), 2},
		"none":           {full("elst", 0, 0, words(0)), 0},
		"one is cut off": {full("elst", 0, 0, words(2), entries(0, 2)[:23]), 0},
		"4096":           {full("elst", 0, 0, words(4096), entries(0, 4096)), 4096},
		"4097":           {full("elst", 0, 0, words(4097), entries(0, 4097)), 0},
		"no count":       {full("elst", 0, 0), 0},
		"a gap":          {full("elst", 0, 0, words(2), words(1, 0, 1<<16, 1, 9, 1<<16)), 0},
		"slow motion":    {full("elst", 0, 0, words(1), words(1, 0, 1<<15)), 0},
	} {
		f, list := on(c.data)
		if got, err := f.edits(&list[0], 1, 1); (err != nil) != (c.want == 0) || err == nil && got.length != c.want {
			t.Errorf("edits, %s: %+v, %v", name, got, err)
		}
	}
	// How long it plays: the scale, then the duration; all ones are a time that is not known.
	ones := uint32(0xffff_ffff)
	for name, c := range map[string]struct {
		data []byte
		want float64
	}{
		"version 0":          {words(0, 0, 0, 600, 1500, 0, 0, 0), 2.5},
		"version 1":          {words(1<<24, 0, 0, 0, 0, 600, 0, 1500), 2.5},
		"version 0, unknown": {words(0, 0, 0, 600, ones, 0, 0, 0), 0},
		"version 1, unknown": {words(1<<24, 0, 0, 0, 0, 600, ones, ones), 0},
		"no scale":           {words(0, 0, 0, 0, 1500, 0, 0, 0), 0},
		"a million seconds":  {words(0, 0, 0, 1, 1_000_000, 0, 0, 0), 1e6},
		"a second more":      {words(0, 0, 0, 1, 1_000_001, 0, 0, 0), 0},
		"cut off":            {words(0, 0, 0, 600, 1500, 0, 0), 0},
	} {
		if got := seconds(c.data); got != c.want {
			t.Errorf("%s: %v s", name, got)
		}
	}
	// The size is in numbers of 16.16 bits after the matrix, whose first number is 0 for a
	// picture on its side (8.3.2).
	size := func(version byte, length, first int) []byte {
		b := make([]byte, length)
		at := 76
		if b[0] = version; version == 1 {
			at = 88
		}
		if length >= at+8 {
			be.PutUint32(b[at:], 640<<16)
			be.PutUint32(b[at+4:], 360<<16)
			be.PutUint32(b[at-36:], uint32(first))
		}
		return b
	}
	for name, c := range map[string]struct {
		data       []byte
		wide, high int
	}{
		"version 0": {size(0, 84, 1<<16), 640, 360}, "on its side": {size(0, 84, 0), 360, 640},
		"version 1": {size(1, 96, 1<<16), 640, 360}, "version 1 on its side": {size(1, 96, 0), 360, 640},
		"short": {size(0, 83, 1), 0, 0}, "version 1 short": {size(1, 95, 1), 0, 0},
	} {
		if wide, high := seenSize(c.data); wide != c.wide || high != c.high {
			t.Errorf("%s: %d x %d", name, wide, high)
		}
	}
}
