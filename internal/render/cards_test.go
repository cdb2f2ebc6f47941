package render_test

import (
	"encoding/json"
	"html"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/dop251/goja"

	"tarepage/internal/thorough"
)

// ofRig matches what a unit's page hands to its calculators.
var ofRig = regexp.MustCompile(`data-rig=["']?(\[[^\]]*\])`)

// TestYardAnswersAsTheUnit: a card of the yard page and the unit's own page give the same answers to
// the same machine and truck, for every trailer of the demo and of other yards, with or without all of
// its measurements, weighed in pounds or in kilograms.
func TestYardAnswersAsTheUnit(t *testing.T) {
	thorough.Only(t)
	asked := 0
	for name, files := range yards(t) {
		t.Run(name, func(t *testing.T) { asked += sameAnswers(t, files) })
	}
	// What the yard added after the scale is in no column of the stock.
	t.Run("added", func(t *testing.T) {
		added := strings.Replace(sound, "weights:\n", "dealer-added: 85 lb (scale ticket 2026-11-20)\nweights:\n", 1)
		asked += sameAnswers(t, made(t, fstest.MapFS{"content/yard.md": {Data: []byte(yard)}, "content/units/ex-1.md": {Data: []byte(added)}}))
	})
	if asked < 40 {
		t.Errorf("only %d trailers were asked about", asked)
	}
}

// sameAnswers compares the answers of a yard's cards with those of its trailers' pages, and returns
// how many trailers it asked about.
func sameAnswers(t *testing.T, files map[string]string) (asked int) {
	vm := goja.New()
	run := func(text string) goja.Value {
		t.Helper()
		v, err := vm.RunString(text)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	// A page without trailers to find among, so that the script only makes its functions.
	run("var window = this, units = {}, document = {getElementById: function () { return null; }};")
	for _, name := range []string{"statics", "machines", "stock", "yard"} {
		for path, text := range files {
			if strings.HasPrefix(path, "s/"+name+"-") {
				run(text)
			}
		}
	}
	ask, _ := goja.AssertFunction(run(`var names;
	function card(i) {
		var stock = JSON.parse(JSON.stringify(STOCK)), rig;
		stock.facets = [{ by: "model", values: [] }];
		rig = units.rigOf(stock, i);
		names = stock.stock.map(function (s) { return s.toLowerCase(); });
		return rig;
	}
	card(0);
	(function (text) {
		var a = JSON.parse(text), page = a[0].slice(0, 33), of = card(names.indexOf(a[1])), wrong = "";
		[[0, 0], [9500, 132], [2500, 96], [60000, 120]].forEach(function (w) {
			var c = Statics.machine(MACHINES[0], w[1]), list = w[0] ? [c] : [];
			c.w = w[0];
			a[2].forEach(function (truck) {
				var said = [page, of].map(function (r) {
					var o = Statics.answer(r, list, truck, LAW, false);
					return JSON.stringify([o.m, o.t].map(function (v) { return v && [v.is, v.text, v.needs, v.notes]; }));
				});
				if (said[0] != said[1]) wrong = wrong || "the unit's page says " + said[0] + "\n the card " + said[1];
			});
		});
		return wrong;
	})`))
	trucks := []any{nil, map[string]any{"kind": "receiver"}, map[string]any{"kind": "receiver", "gvwr": 10000, "sticker": 2200, "people": 450, "tow": 14000, "hitch": 14000, "tongue": 1400, "ball": 14000},
		map[string]any{"kind": "gooseneck", "gvwr": 14000, "weight": 8000, "tow": 24000, "hitch": 30000, "tongue": 6000, "ball": 30000}}
	for path, text := range files {
		name, ok := strings.CutPrefix(path, "u/")
		data := ofRig.FindStringSubmatch(text)
		if !ok || data == nil {
			continue
		}
		asked++
		question, err := json.Marshal([]any{json.RawMessage(html.UnescapeString(data[1])), strings.TrimSuffix(name, ".html"), trucks})
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		if wrong, err := ask(goja.Undefined(), vm.ToValue(string(question))); err != nil || wrong.String() != "" {
			t.Errorf("%s: %v %v", path, wrong, err)
		}
	}
	return asked
}
