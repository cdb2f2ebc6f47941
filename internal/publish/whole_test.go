package publish

import "errors"

// Swap replaces what the target holds by the site: Begin, every file, Finish.
func Swap(site *Site, target string, sources ...string) (Report, error) {
	return newSwapper().swap(site, target, sources)
}

func (s *swapper) swap(site *Site, target string, sources []string) (Report, error) {
	g, err := s.begin(target, sources)
	if err != nil {
		return Report{}, err
	}
	for _, path := range site.Paths() {
		if err := g.take(path, site.files[path]); err != nil {
			return Report{}, errors.Join(err, g.Abandon())
		}
	}
	return g.Finish()
}
