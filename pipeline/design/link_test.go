package design_test

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"net/url"
	"os"
	"strings"
	"testing"

	"drawoff/pipeline/design"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLinkNeedsNoEscape(t *testing.T) {
	t.Parallel()
	link := design.WriteLink(plant())
	assert.True(t, strings.HasPrefix(link, "1."))
	assert.Equal(t, link, url.PathEscape(link), "nothing in it needs an escape")
}

// What messengers and people do to links on their way does not hurt.
func TestLinksAreReadAsTheyArrive(t *testing.T) {
	t.Parallel()
	link := design.WriteLink(plant())
	for _, arrived := range []string{
		link,
		"#" + link,
		" #" + link + "\n",
		"https://example.org/plant/#" + link,
		strings.Replace(link, ".", "%2E", 1),
		strings.Replace(link, ".", "%252e", 1),
		"%23" + link,
	} {
		d, faults := design.ReadLink(arrived)
		assert.Empty(t, faults, arrived[:8])
		assert.Equal(t, plant(), d)
	}
}

// packed makes a link of any text, without the dictionary's help.
func packed(text string) string {
	var b bytes.Buffer
	w, _ := flate.NewWriter(&b, flate.BestCompression)
	w.Write([]byte(text))
	w.Close()
	return "1." + base64.RawURLEncoding.EncodeToString(b.Bytes())
}

func TestLinkFaults(t *testing.T) {
	t.Parallel()
	link := design.WriteLink(plant())
	const again = "copy the whole link again from where it came"
	for name, c := range map[string]struct{ link, what, hint string }{
		"nothing":        {"", "the link is empty", again},
		"only a hash":    {"#", "the link is empty", again},
		"no version":     {"tank", "the link is not a Drawoff link", "a link's own part begins with 1. after the #"},
		"odd version":    {"x.abc", "the link is not a Drawoff link", "a link's own part begins with 1. after the #"},
		"version 0":      {"0." + link[2:], "the link is not a Drawoff link", "a link's own part begins with 1. after the #"},
		"version 01":     {"01." + link[2:], "the link is not a Drawoff link", "a link's own part begins with 1. after the #"},
		"only a version": {"1", "the link is not a Drawoff link", "a link's own part begins with 1. after the #"},
		"newer":          {"2." + link[2:], "the link was made by a newer Drawoff", "reload the page to bring it up to date"},
		"much newer":     {"117.~", "the link was made by a newer Drawoff", "reload the page to bring it up to date"},
		"no body":        {"1.", "the link is cut short", again},
		"half":           {link[:len(link)/2], "the link is cut short", again},
		"last letters":   {link[:len(link)-4], "the link is cut short", again},
		"odd letters":    {link + " or so", "the link has characters that do not belong in it:  or so", "delete them, or " + again},
		"a full stop":    {link + ".", "the link has characters that do not belong in it: .", "delete them, or " + again},
		"padding":        {link + "==", "the link has characters that do not belong in it: ==", "delete them, or " + again},
		"half an escape": {link + "%2", "the link has characters that do not belong in it: %2", "delete them, or " + again},
		"added letters":  {link + "AAAA", "the link has characters added at its end", again},
		"damaged":        {"1._____w", "the link is damaged", again},
		"too long":       {"1." + strings.Repeat("A", design.MaxLink), "the link is longer than 16000 characters", "send the design as a file"},
		"too much":       {packed(strings.Repeat(" ", 300<<10)), "the link holds more than a design can", again},
		"no JSON":        {packed("tank"), "the link holds something other than a design", again},
		"half JSON":      {packed(`{"tank":{`), "the link holds something other than a design", again},
		"a list":         {packed("[]"), "the link holds something other than a design", again},
		"two designs":    {packed("{}{}"), "the link holds something other than a design", again},
		"deep":           {packed(`{"x":` + strings.Repeat("[", 50000)), "the link holds something other than a design", again},
	} {
		d, faults := design.ReadLink(c.link)
		if assert.Len(t, faults, 1, name) {
			assert.Equal(t, c.what, faults[0].What, name)
			assert.Equal(t, c.hint, faults[0].Hint, name)
			assert.Zero(t, faults[0].Line, name)
		}
		assert.Equal(t, design.Design{}, d, name)
	}
}

// What a later Drawoff adds is passed over; what is wrong with the rest is said.
func TestFaultsInsideALink(t *testing.T) {
	t.Parallel()
	const rest = `"height":"1 m","outlet":{"size":"bs-4825/2in"}},"pump":{"kind":"none"}}`
	d, faults := design.ReadLink(packed(`{"colour":{"of":["steel"]},"tank":{"lid":true,"bore":"1 m",` + rest))
	assert.Empty(t, faults)
	assert.Equal(t, "1 m", d.Tank.Bore.String())

	d, faults = design.ReadLink(packed(`{"tank":{"bore":"900",` + rest))
	require.Len(t, faults, 1)
	assert.Equal(t, design.Fault{Field: "tank.bore", Given: "900", What: "has no unit", Hint: "write 900 mm or 900 in"}, faults[0])
	assert.Equal(t, "1 m", d.Tank.Height.String(), "the rest is read")
}

// A letter lost or changed on the way never brings a panic, and the rest of
// the plant is then refused or free of faults.
func TestDamagedLinks(t *testing.T) {
	t.Parallel()
	link := design.WriteLink(plant())
	for i := 2; i < len(link); i++ {
		for _, hurt := range []string{link[:i], link[:i] + link[i+1:], link[:i] + "Q" + link[i+1:]} {
			d, faults := design.ReadLink(hurt)
			if len(faults) == 0 {
				assert.Empty(t, d.Validate())
			}
		}
	}
}

// A link of version 1 that was made once must open for ever: the dictionary
// and the format it was made with may not change. (The plant it holds is the
// short one of file_test.go, so nothing that Drawoff computes is pinned here.)
func TestFirstLinkOpensForEver(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile("testdata/link1.txt")
	require.NoError(t, err)
	d, faults := design.ReadLink(string(data))
	require.Empty(t, faults)
	want, faults := design.ReadFile([]byte(shortFile))
	require.Empty(t, faults)
	assert.Equal(t, want, d)
}

func BenchmarkWriteLink(b *testing.B) {
	d := plant()
	for b.Loop() {
		design.WriteLink(d)
	}
}

func BenchmarkReadLink(b *testing.B) {
	link := design.WriteLink(plant())
	for b.Loop() {
		design.ReadLink(link)
	}
}
