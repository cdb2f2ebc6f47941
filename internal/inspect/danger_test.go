package inspect_test

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"tarepage/internal/compute"
	"tarepage/internal/inspect"
	"tarepage/internal/unit"
)

// loaded reads one unit together with the sound yard and models of the examples.
func loaded(t *testing.T, text string, models ...string) (*compute.Work, string) {
	t.Helper()
	root := fstest.MapFS{"content/units/ex-1.md": {Data: []byte("---\nstock: EX-1\n" + text + "---\n")}}
	for _, name := range []string{"yard.md", "models/sound-bumper.md", "models/sound-dual.md", "models/sound-gooseneck.md", "models/sound-single.md"} {
		data, err := os.ReadFile("examples/" + name)
		if err != nil {
			t.Fatal(err)
		}
		root["content/"+name] = &fstest.MapFile{Data: data}
	}
	for _, m := range models { // at most one, called own
		root["content/models/own.md"] = &fstest.MapFile{Data: []byte(m)}
	}
	stock, problems, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	works := compute.Stock(stock)
	var found []string
	for _, f := range inspect.Stock(stock, works, problems) {
		found = append(found, f.Severity.String()+" "+f.Rule.Name+": "+f.Message+" <"+f.Source+">")
	}
	return works[0], strings.Join(found, "\n")
}

// TestNoTireCountsTooMuch tries the ways in which a tire could be counted above what the
// fitted tire carries. The ratings are the tire table's; 49 CFR 571.110 S4.2.2.2
// for the passenger tire, and 393.75(f): no tire carries more than its sidewall says.
func TestNoTireCountsTooMuch(t *testing.T) {
	for _, c := range []struct {
		name, text, model string
		known             bool
		axle              float64
		says              string
	}{
		{name: "a model's sidewall says nothing of another tire",
			text:  "model: own\ntires:\n  size: ST205/75R15\n  load-range: C\n  pressure: 50 psi\n  per-axle: 2\n",
			model: "---\ntires:\n  size: ST235/80R16\n  load-range: E\n  sidewall:\n    single: 3,520 lb\n    pressure: 80 psi\n---\n",
			known: true, axle: 2 * 1820},
		{name: "nor its dual rating beside the unit's own single one",
			text:  "model: own\ntires:\n  pressure: 80 psi\n  per-axle: 4\n  sidewall:\n    single: 3,420 lb\n",
			model: "---\ntires:\n  size: ST235/80R16\n  load-range: E\n  sidewall:\n    single: 3,520 lb\n    dual: 3,080 lb\n---\n",
			known: true, axle: 4 * 3000},
		{name: "the same tire, written again, keeps the model's sidewall",
			text:  "model: own\ntires:\n  size: st235/80r16\n  pressure: 80 psi\n  per-axle: 2\n",
			model: "---\ntires:\n  size: ST235/80R16\n  load-range: E\n  sidewall:\n    single: 3,520 lb\n    pressure: 80 psi\n---\n",
			known: true, axle: 2 * 3520},
		{name: "load range G is also sold at 4,080 lb, whose dual rating nobody found",
			text: "model: sound-dual\ntires:\n  size: ST235/85R16\n  load-range: G\n  pressure: 110 psi\n",
			says: "tire-unknown"},
		{name: "a sidewall that says 4,400 lb is not that one",
			text:  "model: sound-dual\ntires:\n  size: ST235/85R16\n  load-range: G\n  pressure: 110 psi\n  sidewall:\n    single: 4,400 lb\n",
			known: true, axle: 4 * 3860},
		{name: "a size that does not read may be a passenger tire's",
			text: "model: sound-bumper\ntires:\n  size: P225/75R15 102S\n  sidewall:\n    single: 1,900 lb\n",
			says: "tire-unknown"},
		{name: "a rating without its pressure holds at the letter's usual one: 3,860 x (80/95)^0.585 = 3,490, above the 3,420 published at 80 psi",
			text:  "model: sound-bumper\ntires:\n  size: ST235/80R16\n  load-range: F\n  pressure: 80 psi\n  sidewall:\n    single: 3,860 lb\n",
			known: true, axle: 2 * 3420},
		{name: "a dual rating out of the table holds at no less than the sidewall's pressure: 3,000 x (80/95)^0.585 = 2,713",
			text:  "model: sound-dual\ntires:\n  pressure: 80 psi\n  sidewall:\n    single: 3,520 lb\n    pressure: 95 psi\n",
			known: true, axle: 4 * 2713},
		{name: "a sidewall of 65 psi is not set to 80 because a table row says so",
			text:  "model: sound-dual\ntires:\n  pressure: 80 psi\n  sidewall:\n    single: 3,520 lb\n    pressure: 65 psi\n",
			known: true, axle: 4 * 3000, says: "pressure-over-tire"},
		{name: "a row whose pressure is remembered is a remembered row; a retail chart prints 95 psi for this one",
			text:  "model: sound-bumper\ntires:\n  size: ST235/85R16\n  load-range: E\n  pressure: 80 psi\n",
			known: true, axle: 2 * 3640, says: "tire-from-memory"},
		{name: "550 kPa is 80 psi", text: "model: sound-dual\ntires:\n  pressure: 550 kPa\n", known: true, axle: 4 * 3080},
		{name: "530 kPa is not: 3,080 x (76.87/80)^0.585 = 3,008",
			text: "model: sound-dual\ntires:\n  pressure: 530 kPa\n", known: true, axle: 4 * 3008},
	} {
		w, found := loaded(t, c.text, c.model)
		if w.Tire.Known != c.known || float64(w.Tire.Axle) != c.axle {
			t.Errorf("%s: known %v, an axle's tires carry %v (%s), want %v, %v", c.name, w.Tire.Known, w.Tire.Axle, w.Tire.Lack, c.known, c.axle)
		}
		if c.says != "" && !strings.Contains(found, c.says) {
			t.Errorf("%s: %s stays silent; found\n%s", c.name, c.says, found)
		}
	}
}

