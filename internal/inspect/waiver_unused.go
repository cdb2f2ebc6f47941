package inspect

// waiverUnused is found by waive, once everything else has been.
var waiverUnused = &Rule{
	Name: "waiver-unused", Severity: Remark,
	Title:  "a waiver that nothing needs is taken out",
	Why:    "Forgotten, it would wave through the next stop of that rule, which nobody has looked at.",
	Source: "the unit file's format, docs/unit-file.md: waive",
	Remedy: "take the waiver out",
}
