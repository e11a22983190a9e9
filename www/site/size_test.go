//go:build !race

// Packing by brotli under the race detector takes minutes, and there is no
// race in it to find.

package site

import (
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// firstLoad is the most that a first visit may fetch, packed by brotli. On a
// poor mobile link of 1 Mbit/s it is seven seconds.
const firstLoad = 900_000

func TestFirstLoadIsSmall(t *testing.T) {
	t.Parallel()
	files, err := built()
	require.NoError(t, err)
	total := 0
	for _, f := range files {
		switch path.Ext(f.Name) {
		case ".png", ".json":
			continue // icons for the home screen and examples, not fetched at first
		}
		if strings.HasPrefix(f.Name, "catalogue.") {
			continue // a page of its own, fetched when somebody turns to it
		}
		if f.Name == Program || f.Name == ProgramTypes {
			continue // for other programs
		}
		small, err := Brotli(f.Body)
		require.NoError(t, err)
		if strings.HasPrefix(f.Name, "workshop.") || strings.HasPrefix(f.Name, "designs.") || f.Name == Offline || path.Ext(f.Name) == ".webmanifest" {
			t.Logf("%8d bytes, %8d packed  %s, once the page stands", len(f.Body), len(small), f.Name)
			continue
		}
		t.Logf("%8d bytes, %8d packed  %s", len(f.Body), len(small), f.Name)
		total += len(small)
	}
	t.Logf("%8d bytes packed in all, of %d", total, firstLoad)
	assert.Less(t, total, firstLoad, "weigh what was added last against the list that go test -v prints")
}
