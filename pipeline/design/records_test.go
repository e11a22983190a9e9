package design

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every record lists the fields of its struct, by the names of their JSON
// tags and in their order, each at its own place.
func TestRecordsAreTheStructs(t *testing.T) {
	t.Parallel()
	seen := map[reflect.Type]bool{}
	var look func(r record)
	look = func(r record) {
		v := reflect.ValueOf(r).Elem()
		if seen[v.Type()] {
			return
		}
		seen[v.Type()] = true
		type listed struct {
			name string
			at   uintptr
			when presence
		}
		var want, got []listed
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if !f.IsExported() {
				continue
			}
			name, option, _ := strings.Cut(f.Tag.Get("json"), ",")
			want = append(want, listed{name, v.Field(i).Addr().Pointer(), presence(option == "")})
		}
		r.fields(func(name string, at any, when presence) bool {
			to := reflect.ValueOf(at)
			switch in := at.(type) {
			case sequence:
				look(in.blank())
				to = to.Field(0) // the pointer to its slice
			case record:
				look(in)
			}
			got = append(got, listed{name, to.Pointer(), when})
			return true
		})
		if assert.Len(t, got, len(want), v.Type().Name()) {
			for i := range want {
				assert.Equal(t, want[i].name, got[i].name)
				assert.Equal(t, want[i].when, got[i].when, "%s.%s", v.Type().Name(), want[i].name)
				assert.True(t, want[i].at == got[i].at, "%s.%s is listed at another field", v.Type().Name(), want[i].name)
			}
		}
	}
	look(&Design{})
	look(&Shelf{})
	assert.Greater(t, len(seen), 15)
}
