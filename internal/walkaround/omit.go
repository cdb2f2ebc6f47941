package walkaround

import (
	"slices"
	"strings"

	"tarepage/internal/captions"
)

// An Omission is talk that the notes leave out: when it begins and why. It holds no word of
// the talk, as that may be a name.
type Omission struct {
	At     float64 // seconds
	Reason string
}

// Why talk is left out of the notes.
const (
	byPhone  = "a telephone number"
	byHello  = "a greeting or a name"
	byName   = "a name" // that follows the phrase
	byMail   = "an email address"
	ofSecond = "another trailer"
	unsure   = "not to be quoted"
	byCode   = "a code or a password"
	byPaid   = "what the yard paid"
	byOwner  = "a person who had or has it"
	byQuiet  = "to be kept quiet"
)

// secret are the reasons for which a clause goes even if it names a number or a part: the number
// is the secret.
var secret = map[string]bool{byCode: true, byPaid: true, byOwner: true, byQuiet: true}

// A private phrase is left out of the notes with its clause. A test hears that nothing of the
// example is left.
type private struct {
	phrase, reason, example string
}

var privates = append([]private{
	{"my name is", byName, "my name is pat"},
	{"name's", byName, "name's pat"},
	{"ask for", byName, "ask for pat"},
	{"call pat", byHello, "call pat"},
	{"call me", byHello, "call me at home"},
	{"call us", byHello, "call us"},
	{"text me", byHello, "text me"},
	{"give me a call", byHello, "give me a call"},
	{"give us a call", byHello, "give us a call"},
	{"come see", byHello, "come see pat"},
	{"here with", byHello, "pat here with the yard"},
	{"what's going on", byHello, "what's going on guys"},
	{"how's it going", byHello, "how's it going guys"},
	{"welcome back", byHello, "welcome back everybody"},
	{"good morning", byHello, "good morning everybody"},
	{"good afternoon", byHello, "good afternoon everybody"},
	{"hey folks", byHello, "hey folks"},
	{"hey guys", byHello, "hey guys"},
	{"hi everybody", byHello, "hi everybody"},
	{"hello everybody", byHello, "hello everybody"},
	{"thanks for watching", byHello, "thanks for watching"},
	{"don't quote me", unsure, "don't quote me on that"},
	{"gate code", byCode, "the gate code is on the box"},
	{"code is", byCode, "the code is the usual"},
	{"lock code", byCode, "lock code as ever"},
	{"code to the", byCode, "code to the gate's 4471"},
	{"key is under", byCode, "the key is under the mat"},
	{"password", byCode, "the password is on the wall"},
	{"we paid", byPaid, "we paid too much"},
	{"i paid", byPaid, "i paid too much"},
	{"cost us", byPaid, "cost us plenty"},
	{"our cost", byPaid, "our cost was low"},
	{"my cost", byPaid, "my cost's in the book"},
	{"we gave", byPaid, "we gave like eight grand for it"},
	{"gave him", byPaid, "gave him twelve on trade"},
	{"gave her", byPaid, "gave her twelve on trade"},
	{"gave them", byPaid, "gave them twelve on trade"},
	{"on trade", byPaid, "it came in on trade last week"},
	{"traded in", byPaid, "pat traded in two of them"},
	{"i'd take", byPaid, "i'd take less"},
	{"we'd take", byPaid, "we'd take less"},
	{"might take", byPaid, "might take fifteen five"},
	{"we can go to", byPaid, "we can go to eighty four"},
	{"can come down", byPaid, "can come down a bit"},
	{"if they don't need", byPaid, "sixty two if they don't need nothing"},
	{"don't tell", byQuiet, "don't tell nobody"},
	{"don't mention", byQuiet, "don't mention that"},
	{"don't say nothing", byQuiet, "don't say nothing about that online"},
	{"between you and me", byQuiet, "between you and me it's a dog"},
	{"off the record", byQuiet, "off the record it's a dog"},
	{"previous owner", byOwner, "the previous owner pat"},
	{"lives on", byOwner, "pat lives on the hill"},
	{"lives at", byOwner, "pat lives at the corner"},
	{"lives in", byOwner, "pat lives in town"},
	{"sold to", byOwner, "sold to pat"},
	{"belonged to", byOwner, "belonged to pat"},
	{"belongs to", byOwner, "it belongs to widow pat really"},
	{"on consignment", byOwner, "it's here on consignment"},
	{"selling it for", byOwner, "we're just selling it for her"},
	{"from a fella", byOwner, "it came from a fella out of town, pat, real nice guy"},
	{"from a guy", byOwner, "it came from a guy out of town, pat"},
	{"from a lady", byOwner, "it came from a lady out of town, pat"},
	{"calls back", byOwner, "if he calls back about it"},
	{"mrs", byOwner, "mrs pat"},
	{"mr", byOwner, "mr pat"},
}, bothWays(spanishPrivates)...)

// leadsToPhone are the words in front of a telephone number that go with it.
var leadsToPhone = set("teléfono telefono número numero cel celular mi el es al llame llámenos márquele call text or phone reach me us at number is cell office the my our shop on give a him her them that's sales")

// privateWords are the phrases by their first word, each with its place in privates.
var privateWords = func() map[string][]privatePhrase {
	out := map[string][]privatePhrase{}
	for i, p := range privates {
		w := strings.Fields(p.phrase)
		out[stem(w[0])] = append(out[stem(w[0])], privatePhrase{i, w})
	}
	return out
}()

type privatePhrase struct {
	of    int
	words []string
}

