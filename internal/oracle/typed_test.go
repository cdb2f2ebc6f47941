package oracle

import (
	"math"
	"testing"

	"tarepage/internal/measure"
)

// TestReadTyped: what a buyer types in the lot, worked by hand. The first rows were read
// wrong once: 9.5k as 9.5 lb, 9500 kg as 9,500 lb, 11 ft 6 in as 11 ft, 11,5 as 115 ft.
func TestReadTyped(t *testing.T) {
	lb, ft, in := Field{Unit: "lb"}, Field{Unit: "ft"}, Field{Unit: "in", Signed: true}
	for _, c := range []struct {
		text string
		f    Field
		s    measure.System
		want Typed
	}{
		{"9.5k", lb, measure.American, Typed{Is: "ok", Value: 9500, Echo: "9,500 lb"}},
		{"9500 kg", lb, measure.American, Typed{Is: "ok", Value: 9500 / 0.45359237, Echo: "9,500 kg = 20,943.9 lb"}},
		{"11 ft 6 in", ft, measure.American, Typed{Is: "ok", Value: 138, Echo: "11 ft 6 in"}},
		{"11,5", ft, measure.American, Typed{Is: "bad", Code: "commas", What: "11,5"}},
		{"abc", lb, measure.American, Typed{Is: "bad", Code: "number"}},
		{"-5", lb, measure.American, Typed{Is: "bad", Code: "below"}},
		{"0", lb, measure.American, Typed{Is: "bad", Code: "zero"}},
		{"0", Field{Unit: "lb", Zero: true}, measure.American, Typed{Is: "ok", Echo: "0 lb"}},
		{"7k", ft, measure.American, Typed{Is: "bad", Code: "unit", What: "k"}},
		{"9,500", lb, measure.American, Typed{Is: "ok", Value: 9500, Echo: "9,500 lb"}},
		{"9500", lb, measure.Metric, Typed{Is: "ok", Value: 9500 / 0.45359237, Echo: "9,500 kg"}},
		{"9 thousand pounds", lb, measure.American, Typed{Is: "ok", Value: 9000, Echo: "9,000 lb"}},
		{"9.500", lb, measure.American, Typed{Is: "bad", Code: "decimals", What: "9.500"}},
		{"18.450 lb", lb, measure.American, Typed{Is: "bad", Code: "decimals", What: "18.450"}},
		{"4.75 t", lb, measure.American, Typed{Is: "ask", Code: "ton", Choices: []string{"9,500 lb", "4,750 kg"}}},
		{"5 tons", lb, measure.Metric, Typed{Is: "ask", Code: "ton", Choices: []string{"10,000 lb", "5,000 kg"}}},
		{"5 metric tons", lb, measure.Metric, Typed{Is: "ok", Value: 5000 / 0.45359237, Echo: "5,000 kg"}},
		{"5 short tons", lb, measure.American, Typed{Is: "ok", Value: 10000, Echo: "10,000 lb"}},
		{"11'6", ft, measure.American, Typed{Is: "ok", Value: 138, Echo: "11 ft 6 in"}},
		{"8'-6 1/2\"", ft, measure.American, Typed{Is: "ok", Value: 102.5, Echo: "8 ft 6-1/2 in"}},
		{"8′ 6½″", ft, measure.American, Typed{Is: "ok", Value: 102.5, Echo: "8 ft 6-1/2 in"}},
		{"11 ft 12 in", ft, measure.American, Typed{Is: "bad", Code: "inches", What: "12 in"}},
		{"11.5 ft 6 in", ft, measure.American, Typed{Is: "bad", Code: "inches", What: "6 in"}},
		{"3.5", ft, measure.Metric, Typed{Is: "ok", Value: 3500 / 25.4, Echo: "3.50 m"}},
		{"350 cm", ft, measure.American, Typed{Is: "ok", Value: 3500 / 25.4, Echo: "3.50 m = 11 ft 5-51/64 in"}},
		{"-12", in, measure.American, Typed{Is: "ok", Value: -12, Echo: "-1 ft"}},
		{"2-5/16", in, measure.American, Typed{Is: "ok", Value: 2.3125, Echo: "2-5/16 in"}},
		{"10/15", in, measure.American, Typed{Is: "bad", Code: "fraction", What: "10/15"}},
		{"6 in 2 ft", in, measure.American, Typed{Is: "bad", Code: "rest", What: "2 ft"}},
		{"9500 ft", lb, measure.American, Typed{Is: "bad", Code: "unit", What: "ft"}},
		{"300,000", lb, measure.American, Typed{Is: "ok", Value: 300000, Echo: "300,000 lb"}},
		{"300,001", lb, measure.American, Typed{Is: "bad", Code: "large"}},
		{"200 ft", ft, measure.American, Typed{Is: "ok", Value: 2400, Echo: "200 ft"}},
		{"201 ft", ft, measure.American, Typed{Is: "bad", Code: "large"}},
		{" ", ft, measure.American, Typed{Is: "blank"}},
	} {
		got := ReadTyped(c.text, c.f, c.s)
		if got.Is != c.want.Is || math.Abs(got.Value-c.want.Value) > 1e-9*math.Abs(c.want.Value) || got.Echo != c.want.Echo || got.Code != c.want.Code || got.What != c.want.What ||
			len(got.Choices) != len(c.want.Choices) || len(got.Choices) == 2 && (got.Choices[0] != c.want.Choices[0] || got.Choices[1] != c.want.Choices[1]) {
			t.Errorf("%q: %+v\nwant %+v", c.text, got, c.want)
		}
	}
}

// TestEchoReadsBack: a choice that a page offers for a ton, typed in again, is that weight.
func TestEchoReadsBack(t *testing.T) {
	for _, text := range []string{"1 t", "4.75 tons", "12 ton"} {
		for _, choice := range ReadTyped(text, Field{Unit: "lb"}, measure.American).Choices {
			if got := ReadTyped(choice, Field{Unit: "lb"}, measure.American); got.Is != "ok" {
				t.Errorf("%q offers %q, which reads as %+v", text, choice, got)
			}
		}
	}
}
