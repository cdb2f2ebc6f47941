package render

import (
	"encoding/json"
	"fmt"
	"strings"
)

// workerFile is what a phone asks for again whenever it comes back: its name never
// changes, so that the yard can always take a copy back.
const workerFile = "worker.js"

// worker is the file that keeps the yard page on a phone, where the yard wants that; else
// the one that deletes what was kept before. Every site has one or the other: a phone that
// kept a copy last year asks this year's site whether it may keep it.
func (m *maker) worker() (script, error) {
	if !m.in.Stock.Yard.Keeps() {
		return script{workerFile, m.scripts["unworker.js"].text}, nil
	}
	// The front page and what it loads; the words come in parts that are kept when used.
	keep := []string{"index.html", m.scripts["yard.js"].Path, m.scripts["bring.js"].Path, m.scripts["statics.js"].Path, m.machines.Path,
		m.scripts["search.js"].Path, m.scripts["asked.js"].Path, m.scripts["compare.js"].Path, m.scripts["keep.js"].Path}
	for _, f := range m.files {
		if strings.HasPrefix(f.Path, "s/stock-") {
			keep = append(keep, f.Path)
		}
	}
	list, err := json.Marshal(keep)
	if err != nil {
		return script{}, err
	}
	body := m.scripts["worker.js"].text
	// Another page or other files make another copy, which replaces the old one.
	name := fingerprint(append(append([]byte{}, list...), body...))
	return script{workerFile, fmt.Appendf(nil, "var KEEP=%s,COPY=\"lot-%s\";%s\n", list, name, body)}, nil
}
