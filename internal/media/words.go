package media

import (
	"fmt"
	"io"
)

// How many letters, digits and blanks in a row are taken for words. With 74 such bytes of 256,
// a setup of 100 random bytes has a run of 10 in one of 3,000 files, a setup of some thousand
// bytes one of 20 in one of ten million, and a gigabyte of pictures and sound one of 28 in one of
// a million.
const (
	leastWords  = 10
	longSetup   = 512
	leastLonger = 20
	leastHidden = 28
	// leastWide is for letters with a zero between each and the next, of which random bytes have
	// far fewer.
	leastWide = 16
)

func errWords(words string) error {
	return fmt.Errorf("what its decoder needs holds words, %q, that nobody may want published; export it again as MP4 with H.264 and AAC", words)
}

// wordsIn finds words among the numbers of a decoder's setup: a place or a name that was put
// after what the decoder reads. A run of a few letters that repeat does not count.
func wordsIn(setup []byte) string {
	if len(setup) > longSetup {
		return textIn(setup, leastLonger)
	}
	return textIn(setup, leastWords)
}

// hidden refuses a copy that holds words. A decoder knows where a picture or a piece of sound
// ends, and skips what follows it; only decoding everything would tell where that is.
func (c *Copy) hidden() error {
	const overlap = 2 * leastWide * 2
	buffer := make([]byte, overlap+1<<18)
	kept, done := 0, int64(0)
	for r := c.Reader(); done < c.size; {
		n, err := io.ReadFull(r, buffer[kept:])
		if done += int64(n); err != nil && done < c.size {
			return err
		}
		all := buffer[:kept+n]
		words := textIn(all, leastHidden)
		if words == "" {
			words = wideTextIn(all)
		}
		if words != "" {
			return fmt.Errorf("its pictures or its sound hold words that no player shows, %q; export it again as MP4 with H.264 and AAC", words)
		}
		kept = copy(buffer, all[max(0, len(all)-overlap):])
	}
	return nil
}

// textIn finds a run of at least this many letters, a third of which are different.
func textIn(data []byte, least int) string {
	for from := 0; from+least <= len(data); {
		// If the last byte is not text, no run begins at or before it, and most places end here.
		at := from + least - 1
		for at >= from && isText[data[at]] {
			at--
		}
		if at >= from {
			from = at + 1
			continue
		}
		end := from + least
		for end < len(data) && isText[data[end]] {
			end++
		}
		if run := data[from:end]; varied(run, least) {
			return string(run)
		}
		from = end + 1
	}
	return ""
}

// wideTextIn finds a run of letters of 16 bits each, as some systems write words.
func wideTextIn(data []byte) string {
	// A run of them covers one of these places and what is around it.
	for at := leastWide; at+1 < len(data); at += leastWide {
		if (data[at] == 0) == (data[at+1] == 0) {
			continue
		}
		even := at // a letter
		if data[at] == 0 {
			even++
		}
		from, end := even, even
		for from >= 2 && isText[data[from-2]] && data[from-1] == 0 {
			from -= 2
		}
		for end < len(data) && isText[data[end]] && (end+1 == len(data) || data[end+1] == 0) {
			end += 2
		}
		var run []byte
		for i := from; i < end; i += 2 {
			run = append(run, data[i])
		}
		if len(run) >= leastWide && varied(run, leastWide) {
			return string(run)
		}
	}
	return ""
}

// varied reports whether enough of a run's letters are different: pictures of one color repeat
// a few bytes again and again.
func varied(run []byte, least int) bool {
	var seen [256]bool
	n := 0
	for _, c := range run {
		if !seen[c] {
			seen[c] = true
			n++
		}
	}
	return n > max(leastWords/2, least/3)
}

// isText are the bytes of words.
var isText = func() (of [256]bool) {
	for _, c := range []byte(textBytes) {
		of[c] = true
	}
	return of
}()

const textBytes = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 .,:@+-/_'"
