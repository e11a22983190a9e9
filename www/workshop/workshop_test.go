package workshop

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline/design"
	"drawoff/pipeline/workfile"
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

// A file is answered whole and alone; one that there is not is said to be none.
func TestFile(t *testing.T) {
	t.Parallel()
	ask := func(d design.Design, file string) (answer struct {
		Error   string
		Regions map[string]string
		File    workfile.File
	}) {
		request := `{"design":` + string(design.WriteFile(d)) + `,"width":390,"file":"` + file + `"}`
		require.NoError(t, json.Unmarshal([]byte(Handle(request)), &answer))
		return answer
	}
	a := ask(design.Demo(), "cone-flat.pdf")
	assert.Equal(t, "cone-flat.pdf", a.File.Name)
	assert.Equal(t, "application/pdf", a.File.Type)
	assert.True(t, strings.HasPrefix(a.File.Content, "%PDF-1.4") && strings.HasSuffix(a.File.Content, "%%EOF\n"))
	assert.Nil(t, a.Regions)
	assert.Contains(t, ask(design.Demo(), "../etc.pdf").Error, "../etc.pdf")
	assert.Contains(t, ask(design.Design{}, "cone-flat.pdf").Error, "no file")
	all := ask(design.Demo(), "")
	for _, id := range []string{"heights", "stability", "stays", "files"} {
		assert.NotEmpty(t, all.Regions[id], id)
	}
	assert.Contains(t, all.Regions["files"], `data-file="leg-on-tank.pdf"`)
	assert.Contains(t, all.Regions["heights"], "<svg")
}

// What if: the input that is moved is drawn with the figure that is watched,
// a stop of the slider for each value, each with its edit; what the plant does
// not have is said to be missing.
func TestWhatIf(t *testing.T) {
	t.Parallel()
	ask := func(move, watch string) string {
		request, err := json.Marshal(map[string]any{"design": json.RawMessage(design.WriteFile(design.Demo())), "width": 390, "move": move, "watch": watch})
		require.NoError(t, err)
		var answer struct{ Regions map[string]string }
		require.NoError(t, json.Unmarshal([]byte(Handle(string(request))), &answer))
		return answer.Regions["whatif"]
	}
	empty := ask("", "")
	for _, choice := range []string{`<option value="liquid.temperature">Temperature</option>`, `<option value="under.0.to">Reduces to</option>`, `<option value="transfer-time">`} {
		assert.Contains(t, empty, choice)
	}
	assert.NotContains(t, empty, "<svg")
	drawn := ask("liquid.temperature", "suction-head-available-lowest")
	assert.Contains(t, drawn, "<svg")
	assert.Contains(t, drawn, `<option value="liquid.temperature" selected`)
	assert.Contains(t, drawn, ">12 °C, as now: ")
	assert.Contains(t, drawn, ", held to ")
	assert.Contains(t, drawn, `data-edits="[{&quot;path&quot;:&quot;liquid.temperature&quot;,&quot;value&quot;:&quot;40 °C&quot;}]"`)
	assert.Contains(t, ask("under.2.shape", "flow-full"), "long: with tangents, as now: ")
	assert.Contains(t, ask("run.99.length", "suction-head-available-lowest"), "choose another")
	assert.Contains(t, ask("liquid.temperature", "moonbeams"), "choose another")
}

// Runs are found where a request says that they begin, and only then.
func TestRuns(t *testing.T) {
	t.Parallel()
	plant := design.Demo()
	ask := func(from string) string {
		var answer struct{ Regions map[string]string }
		require.NoError(t, json.Unmarshal([]byte(Handle(`{"design":`+string(design.WriteFile(plant))+`,"width":390,"runs":"`+from+`"}`)), &answer))
		return answer.Regions["runs"]
	}
	assert.True(t, strings.Contains(ask("tank"), `&quot;run.0&quot;`))
	assert.True(t, strings.Contains(ask("pump"), `&quot;delivery.pieces.0&quot;`))
	assert.False(t, strings.Contains(ask(""), "<svg"))
	examples := design.Examples()
	plant = examples[1].Design // a plate cooler stands in the delivery
	assert.True(t, strings.Contains(ask("pump"), "plate cooler"))
	plant = examples[2].Design // by gravity
	assert.True(t, strings.Contains(ask("tank"), "Drains to") && strings.Contains(ask("tank"), "the outflow"))
	assert.True(t, strings.Contains(ask("pump"), "There is no pump"))
}

// What is asked twice is answered twice alike, to the byte: no order is left
// to chance.
func TestTheSameAnswerTwice(t *testing.T) {
	t.Parallel()
	for _, e := range design.Examples() {
		request := `{"design":` + string(design.WriteFile(e.Design)) + `,"width":390}`
		first := Handle(request)
		for range 3 {
			require.Equal(t, first, Handle(request), e.Slug)
		}
	}
}
