package unit

import (
	"fmt"
	"regexp"
	"strings"

	"tarepage/internal/measure"
)

var (
	// pathForm is a path in its plain form: RFC 3986, 3.3.
	pathForm = regexp.MustCompile(`^(?:[A-Za-z0-9._~!$&'()*+,;=:@/-]|%[0-9A-Fa-f]{2})*$`)
	fileForm = regexp.MustCompile(`(?i)\.(html?|php|xml)$`)
)

// AddressFault says why a text is not the address of a site. It returns "" for a sound one. A
// wrong address would be on every page and send people to the wrong place.
func AddressFault(address string) string {
	rest, secure := strings.CutPrefix(address, "https://")
	host, path, _ := strings.Cut(rest, "/")
	switch {
	case strings.HasPrefix(address, "http://"):
		return "a site that people trust with a price is published under https://"
	case !secure:
		return "an address begins with https://"
	case strings.ContainsAny(address, "?#"):
		return "the address of a folder holds no ? and no #"
	case !hostForm.MatchString(address) || strings.Contains(host, ".."):
		return "an address has the name of its host after ://, in letters"
	case !pathForm.MatchString(path):
		return "an address holds no blanks, quotes or letters outside English; write them as percent codes"
	case fileForm.MatchString(path):
		return "that is the address of a page; give the folder that holds index.html"
	}
	parts := strings.Split(path, "/")
	for i, part := range parts {
		if part == "." || part == ".." || part == "" && i < len(parts)-1 {
			return fmt.Sprintf("the part %q leads nowhere; write the folders from the host on", part)
		}
	}
	return ""
}

// Site is the address of the site's own folder with a slash at the end. It is "" if the
// yard's file has no sound address. Capitals do not matter in host names, so they are written
// in small letters: RFC 3986, 6.2.2.1.
func (y *Yard) Site() string {
	if y.example || !y.Address.Given() || AddressFault(y.Address.Value) != "" {
		return ""
	}
	rest := strings.TrimPrefix(y.Address.Value, "https://")
	host, path, _ := strings.Cut(rest, "/")
	return "https://" + strings.ToLower(host) + "/" + strings.TrimPrefix(strings.TrimSuffix(path, "/")+"/", "/")
}

// IsExample reports whether the yard has nothing but an example. Its pages say so, and it has no
// address of its own: neither feeds nor search engines may offer an invented trailer.
func (y *Yard) IsExample() bool { return y.example }

// Since is the first day that a value holds, from its note; the zero Day if the note does not
// say.
func (f Field[T]) Since() Day {
	if f.From.Origin != measure.Since {
		return Day{}
	}
	day, err := ParseDay(f.From.Date())
	if err != nil {
		return Day{}
	}
	return day
}

// HoldsSince says since which day a value holds, if its author did not write a note. An
// unknown day says nothing.
func (f *Field[T]) HoldsSince(day Day) {
	if day.Known() && f.Given() && f.From.Origin == measure.Unstated {
		f.From = measure.ParseProvenance("since " + day.String())
	}
}

// Changed is the last day on which something changed that a customer wants to know: the unit
// arrived, or its price or its availability changed. It is the zero Day if the file states no
// such day. A day on which an order is expected does not count; it is in the future.
func (u *Unit) Changed() Day {
	var last Day
	days := []Day{u.Price.Since(), u.Availability.Since()}
	if u.Availability.Value != "on order" {
		days = append(days, u.Arrived.Value)
	}
	for _, d := range days {
		if d.Known() && (!last.Known() || d.After(last)) {
			last = d
		}
	}
	return last
}

// SpeaksSpanish reports whether the site has its pages in Spanish too.
func (y *Yard) SpeaksSpanish() bool { return y.Spanish.Given() && y.Spanish.Value }

// Keeps reports whether a customer may save pages on a phone: unless the yard turns it off.
func (y *Yard) Keeps() bool { return !y.LotCopy.Given() || y.LotCopy.Value }
