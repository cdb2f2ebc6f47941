package unit

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// videoFields has the fields that an address on another host may have.
const videoFields = "{id}, {s}, {ms}, {hms}"

var (
	videoField = regexp.MustCompile(`\{[^{}]*\}`)
	// hostForm is a web address with a host in letters: RFC 3986, 3.1 and 3.2.2, without
	// user names and IPv6 addresses, which no yard needs. Only http and https lead to a
	// page (RFC 9110, 4.2).
	hostForm = regexp.MustCompile(`^https?://[A-Za-z0-9](?:[A-Za-z0-9.-]*[A-Za-z0-9])?(?::[0-9]{1,5})?(?:[/?#].*)?$`)
)

// VideoLinkFault says why a template is not an address of recordings on another host. It
// returns "" for a sound one. The host may not contain a field.
func VideoLinkFault(template string) string {
	for _, field := range videoField.FindAllString(template, -1) {
		if !strings.Contains(videoFields, field) {
			return fmt.Sprintf("there is no field %s; the fields are %s", field, videoFields)
		}
	}
	if strings.ContainsAny(videoField.ReplaceAllString(template, ""), "{} \t\"'<>\\^`|") {
		return "an address holds no blanks, quotes or lone braces"
	}
	switch {
	case !strings.HasPrefix(template, "https://") && !strings.HasPrefix(template, "http://"):
		return "an address begins with https:// or http://"
	case !hostForm.MatchString(template):
		return "an address has the name of its host after ://, in letters"
	case !strings.Contains(template, "{id}"):
		return "without {id} every unit would lead to the same recording"
	case !strings.Contains(template, "{s}") && !strings.Contains(template, "{ms}") && !strings.Contains(template, "{hms}"):
		return "without {s}, {ms} or {hms} every moment would lead to the beginning"
	}
	return ""
}

// VideoAt is the address that plays a recording on another host from a moment on. It is "" if
// the yard's file names no host. The id is the host's name for the recording. Whatever it
// contains, it stays one part of the address.
func (y *Yard) VideoAt(id string, at Clock) string {
	if !y.VideoLink.Given() || id == "" || VideoLinkFault(y.VideoLink.Value) != "" {
		return ""
	}
	s := int(at)
	return strings.NewReplacer("{id}", escaped(id), "{s}", strconv.Itoa(s), "{ms}", strconv.Itoa(s*1000),
		"{hms}", fmt.Sprintf("%dh%dm%ds", s/3600, s/60%60, s%60)).Replace(y.VideoLink.Value)
}

// escaped writes all except the unreserved characters as percent codes, so that the text is
// data in every part of an address (RFC 3986, 2.1 and 2.3).
func escaped(s string) string {
	var b strings.Builder
	for i := range len(s) {
		c := s[i]
		if c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte("-._~", c) >= 0 {
			b.WriteByte(c)
		} else {
			fmt.Fprintf(&b, "%%%02X", c)
		}
	}
	return b.String()
}
