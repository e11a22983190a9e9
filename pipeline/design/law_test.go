package design_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A design that was drawn has no faults, and comes back from a file and from
// a link as it went in.
func TestDesignsSurviveFilesAndLinks(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		require.Empty(t, d.Validate())

		file, faults := design.ReadFile(design.WriteFile(d))
		require.Empty(t, faults)
		require.Equal(t, d, file)

		link, faults := design.ReadLink(design.WriteLink(d))
		require.Empty(t, faults)
		require.Equal(t, d, link)
	})
}

// What is written is to the letter what the standard library writes of the
// same value, so any program reads it.
func TestFilesAreWrittenAsEncodingJSONDoes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		var want bytes.Buffer
		enc := json.NewEncoder(&want)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		require.NoError(t, enc.Encode(struct {
			Drawoff int `json:"drawoff"`
			design.Design
		}{1, d}))
		require.Equal(t, want.String(), string(design.WriteFile(d)))
	})
}
