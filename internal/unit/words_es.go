package unit

import "tarepage/internal/glossary"

// words reports the words under words-es that the pages cannot say.
func (r *reader) words(list []Text) {
	first := map[string]Text{}
	for _, text := range list {
		w, err := glossary.Read(text.Value)
		if err != nil {
			r.problem(ValueUnreadable, text.Pos, "words-es: "+err.Error(), "write a word of the list in docs/spanish.md, = and your word, as in camioneta = la troca")
			continue
		}
		for _, one := range []string{w.From, "= " + w.To} {
			if before, twice := first[one]; twice {
				r.problem(ValueUnreadable, text.Pos, "words-es: two lines have one word", "keep one of the two", Place{before.Pos, "the other one is here"})
				break
			}
			first[one] = text
		}
	}
}

// Words are the words of the Spanish pages that the yard says in another way.
func (y *Yard) Words() (out []glossary.Word) {
	for _, text := range y.WordsES {
		if w, err := glossary.Read(text.Value); err == nil {
			out = append(out, w)
		}
	}
	return out
}
