package oracle

import (
	"testing"

	"tarepage/internal/measure"
)

// TestDoubt: 15% below the least and twice the most of a class are the last that are not questioned. By
// hand: 85% of 8,000 lb are 6,800 lb, of 120 in 102 in and of 60 in 51 in; 9,500 lb are 4,309 kg.
func TestDoubt(t *testing.T) {
	class := Class{Light: 8000, Heavy: 10500, Shortest: 120, Longest: 144, Narrow: 60, Wide: 78}
	usual := Measured{Weight: 9500, Length: 132, Width: 72, Tall: 84}
	with := func(to func(*Measured)) Measured {
		k := usual
		to(&k)
		return k
	}
	for _, c := range []struct {
		class Class
		typed Measured
		want  string
	}{
		{class, usual, ""},
		{class, Measured{Weight: 6800, Length: 102, Width: 51, Tall: 12}, ""},
		{class, Measured{Weight: 21000, Length: 288, Width: 156, Tall: 162}, ""},
		{class, Measured{Weight: 9500, Length: 132}, ""},
		{class, with(func(k *Measured) { k.Weight = 4309 }), "is it really 4,309 lb? This class weighs 8,000 lb to 10,500 lb"},
		{class, with(func(k *Measured) { k.Weight = 6799 }), "is it really 6,799 lb? This class weighs 8,000 lb to 10,500 lb"},
		{class, with(func(k *Measured) { k.Weight = 21001 }), "is it really 21,001 lb? This class weighs 8,000 lb to 10,500 lb"},
		{class, with(func(k *Measured) { k.Length = 101 }), "is it really 8 ft 5 in long? This class is 10 ft to 12 ft long"},
		{class, with(func(k *Measured) { k.Length = 289 }), "is it really 24 ft 1 in long? This class is 10 ft to 12 ft long"},
		{class, with(func(k *Measured) { k.Width = 8 }), "is it really 8 in wide? This class is 5 ft to 6 ft 6 in wide"},
		{class, with(func(k *Measured) { k.Width = 50 }), "is it really 4 ft 2 in wide? This class is 5 ft to 6 ft 6 in wide"},
		{class, with(func(k *Measured) { k.Tall = 11 }), "is it really 11 in high?"},
		{class, with(func(k *Measured) { k.Tall = 108 * 12 }), "is it really 108 ft high?"},
		{Class{}, usual, ""},
		{Class{}, Measured{Weight: 50, Length: 24, Width: 24}, ""},
		{Class{}, with(func(k *Measured) { k.Weight = 9.5 }), "is it really 9.5 lb?"},
		{Class{}, with(func(k *Measured) { k.Length = 11 }), "is it really 11 in long?"},
		{Class{}, with(func(k *Measured) { k.Width = 8 }), "is it really 8 in wide?"},
	} {
		if got := Doubt(c.class, c.typed, measure.American); got != c.want {
			t.Errorf("%+v: %q, want %q", c.typed, got, c.want)
		}
	}
}

func TestQuestion(t *testing.T) {
	v := Verdict{Is: "yes", Limits: []Checked{{}}}
	v.Question("")
	if v.Is != "yes" {
		t.Errorf("without a doubt: %+v", v)
	}
	if v.Question("is it really 95 lb"); v.Is != "unknown" || v.Text != "CANNOT SAY YET: is it really 95 lb." {
		t.Errorf("%+v", v)
	}
	for _, limits := range [][]Checked{nil, {{}, {Over: true}}} {
		v = Verdict{Is: "no", Limits: limits}
		if v.Question("is it really 95 lb"); v.Is != "no" {
			t.Errorf("%+v", v)
		}
	}
}
