package render

import (
	"bytes"
	"html/template"
	"testing"

	"tarepage/internal/phrases"
)

// Templates with their phrases put in make what they make with calls of say, in each place where
// package html/template escapes differently; what is not a phrase alone stays a call.
func TestSayOnce(t *testing.T) {
	t.Parallel()
	const text = `{{define "part"}}[{{.}}]{{end}}<p title="{{say "a"}}" onclick="f({{say "a"}})">{{say "a"}} {{with say "a"}}{{.}}{{end}}` +
		`{{template "part" (say "a")}}{{template "part" say "a"}}{{if .}}{{say "workings drawn" .}}{{else}}{{say "a"}}{{end}}` +
		`{{"x" | say "workings drawn"}}{{say "a" | printf "%q"}}{{printf "%s" (say "a")}}</p><script>var s = {{say "a"}}</script>`
	calls := 0
	say := func(key string, blanks ...string) string {
		calls++
		if key == "a" {
			return phrases.English.Say(`it's <"a"> & b` + "`")
		}
		return phrases.English.Say(key, blanks...)
	}
	made := func(once bool) string {
		tm := template.Must(template.New("t").Funcs(template.FuncMap{"say": say}).Parse(text))
		if once {
			sayOnce(tm, say)
		}
		calls = 0
		var out bytes.Buffer
		if err := tm.Execute(&out, ""); err != nil {
			t.Fatal(err)
		}
		return out.String()
	}
	want, wantCalls := made(false), calls
	if got := made(true); got != want || wantCalls < 10 || calls != 1 {
		t.Errorf("with %d calls: %s\nwant 1 call: %s", calls, got, want)
	}
}
