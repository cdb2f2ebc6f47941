package inspect

import "tarepage/internal/unit"

var yardContact = &Rule{
	Name: "yard-contact", Severity: Stop,
	Title:  "a phone can dial the yard's numbers, send it mail and open its directions",
	Why:    "A customer who taps Call, Text, Email or Directions would reach nobody.",
	Source: "RFC 3966, 3; ITU-T E.164: at most 15 digits; RFC 6068, 2; RFC 9110, 4.2.2: https",
	Remedy: "write one number like 555-0142, one address like yard@yard.example, and a link that begins with https://",
	checkYard: func(y *Yard, f *Findings) {
		yard := y.Stock.Yard
		for _, c := range []struct {
			key   string
			value unit.Text
			fault func(string) string
		}{{"phone", yard.Phone, unit.NumberFault}, {"text", yard.Texts, unit.NumberFault}, {"email", yard.Email, unit.MailFault}, {"directions", yard.Directions, unit.DirectionsFault}} {
			if !c.value.Given() {
				continue
			}
			if fault := c.fault(c.value.Value); fault != "" {
				f.add(c.value.Pos, "%s %q: %s", c.key, c.value.Value, fault)
			}
		}
	},
}
