// Package orderedjson writes JSON objects whose members keep an order of their own.
// encoding/json sorts the keys of a map, and a struct has the same keys every time.
package orderedjson

import (
	"bytes"
	"encoding/json"
	"iter"
)

// Object writes a JSON object with its members in the order in which they come. A type
// calls it from its MarshalJSON. Whether <, > and & are escaped is left to the encoder
// that asks: json.Marshal escapes them, Marshal does not.
func Object[V any](members iter.Seq2[string, V]) ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for name, value := range members {
		if b.Len() > 1 {
			b.WriteByte(',')
		}
		for i, part := range []any{name, value} {
			text, err := Marshal(part)
			if err != nil {
				return nil, err
			}
			if i == 1 {
				b.WriteByte(':')
			}
			b.Write(text)
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// Marshal is json.Marshal for files that people read too: <, > and & stay as they are.
func Marshal(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}