// private tells of each token why it is left out of the notes, or nothing.
func (h *hearing) private() []string {
	out := make([]string, len(h.t))
	for i, other := range others(h.t) {
		if other {
			out[i] = ofSecond
		}
	}
	mark := func(from, to int, reason string) {
		for i := from; i < to; i++ {
			out[i] = reason
		}
	}
	all := clauses(h.t)
	for k, s := range all {
		for i := s.from; i < s.to; i++ {
			if n := h.telephone(i); n > 0 {
				from, to := i, min(i+n, len(h.t))
				for from > s.from && leadsToPhone[h.word(from-1)] {
					from--
				}
				mark(from, to, byPhone)
				if !h.tells(span{s.from, from}) && !h.tells(span{to, max(to, s.to)}) {
					mark(s.from, max(to, s.to), byPhone) // whose number it is
				}
				i += n - 1
			} else if from, to, reason := h.spelledAt(i); reason != "" {
				mark(from, to, reason)
				if !h.tells(s) {
					mark(s.from, s.to, reason)
				}
			} else if reason := h.privateAt(i); reason != "" && (secret[reason] || !h.tells(s)) {
				mark(s.from, s.to, reason)
				if secret[reason] {
					mark(s.to, h.secretTo(all, k), reason)
				}
			}
		}
	}
	return out
}

// secretTo is where talk of a secret that clause k of all begins is over: at the end of its
// sentence, or in front of a clause that tells something of the trailer.
func (h *hearing) secretTo(all []span, k int) int {
	to := all[k].to
	for _, s := range all[k+1:] {
		if slices.ContainsFunc(h.t[to:s.from], func(t token) bool { return t.kind == stop }) || h.tells(s) {
			break
		}
		to = s.to
	}
	return to
}

// tradeLetters are abbreviations that people say by their letters. Common practice, no source.
var tradeLetters = set("gvwr gvw gawr psi led leds dot abs vin mso cdl atv utv suv usa rv ac dc lb lbs")

// spelledAt finds an email address that is said in words, "pat at the yard dot example", or a name that is
// spelled out, "p a t", around token i.
func (h *hearing) spelledAt(i int) (from, to int, reason string) {
	if h.is(i, "dot") && h.is(i+1, "com", "net", "org", "us", "biz", "info", "example") {
		for k := i - 1; k >= max(1, i-4); k-- {
			if h.is(k, "at") {
				return k - 1, i + 2, byMail
			}
		}
	}
	for to = i; len(h.word(to)) == 1; to++ {
	}
	from = i
	for from < to && h.is(from, "a", "i") {
		from++
	}
	letters := ""
	for k := from; k < to; k++ {
		letters += h.word(k)
	}
	if len(letters) < 3 || tradeLetters[letters] || len(h.word(i-1)) == 1 && !h.is(i-1, "a", "i") {
		return 0, 0, ""
	}
	return from, to, byName
}

func (h *hearing) privateAt(i int) string {
	for _, first := range []string{stem(h.word(i)), stem(h.spoken(i))} {
		for _, p := range privateWords[first] {
			if h.startsWith(i, p.words) || h.says(i, p.words) {
				return privates[p.of].reason
			}
		}
	}
	return ""
}

// tells reports a clause that names a part or a number: it is of the trailer too.
func (h *hearing) tells(s span) bool {
	for i := s.from; i < s.to; i++ {
		if _, n := h.pieceAt(i); n > 0 || h.t[i].kind == number || isNumberWord(h.word(i)) && h.telephone(i) == 0 {
			return true
		}
	}
	return false
}

// Private tells where the captions hold a telephone number, an email address or a person's
// name, as far as a phrase leads to it. Captions are published as they are.
func Private(c captions.Track) []Omission {
	_, t := transcript(c)
	h := &hearing{t: t}
	var out []Omission
	for _, w := range c.Words() {
		if who, host, ok := strings.Cut(w.Text, "@"); ok && who != "" && strings.Contains(host, ".") {
			out = append(out, Omission{w.Start, byMail})
		}
	}
	for _, s := range clauses(t) {
		for i := s.from; i < s.to; i++ {
			if n := h.telephone(i); n > 0 {
				out = append(out, Omission{t[i].start, byPhone})
				i += n - 1
				continue
			}
			if from, to, reason := h.spelledAt(i); reason != "" {
				out = append(out, Omission{t[from].start, reason})
				i = max(i, to-1)
				continue
			}
			if h.privateAt(i) == byName && !h.tells(s) {
				out = append(out, Omission{t[i].start, byName})
			}
		}
	}
	return out
}

// edited are the words that the notes keep with their places in the talk, and what they leave
// out. What follows talk that is left out begins a sentence.
func edited(c captions.Track) ([]captions.Word, []int, []Omission) {
	_, t := transcript(c)
	why := (&hearing{t: t}).private()
	var kept []captions.Word
	var places []int
	var out []Omission
	at, k, last := 0, 0, ""
	for i, w := range c.Words() {
		if i > 0 {
			at++ // the space
		}
		at += len(w.Text)
		reason := ""
		for ; k < len(t) && t[k].from < at; k++ {
			if why[k] != "" {
				reason = why[k]
			}
		}
		if reason != "" {
			if reason != last {
				out = append(out, Omission{w.Start, reason})
			}
		} else {
			if last != "" {
				w.Gap = max(w.Gap, 2*captions.Pause)
			}
			kept, places = append(kept, w), append(places, i)
		}
		last = reason
	}
	return kept, places, out
}
