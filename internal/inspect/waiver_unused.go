package inspect

// waiverUnused is found by waive, after everything else.
var waiverUnused = &Rule{
	Name: "waiver-unused", Severity: Remark,
	Title:  "a waiver that is not needed is taken out",
	Why:    "If it is forgotten, it lets the next stop of that rule through, which nobody has looked at.",
	Source: "the unit file's format, docs/unit-file.md: waive",
	Remedy: "take the waiver out",
}
