package render

import (
	"io/fs"
	"slices"

	"tarepage/internal/pagedata"
	"tarepage/internal/phrases"
	"tarepage/internal/sitepath"
)

// speak adds the maker of the same pages in Spanish, if the yard wants them.
func (m *maker) speak(theme fs.FS) error {
	if !m.in.Spanish {
		return nil
	}
	p, err := m.inWords(theme, phrases.Spanish)
	if err != nil {
		return err
	}
	return m.speakWith(theme, p)
}

// inWords is the theme in a language with the yard's own words.
func (m *maker) inWords(theme fs.FS, lang phrases.Language) (*templates, error) {
	return m.templates.in(theme, lang.With(m.in.Stock.Yard.Words()).Marked())
}

// speakWith is speak with the theme made ready before.
func (m *maker) speakWith(theme fs.FS, p *templates) error {
	o := *m
	o.templates, o.under, o.up, o.files = p, sitepath.Spanish, "../", nil
	o.says.Under = o.under
	o.other, m.other = m, &o
	o.framed()
	o.linked()
	machines, err := pagedata.Machines(p.lang)
	o.machines = script{hashed("machines", machines), machines}
	if err == nil && slices.ContainsFunc(m.units, func(e *entry) bool { return e.work.Semitrailer() }) {
		err = o.pulledByTractor(theme)
	}
	return err
}

// pulledByTractor adds the maker of the pages of trailers that go behind a tractor: in Spanish that
// truck has a word of its own.
func (m *maker) pulledByTractor(theme fs.FS) error {
	p, err := m.inWords(theme, phrases.Spanish.BehindTractor())
	if err != nil {
		return err
	}
	t := *m
	t.templates = p
	t.framed()
	m.tractor = &t
	return nil
}

// by is the maker of a unit's pages in the maker's language.
func (m *maker) by(e *entry) *maker {
	if m.tractor != nil && e.work.Semitrailer() {
		return m.tractor
	}
	return m
}

// languages are the makers of the site's pages: that in English first.
func (m *maker) languages() []*maker {
	if m.other == nil {
		return []*maker{m}
	}
	return []*maker{m, m.other}
}

// yardsPages are the yard's pages in every language.
func (m *maker) yardsPages() (out []job, err error) {
	for _, l := range m.languages() {
		jobs, err := l.yardPages()
		if err != nil {
			return nil, err
		}
		out = append(out, jobs...)
	}
	return out, nil
}

// place says where a page is, and where the same page is in the other language. The page's policy
// and its way to the first page are set before.
func (m *maker) place(f *frame, path string) {
	f.Canonical = m.at(path)
	m.bridge(f, path)
}

func (m *maker) bridge(f *frame, path string) {
	if m.other == nil {
		return
	}
	o := m.other
	f.Other = &otherPage{Link: f.Root + m.up + o.under + path, Lang: o.lang.Tag.String(), Name: o.name()}
	f.Chooser, f.Policy = m.chooser, scripted(f.Policy, m.chooserHash)
	if m.in.Stock.Yard.Site() == "" || f.Canonical == "" {
		return
	}
	for _, l := range m.languages() {
		if l.under == "" {
			f.Alternates = append(f.Alternates, otherPage{Link: l.at(path), Lang: "x-default"})
		}
		f.Alternates = append(f.Alternates, otherPage{Link: l.at(path), Lang: l.lang.Tag.String()})
	}
}

// name is what the language calls itself.
func (m *maker) name() string { return phrases.Unmarked(m.lang.Say("language")) }

// title is what a page calls a trailer: as its owner does, or, in another language than the
// owner's, by its kind and its size.
func (m *maker) title(e *entry) string {
	if !m.lang.Foreign() {
		return e.Title.Value
	}
	noun, ok := m.lang.Fact("noun/" + e.Kind.Value)
	if !ok {
		return e.Title.Value
	}
	long := e.work.Figure("deck-length")
	wide := e.work.Space.Width
	title := noun
	switch {
	case long != nil && wide.Given():
		title = m.lang.Say("made title both", noun, wide.Words(), long.Text)
	case long != nil:
		title = m.lang.Say("made title", noun, long.Text)
	}
	return m.lang.Said(upper(m.lang.Plain(title)))
}
