package media

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	jpegs "image/jpeg"
	"slices"
	"strings"
	"testing"
)

func photo(data []byte) Photo { return LookAtPhoto(bytes.NewReader(data), int64(len(data))) }

// TestOtherPictures names what is not read, and says whether it moves. The GIFs are Go's own
// encoder's, with color tables of the picture and of the file.
func TestOtherPictures(t *testing.T) {
	animation := func(frames int, colors ...color.Palette) []byte {
		g := &gif.GIF{}
		for i := range frames {
			m := image.NewPaletted(image.Rect(0, 0, 400, 300), colors[i%len(colors)])
			for j := range m.Pix {
				m.Pix[j] = uint8(j * j % len(m.Palette))
			}
			g.Image, g.Delay = append(g.Image, m), append(g.Delay, 10)
		}
		var b bytes.Buffer
		if err := gif.EncodeAll(&b, g); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	two, gray := color.Palette{color.Black, color.White}, make(color.Palette, 256)
	for i := range gray {
		gray[i] = color.Gray{Y: uint8(i)}
	}
	still, moves := animation(1, gray), animation(2, two, gray)
	for name, c := range map[string]struct {
		data  []byte
		kind  string
		moves bool
	}{
		"GIF":                   {still, "GIF", false},
		"GIF of two":            {animation(2, gray), "GIF", true},
		"tables of its own":     {moves, "GIF", true},
		"the second is cut off": {animation(2, gray)[:5000], "GIF", false},
		"a GIF's head":          {still[:13], "GIF", false},
		"less than a head":      {[]byte("GIF89a\x01"), "GIF", false},
		"HEIC":                  {[]byte("\x00\x00\x00\x18ftypheic\x00\x00"), "HEIC", false},
		"AVIF":                  {[]byte("\x00\x00\x00\x18ftypavif\x00\x00"), "AVIF", false},
		"AVIF that moves":       {[]byte("\x00\x00\x00\x18ftypavis\x00\x00"), "AVIF", true},
		"a video":               {[]byte("\x00\x00\x00\x18ftypisom\x00\x00"), "", false},
		"a brand cut off":       {[]byte("\x00\x00\x00\x18ftyphei"), "", false},
		"TIFF":                  {[]byte("II*\x00\x08\x00\x00\x00"), "TIFF or raw", false},
		"TIFF the other way":    {[]byte("MM\x00*\x00\x00\x00\x08"), "TIFF or raw", false},
		"BMP":                   {[]byte("BM123456"), "BMP", false},
		"JPEG XL":               {[]byte("\xff\x0a123"), "JPEG XL", false},
		"JPEG XL in boxes":      {[]byte("\x00\x00\x00\x0cJXL \r\n\x87\n"), "JPEG XL", false},
		"a page":                {[]byte("<!doctype html>"), "", false},
		"nothing":               {nil, "", false},
		"a wave file":           {[]byte("RIFF\x00\x00\x00\x00WAVEfmt "), "", false},
	} {
		p := photo(c.data)
		if p.Kind != c.kind || p.Moves != c.moves || p.Fault == "" || p.TooLarge() {
			t.Errorf("%s: %+v", name, p)
		}
		if article := " a " + c.kind; c.kind == "AVIF" && !strings.Contains(p.Fault, "an AVIF") || c.kind != "" && c.kind != "AVIF" && !strings.Contains(p.Fault, article) {
			t.Errorf("%s: %s", name, p.Fault)
		}
	}
}

// segment is a marker with content (T.81, B.1.1.4: the length counts itself).
func segment(marker byte, content ...byte) []byte {
	n := len(content) + 2
	return append([]byte{0xff, marker, byte(n >> 8), byte(n)}, content...)
}

// TestJPEGSegments reads heads made by hand after T.81, B.1 and B.2.
func TestJPEGSegments(t *testing.T) {
	frame := func(marker byte, bits byte) []byte {
		return segment(marker, bits, 0, 48, 0, 64, 3, 1, 0x22, 0, 2, 0x11, 1, 3, 0x11, 1)
	}
	scan := segment(0xda, 1, 1, 0, 0, 63, 0)
	end := []byte{1, 2, 0xff, 0, 3, 0xff, 0xd0, 4, 0xff, 0xd9}
	icc := func(number, of byte, text string) []byte {
		return segment(0xe2, append(append([]byte("ICC_PROFILE\x00"), number, of), text...)...)
	}
	good := slices.Concat(frame(0xc0, 8), scan, end)
	for name, c := range map[string]struct {
		parts [][]byte
		want  string // of the fault; empty for none
		check func(p Photo) bool
	}{
		"baseline":          {[][]byte{good}, "", func(p Photo) bool { return p.Need == 64*48*3/2 && p.Bits == 8 && p.Profile == nil }},
		"extended":          {[][]byte{frame(0xc1, 8), scan, end}, "", func(p Photo) bool { return p.Need == 64*48*3/2 }},
		"progressive":       {[][]byte{frame(0xc2, 8), scan, end}, "", func(p Photo) bool { return p.Need == 5*64*48*3/2 }},
		"lossless":          {[][]byte{frame(0xc3, 8), scan, end}, "rare kind", nil},
		"arithmetic":        {[][]byte{frame(0xc9, 8), scan, end}, "rare kind", nil},
		"arithmetic, last":  {[][]byte{frame(0xcf, 8), scan, end}, "rare kind", nil},
		"12 bits":           {[][]byte{frame(0xc1, 12), scan, end}, "12 bits", nil},
		"16 bits":           {[][]byte{frame(0xc1, 16), scan, end}, "rare kind", nil},
		"tables first":      {[][]byte{segment(0xc4, 1, 2, 3), segment(0xc8, 1), segment(0xcc, 1), good}, "", func(p Photo) bool { return p.Wide == 64 }},
		"fill bytes":        {[][]byte{{0xff, 0xff}, good}, "", func(p Photo) bool { return p.Wide == 64 }},
		"markers alone":     {[][]byte{{0xff, 0x01, 0xff, 0xd0, 0xff, 0xd7}, good}, "", func(p Photo) bool { return p.Wide == 64 }},
		"no frame":          {[][]byte{scan, end}, "data begin before", nil},
		"no picture":        {[][]byte{frame(0xc0, 8), {0xff, 0xd9, 0, 2}}, "no picture", nil},
		"a length of 1":     {[][]byte{{0xff, 0xe0, 0, 1}, good}, "cut off", nil},
		"an empty segment":  {[][]byte{segment(0xe0), good}, "", func(p Photo) bool { return p.Wide == 64 }},
		"past the end":      {[][]byte{{0xff, 0xe0, 0x7f, 0xff}, good}, "cut off", nil},
		"not a marker":      {[][]byte{segment(0xe0), {0, 0xe0, 0, 2}, good}, "does not end", nil},
		"no end":            {[][]byte{frame(0xc0, 8), scan, end[:len(end)-1]}, "end of the picture", nil},
		"a short frame":     {[][]byte{segment(0xc0, 8, 0, 48, 0, 64, 3, 1, 0x22, 0, 2, 0x11, 1, 3, 0x11), scan, end}, "too short", nil},
		"no parts":          {[][]byte{segment(0xc0, 8, 0, 48, 0), scan, end}, "too short", nil},
		"no colors":         {[][]byte{segment(0xc0, 8, 0, 48, 0, 64, 0), scan, end}, "0 colors", nil},
		"two colors":        {[][]byte{segment(0xc0, 8, 0, 48, 0, 64, 2, 1, 0x22, 0, 2, 0x11, 1), scan, end}, "2 colors", nil},
		"five colors":       {[][]byte{segment(0xc0, append([]byte{8, 0, 48, 0, 64, 5}, make([]byte, 15)...)...), scan, end}, "5 colors", nil},
		"no sampling":       {[][]byte{segment(0xc0, 8, 0, 48, 0, 64, 1, 1, 0, 0), scan, end}, "", func(p Photo) bool { return p.Need == 64*48*4 }},
		"no width":          {[][]byte{segment(0xc0, 8, 0, 48, 0, 0, 1, 1, 0x11, 0), scan, end}, "how large", nil},
		"no height":         {[][]byte{segment(0xc0, 8, 0, 0, 0, 64, 1, 1, 0x11, 0), scan, end}, "how large", nil},
		"a profile":         {[][]byte{icc(1, 1, "colors"), good}, "", func(p Photo) bool { return string(p.Profile) == "colors" }},
		"in two chunks":     {[][]byte{icc(2, 2, "ors"), icc(1, 2, "col"), good}, "", func(p Photo) bool { return string(p.Profile) == "colors" }},
		"another profile":   {[][]byte{segment(0xe2, []byte("MPF\x00ICC_PROFILE\x00\x01\x01colors")...), good}, "", func(p Photo) bool { return p.Profile == nil }},
		"an empty profile":  {[][]byte{icc(1, 1, ""), good}, "", func(p Photo) bool { return p.Profile == nil }},
		"too many profiles": {[][]byte{bytes.Repeat(icc(1, 1, strings.Repeat("x", 60<<10)), 17), icc(1, 1, strings.Repeat("y", 60<<10)), good}, "", func(p Photo) bool { return p.Profile[0] == 'x' }},
		"EXIF":              {[][]byte{segment(0xe1, []byte("Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00")...), good}, "", func(p Photo) bool { return p.Turn == 6 }},
		"XMP":               {[][]byte{segment(0xe1, []byte("http://ns.adobe.com/xap/1.0/\x00")...), good}, "", func(p Photo) bool { return p.Turn == 1 }},
		"more after it":     {[][]byte{good, []byte("a movie \xff\xda")}, "", func(p Photo) bool { return p.Wide == 64 }},
	} {
		p := photo(slices.Concat(append([][]byte{{0xff, 0xd8}}, c.parts...)...))
		if c.want == "" && (p.Fault != "" || !c.check(p)) || c.want != "" && !strings.Contains(p.Fault, c.want) {
			t.Errorf("%s: %+v", name, p)
		}
	}
}

// TestScans counts the scans of a progressive picture, and refuses one that would take minutes:
// more than 3 x 2^30 pixels, each scan counted.
func TestScans(t *testing.T) {
	made := func(wide, high, scans int, apart int) []byte {
		b := append([]byte{0xff, 0xd8}, segment(0xc2, 8, byte(high>>8), byte(high), byte(wide>>8), byte(wide), 1, 1, 0x11, 0)...)
		for range scans {
			b = append(append(b, segment(0xda, 1, 1, 0, 0, 63, 0)...), make([]byte, apart)...)
		}
		return append(b, 0xff, 0xd9)
	}
	// 16384 x 16384 pixels are 2^28: twelve scans are 3 x 2^30.
	for scans, refused := range map[int]bool{1: false, 12: false, 13: true} {
		if p := photo(made(16384, 16384, scans, 1)); (p.Fault != "") != refused || refused && !strings.Contains(p.Fault, "16384 x 16384 pixels 13 times") {
			t.Errorf("%d scans: %s", scans, p.Fault)
		}
	}
	// Data of more than a window of 64 KB, with marks at every place near its edge.
	for apart := 65_500; apart < 65_540; apart++ {
		data := made(16384, 16384, 13, apart)
		if p := photo(data); !strings.Contains(p.Fault, "13 times") {
			t.Fatalf("scans %d apart: %s", apart, p.Fault)
		}
		f := &file{r: bytes.NewReader(data), size: int64(len(data) - 1)}
		if n, ends := f.scans(20); ends || n < 13 {
			t.Fatalf("scans %d apart without an end: %d, %v", apart, n, ends)
		}
	}
}

// TestTurnOfTIFF reads the orientation from directories made by hand (EXIF 2.32, 4.6.2).
func TestTurnOfTIFF(t *testing.T) {
	entry := func(tag, kind, v uint16) []byte {
		le := binary.LittleEndian
		return le.AppendUint32(le.AppendUint32(le.AppendUint16(le.AppendUint16(nil, tag), kind), 1), uint32(v))
	}
	tiff := func(at byte, n byte, parts ...[]byte) []byte {
		return append(append([]byte{'I', 'I', 42, 0, at, 0, 0, 0}, make([]byte, at-8)...), append([]byte{n, 0}, slices.Concat(parts...)...)...)
	}
	for name, c := range map[string]struct {
		data []byte
		want int
	}{
		"first":                {tiff(8, 1, entry(0x112, 3, 6)), 6},
		"second":               {tiff(8, 2, entry(0x10f, 2, 6), entry(0x112, 3, 8)), 8},
		"after a gap":          {tiff(9, 1, entry(0x112, 3, 3)), 3},
		"not counted":          {tiff(8, 1, entry(0x10f, 2, 6), entry(0x112, 3, 8)), 1},
		"cut off":              {tiff(8, 1, entry(0x112, 3, 6)[:11]), 1},
		"not a short":          {tiff(8, 1, entry(0x112, 4, 6)), 1},
		"0":                    {tiff(8, 1, entry(0x112, 3, 0)), 1},
		"9":                    {tiff(8, 1, entry(0x112, 3, 9)), 1},
		"the first one counts": {tiff(8, 2, entry(0x112, 3, 9), entry(0x112, 3, 6)), 1},
		"no directory":         {[]byte{'I', 'I', 42, 0, 8, 0, 0, 0}, 1},
		"one byte of it":       {[]byte{'I', 'I', 42, 0, 8, 0, 0, 0, 1}, 1},
		"inside the head":      {[]byte{'I', 'I', 42, 0, 7, 0, 0, 0, 1, 0, 0x12, 1, 3, 0, 1, 0, 0, 0, 6, 0, 0, 0}, 1},
		"another order":        {append([]byte{'X', 'X'}, tiff(8, 1, entry(0x112, 3, 6))[2:]...), 1},
		"seven bytes":          {[]byte{'I', 'I', 42, 0, 8, 0, 0}, 1},
	} {
		if got := turn(c.data); got != c.want {
			t.Errorf("%s: %d", name, got)
		}
	}
}

// chunk of a PNG (PNG 3rd edition, 5.3).
func pngChunk(kind string, data []byte) []byte {
	b := append(binary.BigEndian.AppendUint32(nil, uint32(len(data))), kind...)
	return binary.BigEndian.AppendUint32(append(b, data...), crc32.ChecksumIEEE(append([]byte(kind), data...)))
}

func TestPNGChunks(t *testing.T) {
	head := func(wide, high uint32, bits, interlaced byte) []byte {
		return pngChunk("IHDR", append(binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, wide), high), bits, 6, 0, 0, interlaced))
	}
	end := pngChunk("IEND", nil)
	turned := pngChunk("eXIf", []byte("II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00"))
	for name, c := range map[string]struct {
		parts [][]byte
		want  string
		check func(p Photo) bool
	}{
		"plain":             {[][]byte{head(60, 40, 8, 0), end}, "", func(p Photo) bool { return p.Need == 60*40*4 && p.Wide == 60 && p.High == 40 && !p.Moves }},
		"16 bits":           {[][]byte{head(60, 40, 16, 0), end}, "", func(p Photo) bool { return p.Need == 60*40*8 && p.Bits == 16 }},
		"interlaced":        {[][]byte{head(60, 40, 8, 1), end}, "", func(p Photo) bool { return p.Need == 60*40*8 }},
		"16, interlaced":    {[][]byte{head(60, 40, 16, 1), end}, "", func(p Photo) bool { return p.Need == 60*40*16 }},
		"moves":             {[][]byte{head(60, 40, 8, 0), pngChunk("acTL", make([]byte, 8)), end}, "", func(p Photo) bool { return p.Moves }},
		"turned":            {[][]byte{head(60, 40, 8, 0), turned, end}, "", func(p Photo) bool { return p.Turn == 6 }},
		"the largest":       {[][]byte{head(1<<31-1, 1, 8, 0), end}, "", func(p Photo) bool { return p.TooLarge() }},
		"too wide":          {[][]byte{head(1<<31, 1, 8, 0), end}, "size", nil},
		"too high":          {[][]byte{head(1, 1<<31, 8, 0), end}, "size", nil},
		"no width":          {[][]byte{head(0, 1, 8, 0), end}, "how large", nil},
		"no head":           {[][]byte{pngChunk("tEXt", make([]byte, 13)), head(60, 40, 8, 0), end}, "head is missing", nil},
		"a head of 12":      {[][]byte{pngChunk("IHDR", make([]byte, 12)), end}, "head is missing", nil},
		"no end":            {[][]byte{head(60, 40, 8, 0)}, "cut off", nil},
		"its end is cut":    {[][]byte{head(60, 40, 8, 0), end[:11]}, "cut off", nil},
		"many parts":        {[][]byte{head(60, 40, 8, 0), bytes.Repeat(pngChunk("tEXt", nil), maxSteps), end}, "too many", nil},
		"as many as can be": {[][]byte{head(60, 40, 8, 0), bytes.Repeat(pngChunk("tEXt", nil), maxSteps-2), end}, "", func(p Photo) bool { return p.Wide == 60 }},
	} {
		p := photo(slices.Concat(append([][]byte{[]byte("\x89PNG\r\n\x1a\n")}, c.parts...)...))
		if c.want == "" && (p.Fault != "" || !c.check(p)) || c.want != "" && !strings.Contains(p.Fault, c.want) {
			t.Errorf("%s: %+v", name, p)
		}
	}
}

