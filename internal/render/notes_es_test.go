package render

import (
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/unit"
	theme "tarepage/themes/default"
)

// TestNotesInSpanish: a page in Spanish has the notes that the yard wrote in Spanish, with figures in
// Spanish too, and says which notes are in another language (HTML Living Standard, 3.2.6.2 lang).
func TestNotesInSpanish(t *testing.T) {
	pages := func(front, notes string) (english, spanish string) {
		t.Helper()
		files := fstest.MapFS{}
		for name, text := range givenYard {
			if name == "content/units/ex-1.md" {
				head, _, _ := strings.Cut(text[4:], "\n---\n")
				text = "---\n" + head + "\n" + front + "---\n\n" + notes
			}
			files[name] = &fstest.MapFile{Data: []byte(text)}
		}
		stock, problems, err := unit.Read(files)
		if err != nil {
			t.Fatal(err)
		}
		works := compute.Stock(stock)
		out := map[string]string{}
		_, err = Site(theme.Files, Input{Stock: stock, Works: works, Findings: inspect.Stock(stock, works, problems), Spanish: true},
			AddFunc(func(path string, data []byte) error { out[path] = string(data); return nil }))
		if err != nil {
			t.Fatal(err)
		}
		return out["u/ex-1.html"], out["es/u/ex-1.html"]
	}
	for _, c := range []struct {
		name, front, notes        string
		english, spanish, neverES string
	}{
		{"both", "notes-es: |\n  0:45 Piso nuevo: [?](worked:payload).\n", "0:45 The floor is new.\n",
			"The floor is new.", `<div lang="es">`, "The notes are in English"},
		{"English", "", "The floor of it is new.\n", "The floor of it is new.", `<div lang="en">`, `lang="es"`},
		{"Spanish", "", "El piso de este remolque es nuevo.\n", `<div lang="es">`, `<div lang="es">`, "Las notas están en"},
	} {
		english, spanish := pages(c.front, c.notes)
		if english == "" || spanish == "" {
			t.Fatalf("%s: no page", c.name)
		}
		if !strings.Contains(english, c.english) || strings.Contains(english, "Piso nuevo") {
			t.Errorf("%s: the page in English lacks %q or has the other notes", c.name, c.english)
		}
		if !strings.Contains(spanish, c.spanish) || strings.Contains(spanish, c.neverES) {
			t.Errorf("%s: the page in Spanish lacks %q or has %q", c.name, c.spanish, c.neverES)
		}
		if has := strings.Contains(spanish, "Piso nuevo"); has != (c.front != "") {
			t.Errorf("%s: notes in Spanish on the page: %t", c.name, has)
		}
		if c.front != "" && (strings.Contains(spanish, "The floor is new") || strings.Contains(spanish, "Las notas están en")) {
			t.Errorf("%s: the page in Spanish has the notes in English too", c.name)
		}
	}
}