// TestPressureInKilopascals: 350 kPa is what is molded next to 50 psi (common practice, no
// source); 360 kPa is 52 psi and more.
func TestPressureInKilopascals(t *testing.T) {
	for text, over := range map[string]bool{"350 kPa": false, "345 kPa": false, "360 kPa": true, "51 psi": true, "50 psi": false, "3.45 bar": false} {
		_, found := loaded(t, "model: sound-bumper\ntires:\n  pressure: "+text+"\n")
		if got := strings.Contains(found, "pressure-over-tire"); got != over {
			t.Errorf("%s in a tire of 50 psi: over %v, want %v\n%s", text, got, over, found)
		}
	}
}

// TestClauses checks which clause is named on both sides of its threshold: 571.110 S3 and
// 571.120 S3 (4,536 kg, 10,000 lb), 383.5, the classes of SAE J684 and 393.42(b)(3).
func TestClauses(t *testing.T) {
	soft := "tires:\n  pressure: 30 psi\n"
	for _, c := range []struct{ text, has, not string }{
		{"weights:\n  gvwr: 10,000 lb\n" + soft, "571.110 S4.2.2.1", "571.120 S5.1.2 (2015)>"},
		{"weights:\n  gvwr: 4,536 kg\n" + soft, "571.110 S4.2.2.1", "license-class"},
		{"weights:\n  gvwr: 10,001 lb\n" + soft, "571.120 S5.1.2", "571.110 S4.2.2.1 (2015"},
		{"weights:\n  gvwr: 10,001 lb\n" + soft, "whose own GVWR is 16,000 lb or more", ""},
		{"weights:\n  gvwr: 26,001 lb\n", "needed with any truck", "whose own GVWR"},
		{"weights:\n  gvwr: 3,000 lb\nbrakes:\n  kind: none\n", "", "brakes-missing"},
		{"weights:\n  gvwr: 3,001 lb\nbrakes:\n  kind: none\n", "brakes-missing", ""},
		{"tires:\n  size: P225/75R15\n  sidewall:\n    single: 1,900 lb\n", "571.110 S4.2.2.1, S4.2.2.2", ""},
	} {
		_, found := loaded(t, "model: sound-bumper\n"+c.text)
		if !strings.Contains(found, c.has) || c.not != "" && strings.Contains(found, c.not) {
			t.Errorf("%s: want %q and not %q in\n%s", c.text, c.has, c.not, found)
		}
	}
	for gvwr, least := range map[string]string{"2,000": "2,000", "2,001": "3,500", "3,500": "3,500", "3,501": "5,000",
		"5,000": "5,000", "5,001": "5,001", "10,000": "10,000", "10,001": "10,001"} {
		_, found := loaded(t, "model: sound-bumper\nweights:\n  gvwr: "+gvwr+" lb\nhitch:\n  chains:\n    breaking: 1,999 lb\n")
		if !strings.Contains(found, "needs "+least+" lb") {
			t.Errorf("gvwr %s: want chains of %s lb\n%s", gvwr, least, found)
		}
		_, found = loaded(t, "model: sound-bumper\nweights:\n  gvwr: "+gvwr+" lb\nhitch:\n  chains:\n    breaking: "+least+" lb\n")
		if strings.Contains(found, "chains-under-gvwr") {
			t.Errorf("gvwr %s: chains of %s lb are refused", gvwr, least)
		}
	}
}

