package walkpage

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/json"
	"errors"
	"html/template"
	"net/http"
	"strings"

	"tarepage/internal/phrases"
	"tarepage/internal/unit"
	"tarepage/internal/walkback"
)

//go:embed page.js
var script string

//go:embed list.js
var listScript string

//go:embed page.css
var style string

//go:embed pages.html
var pagesText string

var pages = template.Must(template.New("walk").Parse(pagesText))

// mostSent is how many bytes an answer may have.
const mostSent = 256 << 10

// mostAnswers is how many values one request may change.
const mostAnswers = 300

// policy lets run what belongs to the page, and lets it ask the showroom only.
var policy = "default-src 'none'; img-src data:; style-src " + hash(style) + "; script-src " + hash(script) + " " + hash(listScript) +
	"; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// Handler answers below the path, which has no slash at its end: the list of units there, and
// the page of a unit by the name of its file.
func (d *Desk) Handler(below string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, req *http.Request) {
		name := strings.TrimPrefix(strings.TrimPrefix(req.URL.Path, below), "/")
		photographed, isPhoto := strings.CutSuffix(name, photoPath)
		switch {
		case req.Method == http.MethodPost && isPhoto:
			d.takePhoto(w, req, photographed)
		case req.Method == http.MethodPost && name == "":
			d.takeWalked(w, req)
		case req.Method == http.MethodPost:
			d.take(w, req, name)
		case req.Method != http.MethodGet && req.Method != http.MethodHead:
			w.Header().Set("Allow", "GET, HEAD, POST")
			http.Error(w, "this address shows a page and takes answers", http.StatusMethodNotAllowed)
		case name == "":
			d.list(w, below, languageOf(req))
		default:
			d.page(w, below, name, languageOf(req))
		}
	})
}

// shell is what both pages have.
type shell struct {
	Lang   phrases.Language
	Title  string
	Style  template.CSS
	Script template.JS
	Words  map[string]string // what the script says
	Below  string
	Open   []row
	Done   []row
	View   *view
	// AsOf is the day on which the stock was walked, and Today that of the desk.
	AsOf, Today string
}

// Say is a phrase of the page, for the templates.
func (s shell) Say(key string, blanks ...string) string { return s.Lang.Say(key, blanks...) }

func show(w http.ResponseWriter, name string, s shell) {
	s.Style, s.Script, s.Words = template.CSS(style), template.JS(script), s.View.words(s.Lang)
	if name == "list" {
		s.Script = template.JS(listScript)
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Security-Policy", policy)
	_ = pages.ExecuteTemplate(w, name, s)
}

func (d *Desk) list(w http.ResponseWriter, below string, lang phrases.Language) {
	stock, err := d.Stock()
	if err != nil {
		http.Error(w, err.Error(), http.StatusServiceUnavailable)
		return
	}
	open, done := rows(stock, func(name string) []byte { _, data, _ := d.read(name); return data })
	show(w, "list", shell{Lang: lang, Title: lang.Say("phone list"), Below: below, Open: open, Done: done, AsOf: asOf(stock), Today: d.Today()})
}

// asOf is the day on which the stock was walked, as the yard's file says; empty for none.
func asOf(stock *unit.Stock) string {
	if !stock.Yard.AsOf.Given() {
		return ""
	}
	return stock.Yard.AsOf.Value.String()
}

func (d *Desk) page(w http.ResponseWriter, below, name string, lang phrases.Language) {
	_, data, err := d.read(name)
	if err == nil {
		var v *view
		if v, err = d.viewOf(name, data); err == nil {
			show(w, "unit", shell{Lang: lang, Title: lang.Say("phone unit", v.Stock), Below: below, View: v.in(lang)})
			return
		}
	}
	fail(w, err)
}

func fail(w http.ResponseWriter, err error) {
	status := http.StatusServiceUnavailable
	if errors.Is(err, errNoUnit) {
		status = http.StatusNotFound
	} else if _, is := errors.AsType[refused](err); is {
		status = http.StatusConflict
	}
	http.Error(w, err.Error(), status)
}

// sent is what the page sends: answers and a note, to be saved or only tried.
type sent struct {
	Save    bool              `json:"save"`
	Answers []walkback.Answer `json:"answers"`
	Note    string            `json:"note"`
}

// take answers a phone with the unit as it is with its answers, and saves them if it asks. A
// form of another site cannot send JSON without asking first (Fetch Standard, 2.2.2).
func (d *Desk) take(w http.ResponseWriter, req *http.Request, name string) {
	if kind, _, _ := strings.Cut(req.Header.Get("Content-Type"), ";"); kind != "application/json" {
		http.Error(w, "this address takes JSON", http.StatusUnsupportedMediaType)
		return
	}
	var s sent
	if err := json.NewDecoder(http.MaxBytesReader(w, req.Body, mostSent)).Decode(&s); err != nil || len(s.Answers) > mostAnswers {
		http.Error(w, "what was sent does not read", http.StatusBadRequest)
		return
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	v, err := d.revise(name, s)
	if err != nil {
		fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	_ = json.NewEncoder(w).Encode(v.in(languageOf(req)))
}

// revise makes the new file of a unit, writes it if it is asked to, and looks at it.
func (d *Desk) revise(name string, s sent) (*view, error) {
	path, before, err := d.read(name)
	if err != nil {
		return nil, err
	}
	after, outcomes := walkback.Revise(before, s.Answers, d.Today())
	refused, added := "", false
	if s.Note != "" {
		noted, err := walkback.AddNote(after, s.Note)
		// A note that is there already is one that was sent twice.
		if added = err == nil && string(noted) != string(after); added {
			err = d.took.note(name)
		}
		if err != nil {
			refused, added = err.Error(), false
		} else {
			after = noted
		}
	}
	if s.Save && string(after) != string(before) {
		if err := d.write(name, path, before, after); err != nil {
			return nil, err
		}
		if added {
			d.took.tookNote(name)
		}
	}
	v, err := d.viewOf(name, after)
	if err != nil {
		return nil, err
	}
	v.Outcomes = append(v.Outcomes, outcomes...)
	v.NoteTaken, v.NoteRefused = s.Note != "" && refused == "", refused
	return v, nil
}
