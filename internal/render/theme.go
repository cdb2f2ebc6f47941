package render

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"os"
	"slices"
	"strings"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/html"
	"github.com/tdewolff/minify/v2/js"

	"tarepage/internal/elevation"
	"tarepage/internal/phrases"
)

// Theme is the theme's files: the built-in ones, or those of a folder with the same names.
// A file that the folder lacks comes from the built-in theme.
func Theme(builtIn fs.FS, dir string) (fs.FS, error) {
	if dir == "" {
		return builtIn, nil
	}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return nil, fmt.Errorf("-look %q is not a folder; name a folder with frame.html, yard.html, unit.html, how.html, gone.html, style.css or one of the scripts", dir)
	}
	// What is in the folder ends up on the site, so no link may lead out of it.
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("-look %q cannot be opened: %w", dir, err)
	}
	return over{root.FS(), builtIn}, nil
}

// MostThemeFile is how many bytes a file of a theme may have: a hundred times the largest
// built-in one. A page with more would not open on a phone.
const MostThemeFile = 8 << 20

// over looks in one folder and then in another.
type over struct{ first, then fs.FS }

func (o over) Open(name string) (fs.File, error) {
	// A pipe in the folder would keep Open waiting forever.
	info, err := fs.Stat(o.first, name)
	if errors.Is(err, fs.ErrNotExist) {
		return o.then.Open(name)
	}
	if err == nil && !info.Mode().IsRegular() && !info.IsDir() {
		err = &fs.PathError{Op: "open", Path: name, Err: errors.New("not a plain file")}
	}
	if err == nil && info.Size() > MostThemeFile {
		err = &fs.PathError{Op: "open", Path: name, Err: fmt.Errorf("it has %d bytes; a file of a theme has at most %d", info.Size(), MostThemeFile)}
	}
	if err != nil {
		return nil, err
	}
	return o.first.Open(name)
}

// templates are the theme, ready for use: parsed templates, minified styles, their policies.
type templates struct {
	// lang is the language of the pages, a column of the table of phrases.
	lang   phrases.Language
	pages  map[string]*template.Template
	style  template.CSS
	policy string
	// unitStyle and unitPolicy are those of a trailer's page.
	unitStyle  template.CSS
	unitPolicy string
	// yardStyle and yardPolicy are those of pages of many units.
	yardStyle  template.CSS
	yardPolicy string
	// sheetStyle and sheetPolicy are those of what is printed.
	sheetStyle  template.CSS
	sheetPolicy string
	// script plays a recording from a moment on; only pages with a recording have it.
	script   template.JS
	walkHash string
	// figuresSheet and figuresScript are files that the pages of figures load: their style, and the
	// switch between the systems of units. Their policy admits both.
	figuresSheet, figuresScript script
	figuresPolicy               string
	// units is the switch between the systems of units.
	units     template.JS
	unitsHash string
	// known keeps space for the answers to a customer who is known, ahead of everything that is seen.
	known     template.JS
	knownHash string
	// chooser goes to the language that a visitor chose; pages of a site in two languages have it.
	chooser     template.JS
	chooserHash string
	// scripts are the files that pages load, by their names in the theme, and sources what they are
	// made from.
	scripts map[string]script
	sources map[string]source
	min     *minify.M
}

// scriptNames are the theme's scripts that become files of the site, in the order in
// which they are written. A page loads them as classic scripts: a module or one with an
// integrity attribute does not load from a folder on disk (Fetch Standard: such a request
// needs CORS, which a file does not have).
var scriptNames = []string{"statics.js", "yard.js", "asked.js", "compare.js", "bring.js", "bring-shapes.js", "unit.js", "search.js"}

// lotNames are scripts that are written only where the yard asks for them (lot.go).
var lotNames = []string{"keep.js", "worker.js", "unworker.js"}

// A script is a file of the site whose name changes with its bytes, so that it may be
// kept forever.
type script struct {
	Path string // s/statics-0123abcd.js
	text []byte
}

// A source is a script of the theme before its words are added, as it is written and small.
type source struct {
	raw   string
	small []byte
}

// readSources reads the theme's scripts and makes them small.
func readSources(theme fs.FS) (map[string]source, error) {
	small := minify.New()
	small.AddFunc("text/javascript", js.Minify)
	out := map[string]source{}
	for _, name := range append(slices.Clone(scriptNames), lotNames...) {
		raw, err := fs.ReadFile(theme, name)
		if err != nil {
			return nil, fmt.Errorf("theme: %w", err)
		}
		text, err := small.Bytes("text/javascript", raw)
		if err != nil {
			return nil, fmt.Errorf("theme: %s: %w", name, err)
		}
		out[name] = source{string(raw), text}
	}
	return out, nil
}

