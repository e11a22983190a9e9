package workshop

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What is looked for in the catalogue is answered as HTML for its page, with a
// link to the row, and whatever is asked for answers something that is JSON.
func TestFind(t *testing.T) {
	t.Parallel()
	ask := func(t require.TestingT, what string) string {
		request, err := json.Marshal(map[string]string{"find": what})
		require.NoError(t, err)
		var answer struct{ Regions map[string]string }
		require.NoError(t, json.Unmarshal([]byte(Handle(string(request))), &answer))
		return answer.Regions["found"]
	}
	assert.Contains(t, ask(t, "DN50 dairy nut"), `<a href="#dairy-union/dn50">dairy union slotted nut, DN 50</a>`)
	assert.Contains(t, ask(t, "<chocolate>"), "Nothing in the catalogue")
	rapid.Check(t, func(t *rapid.T) { ask(t, rapid.String().Draw(t, "query")) })
}
