//go:build js && wasm

package door

import (
	"encoding/json"
	"strings"
	"syscall/js"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAnswerPassesTheRequestThrough(t *testing.T) {
	got := answer(strings.ToUpper, []js.Value{js.ValueOf("½ in")})
	assert.Equal(t, "½ IN", got)
}

func TestAnswerSurvivesWhatShouldNotHappen(t *testing.T) {
	broken := func(string) string { panic(`index "out" of range`) }
	for name, test := range map[string]struct {
		handle func(string) string
		args   []js.Value
		want   string
	}{
		"a panic":              {broken, []js.Value{js.ValueOf("{}")}, `index "out" of range`},
		"no argument":          {strings.ToUpper, nil, "one argument"},
		"an argument too many": {strings.ToUpper, []js.Value{js.ValueOf("a"), js.ValueOf("b")}, "one argument"},
		"not a string":         {strings.ToUpper, []js.Value{js.ValueOf(1)}, "one argument"},
		"null":                 {strings.ToUpper, []js.Value{js.Null()}, "one argument"},
	} {
		t.Run(name, func(t *testing.T) {
			var envelope struct{ Error string }
			require.NoError(t, json.Unmarshal([]byte(answer(test.handle, test.args)), &envelope))
			assert.Contains(t, envelope.Error, test.want)
		})
	}
}
