package render

import (
	"fmt"
	"html/template"
	"strings"

	"tarepage/internal/measure"
	"tarepage/internal/photo"
)

// worked are the unit's finished photos in the unit file's order, nil for one that could not
// be made.
func (m *maker) worked(e *entry) []*photo.Picture {
	files := map[string]string{} // by where they are named: a file may lie elsewhere than it is written
	for _, f := range e.media {
		if f.Path == "photos.file" && f.Fault == "" {
			files[f.Pos.String()] = f.Name
		}
	}
	out := make([]*photo.Picture, len(e.Photos))
	for i, p := range e.Photos {
		out[i] = m.in.Pictures[files[p.File.Pos.String()]]
	}
	return out
}

// photos are the unit's finished photos, in the unit file's order.
func (m *maker) photos(e *entry) []shownPhoto {
	var out []shownPhoto
	spoken := "" // what a screen reader says for the last photo
	to := m.moments(e)
	worked := m.worked(e)
	for i, p := range e.Photos {
		made := worked[i]
		if made == nil {
			continue
		}
		alt := p.Alt.Value
		if alt == "" {
			alt = m.lang.Say("photo of", fmt.Sprint(i+1), m.title(e))
		}
		spoken = alt
		s := shownPhoto{made: made, Caption: p.Caption.Value, Picture: pictured("../"+m.up, made, alt, len(out) == 0), Place: fmt.Sprintf("photo-%d", i+1)}
		if s.Caption == "" {
			s.Caption = p.Alt.Value
		}
		if p.Moment.Given() {
			s.At = p.Moment.Value.String()
			at := to(p.Moment.Value)
			s.AtLink, s.Here, s.AtSeconds = at.href, at.here, int(p.Moment.Value)
		}
		out = append(out, s)
	}
	if len(out) == 1 { // nobody counts one photo
		out[0].Repeats = out[0].Caption == spoken
		return out
	}
	for i := range out {
		out[i].Nth = m.lang.Say("photo nth", fmt.Sprint(i+1), fmt.Sprint(len(out)))
	}
	return out
}

// pictured is a photo in the page's full width. A phone is offered nothing wider than it
// needs: on a screen with three pixels for each one of the page, two look as good.
func pictured(root string, p *photo.Picture, alt string, first bool) template.HTML {
	var b strings.Builder
	b.WriteString(`<span class="pic">` + previewed(p.Preview) + `<picture>`)
	set := func(most int) {
		for i, f := range p.WebP {
			if f.Wide > most && i > 0 {
				break
			}
			if f.Wide < photo.Poster && i+1 < len(p.WebP) {
				continue
			}
			if !strings.HasSuffix(b.String(), `"`) {
				b.WriteString(", ")
			}
			fmt.Fprintf(&b, "%s%s %dw", root, f.Name, f.Wide)
		}
	}
	b.WriteString(`<source type="image/webp" media="(max-width: 600px)" sizes="100vw" srcset="`)
	set(photo.Phone)
	b.WriteString(`"><source type="image/webp" sizes="704px" srcset="`)
	set(photo.Desk)
	how := `loading="lazy" decoding="async"`
	if first {
		how = `fetchpriority="high"`
	}
	fmt.Fprintf(&b, `"><img src="%s%s" width="%d" height="%d" alt="%s" %s></picture></span>`,
		root, p.JPEG.Name, p.JPEG.Wide, p.JPEG.High, template.HTMLEscapeString(alt), how)
	// Names are letters, digits and dashes; the words are escaped.
	return template.HTML(b.String())
}

// previewed draws a preview: strokes through the middle of the cells, so the first row
// begins half a cell above 0.
func previewed(p photo.Preview) string {
	return fmt.Sprintf(`<svg class="tiny" viewBox="0 -.5 %d %d" preserveAspectRatio="none" aria-hidden="true"><path d="M0 0%s"/><path d="M0 0%s"/></svg>`,
		p.Wide, p.High, p.Mid, p.Dark)
}

// poster is the picture that is shown before the video plays: the photo of its earliest
// moment, else the first photo.
func (m *maker) poster(list []shownPhoto) string {
	var best *shownPhoto
	for i := range list {
		if p := &list[i]; best == nil || p.At != "" && (best.At == "" || p.AtSeconds < best.AtSeconds) {
			best = p
		}
	}
	if best == nil {
		return ""
	}
	return "../" + m.up + best.made.At(photo.Poster).Name
}

// from is where a value comes from, for a page. Where a photo proves it, it says so, and picture
// is the photo, as large as the site has it: the letters of a label are small.
func (m *maker) from(e *entry, key, from string) (text, picture string) {
	p := e.ProofOf(key)
	if p == nil {
		return from, ""
	}
	text = p.Photographed(measure.ParseProvenance(from))
	if p.Withheld() {
		return text, ""
	}
	for _, f := range e.media {
		if made := m.in.Pictures[f.Name]; made != nil && f.Path == "proof.file" && f.Pos == p.File.Pos {
			return text, "../" + m.up + made.At(photo.Desk).Name
		}
	}
	return from, "" // the photo could not be made
}

// pictures lists the files of every photo that a page shows, each once.
func (m *maker) pictures() (out []File) {
	told := map[string]bool{}
	for _, e := range m.units {
		for _, f := range e.media {
			p := m.in.Pictures[f.Name]
			var files []photo.File
			switch {
			case p == nil || f.Withheld:
			case f.Path == "photos.file":
				files = append(append(files, p.WebP...), p.JPEG)
			case f.Path == "proof.file":
				files = append(files, p.At(photo.Desk))
			}
			for _, file := range files {
				if told[file.Name] {
					continue
				}
				told[file.Name] = true
				out = append(out, File{Path: file.Name, From: file.From, At: f.Pos.String()})
			}
		}
	}
	return out
}

// small is where a unit's first photo is, as a card shows it; empty for none.
func (m *maker) small(e *entry) string {
	for _, p := range m.worked(e) {
		if p != nil {
			return p.At(photo.Poster).Name
		}
	}
	return ""
}
