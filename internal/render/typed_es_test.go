package render

import (
	"testing"

	"github.com/dop251/goja"

	"tarepage/internal/phrases"
	theme "tarepage/themes/default"
)

// TestTypedInSpanish: what a customer types on a Spanish page is read as on an English one, and a
// ton still asks which (a pound is 0.45359237 kg, an inch 25.4 mm: NIST SP 811, B.8).
func TestTypedInSpanish(t *testing.T) {
	sources, err := readSources(theme.Files)
	if err != nil {
		t.Fatal(err)
	}
	vm := goja.New()
	if _, err := vm.RunString(string(worded(sources, phrases.Spanish)["statics.js"].text)); err != nil {
		t.Fatal(err)
	}
	read, ok := goja.AssertFunction(must(t, vm, `(function(text,unit){var o=Statics.read(text,{name:"Esto",unit:unit},false);return o.is=="ok"?String(Math.round(o.value*100)/100):o.code})`))
	if !ok {
		t.Fatal("no function")
	}
	for _, c := range [][3]string{
		{"9,500 libras", "lb", "9500"}, {"9 mil libras", "lb", "9000"}, {"1000 kilos", "lb", "2204.62"},
		{"5 toneladas", "lb", "ton"}, {"una libra", "lb", "number"}, {"9 mil", "ft", "unit"},
		{"11 pies y 6 pulgadas", "ft", "138"}, {"11 pies 6 pulg", "ft", "138"}, {"254 milímetros", "ft", "10"}, {"11 pies y 12 pulgadas", "ft", "inches"},
	} {
		got, err := read(goja.Undefined(), vm.ToValue(c[0]), vm.ToValue(c[1]))
		if err != nil || got.String() != c[2] {
			t.Errorf("%q is read as %v, %v, want %s", c[0], got, err, c[2])
		}
	}
}

func must(t *testing.T, vm *goja.Runtime, text string) goja.Value {
	t.Helper()
	v, err := vm.RunString(text)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
