// Package packed writes Go values as few bytes and reads them back as they were. It is for what
// one run of the program keeps for the next run of the same program: the bytes say nothing
// about the types, so whoever keeps them also keeps what program wrote them, and a digest.
//
// Most fields of a unit are empty. An empty field takes no byte and no time, and a text that
// was there before takes one byte or two. That is why the packages for JSON and gob do not
// serve here: reading a unit back with them takes longer than reading the owner's file again.
//
// Fields that are not exported, maps, functions and filled interfaces are refused, so that
// nothing is lost without notice. A type may not hold itself.
package packed

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"reflect"
	"sync"
)

// Append adds what v points to. It adds nothing where it returns an error.
func Append(to []byte, v any) ([]byte, error) {
	w := &writer{to: to, known: map[string]uint64{}}
	from := reflect.ValueOf(v).Elem()
	codecOf(from.Type()).put(w, from)
	if w.err != nil {
		return to, w.err
	}
	return w.to, nil
}

// Read fills in what v points to, which must be a zero value, from all of the bytes that Append
// added for a value of the same type. The texts in it are parts of data.
func Read(data string, v any) error {
	r := &reader{rest: data}
	to := reflect.ValueOf(v).Elem()
	codecOf(to.Type()).get(r, to)
	if r.err == nil && r.rest != "" {
		return fmt.Errorf("packed: %d bytes are left over", len(r.rest))
	}
	return r.err
}

// writer has the texts that were written, by their numbers.
type writer struct {
	to    []byte
	known map[string]uint64
	err   error
}

func (w *writer) number(n uint64) { w.to = binary.AppendUvarint(w.to, n) }

func (w *writer) refuse(t reflect.Type) {
	w.err = errors.Join(w.err, fmt.Errorf("packed: a value of type %s is not written", t))
}

// text writes the number of a text that was written before, as an odd number, or else the text
// after its length, doubled.
func (w *writer) text(s string) {
	if n, ok := w.known[s]; ok {
		w.number(n<<1 | 1)
		return
	}
	w.known[s] = uint64(len(w.known))
	w.number(uint64(len(s)) << 1)
	w.to = append(w.to, s...)
}

type reader struct {
	rest  string
	known []string
	err   error
}

// fail ends the reading: everything that is read from here on is zero.
func (r *reader) fail(what string) {
	if r.err == nil {
		r.err = errors.New("packed: " + what)
	}
	r.rest = ""
}

// number reads an unsigned number (encoding/binary, varint).
func (r *reader) number() (n uint64) {
	for i := 0; i < len(r.rest) && i < binary.MaxVarintLen64; i++ {
		b := r.rest[i]
		if b < 0x80 {
			r.rest = r.rest[i+1:]
			return n | uint64(b)<<(7*i)
		}
		n |= uint64(b&0x7f) << (7 * i)
	}
	r.fail("a number does not end")
	return 0
}

func (r *reader) bytes(n uint64) string {
	if n > uint64(len(r.rest)) {
		r.fail("a text does not end")
		return ""
	}
	s := r.rest[:n]
	r.rest = r.rest[n:]
	return s
}

func (r *reader) text() string {
	n := r.number()
	if n&1 == 0 {
		s := r.bytes(n >> 1)
		r.known = append(r.known, s)
		return s
	}
	if n >>= 1; n < uint64(len(r.known)) {
		return r.known[n]
	}
	r.fail("a text is not known")
	return ""
}

// length reads the length of a list, each element of which takes a byte or more.
func (r *reader) length() int {
	n := r.number()
	if n > uint64(len(r.rest))+1 {
		r.fail("a list does not end")
		return 0
	}
	return int(n)
}

// A codec writes and reads the values of one type.
type codec struct {
	put func(*writer, reflect.Value)
	get func(*reader, reflect.Value)
}

var codecs sync.Map // *codec by reflect.Type

func codecOf(t reflect.Type) *codec {
	if c, ok := codecs.Load(t); ok {
		return c.(*codec)
	}
	c := makeCodec(t)
	codecs.Store(t, c)
	return c
}

