package inspect

import "strings"

var withholdReason = &Rule{
	Name: "withhold-reason", Severity: Stop,
	Title:  "a unit that is kept off the site says why",
	Why:    "The key withhold keeps a unit off the site, whatever its value. Without a reason, nobody can tell whether that is still wanted.",
	Source: "the unit file's format, docs/unit-file.md",
	Remedy: "say why, as in withhold: waiting for the title; or delete the key to publish the unit",
	check: func(c *Case, f *Findings) {
		if !c.Withheld() {
			return
		}
		if c.Withhold.Spoiled {
			f.add(c.Top, "withhold does not read; the unit is kept off the site anyway")
			return
		}
		switch reason := strings.ToLower(strings.Trim(c.Withhold.Value, " .!")); reason {
		case "":
			f.add(c.WithheldAt(), "withhold gives no reason; the unit is kept off the site anyway")
		case "no", "false", "off", "n", "never", "0":
			f.add(c.WithheldAt(), "withhold: %s keeps the unit out of the site all the same", clipped(c.Withhold.Value)).
				fix("delete the key to publish the unit")
		case "yes", "true", "on", "y", "1":
			f.add(c.WithheldAt(), "withhold: %s gives no reason", clipped(c.Withhold.Value))
		}
	},
	// The key belongs to one unit. Whoever writes it into a model means all of its units, so
	// none of them goes out.
	checkYard: func(y *Yard, f *Findings) {
		for _, c := range y.Cases {
			m := y.Stock.Model(c.Model.Value)
			if !c.Model.Given() || m == nil || !m.Withheld() || c.Withheld() {
				continue
			}
			f.add(m.WithheldAt(), "withhold is in a model, where it keeps nothing out of the site; unit %s is filled in from it", c.Stock.Value).
				fix("write withhold with its reason in each unit that is to stay out, and delete it here").
				Unit = c.File
		}
	},
}
