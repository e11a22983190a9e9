package site

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// unitOf reads what the script is to keep out of its first line.
func unitOf(t *testing.T, files []File) (version string, names []string) {
	t.Helper()
	keeper, err := offline([]byte("body"), files)
	require.NoError(t, err)
	line, body, _ := strings.Cut(string(keeper.Body), "\n")
	assert.Equal(t, "body", body)
	var unit struct {
		Version string
		Files   []string
	}
	line = strings.TrimSuffix(strings.TrimPrefix(line, "const unit = "), ";")
	require.NoError(t, json.Unmarshal([]byte(line), &unit))
	return unit.Version, unit.Files
}

// Whatever changes makes another version, and every file is kept, the page
// under both its addresses.
func TestOfflineKeepsAllOfOneVersion(t *testing.T) {
	t.Parallel()
	version, names := unitOf(t, []File{{"page.js", []byte("1")}, {Index, []byte("p")}})
	assert.Equal(t, []string{"./", "page.js", Index}, names)
	same, _ := unitOf(t, []File{{"page.js", []byte("1")}, {Index, []byte("p")}})
	assert.Equal(t, version, same)
	other, _ := unitOf(t, []File{{"page.js", []byte("1")}, {Index, []byte("q")}})
	assert.NotEqual(t, version, other)
}

// What Build makes can be installed: https://www.w3.org/TR/appmanifest/ asks
// that the start is within the scope, and browsers want a picture of 192 and
// one of 512 pixels.
func TestBuildCanBeInstalled(t *testing.T) {
	t.Parallel()
	files, err := built()
	require.NoError(t, err)
	byName := map[string]File{}
	var all []string
	for _, f := range files {
		byName[f.Name] = f
		if f.Name != Offline && f.Name != Program && f.Name != ProgramTypes { // the page needs neither of the last
			all = append(all, f.Name)
		}
	}
	var installed struct {
		Name     string
		StartURL string `json:"start_url"`
		Scope    string
		Icons    []struct{ Src, Sizes string }
	}
	require.NoError(t, json.Unmarshal(byName["drawoff.webmanifest"].Body, &installed))
	assert.Equal(t, "Drawoff", installed.Name)
	assert.Equal(t, installed.Scope, installed.StartURL)
	sizes := map[string]bool{}
	for _, icon := range installed.Icons {
		assert.Contains(t, byName, icon.Src)
		sizes[icon.Sizes] = true
	}
	assert.True(t, sizes["192x192"] && sizes["512x512"], sizes)

	first, _, _ := strings.Cut(string(byName[Offline].Body), "\n")
	for _, name := range all {
		assert.Contains(t, first, `"`+name+`"`, "is not kept")
	}
}
