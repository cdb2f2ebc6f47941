package inspect

var proofOfAnother = &Rule{
	Name: "proof-of-another", Severity: Stop,
	Title:  "a photo proves the values of one trailer",
	Why:    "Two trailers of one model have two labels. The label of one says nothing about the other.",
	Source: Practice,
	Remedy: "name a photo of this trailer's own part",
	checkYard: func(y *Yard, f *Findings) {
		proves := map[string]*Case{}
		for _, c := range y.Cases {
			for i := range c.Proof {
				p := &c.Proof[i]
				if !p.File.Given() || p.Shows.Value == "maker's sheet" {
					continue // one sheet is about all trailers of a model
				}
				switch other := proves[p.File.Value]; other {
				case nil:
					proves[p.File.Value] = c
				case c:
				default:
					f.add(p.File.Pos, "the photo proves values of %s already", other.Stock.Value).
						fix("name a photo of this trailer's own %s", p.Shows.Value).Unit = c.File
				}
			}
		}
	},
}