func makeCodec(t reflect.Type) *codec {
	switch t.Kind() {
	case reflect.Bool:
		return &codec{
			func(w *writer, v reflect.Value) { w.number(map[bool]uint64{true: 1}[v.Bool()]) },
			func(r *reader, v reflect.Value) { v.SetBool(r.number() == 1) }}
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return &codec{ // a small number below zero has few bytes too
			func(w *writer, v reflect.Value) { n := v.Int(); w.number(uint64(n<<1) ^ uint64(n>>63)) },
			func(r *reader, v reflect.Value) { n := r.number(); v.SetInt(int64(n>>1) ^ -int64(n&1)) }}
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return &codec{
			func(w *writer, v reflect.Value) { w.number(v.Uint()) },
			func(r *reader, v reflect.Value) { v.SetUint(r.number()) }}
	case reflect.Float32, reflect.Float64:
		return &codec{
			func(w *writer, v reflect.Value) {
				w.to = binary.LittleEndian.AppendUint64(w.to, math.Float64bits(v.Float()))
			},
			func(r *reader, v reflect.Value) {
				if s := r.bytes(8); s != "" {
					v.SetFloat(math.Float64frombits(binary.LittleEndian.Uint64([]byte(s))))
				}
			}}
	case reflect.String:
		return &codec{
			func(w *writer, v reflect.Value) { w.text(v.String()) },
			func(r *reader, v reflect.Value) { v.SetString(r.text()) }}
	case reflect.Struct:
		return structCodec(t)
	case reflect.Array:
		return arrayCodec(t)
	case reflect.Slice:
		return sliceCodec(t)
	case reflect.Pointer:
		return pointerCodec(t)
	}
	return &codec{
		func(w *writer, v reflect.Value) {
			if !v.IsZero() {
				w.refuse(t)
			}
		},
		func(*reader, reflect.Value) {}}
}

// structCodec writes the number of each field that is not empty, from 1, with its value, and
// then 0.
func structCodec(t reflect.Type) *codec {
	fields := make([]*codec, t.NumField())
	hidden := false
	for i := range fields {
		fields[i] = codecOf(t.Field(i).Type)
		hidden = hidden || !t.Field(i).IsExported()
	}
	return &codec{
		func(w *writer, v reflect.Value) {
			if hidden {
				w.refuse(t)
				return
			}
			for i, f := range fields {
				if field := v.Field(i); !field.IsZero() {
					w.number(uint64(i) + 1)
					f.put(w, field)
				}
			}
			w.number(0)
		},
		func(r *reader, v reflect.Value) {
			for {
				n := r.number()
				switch {
				case n == 0:
					return
				case n > uint64(len(fields)) || hidden:
					r.fail("a field is not known")
					return
				}
				fields[n-1].get(r, v.Field(int(n-1)))
			}
		}}
}

func arrayCodec(t reflect.Type) *codec {
	if t.Elem().Kind() == reflect.Uint8 { // a digest
		return &codec{
			func(w *writer, v reflect.Value) {
				for i := range t.Len() {
					w.to = append(w.to, byte(v.Index(i).Uint()))
				}
			},
			func(r *reader, v reflect.Value) { reflect.Copy(v, reflect.ValueOf([]byte(r.bytes(uint64(t.Len()))))) }}
	}
	each := codecOf(t.Elem())
	return &codec{
		func(w *writer, v reflect.Value) {
			for i := range t.Len() {
				each.put(w, v.Index(i))
			}
		},
		func(r *reader, v reflect.Value) {
			for i := range t.Len() {
				each.get(r, v.Index(i))
			}
		}}
}

// sliceCodec writes the length plus one, because an empty list is not the same as none.
func sliceCodec(t reflect.Type) *codec {
	if t.Elem().Kind() == reflect.Uint8 {
		return &codec{
			func(w *writer, v reflect.Value) { w.number(uint64(v.Len()) + 1); w.to = append(w.to, v.Bytes()...) },
			func(r *reader, v reflect.Value) {
				if n := r.length(); n > 0 {
					v.SetBytes(append(make([]byte, 0, n-1), r.bytes(uint64(n-1))...))
				}
			}}
	}
	each := codecOf(t.Elem())
	return &codec{
		func(w *writer, v reflect.Value) {
			w.number(uint64(v.Len()) + 1)
			for i := range v.Len() {
				each.put(w, v.Index(i))
			}
		},
		func(r *reader, v reflect.Value) {
			n := r.length()
			if n == 0 {
				return
			}
			v.Set(reflect.MakeSlice(t, n-1, n-1))
			for i := range n - 1 {
				each.get(r, v.Index(i))
			}
		}}
}

func pointerCodec(t reflect.Type) *codec {
	to := codecOf(t.Elem())
	return &codec{
		func(w *writer, v reflect.Value) {
			if v.IsNil() {
				w.number(0)
				return
			}
			w.number(1)
			to.put(w, v.Elem())
		},
		func(r *reader, v reflect.Value) {
			if r.number() == 1 {
				v.Set(reflect.New(t.Elem()))
				to.get(r, v.Elem())
			}
		}}
}
