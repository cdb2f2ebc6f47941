package render

import (
	"strings"

	"tarepage/internal/sitepath"
)

// gone is complete by itself: a host shows it at any depth, where relative links would lead
// nowhere. Its style is in it, and its links begin at the host's root (RFC 3986, 4.2), with
// the folder of the site's own address where that is known.
func (m *maker) gone() ([]byte, error) {
	p := &gonePage{frame: m.frame}
	p.Style, p.Sheet, p.Policy = m.style, "", m.policy
	p.Root, p.Hidden = "/", true
	if _, path, ok := strings.Cut(strings.TrimPrefix(m.in.Stock.Yard.Site(), "https://"), "/"); ok {
		p.Root += path
	}
	p.Root += m.under
	m.bridge(&p.frame, sitepath.NotFound)
	p.Title = m.lang.Say("titled", m.lang.Say("gone short"), m.frame.Yard.Name)
	p.Description = m.lang.Say("gone about")
	var err error
	if p.Data, err = stated(m.says.Page("", m.lang.Say("gone short"))); err != nil {
		return nil, err
	}
	return m.page("gone", p)
}
