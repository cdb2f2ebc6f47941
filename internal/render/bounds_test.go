package render

import (
	"errors"
	"html/template"
	"strconv"
	"strings"
	"testing"
)

// TestBounded: a look whose templates call each other without end, or ten times ten times ten,
// is refused before it is run.
func TestBounded(t *testing.T) {
	nested := `{{define "x0"}}y{{end}}`
	for i := range 9 {
		nested += `{{define "x` + strconv.Itoa(i+1) + `"}}` + strings.Repeat(`{{template "x`+strconv.Itoa(i)+`"}}`, 10) + `{{end}}`
	}
	for text, want := range map[string]string{
		nested: "takes more than 100000 steps",
		`{{define "a"}}{{template "b" .}}{{end}}{{define "b"}}{{if .}}{{template "a" .}}{{end}}{{end}}`:                    "calls itself",
		`{{define "a"}}{{range .}}{{template "a" .}}{{else}}x{{end}}{{end}}`:                                               "calls itself",
		`{{define "a"}}{{with .}}{{range $i := 999999999}}{{end}}{{end}}{{end}}`:                                           "loops over the number 999999999",
		`{{define "a"}}{{range (9)}}{{end}}{{end}}`:                                                                        "loops over the number 9",
		`{{define "a"}}{{range .}}{{template "b" .}}{{end}}{{end}}{{define "b"}}{{with .}}{{.}}{{else}}none{{end}}{{end}}`: "",
		`{{define "a"}}{{range slice . 0 9}}{{.}}{{end}}{{end}}`:                                                           "",
	} {
		err := bounded(template.Must(template.New("t").Parse(text)))
		if want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%.60s: %v; want %q", text, err, want)
		}
	}
}

// TestPageHasABound: what a page would need more than 32 MB for ends with a reason.
func TestPageHasABound(t *testing.T) {
	var s sheet
	tmpl := template.Must(template.New("t").Parse(`{{range .}}{{printf "%1000d" .}}{{end}}`))
	if err := tmpl.Execute(&s, make([]int, 40_000)); !errors.Is(err, errPage) || s.made.Len() > mostPage {
		t.Errorf("%v, %d bytes", err, s.made.Len())
	}
}
