package pagedata

import (
	"crypto/sha256"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"tarepage/internal/packed"
)

// TestLexicon: whatever changed, the words that are put together with what the builds before kept
// are those of a first build.
func TestLexicon(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 20))
	said := []string{"coupler", "spare", "winch", "Ölfrei", "rust", "decals", "brakes", "deck"}
	var texts []string
	texts = append(texts, trailer())
	var kept KeptLexicon
	for step := range 40 {
		switch i := r.IntN(len(texts)); {
		case r.IntN(3) == 0:
			texts = append(texts, trailer("EX-1", fmt.Sprint("EX-", 10+step), "The coupler", "The "+said[r.IntN(len(said))]))
		case r.IntN(3) == 0 && len(texts) > 1:
			texts = append(texts[:i:i], texts[i+1:]...)
		default:
			texts[i] = strings.Replace(texts[i], "Second line", fmt.Sprintf("Second line and %s%d", said[r.IntN(len(said))], step), 1)
		}
		list := read(t, texts...)
		of := make([][32]byte, len(list))
		for i := range list {
			of[i] = sha256.Sum256([]byte(texts[i]))
		}
		known := NewLexicon(kept)
		got, err := Words(list, of, known)
		if err != nil {
			t.Fatal(err)
		}
		want, err := Words(list, of, nil)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Fatalf("after %d changes the words are\n%s\nand at first\n%s, %v", step, got, want, err)
		}
		text, err := packed.Append(nil, new(known.Keep()))
		if err != nil {
			t.Fatal(err)
		}
		kept = KeptLexicon{}
		if err := packed.Read(string(text), &kept); err != nil {
			t.Fatal(err)
		}
		if len(kept.Units) != len(list) {
			t.Fatalf("the words of %d trailers are kept, not of %d", len(kept.Units), len(list))
		}
	}
}

// TestLexiconForgets: what is damaged is read again, and a Lexicon of words that are nearly all gone
// is not kept.
func TestLexiconForgets(t *testing.T) {
	list := read(t, trailer(), trailer("EX-1", "EX-2"))
	of := make([][32]byte, 2)
	want, err := Words(list, of, nil)
	if err != nil {
		t.Fatal(err)
	}
	first := NewLexicon(KeptLexicon{})
	if _, err := Words(list, of, first); err != nil {
		t.Fatal(err)
	}
	for name, damage := range map[string]func(*KeptLexicon){
		"a number that does not end": func(k *KeptLexicon) { k.Units[0].In[1] = "\xff" },
		"a number without a word":    func(k *KeptLexicon) { k.Units[0].In[0] += "\xff\x01" },
		"a number far out":           func(k *KeptLexicon) { k.Units[1].In[2] = "\xff\xff\xff\xff\xff\x01" },
		"words that are gone":        func(k *KeptLexicon) { k.Words = k.Words[:1] },
	} {
		kept := first.Keep()
		kept.Units = append([]KeptWords(nil), kept.Units...)
		damage(&kept)
		if got, err := Words(list, of, NewLexicon(kept)); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %s, %v", name, got, err)
		}
	}
	kept := first.Keep()
	for i := range 2 * len(kept.Words) {
		kept.Words = append(kept.Words, fmt.Sprint("gone", i))
	}
	old := NewLexicon(kept)
	if _, err := Words(list, of, old); err != nil {
		t.Fatal(err)
	}
	if kept := old.Keep(); len(kept.Words) > 0 || len(kept.Units) > 0 {
		t.Errorf("%d words are kept", len(kept.Words))
	}
}
