package workshop

import (
	"encoding/json"
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"
)

// On paper, in the lists and in what each part says in a line, a plant typed in
// inches says nothing in metric and one typed in metric nothing in inches; but
// for names of parts, which are called what they are. Beside no other test:
// what is shown is one for the program.
func TestAsTyped(t *testing.T) {
	defer q.Show(q.Metric)
	demo := design.Demo()
	var edits []design.Edit
	for path, value := range map[string]string{
		"tank.bore": "37 3/4 in", "tank.height": "45 1/4 in", "tank.fill": "238 US gal", "stand.height": "30 in", "stand.bucket": "15 3/4 in", "run.4.length": "7 3/4 in",
		"pump.away": "71 in", "pump.height": "9 1/2 in", "pump.outUp": "4 1/4 in", "delivery.pieces.2.length": "4 ft", "delivery.height": "83 in", "liquid.temperature": "54 °F",
		"pump.curve.0.flow": "0 US gal/min", "pump.curve.0.head": "27 ft", "pump.curve.0.headRequired": "2.6 ft", "pump.curve.1.flow": "10.5 US gal/min", "pump.curve.1.head": "25 ft", "pump.curve.1.headRequired": "3 ft",
		"pump.curve.2.flow": "21 US gal/min", "pump.curve.2.head": "21 ft", "pump.curve.2.headRequired": "4 ft", "pump.curve.3.flow": "32 US gal/min", "pump.curve.3.head": "14 ft", "pump.curve.3.headRequired": "6 ft",
		"pump.curve.4.flow": "42 US gal/min", "pump.curve.4.head": "4.6 ft", "pump.curve.4.headRequired": "9 ft",
	} {
		edits = append(edits, design.Edit{Path: path, Value: value})
	}
	inches, faults := demo.Apply(edits...)
	require.Empty(t, faults)

	tags := regexp.MustCompile(`<[^>]*>`)
	called := regexp.MustCompile(`\d+(\.\d+)? x \d+(\.\d+)? mm|flange \d+(\.\d+)? mm|[½¼¾\d] in( to |\W*\(|,| clamp| ring| tube| joint|: )|\d kg/m³`)
	ask := func(d design.Design, units string) map[string]string {
		var answer struct {
			Regions map[string]string
			Sheets  string
		}
		require.NoError(t, json.Unmarshal([]byte(Handle(`{"design":`+string(design.WriteFile(d))+`,"width":800,"units":"`+units+`"}`)), &answer))
		out := map[string]string{"sheets": answer.Sheets}
		for id, content := range answer.Regions {
			if strings.Contains(id, "gist") || id == "cuts" {
				out[id] = content
			}
		}
		require.Greater(t, len(out), 10)
		for id, content := range out {
			out[id] = called.ReplaceAllString(html.UnescapeString(tags.ReplaceAllString(content, " ")), "…")
		}
		return out
	}
	for id, text := range ask(inches, "typed") {
		assert.NotRegexp(t, `.{30}\d (mm|cm|m|L|mL|L/min|m/s|kPa|bar|°C|kg|N|kN|kW|W)\b.{20}`, text, id)
	}
	for id, text := range ask(demo, "typed") {
		assert.NotRegexp(t, `.{30}\d (in|ft|US gal|psi|°F|lb|lbf|hp)\b.{20}`, text, id)
	}
	assert.Equal(t, ask(demo, "mm"), ask(demo, "typed"), "nobody who works in metric sees a difference")
	assert.Equal(t, ask(inches, "in"), ask(inches, "typed"))
}