// TestHollow: a picture of more than 12 million pixels has at least a byte for every hundred of
// them, in each kind of file; twelve that have fewer take a build more than a minute.
func TestHollow(t *testing.T) {
	ending := pngChunk("IEND", nil)
	png := func(wide, high, size int) []byte {
		ihdr := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(wide)), uint32(high))
		head := append([]byte("\x89PNG\r\n\x1a\n"), pngChunk("IHDR", append(ihdr, 16, 6, 0, 0, 0))...)
		return slices.Concat(head, pngChunk("IDAT", make([]byte, size-len(head)-12-len(ending))), ending)
	}
	jpeg := func(wide, high, size int) []byte {
		head := slices.Concat([]byte{0xff, 0xd8}, segment(0xc0, 8, byte(high>>8), byte(high), byte(wide>>8), byte(wide), 1, 1, 0x11, 0), segment(0xda, 1, 1, 0, 0, 63, 0))
		return slices.Concat(head, make([]byte, size-len(head)-2), []byte{0xff, 0xd9})
	}
	webp := func(wide, high, size int) []byte {
		le := binary.LittleEndian
		b := append([]byte("RIFF"), le.AppendUint32(nil, uint32(size-8))...)
		b = append(append(b, "WEBPVP8L"...), le.AppendUint32(nil, uint32(size-20))...)
		b = le.AppendUint32(append(b, 0x2f), uint32(wide-1)|uint32(high-1)<<14)
		return append(b, make([]byte, size-len(b))...)
	}
	for kind, made := range map[string]func(wide, high, size int) []byte{"PNG": png, "JPEG": jpeg, "WebP": webp} {
		for _, c := range []struct {
			wide, high, size int
			hollow           bool
		}{
			{3000, 4000, 200, false}, {3000, 4001, 200, true}, {3000, 4001, 120_029, true}, {3000, 4001, 120_030, false},
			{2550, 3300, 30_000, false}, // a page of letter paper at 300 dots an inch
			{8700, 8700, 596_000, true}, {8700, 8700, 800_000, false}, {4000, 3000, 1_500_000, false},
		} {
			p := photo(made(c.wide, c.high, c.size))
			if p.Kind != kind || p.Wide != c.wide || p.Hollow != c.hollow || (p.Fault != "") != c.hollow {
				t.Errorf("%s of %d x %d pixels in %d bytes: %+v", kind, c.wide, c.high, c.size, p)
			}
			// The size in KB by hand; a file of less than one has one.
			kb := map[int]string{200: "1", 120_029: "117", 596_000: "582"}[c.size]
			if c.hollow && !strings.Contains(p.Fault, "in a file of "+kb+" KB") {
				t.Errorf("%q does not say that it has %s KB", p.Fault, kb)
			}
		}
	}
	if p := photo(png(30000, 30000, 200)); p.Hollow || !p.TooLarge() {
		t.Errorf("one that is too large for any memory: %+v", p)
	}
}

