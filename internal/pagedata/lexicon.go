package pagedata

import (
	"cmp"
	"encoding/binary"
	"slices"
	"strings"
	"sync"
)

// A Lexicon keeps the words of trailers from one build to the next, so that the words of a yard
// are put together without reading the texts again of trailers that did not change. Words have
// numbers in it, because a yard of thousands uses the same few thousand words. A nil Lexicon
// keeps nothing.
type Lexicon struct {
	mu     sync.Mutex
	words  []string
	number map[string]int
	// before are the words of the trailers of the build before, and now those of this build, by
	// the trailers' files.
	before, now map[string]KeptWords
	unused      int // how many of the words no trailer has now
}

// A KeptLexicon is what is kept of a Lexicon. It can be packed (internal/packed).
type KeptLexicon struct {
	Words []string
	Units []KeptWords
}

// KeptWords are the words of a trailer that was made from the same as Of says. In has the
// numbers of the words of each field in rising order, each as how far it is above the one
// before (encoding/binary, varint).
type KeptWords struct {
	File string
	Of   [32]byte
	In   [fields]string
}

// NewLexicon is the Lexicon that was kept.
func NewLexicon(kept KeptLexicon) *Lexicon {
	x := &Lexicon{words: slices.Clip(kept.Words), number: make(map[string]int, len(kept.Words)), now: make(map[string]KeptWords, len(kept.Units))}
	for i, w := range kept.Words {
		x.number[w] = i
	}
	for _, u := range kept.Units {
		x.now[u.File] = u
	}
	return x
}

// Keep is what the next build takes over. It is empty after so many changes that most words are
// in no trailer any more: the next build begins with an empty Lexicon.
func (x *Lexicon) Keep() (kept KeptLexicon) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.unused > len(x.words)/2 {
		return kept
	}
	kept.Words = x.words
	for _, u := range x.now {
		kept.Units = append(kept.Units, u)
	}
	slices.SortFunc(kept.Units, func(a, b KeptWords) int { return cmp.Compare(a.File, b.File) })
	return kept
}

// posts are the numbers of the trailers that have a word, by field.
type posts [fields][]int32

// gather takes in the words of the trailers. Of has the digest of what each trailer is made
// from. It returns the trailers of each word by its number.
func (x *Lexicon) gather(list []Trailer, of [][32]byte) []posts {
	x.before, x.now = x.now, make(map[string]KeptWords, len(list))
	index := make([]posts, len(x.words), len(x.words)+1024)
	for i := range list {
		u, known := x.before[list[i].File]
		if !known || u.Of != of[i] || !u.within(len(x.words)) {
			u = x.read(&list[i], of[i])
		}
		x.now[u.File] = u
		index = append(index, make([]posts, len(x.words)-len(index))...)
		for field := range u.In {
			u.each(field, func(n int) { index[n][field] = append(index[n][field], int32(i)) })
		}
	}
	x.before, x.unused = nil, 0
	for n := range index {
		if index[n].empty() {
			x.unused++
		}
	}
	return index
}

func (p *posts) empty() bool { return len(p[0])+len(p[1])+len(p[2]) == 0 }

// read reads the words of a trailer.
func (x *Lexicon) read(t *Trailer, of [32]byte) KeptWords {
	u := KeptWords{File: t.File, Of: of}
	for field, text := range wordsOf(t) {
		var numbers []int
		for _, w := range terms(text) {
			n, known := x.number[w]
			if !known {
				n = len(x.words)
				x.number[strings.Clone(w)] = n
				x.words = append(x.words, strings.Clone(w))
			}
			numbers = append(numbers, n)
		}
		slices.Sort(numbers)
		var in []byte
		last := 0
		for _, n := range slices.Compact(numbers) {
			in = binary.AppendUvarint(in, uint64(n-last))
			last = n
		}
		u.In[field] = string(in)
	}
	return u
}

// each calls f with the numbers of a field's words. It reports false where a number is damaged.
func (u *KeptWords) each(field int, f func(n int)) bool {
	n := 0
	for rest := []byte(u.In[field]); len(rest) > 0; {
		step, size := binary.Uvarint(rest)
		if size <= 0 || step > 1<<31 {
			return false
		}
		n, rest = n+int(step), rest[size:]
		f(n)
	}
	return true
}

// within reports whether all words have numbers below a limit.
func (u *KeptWords) within(limit int) bool {
	ok := true
	for field := range u.In {
		whole := u.each(field, func(n int) { ok = ok && n < limit })
		ok = ok && whole
	}
	return ok
}
