package inspect

// CasesOf reads and runs every case of a rule's archive.
func CasesOf(r *Rule) ([]Example, error) {
	out, err := cases(r)
	for i := range out {
		if err := out[i].run(r); err != nil {
			return nil, err
		}
	}
	return out, err
}
