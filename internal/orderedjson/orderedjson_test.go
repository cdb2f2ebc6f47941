package orderedjson_test

import (
	"encoding/json"
	"math"
	"testing"

	"tarepage/internal/orderedjson"
)

type object []any // name, value, name, value

func (o object) MarshalJSON() ([]byte, error) {
	return orderedjson.Object(func(yield func(string, any) bool) {
		for i := 0; i < len(o); i += 2 {
			if !yield(o[i].(string), o[i+1]) {
				return
			}
		}
	})
}

// RFC 8259, 4: members are separated by commas, and a name from its value by a colon.
func TestObject(t *testing.T) {
	check(t, object{}, `{}`, `{}`)
	check(t, object{"b", 1, "a", "x"}, `{"b":1,"a":"x"}`, `{"b":1,"a":"x"}`)
	check(t, object{"a<b", object{"z", nil, "y", "&"}, "a", []string{">"}},
		`{"a<b":{"z":null,"y":"&"},"a":[">"]}`,
		`{"a\u003cb":{"z":null,"y":"\u0026"},"a":["\u003e"]}`)
}

func check(t *testing.T, in object, readable, escaped string) {
	t.Helper()
	if got, err := orderedjson.Marshal(in); err != nil || string(got) != readable {
		t.Errorf("Marshal: %s, %v; want %s", got, err, readable)
	}
	if got, err := json.Marshal(in); err != nil || string(got) != escaped {
		t.Errorf("json.Marshal: %s, %v; want %s", got, err, escaped)
	}
}

func TestWhatJSONCannotHoldIsAnError(t *testing.T) {
	if got, err := orderedjson.Marshal(object{"a", 1, "b", math.Inf(1)}); err == nil {
		t.Errorf("infinity was written: %s", got)
	}
}
