package workshop

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
)

// The bench follows the shelf that the request brings, and what could not be
// put on it stays in its field with the reason. Ids are there once, and every
// field has its label.
func TestBench(t *testing.T) {
	t.Parallel()
	ask := func(shelf, typed string) map[string]string {
		text, err := json.Marshal(shelf)
		require.NoError(t, err)
		var answer struct{ Regions map[string]string }
		request := `{"design":` + string(design.WriteFile(design.Demo())) + `,"width":390,"shelf":` + string(text) + `,"typed":` + typed + `}`
		require.NoError(t, json.Unmarshal([]byte(Handle(request)), &answer))
		return answer.Regions
	}
	r := ask("", "{}")
	assert.Contains(t, r["cuts"], "New length, 6000 mm")
	assert.Contains(t, r["welds"], "Spool 1")
	assert.NotContains(t, r["parts"], "in hand")

	var s design.Shelf
	for _, put := range [][2]string{{"items:clamp/1.5in/ferrule:inHand", "2"}, {"items:clamp/1.5in/ferrule:price", "4,25"}, {"rack:bs-4825/1.5in", "2 m"}, {"items:dairy-union/dn50/nut:inHand", "3"}} {
		var f *design.Fault
		s, f = s.Put(put[0], put[1])
		require.Nil(t, f)
	}
	r = ask(s.Write(), `{"items:clamp/1.5in/seal/epdm:price":"<dear>","shop.keep":"5"}`)
	assert.Contains(t, r["parts"], "6, less 2 in hand")
	assert.Contains(t, r["parts"], "In all 17.00")
	assert.Contains(t, r["parts"], "not for this design")
	assert.Contains(t, r["parts"], `value="&lt;dear&gt;"`)
	assert.Contains(t, r["parts"], `aria-invalid="true"`)
	assert.Contains(t, r["cuts"], "Off the rack, 2000 mm")
	assert.Contains(t, r["cuts"], `value="5"`)

	ids, fields := map[string]int{}, 0
	labelled := map[string]bool{}
	for _, id := range []string{"parts", "cuts", "welds"} {
		for _, rest := range strings.Split(r[id], ` id="`)[1:] {
			ids[rest[:strings.IndexByte(rest, '"')]]++
		}
		for _, rest := range strings.Split(r[id], `<label for="`)[1:] {
			labelled[rest[:strings.IndexByte(rest, '"')]] = true
		}
		for _, rest := range strings.Split(r[id], `<input id="`)[1:] {
			fields++
			assert.True(t, labelled[rest[:strings.IndexByte(rest, '"')]], rest[:60])
		}
	}
	assert.Greater(t, fields, 30)
	for id, n := range ids {
		assert.Equal(t, 1, n, id)
	}
}