// worded adds the words of a language to the theme's scripts and names them.
func worded(sources map[string]source, lang phrases.Language) map[string]script {
	names := append(slices.Clone(scriptNames), lotNames...)
	all := ""
	for _, name := range names {
		// A library has no words of ours.
		if name != "search.js" && !hasOwnWords(name) {
			all += sources[name].raw
		}
	}
	out := map[string]script{}
	for _, name := range names {
		text := sources[name].small
		switch {
		case name == "statics.js":
			text = append(lang.Script(all), text...)
		case name == "bring-shapes.js":
			text = append(append(slices.Clone(out["bring.js"].text), '\n'), text...)
		case hasOwnWords(name):
			text = append(lang.Script(sources[name].raw), text...)
		}
		out[name] = script{hashed(strings.TrimSuffix(name, ".js"), text), text}
	}
	return out
}

// hasOwnWords reports whether a script's words are in front of it. Those of the others are in front
// of statics.js.
func hasOwnWords(name string) bool {
	switch name {
	case "yard.js", "asked.js", "compare.js", "keep.js", "worker.js":
		return true
	}
	return false
}

// hashed is the path of a file of the site whose name changes with its bytes.
func hashed(name string, data []byte) string {
	return "s/" + name + "-" + fingerprint(data) + ".js"
}

// fingerprint is short and changes with the bytes.
func fingerprint(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:4])
}

// scripted is the policy of a page that runs scripts from a source: another file of the
// site ('self'), or one within the page, by its hash. The policy still admits what it
// admitted before.
func scripted(policy, source string) string {
	if strings.Contains(policy, "script-src ") {
		return strings.Replace(policy, "script-src ", "script-src "+source+" ", 1)
	}
	return strings.Replace(policy, "base-uri", "script-src "+source+"; base-uri", 1)
}

// connected is the policy of a page that asks the site for pages, to keep them on a phone.
func connected(policy string) string {
	return strings.Replace(policy, "base-uri", "connect-src 'self'; base-uri", 1)
}

// watched is the policy of a page that plays a recording: its captions are text tracks in
// the page itself.
func (p *templates) watched(policy string) string {
	return scripted(strings.Replace(policy, "media-src 'self'", "media-src 'self' data:", 1), p.walkHash)
}

// inline is a script within a page, minified from the theme's files, and the source
// expression by which a policy admits it.
func inline(theme fs.FS, names ...string) (template.JS, string, error) {
	var all []byte
	for _, name := range names {
		raw, err := fs.ReadFile(theme, name)
		if err != nil {
			return "", "", fmt.Errorf("theme: %w", err)
		}
		all = append(all, raw...)
	}
	small := minify.New()
	small.AddFunc("text/javascript", js.Minify)
	text, err := small.Bytes("text/javascript", all)
	if err != nil {
		return "", "", fmt.Errorf("theme: %s: %w", strings.Join(names, ", "), err)
	}
	text = bytes.TrimSpace(text)
	sum := sha256.Sum256(text)
	return template.JS(text), "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'", nil
}

// styled is a style minified from the theme's files, and the policy of pages that
// carry it.
func styled(theme fs.FS, names ...string) (template.CSS, string, error) {
	var all []byte
	for _, name := range names {
		text, err := fs.ReadFile(theme, name)
		if err != nil {
			return "", "", fmt.Errorf("theme: %w", err)
		}
		all = append(all, text...)
	}
	small := minify.New()
	small.AddFunc("text/css", css.Minify)
	out, err := small.Bytes("text/css", append(all, elevation.CSS...))
	if err != nil {
		return "", "", fmt.Errorf("theme: %s: %w", strings.Join(names, ", "), err)
	}
	sum := sha256.Sum256(out)
	return template.CSS(out), policyWith("'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"), nil
}

// policyWith is the policy of a page with the style from that source.
func policyWith(style string) string {
	// What the site needs and no more: its own pictures and this one style. No script,
	// no frame, no form, no request to anybody else (CSP Level 3; ignored directives
	// such as frame-ancestors are left out of a meta element).
	return "default-src 'none'; img-src 'self' data:; media-src 'self'; style-src " + style + "; base-uri 'none'; form-action 'none'"
}

