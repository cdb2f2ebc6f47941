package captions

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// decode turns the file's bytes into text with LF line ends. The order is the one that
// loses nothing: a byte order mark decides; then UTF-8 if it is valid; then UTF-16 if
// every other byte is zero; then windows-1252, which old caption editors wrote.
func decode(data []byte) (string, []Doubt, error) {
	var doubts []Doubt
	var text string
	switch {
	case bytes.HasPrefix(data, []byte{0xEF, 0xBB, 0xBF}):
		text = string(data[3:])
		if !utf8.ValidString(text) {
			text = strings.ToValidUTF8(text, "\uFFFD")
			doubts = append(doubts, Doubt{0, "marked as UTF-8 but some bytes are not; they are shown as \uFFFD"})
		}
	case bytes.HasPrefix(data, []byte{0xFF, 0xFE}), bytes.HasPrefix(data, []byte{0xFE, 0xFF}),
		zeroEveryOther(data, 0), zeroEveryOther(data, 1):
		order := unicode.LittleEndian
		if data[0] == 0xFE || zeroEveryOther(data, 0) {
			order = unicode.BigEndian
		}
		out, err := unicode.UTF16(order, unicode.UseBOM).NewDecoder().Bytes(data)
		if err != nil { // UseBOM asks for the mark; without one the zeros decided
			out, err = unicode.UTF16(order, unicode.IgnoreBOM).NewDecoder().Bytes(data)
		}
		if err != nil {
			return "", nil, fmt.Errorf("text looks like UTF-16 but does not read as it: %w", err)
		}
		text = string(out)
	case bytes.IndexByte(data, 0) >= 0 && bytes.Count(data, []byte{0}) > 3+len(data)/100:
		return "", nil, errors.New("this is a binary file, not captions; hand in a .vtt or .srt file")
	case utf8.Valid(data):
		text = string(data)
	default:
		out, err := charmap.Windows1252.NewDecoder().Bytes(data)
		if err != nil {
			return "", nil, fmt.Errorf("text is neither UTF-8 nor windows-1252: %w", err)
		}
		text = string(out)
		doubts = append(doubts, Doubt{0, "not UTF-8; read as windows-1252, look at accents and dashes"})
	}
	// WebVTT 4.1 asks for exactly this before parsing: NUL to U+FFFD, CRLF and CR to LF.
	text = strings.NewReplacer("\x00", "\uFFFD", "\r\n", "\n", "\r", "\n", "\u2028", "\n", "\uFEFF", "").Replace(text)
	return text, doubts, nil
}

// zeroEveryOther reports whether the bytes at even (at 0) or odd (at 1) places of the
// file's head are nearly all zero, as in UTF-16 of English text.
func zeroEveryOther(data []byte, at int) bool {
	head := data[:min(len(data), 512)]
	if len(head) < 8 {
		return false
	}
	zeros, others := 0, 0
	for i, b := range head {
		if b == 0 {
			if i%2 == at {
				zeros++
			} else {
				others++
			}
		}
	}
	return others == 0 && zeros*4 > len(head)/2*3
}