// TestLimitOfSize: a picture of 600 MB, or of 300 million pixels, is decoded; one byte or one
// pixel more is not.
func TestLimitOfSize(t *testing.T) {
	for name, c := range map[string]struct {
		p    Photo
		want bool
	}{
		"600 MB":       {Photo{Wide: 1, High: 1, Need: 600 << 20}, false},
		"one more":     {Photo{Wide: 1, High: 1, Need: 600<<20 + 1}, true},
		"300 M pixels": {Photo{Wide: 300 << 10, High: 1 << 10}, false},
		"more pixels":  {Photo{Wide: 300<<10 + 1, High: 1 << 10}, true},
	} {
		if c.p.TooLarge() != c.want {
			t.Errorf("%s: %v", name, !c.want)
		}
	}
}

// TestWebPChunks reads heads made by hand after RFC 9649, 2.3 to 2.7, and RFC 6386, 9.1.
func TestWebPChunks(t *testing.T) {
	le := binary.LittleEndian
	part := func(kind string, data []byte) []byte {
		b := append(le.AppendUint32([]byte(kind), uint32(len(data))), data...)
		return append(b, make([]byte, len(data)&1)...)
	}
	riff := func(parts ...[]byte) []byte {
		all := slices.Concat(parts...)
		return slices.Concat([]byte("RIFF"), le.AppendUint32(nil, uint32(4+len(all))), []byte("WEBP"), all)
	}
	canvas := func(flags byte, wide, high int) []byte {
		w, h := wide-1, high-1
		return part("VP8X", []byte{flags, 0, 0, 0, byte(w), byte(w >> 8), byte(w >> 16), byte(h), byte(h >> 8), byte(h >> 16)})
	}
	lossy := func(wide, high uint16) []byte {
		return part("VP8 ", append([]byte{0x10, 0, 0, 0x9d, 1, 0x2a}, le.AppendUint16(le.AppendUint16(nil, wide), high)...))
	}
	lossless := func(wide, high uint32) []byte {
		return part("VP8L", append([]byte{0x2f}, le.AppendUint32(nil, wide-1|(high-1)<<14)...))
	}
	for name, c := range map[string]struct {
		data  []byte
		want  string
		check func(p Photo) bool
	}{
		"lossy":             {riff(lossy(64, 48)), "", func(p Photo) bool { return p.Wide == 64 && p.High == 48 && p.Need == 64*48*3/2 }},
		"scaled":            {riff(lossy(64|1<<14, 48|3<<14)), "", func(p Photo) bool { return p.Wide == 64 && p.High == 48 }},
		"lossless":          {riff(lossless(16384, 3)), "", func(p Photo) bool { return p.Wide == 16384 && p.High == 3 && p.Need == 8*16384*3 }},
		"alpha":             {riff(canvas(0x10, 64, 48), part("ALPH", []byte("a")), lossy(64, 48)), "", func(p Photo) bool { return p.Need == 64*48*3/2+6*64*48 }},
		"a profile":         {riff(canvas(0x20, 64, 48), part("ICCP", []byte("colors")), lossy(64, 48)), "", func(p Photo) bool { return string(p.Profile) == "colors" }},
		"EXIF":              {riff(canvas(8, 64, 48), lossy(64, 48), part("EXIF", []byte("II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00"))), "", func(p Photo) bool { return p.Turn == 6 }},
		"the canvas agrees": {riff(canvas(0, 64, 48), lossy(64, 48)), "", func(p Photo) bool { return p.Wide == 64 }},
		"wider":             {riff(canvas(0, 65, 48), lossy(64, 48)), "65 x 48", nil},
		"higher":            {riff(canvas(0, 64, 49), lossy(64, 48)), "64 x 49", nil},
		"moves":             {riff(canvas(2, 64, 48), part("ANIM", make([]byte, 6))), "animated", func(p Photo) bool { return p.Moves }},
		"a frame between":   {riff(part("VP8 ", []byte{0x11, 0, 0, 0x9d, 1, 0x2a, 64, 0, 48, 0})), "frame header", nil},
		"no start code":     {riff(part("VP8 ", []byte{0x10, 0, 0, 0x9d, 1, 0x2b, 64, 0, 48, 0})), "frame header", nil},
		"no signature":      {riff(part("VP8L", []byte{0x2e, 1, 0, 0, 0})), "frame header", nil},
		"a short frame":     {riff(part("VP8 ", []byte{0x10, 0, 0, 0x9d, 1, 0x2a, 64, 0, 48})), "how large", nil},
		"the first counts":  {riff(lossy(64, 48), lossy(32, 24)), "", func(p Photo) bool { return p.Wide == 64 }},
		"past the end":      {riff(part("ICCP", []byte("colors"))[:12], lossy(64, 48)[:2]), "", nil},
		"an odd part":       {riff(part("XMP ", []byte("odd")), lossy(64, 48)), "", func(p Photo) bool { return p.Wide == 64 }},
		"more after it":     {append(riff(lossy(64, 48)), "and more of it"...), "", func(p Photo) bool { return p.Wide == 64 }},
		"one byte too few":  {riff(lossy(64, 48))[:29], "cut off", nil},
	} {
		p := photo(c.data)
		switch {
		case c.check == nil && c.want == "":
			if p.Fault == "" {
				t.Errorf("%s: %+v", name, p)
			}
		case c.want == "" && (p.Fault != "" || !c.check(p)) || c.want != "" && !strings.Contains(p.Fault, c.want):
			t.Errorf("%s: %+v", name, p)
		}
	}
}

// TestProgressiveNeed compares the need of a picture with what image/jpeg sets aside: the planes
// of 4:2:0 have 1.5 bytes a pixel, of 4:4:4 3 (package image, YCbCr).
func TestProgressiveNeed(t *testing.T) {
	var b bytes.Buffer
	m := image.NewRGBA(image.Rect(0, 0, 64, 48))
	if err := jpegs.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	decoded, err := jpegs.Decode(bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	ycc := decoded.(*image.YCbCr)
	if p, took := photo(b.Bytes()), int64(len(ycc.Y)+len(ycc.Cb)+len(ycc.Cr)); p.Need != took {
		t.Errorf("it needs %d, the decoder took %d", p.Need, took)
	}
}
