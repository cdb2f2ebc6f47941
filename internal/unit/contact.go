package unit

import (
	"regexp"
	"strings"
)

// NumberFault says why a text is not one telephone number that a phone can dial. It returns ""
// for a sound one: RFC 3966, 3 (digits, and - . ( ) between them), and ITU-T E.164 (at most
// 15 digits). Blanks may be between the digits too. A local number has 7 digits or more
// in the United States (North American Numbering Plan).
func NumberFault(number string) string {
	digits := 0
	for i, c := range number {
		switch {
		case c >= '0' && c <= '9':
			digits++
		case c == '+' && i == 0:
		case !strings.ContainsRune("-.() ", c):
			return "a phone cannot dial this; write one number, its digits and nothing else"
		}
	}
	switch {
	case digits < 7:
		return "a telephone number has 7 digits or more"
	case digits > 15:
		return "a telephone number has at most 15 digits"
	}
	return ""
}

// mailForm is what a mailto: link takes without more: RFC 6068, 2, where ? begins fields such
// as bcc, and the atoms of RFC 5322, 3.2.3.
var mailForm = regexp.MustCompile(`^[A-Za-z0-9.!#$'*+/=^_{|}~-]{1,64}@[A-Za-z0-9-]+(\.[A-Za-z0-9-]+)+$`)

// MailFault says why a text is not one address to which a mail can be sent. It returns "" for
// a sound one.
func MailFault(address string) string {
	if !mailForm.MatchString(address) {
		return "a mail cannot be sent to this; write one address like yard@yard.example"
	}
	return ""
}

// DirectionsFault says why a text is not a link that shows the way. It returns "" for a sound
// one.
func DirectionsFault(link string) string {
	switch {
	case !strings.HasPrefix(link, "https://"):
		return "a link begins with https://"
	case strings.ContainsAny(link, " \t\"'<>\\^`|{}"):
		return "a link holds no blanks and no quotes; copy it as the map gives it"
	case !hostForm.MatchString(link):
		return "a link has the name of its host after ://, in letters"
	}
	return ""
}
