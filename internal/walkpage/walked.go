package walkpage

import (
	"encoding/json"
	"fmt"
	"net/http"
	"path/filepath"
	"strings"

	"tarepage/internal/amend"
	"tarepage/internal/files"
	"tarepage/internal/unit"
)

// takeWalked writes today's day as the day on which the stock was walked.
func (d *Desk) takeWalked(w http.ResponseWriter, req *http.Request) {
	if kind, _, _ := strings.Cut(req.Header.Get("Content-Type"), ";"); kind != "application/json" {
		http.Error(w, "this address takes JSON", http.StatusUnsupportedMediaType)
		return
	}
	var s struct{ Walked bool }
	if err := json.NewDecoder(http.MaxBytesReader(w, req.Body, mostSent)).Decode(&s); err != nil || !s.Walked {
		http.Error(w, "what was sent does not read", http.StatusBadRequest)
		return
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if err := d.walked(); err != nil {
		fail(w, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}

func (d *Desk) walked() error {
	file := filepath.Join(d.From, "content", "yard.md")
	if err := files.NoLinks(d.From, file); err != nil {
		return err
	}
	before, err := files.ReadUpTo(file, unit.MostBytes)
	if err != nil {
		return err
	}
	after, err := amend.Apply(before, []amend.Change{{Path: "as-of", Value: d.Today()}})
	if err != nil {
		return fmt.Errorf("content/yard.md: %w; write it at the desk", err)
	}
	if string(after) == string(before) {
		return nil
	}
	return files.ReplaceKeeping(d.From, file, before, after)
}
