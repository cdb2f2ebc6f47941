package render_test

import (
	"cmp"
	"encoding/json"
	"math/big"
	"os"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"tarepage/internal/compute"
	"tarepage/internal/unit"
)

var (
	american = regexp.MustCompile(`[0-9][ \x{a0}](lb|ft|in|psi|sq ft|cu yd|mph)([^a-z/]|$)`)
	metric   = regexp.MustCompile(`[0-9] (kg|m|mm|kPa|sq m|cu m|km/h|kg/m|kg/cu m|kg-m|N m|m/s2|km)([^a-z]|$)`)
	alone    = regexp.MustCompile(`^(?:about )?([0-9,]+(?:\.[0-9]+)?) (lb|kg)$`)
)

// TestEveryQuantityTurns reads the demo's pages with an independent parser
// (golang.org/x/net/html): every text in pounds, feet or inches has a metric form
// without any of them; a weight that is the whole text agrees with NIST SP 811
// (2008), B.8, 1 lb = 0.453 592 37 kg, to the step in which it is written.
func TestEveryQuantityTurns(t *testing.T) {
	files := demo(t)
	pairs, weights := 0, 0
	for path, data := range files {
		if !strings.HasSuffix(path, ".html") || strings.HasPrefix(path, "lot/") || strings.HasPrefix(path, "handover/") || path == "how-we-figure.html" || path == "404.html" {
			continue
		}
		root, err := html.Parse(strings.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		list := listIn(t, data)
		for n := range root.Descendants() {
			if n.Type != html.TextNode || !american.MatchString(n.Data) || n.Parent.Data == "style" || n.Parent.Data == "script" || n.Parent.Parent.Data == "head" {
				continue
			}
			if metric.MatchString(n.Data) {
				continue // says both
			}
			si := metricIn(n, list)
			pairs++
			if !metric.MatchString(si) || american.MatchString(si) {
				t.Errorf("%s: %q in <%s> has %q", path, n.Data, n.Parent.Data, si)
				continue
			}
			from, to := alone.FindStringSubmatch(n.Data), alone.FindStringSubmatch(si)
			if from == nil || to == nil {
				continue
			}
			weights++
			// What was rounded in pounds may have been up to a pound away.
			within := new(big.Rat).Add(number("1"), number("0.45359237"))
			about := strings.HasPrefix(n.Data, "about ") ||
				n.Parent.PrevSibling != nil && strings.HasSuffix(n.Parent.PrevSibling.Data, "about ")
			if about && strings.HasSuffix(from[1], "0") {
				within = number("4.8") // the nearest ten pounds and the nearest five kilograms
			} else if strings.Contains(to[1], ".") {
				// To the nearest tenth, or a rating down to one.
				within = number("0.1")
			}
			off := new(big.Rat).Sub(new(big.Rat).Mul(number(from[1]), number("0.45359237")), number(to[1]))
			if off.Abs(off).Cmp(within) > 0 {
				t.Errorf("%s: %s is not %s", path, n.Data, si)
			}
		}
	}
	if pairs < 2000 || weights < 500 {
		t.Errorf("only %d quantities and %d weights were met", pairs, weights)
	}
}

// metricIn is the metric form that a page has for a text: in its element, or in the page's list.
func metricIn(text *html.Node, list map[string]string) string {
	key := "data-si"
	if text.Parent.Data == "data" {
		key = "value"
	}
	for _, a := range text.Parent.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	if text.Parent.Data == "i" {
		return list[text.Data]
	}
	return ""
}

// listIn is the list of quantities that a page of figures has at its end.
func listIn(t *testing.T, page string) map[string]string {
	t.Helper()
	m := regexp.MustCompile(`<script type="application/json" id="metric">(.*?)</script>`).FindStringSubmatch(page)
	if m == nil {
		return nil
	}
	list := map[string]string{}
	if err := json.Unmarshal([]byte(m[1]), &list); err != nil {
		t.Fatal(err)
	}
	return list
}

// turned is a weight in pounds with its kilograms, in the three ways in which pages write them.
var turned = regexp.MustCompile(`(?:value="|data-si=")([0-9,.]+) kg">([^<]*)<|([0-9,]+(?:\.[0-9]+)? lb) \(([0-9,.]+) kg\)|<dd>([^<]*)</dd><dd class="si">([0-9,.]+) kg`)

// TestRatingsTurnDown: wherever a rating that the unit file states is written in kilograms,
// on screen and on paper, it is at most what was stated and less than a tenth of a kilogram
// below it, or a figure's, down to the whole one (NIST SP 811, B.8).
func TestRatingsTurnDown(t *testing.T) {
	files := demo(t)
	stock, _, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	met := 0
	for _, u := range stock.Units {
		kilograms := map[string][]string{} // of a weight in pounds, as it is written
		for _, folder := range []string{"u/", "figures/", "lot/", "handover/"} {
			for _, m := range turned.FindAllStringSubmatch(files[folder+strings.ToLower(u.Stock.Value)+".html"], -1) {
				lb := m[2] + m[3] + m[5]
				kilograms[lb] = append(kilograms[lb], m[1]+m[4]+m[6])
			}
			for lb, metric := range listIn(t, files[folder+strings.ToLower(u.Stock.Value)+".html"]) {
				if kg, ok := strings.CutSuffix(metric, " kg"); ok {
					kilograms[lb] = append(kilograms[lb], kg)
				}
			}
		}
		for _, r := range []unit.Weight{u.Weights.GVWR, u.Hitch.Rating, u.Hitch.TongueLimit, u.Axles.Rating, u.Tires.Wheel, u.Tires.Sidewall.Single, u.Jack.Rating} {
			words := strings.TrimPrefix(r.Words(), "about ")
			from := alone.FindStringSubmatch(words)
			if !r.Given() || from == nil || from[2] != "lb" {
				continue
			}
			stated := new(big.Rat).Mul(number(from[1]), number("0.45359237"))
			for _, kg := range kilograms[words] {
				met++
				below := new(big.Rat).Sub(stated, number(kg))
				step := "1"
				if strings.Contains(kg, ".") {
					step = "0.1"
				}
				// What internal/measure/round.go calls slack is a millionth of a step.
				if below.Cmp(number("-0.000001")) < 0 || below.Cmp(number(step)) >= 0 {
					t.Errorf("%s: the rating %s is written %s kg", u.Stock.Value, words, kg)
				}
			}
		}
	}
	if met < 200 {
		t.Errorf("only %d ratings were met in kilograms", met)
	}
}

func number(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(strings.ReplaceAll(s, ",", ""))
	if !ok {
		panic(s)
	}
	return r
}

// TestFiguresTurnFromTheirExactValue: on the page of the figures each weight in kilograms
// is the exact value's, limits down and loads up to the whole kilogram (NIST SP 811, B.8),
// and not what the rounded pounds would give.
func TestFiguresTurnFromTheirExactValue(t *testing.T) {
	files := demo(t)
	stock, _, err := unit.Read(os.DirFS("../.."))
	if err != nil {
		t.Fatal(err)
	}
	met, differ := 0, 0
	for _, w := range compute.Stock(stock) {
		page := files["figures/"+strings.ToLower(w.Unit.Stock.Value)+".html"]
		for i := range w.Figures {
			f := &w.Figures[i]
			if f.Unit != "lb" || page == "" || !f.Limit() && !f.Load() {
				continue
			}
			kg := new(big.Rat).Mul(new(big.Rat).SetFloat64(f.Value), number("0.45359237"))
			grace := number("0.000001") // what internal/measure/round.go calls slack
			want := new(big.Int)
			if f.Limit() {
				kg.Add(kg, grace)
				want.Div(kg.Num(), kg.Denom())
			} else {
				kg.Sub(kg, grace)
				want.Div(kg.Num(), kg.Denom())
				want.Add(want, big.NewInt(1))
			}
			at := regexp.MustCompile(`id="fig-` + f.Name + `"><h2>.*?<b(?: data-si="([^"]*)")?>(?:about )?(?:<i>)?([^<]*)`).FindStringSubmatch(page)
			if at == nil {
				t.Errorf("%s: the figure %s is not on its page", w.Unit.Stock.Value, f.Name)
				continue
			}
			si := regexp.MustCompile(`^(?:about )?([0-9,-]+) kg$`).FindStringSubmatch(cmp.Or(at[1], listIn(t, page)[at[2]]))
			if si == nil {
				t.Errorf("%s: the figure %s has no kilograms", w.Unit.Stock.Value, f.Name)
				continue
			}
			met++
			if got := strings.ReplaceAll(si[1], ",", ""); got != want.String() {
				t.Errorf("%s: %s of %v lb is %s kg, want %s", w.Unit.Stock.Value, f.Name, f.Value, got, want)
			}
			if m := alone.FindStringSubmatch(f.Text); m != nil {
				rounded := new(big.Rat).Mul(number(m[1]), number("0.45359237"))
				if new(big.Int).Div(rounded.Num(), rounded.Denom()).Cmp(want) != 0 {
					differ++
				}
			}
		}
	}
	if met < 100 || differ == 0 {
		t.Errorf("%d figures met, %d of which the rounding shows", met, differ)
	}
}
