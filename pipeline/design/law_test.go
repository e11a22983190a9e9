package design_test

import (
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