// TestBandEndsAreInclusive puts trailers at the ends of the band, and at the coupler's
// limit, with measures in thirds of an inch, which no binary number holds (check value
// 8.15: 10% and 15% are fine). In thirds A is 400 and xc is 1 + k, so that by hand the
// 4,000 lb of cargo put 4,000 - 10 (1 + k) on the tongue.
func TestBandEndsAreInclusive(t *testing.T) {
	for _, want := range []int{700, 1050} {
		for xc := 400 - want/10 + 1; xc < 400; xc += 3 {
			empty := want - 4000 + 10*xc
			if empty < 0 {
				continue
			}
			text := fmt.Sprintf("model: sound-bumper\nweights:\n  empty: 3,000 lb\n  tongue-empty: %d lb\naxles:\n  center: 133-1/3 in\ndeck:\n  front: 1/3 in\n  length: %s\n",
				empty, thirds(2*(xc-1)))
			_, found := loaded(t, text)
			if strings.Contains(found, "tongue-out-of-band") || strings.Contains(found, "tongue-over-limit") {
				t.Fatalf("a tongue of exactly %d lb at xc = %d/3 in is refused:\n%s", want, xc, found)
			}
		}
	}
	for tongue, has := range map[string]string{"699 lb": "less than the 700 lb", "1,051 lb": "more than the 1,050 lb", "699.5 lb": "puts 700 lb on the truck, just under the 700 lb"} {
		_, found := loaded(t, "model: sound-bumper\nhitch:\n  tongue-limit: 2,000 lb\nweights:\n  empty: 7,000 lb\n  tongue-empty: "+tongue+"\n")
		if !strings.Contains(found, has) {
			t.Errorf("tongue %s: want %q in\n%s", tongue, has, found)
		}
	}
}

func thirds(n int) string {
	if n%3 == 0 {
		return fmt.Sprintf("%d in", n/3)
	}
	return fmt.Sprintf("%d-%d/3 in", n/3, n%3)
}

// TestPayloadWithoutTheTongue: where nobody weighed the tongue the whole load is counted on
// the axles: 7,000 - 2,000 = 5,000 lb where the tag would leave 6,000.
func TestPayloadWithoutTheTongue(t *testing.T) {
	own := "---\nhitch:\n  kind: bumper-pull\ndeck:\n  length: 18 ft\naxles:\n  count: 2\n  rating: 3,500 lb\ntires:\n  size: ST205/75R15\n  load-range: D\n  pressure: 65 psi\n  per-axle: 2\n---\n"
	w, _ := loaded(t, "model: own\nweights:\n  gvwr: 8,000 lb\n  empty: 2,000 lb\n", own)
	f := w.Figure("payload")
	if f == nil || f.Text != "5,000 lb" {
		t.Fatalf("payload %+v, want 5,000 lb", f)
	}
	notes := strings.Join(f.Notes(), "; ")
	for _, part := range []string{"nobody weighed the tongue", "the wheels, the coupler, the tongue limit"} {
		if !strings.Contains(notes, part) {
			t.Errorf("the notes do not say that %q was not counted: %s", part, notes)
		}
	}
}

