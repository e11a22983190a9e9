package asjson

import (
	"math"
	"reflect"
	"strconv"
	"strings"

	"drawoff/pipeline/tokens"
)

// Append appends v as JSON on one line. It takes what a report is made of:
// structs, slices, pointers, words, truth, numbers, and whatever writes itself
// by MarshalJSON or MarshalText. A number that is not whole keeps nine
// significant digits, as an amount does: its last digits differ between
// processors. It panics on anything else, and on a number
// that JSON has no way to write.
func Append(b []byte, v any) []byte { return value(b, reflect.ValueOf(v)) }

type jsonWriter interface{ MarshalJSON() ([]byte, error) }

type textWriter interface{ MarshalText() ([]byte, error) }

func value(b []byte, v reflect.Value) []byte {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return append(b, "null"...)
		}
		return value(b, v.Elem())
	}
	if v.CanInterface() {
		switch w := v.Interface().(type) {
		case jsonWriter:
			text, err := w.MarshalJSON()
			must(err)
			return append(b, text...)
		case textWriter:
			text, err := w.MarshalText()
			must(err)
			return tokens.AppendString(b, string(text))
		}
	}
	switch v.Kind() {
	case reflect.Struct:
		b, _ = members(append(b, '{'), v, true)
		return append(b, '}')
	case reflect.Slice:
		return items(b, v)
	case reflect.String:
		return tokens.AppendString(b, v.String())
	case reflect.Bool:
		return strconv.AppendBool(b, v.Bool())
	case reflect.Int:
		return strconv.AppendInt(b, v.Int(), 10)
	case reflect.Float64:
		return number(b, v.Float())
	}
	panic("asjson: no way to write a " + v.Type().String())
}

func must(err error) {
	if err != nil {
		panic("asjson: " + err.Error())
	}
}

func items(b []byte, v reflect.Value) []byte {
	if v.IsNil() {
		return append(b, "null"...)
	}
	b = append(b, '[')
	for i := range v.Len() {
		if i > 0 {
			b = append(b, ',')
		}
		b = value(b, v.Index(i))
	}
	return append(b, ']')
}

// members writes the fields of struct v, those of an embedded one without a
// name among them. first says whether none stands before them, and is
// returned for what comes after.
func members(b []byte, v reflect.Value, first bool) ([]byte, bool) {
	t := v.Type()
	for i := range t.NumField() {
		field, in := t.Field(i), v.Field(i)
		name, options, _ := strings.Cut(field.Tag.Get("json"), ",")
		switch {
		case field.Anonymous && name == "":
			b, first = members(b, in, first)
			continue
		case field.PkgPath != "" || name == "-" || leftOut(in, options): // PkgPath: not exported
			continue
		case name == "":
			name = field.Name
		}
		if !first {
			b = append(b, ',')
		}
		first = false
		b = append(tokens.AppendString(b, name), ':')
		b = value(b, in)
	}
	return b, first
}

func leftOut(v reflect.Value, options string) bool {
	switch options {
	case "omitzero":
		return v.IsZero()
	case "omitempty":
		if v.Kind() == reflect.Slice {
			return v.Len() == 0
		}
		return v.Kind() != reflect.Struct && v.IsZero()
	}
	return false
}

// digits is how many significant digits a number keeps.
const digits = 9

// number writes f, rounded, as encoding/json does, after ECMAScript.
func number(b []byte, f float64) []byte {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		panic("asjson: a number that is not one")
	}
	f, _ = strconv.ParseFloat(strconv.FormatFloat(f, 'e', digits-1, 64), 64)
	if size := math.Abs(f); size != 0 && (size < 1e-6 || size >= 1e21) {
		from := len(b)
		b = strconv.AppendFloat(b, f, 'e', -1, 64)
		if n := len(b); n-from >= 4 && b[n-4] == 'e' && b[n-3] == '-' && b[n-2] == '0' { // e-09 is e-9
			b[n-2] = b[n-1]
			b = b[:n-1]
		}
		return b
	}
	return strconv.AppendFloat(b, f, 'f', -1, 64)
}