func newTemplates(theme fs.FS, lang phrases.Language) (*templates, error) {
	p := &templates{min: minify.New()}
	// The end tags and quotes stay, because other programs read the pages; they cost five
	// percent. The style is minified by itself, below: its hash is in the policy, so nothing
	// may change it afterward.
	p.min.Add("text/html", &html.Minifier{KeepDocumentTags: true, KeepEndTags: true, KeepQuotes: true, KeepDefaultAttrVals: true, KeepWhitespace: false})

	var err error
	if p.style, p.policy, err = styled(theme, "style.css", "figures.css", "paper.css"); err != nil {
		return nil, err
	}
	if p.unitStyle, p.unitPolicy, err = styled(theme, "style.css", "bring.css", "unit.css", "paper.css"); err != nil {
		return nil, err
	}
	if p.yardStyle, p.yardPolicy, err = styled(theme, "style.css", "bring.css", "yard.css"); err != nil {
		return nil, err
	}

	if p.sheetStyle, p.sheetPolicy, err = styled(theme, "sheet.css"); err != nil {
		return nil, err
	}

	if p.units, p.unitsHash, err = inline(theme, "units.js"); err != nil {
		return nil, err
	}
	if p.known, p.knownHash, err = inline(theme, "known.js"); err != nil {
		return nil, err
	}
	if p.chooser, p.chooserHash, err = inline(theme, "language.js"); err != nil {
		return nil, err
	}
	if p.script, p.walkHash, err = inline(theme, "walk.js"); err != nil {
		return nil, err
	}

	if err := p.readFigures(theme); err != nil {
		return nil, err
	}
	if p.sources, err = readSources(theme); err != nil {
		return nil, err
	}
	return p.in(theme, lang)
}

// in is the same theme with the words of a language.
func (p *templates) in(theme fs.FS, lang phrases.Language) (*templates, error) {
	of := *p
	of.lang, of.scripts, of.pages = lang, worded(p.sources, lang), map[string]*template.Template{}
	for _, name := range []string{"yard", "unit", "workings", "lot", "handover", "how", "gone"} {
		t, err := template.New(name).Option("missingkey=error").Funcs(template.FuncMap{"say": lang.Say, "rich": richIn(lang), "ticks": ticks}).ParseFS(theme, "frame.html", "photos.html", name+".html")
		if err != nil {
			return nil, fmt.Errorf("theme: %w", err)
		}
		if t.Lookup("frame") == nil || t.Lookup("main") == nil {
			return nil, fmt.Errorf("theme: frame.html defines \"frame\" and %s.html defines \"main\"; one is missing", name)
		}
		if err := bounded(t); err != nil {
			return nil, fmt.Errorf("theme: %w", err)
		}
		sayOnce(t, lang.Say)
		of.pages[name] = t
	}
	return &of, nil
}

// readFigures makes the style and the script of the pages of figures ready. They are files: a page
// of figures is not the first that a customer opens, and a yard has one for each trailer.
func (p *templates) readFigures(theme fs.FS) error {
	turn, _, err := inline(theme, "figures.js", "units.js")
	if err != nil {
		return err
	}
	p.figuresScript = script{hashed("figures", []byte(turn)), []byte(turn)}
	p.figuresSheet = p.sheet(p.style)
	p.figuresPolicy = scripted(policyWith("'self'"), "'self'")
	return nil
}

// sheet is a style as a file of the site.
func (p *templates) sheet(style template.CSS) script {
	name := "style"
	if style == p.style {
		name = "figures"
	}
	return script{"s/" + name + "-" + fingerprint([]byte(style)) + ".css", []byte(style)}
}

// page runs a template and minifies what comes out.
func (p *templates) page(name string, data any) ([]byte, error) { return p.made(name, data, nil) }

// made is page with the metric form of numbers that were rounded, as measure.Quantities takes it.
func (p *templates) made(name string, data any, exact map[string]string) ([]byte, error) {
	raw := sheets.Get().(*sheet)
	defer sheets.Put(raw)
	raw.made.Reset()
	if err := p.pages[name].ExecuteTemplate(raw, "frame", data); err != nil {
		return nil, fmt.Errorf("theme: %w", err)
	}
	out, err := p.min.Bytes("text/html", raw.made.Bytes())
	if err != nil {
		return nil, fmt.Errorf("minify: %w", err)
	}
	if p.lang.Foreign() {
		out = inLanguage(out, p.lang, exact)
	}
	return append(out, '\n'), nil
}