// TestWrittenLimitsAreNotPassed: a checked figure is read to the precision written, but no
// words may promise more than a limit or less than a load.
func TestWrittenLimitsAreNotPassed(t *testing.T) {
	w, _ := loaded(t, "model: sound-bumper\nweights:\n  gvwr: 7,000 lb\n  empty: 2,000.6 lb\n")
	for _, c := range []struct {
		name, words string
		ok          bool
	}{
		{"tag-payload", "4,999 lb", true}, // 4,999.4
		{"tag-payload", "5,000 lb", false},
		{"empty-axle-load", "1,741 lb", true}, // 1,740.6
		{"empty-axle-load", "1,740 lb", false},
		{"working-payload", w.Figure("working-payload").Text, true},
		{"working-payload", "4,799 lb", false}, // 4,700
		{"tag-payload", "about 5,000 lb", true},
	} {
		if _, ok, err := inspect.Agrees(c.words, w.Figure(c.name)); err != nil || ok != c.ok {
			t.Errorf("%s (%s) written as %s: agrees %v (%v), want %v", c.name, w.Figure(c.name).Text, c.words, ok, err, c.ok)
		}
	}
}

// TestSaidAndSerial: a spoken sidewall passes no tire, and a note that says where the VIN
// was read does not excuse its check digit (check value 10.5).
func TestSaidAndSerial(t *testing.T) {
	for _, c := range []struct{ text, has string }{
		{"tires:\n  sidewall:\n    single: 1,900 lb (said 1:42)\n", "said-not-confirmed"},
		{"tires:\n  wheel: 1,870 lb (said 1:42)\n", "said-not-confirmed"},
		{"hitch:\n  tongue-limit: 1,050 lb (said 1:42)\n", "said-not-confirmed"},
		{"year: 2010\nserial: 0J9RP1A39A1644354 (tag)\n", "serial-check-digit"},
		{"year: 2011\nserial: 0J9RP1A39A1644345 (stamp)\n", "serial-year"},
	} {
		if _, found := loaded(t, "model: sound-bumper\n"+c.text); !strings.Contains(found, c.has) {
			t.Errorf("%q: %s stays silent; found\n%s", c.text, c.has, found)
		}
	}
}

// TestReserveIsNeverRoundedUp: a hair too little is not shown as 0% or 0 lb.
func TestReserveIsNeverRoundedUp(t *testing.T) {
	w, _ := loaded(t, "model: sound-bumper\naxles:\n  rating: 3,641 lb\ntires:\n  wheel: 2,000 lb\n")
	if got := w.Figure("tire-reserve-share").Text + ", " + w.Figure("tire-reserve").Text; got != "-0.1%, -1 lb" {
		t.Errorf("reserve %s, want -0.1%%, -1 lb", got)
	}
}

// A load range that was left out is asked for first: the table then knows what the tire carries.
func TestLoadRangeIsAskedFor(t *testing.T) {
	root := fstest.MapFS{"content/yard.md": {Data: []byte("---\nname: Sample yard\n---\n")},
		"content/units/a.md": {Data: []byte("---\nstock: A-1\ntires:\n  size: ST205/75R15\n  per-axle: 2\n---\n")}}
	stock, problems, err := unit.Read(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range inspect.Stock(stock, compute.Stock(stock), problems) {
		if f.Rule.Name == "tire-unknown" {
			if want := `write the load range below tires:, as in "  load-range: C"; `; !strings.HasPrefix(f.Remedy, want) || strings.Contains(f.Remedy, "slip") {
				t.Errorf("the remedy is %q", f.Remedy)
			}
			return
		}
	}
	t.Error("the tire is not asked about")
}
