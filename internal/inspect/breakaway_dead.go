package inspect

import "regexp"

var breakawayDead = &Rule{
	Name: "breakaway-dead", Severity: Stop,
	Title:  "no words say that the breakaway device does not work where the file says that there is one",
	Why:    "A breakaway device with a dead battery does not set the brakes. A trailer that comes loose then rolls on.",
	Source: "49 CFR 393.43(d) (2015): automatic on breakaway, held at least 15 minutes",
	Remedy: "repair it, test it and take the words out; until then write breakaway: no, or keep the trailer off the site with withhold: and the reason",
	check: func(c *Case, f *Findings) {
		b := c.Brakes.Breakaway
		if !b.Given() || !b.Value {
			return
		}
		for _, t := range c.writing() {
			if t.at == b.Pos {
				continue // words-change-value reads the words after the yes
			}
			if m := deadBreakaway.FindStringIndex(t.text); m != nil {
				at := t.at
				if t.of != nil {
					at = t.of.Pos(m[0])
				}
				f.add(at, "the words say %q; breakaway is yes", t.text[m[0]:m[1]]).also(b.Pos, "it is given here")
			}
		}
	},
}

// deadBreakaway matches words that say of a breakaway device, or of its battery, that it does not
// work, in one sentence. What people say is common practice, no source.
var deadBreakaway = regexp.MustCompile(`(?i)\bbreak-?\s?away\b[^.;!?]{0,70}?\b(?:dead|bad|broke|broken|missing|gone|weak|corroded|unplugged|disconnected|removed|cut|shot|junk|inoperative|muerta|rota|no\s+(?:good|battery|pin|cable|sirve)|(?:does\s+not|doesn['’]?t|don['’]?t|isn['’]?t|not|won['’]?t)\s+(?:work|working|charge|charging|hold|there|hooked)\w*|needs?\s+(?:a\s+|an\s+|new\s+|to\s+be\s+)*(?:battery|switch|pin|cable|replac\w+|charg\w+|fix\w+|repair\w*))\b` +
	`|\b(?:dead|bad|broken|missing|no)\s+(?:\pL+\s+)?break-?\s?away\b`)
