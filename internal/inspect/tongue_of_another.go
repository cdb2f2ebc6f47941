package inspect

var tongueOfAnother = &Rule{
	Name: "tongue-of-another", Severity: Remark,
	Title:  "the tongue weight and the empty weight are from the same trailer",
	Why:    "The balance is worked out from the two together. If one is this trailer's and the other its model's, the tongue and axle loads may be off.",
	Source: "statics: the empty center of gravity is A (1 - tongue / empty)",
	Remedy: "weigh this trailer's tongue empty and write weights.tongue-empty in its own file",
	check: func(c *Case, f *Findings) {
		empty, tongue := c.Weights.Empty, c.Weights.TongueEmpty
		if !empty.Given() || !tongue.Given() || empty.Pos.File == tongue.Pos.File {
			return
		}
		own, other := "empty weight", "tongue weight"
		if tongue.Pos.File == c.File {
			own, other = other, own
		}
		at, also := empty.Pos, tongue.Pos
		if tongue.Pos.File == c.File {
			at, also = also, at
		}
		f.add(at, "the %s is this trailer's own, but the %s is its model's", own, other).
			also(also, "the "+other+" is here")
	},
}
