package unit

// YardKeys lists every key of content/yard.md in the order of the format.
func YardKeys() []KeyDoc { return describe(yardKeys(), nil) }
