package walkpage

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"tarepage/internal/walkback"
)

func (d *Desk) askedIn(lang, method, path, body string) *httptest.ResponseRecorder {
	req := httptest.NewRequest(method, "http://127.0.0.1"+path, strings.NewReader(body))
	req.Header.Set("Accept-Language", lang)
	if body != "" {
		req.Header.Set("Content-Type", "application/json")
	}
	w := httptest.NewRecorder()
	d.Handler("/w").ServeHTTP(w, req)
	return w
}

// TestThePhonesLanguage: a phone that asks for Spanish first gets it, by Accept-Language as RFC 9110,
// 12.5.4 has it; any other phone gets English.
func TestThePhonesLanguage(t *testing.T) {
	d, _ := yard(t)
	for lang, want := range map[string]string{"es-MX,es;q=0.9,en;q=0.8": "es-US", "es": "es-US", "en-US,en;q=0.9,es;q=0.8": "en-US", "": "en-US", "fr": "en-US", "en;q=0.5,es": "es-US"} {
		for _, path := range []string{"/w", "/w/sb-1050"} {
			w := d.askedIn(lang, "GET", path, "")
			if w.Code != http.StatusOK || !strings.Contains(w.Body.String(), `<html lang="`+want+`">`) {
				t.Errorf("%q at %s: %d %.80s", lang, path, w.Code, w.Body)
			}
		}
	}
	page := d.askedIn("es", "GET", "/w/sb-1050", "").Body.String()
	for _, want := range []string{"Todos los remolques", "Largo de la plataforma", "Capacidad de cada eje"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page in Spanish lacks %q", want)
		}
	}
}

// TestSpanishAnswers: what a phone in Spanish confirms is written as one in English writes it, and
// findings begin in Spanish.
func TestSpanishAnswers(t *testing.T) {
	var files []string
	for _, lang := range []string{"en", "es"} {
		d, file := yard(t)
		body, err := json.Marshal(sent{Save: true, Answers: []walkback.Answer{{Key: "deck.length", Value: "20 ft", Place: "tape"}}})
		if err != nil {
			t.Fatal(err)
		}
		w := d.askedIn(lang, "POST", "/w/sb-1050", string(body))
		v := new(view)
		if err := json.Unmarshal(w.Body.Bytes(), v); w.Code != http.StatusOK || err != nil {
			t.Fatalf("%d %s", w.Code, w.Body)
		}
		files = append(files, content(t, file))
		if lang == "es" && len(v.Figures) > 0 && v.Figures[0].Label == "Payload" {
			t.Errorf("a figure is called %q", v.Figures[0].Label)
		}
		for _, f := range v.Findings {
			t.Log(f.Severity, f.Message, "|", f.Remedy)
		}
	}
	if files[0] != files[1] {
		t.Errorf("in Spanish the file became\n%s\nin English\n%s", files[1], files[0])
	}
}
