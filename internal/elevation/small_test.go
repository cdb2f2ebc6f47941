package elevation

import (
	"strings"
	"testing"

	"tarepage/internal/compute"
	"tarepage/internal/kinds"
)

// Silhouette is a unit's side view, small and without dimensions, at the yard's scale.
// It returns false if the unit states no length, or if the scale was made without the unit
// and the unit is too large for it.
func Silhouette(w *compute.Work, scale Scale) (svg string, ok bool) {
	d, p, ok := small(w, scale)
	if !ok {
		return "", false
	}
	f, _ := factsOf(w)
	var b strings.Builder
	id := "sil-" + f.name()
	b.WriteString(`<svg class="el el-small" viewBox="0 0 320 ` + num(scale.tall) + `" role="img" aria-labelledby="` + id +
		`" fill="currentColor"><title id="` + id + `">` + escape(f.title()) + `</title>`)
	d.write(&b, p, 1, true)
	b.WriteString(`<path class="el-ground" fill="none" stroke="currentColor" d="M0 ` + num(p.ground+0.5) + `H320"/></svg>`)
	return b.String(), true
}

func TestKindsNameTheirSilhouette(t *testing.T) {
	for _, k := range kinds.All() {
		if _, ok := silhouettes[k.Silhouette]; !ok {
			t.Errorf("%s names the silhouette %q, which nothing draws", k.Name, k.Silhouette)
		}
	}
}
