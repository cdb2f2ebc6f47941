package render

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"os"
	"strings"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/html"

	"tarepage/internal/elevation"
)

// Theme is the theme's files: the built-in ones, or a folder of the same names that
// stands in for them. A file that the folder lacks comes from the built-in theme.
func Theme(builtIn fs.FS, dir string) (fs.FS, error) {
	if dir == "" {
		return builtIn, nil
	}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return nil, fmt.Errorf("-theme %q is no folder; name a folder with frame.html, yard.html, unit.html, how.html, style.css or walk.js", dir)
	}
	return over{os.DirFS(dir), builtIn}, nil
}

// over looks into one folder and then into another.
type over struct{ first, then fs.FS }

func (o over) Open(name string) (fs.File, error) {
	f, err := o.first.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return o.then.Open(name)
	}
	return f, err
}

// press is the theme made ready: parsed templates, minified style, its policy.
type press struct {
	pages  map[string]*template.Template
	style  template.CSS
	policy string
	// script plays a recording from a moment on; only pages with a recording have it, and
	// watched is their policy.
	script  template.JS
	watched string
	min     *minify.M
}

func newPress(theme fs.FS) (*press, error) {
	p := &press{pages: map[string]*template.Template{}, min: minify.New()}
	// The end tags and quotes stay: a page read by other programs is not worth five
	// percent of its size. The style is minified by itself, below: its hash stands in
	// the policy, so nothing may touch it afterwards.
	p.min.Add("text/html", &html.Minifier{KeepDocumentTags: true, KeepEndTags: true, KeepQuotes: true, KeepDefaultAttrVals: true, KeepWhitespace: false})

	style, err := fs.ReadFile(theme, "style.css")
	if err != nil {
		return nil, fmt.Errorf("theme: %w", err)
	}
	small := minify.New()
	small.AddFunc("text/css", css.Minify)
	// A copy goes in: the minifier writes over the slice that it is given.
	out, err := small.Bytes("text/css", bytes.Clone(append(style, elevation.CSS...)))
	if err != nil {
		return nil, fmt.Errorf("theme: style.css: %w", err)
	}
	p.style = template.CSS(out)
	sum := sha256.Sum256(out)
	// What the site needs and no more: its own pictures and this one style. No script,
	// no frame, no form, no request to anybody else (CSP Level 3; ignored directives
	// such as frame-ancestors are left out of a meta element).
	p.policy = "default-src 'none'; img-src 'self' data:; media-src 'self'; style-src 'sha256-" +
		base64.StdEncoding.EncodeToString(sum[:]) + "'; base-uri 'none'; form-action 'none'"

	script, err := fs.ReadFile(theme, "walk.js")
	if err != nil {
		return nil, fmt.Errorf("theme: %w", err)
	}
	p.script = template.JS(bytes.TrimSpace(script))
	sum = sha256.Sum256([]byte(p.script))
	// A recording's captions are text tracks in the page itself.
	p.watched = strings.Replace(p.policy, "media-src 'self'", "media-src 'self' data:; script-src 'sha256-"+
		base64.StdEncoding.EncodeToString(sum[:])+"'", 1)

	for _, name := range []string{"yard", "unit", "how"} {
		t, err := template.New(name).Option("missingkey=error").ParseFS(theme, "frame.html", name+".html")
		if err != nil {
			return nil, fmt.Errorf("theme: %w", err)
		}
		if t.Lookup("frame") == nil || t.Lookup("main") == nil {
			return nil, fmt.Errorf("theme: frame.html defines \"frame\" and %s.html defines \"main\"; one is missing", name)
		}
		p.pages[name] = t
	}
	return p, nil
}

// page runs a template and minifies what comes out.
func (p *press) page(name string, data any) ([]byte, error) {
	var raw bytes.Buffer
	if err := p.pages[name].ExecuteTemplate(&raw, "frame", data); err != nil {
		return nil, fmt.Errorf("theme: %w", err)
	}
	out, err := p.min.Bytes("text/html", raw.Bytes())
	if err != nil {
		return nil, fmt.Errorf("minify: %w", err)
	}
	return append(out, '\n'), nil
}
