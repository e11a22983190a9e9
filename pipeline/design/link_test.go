package design_test

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
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
	const newer = "reload the page to bring it up to date, or ask for the design as a file"
	const itself = "what was copied is a shortened picture of the link: press it for long, or right-click it, and copy the link itself"
	const again = "copy the whole link again from where it came"
	for name, c := range map[string]struct{ link, what, hint string }{
		"nothing":        {"", "the link is empty", again},
		"only a hash":    {"#", "the link is empty", again},
		"no version":     {"tank", "the link is not a Drawoff link", "a link's own part begins with 1. after the #"},
		"odd version":    {"x.abc", "the link is not a Drawoff link", "a link's own part begins with 1. after the #"},
		"version 0":      {"0." + link[2:], "the link is not a Drawoff link", "a link's own part begins with 1. after the #"},
		"version 01":     {"01." + link[2:], "the link is not a Drawoff link", "a link's own part begins with 1. after the #"},
		"only a version": {"1", "the link is cut short", again},
		"newer":          {"2." + link[2:], "the link was made by a newer Drawoff", newer},
		"much newer":     {"117.~", "the link was made by a newer Drawoff", newer},
		"no body":        {"1.", "the link is cut short", again},
		"half":           {link[:len(link)/2], "the link is cut short", again},
		"last letters":   {link[:len(link)-4], "the link is cut short", again},
		"odd letters":    {link + " or so", "the link has characters that do not belong in it:  or so", "delete them, or " + again},
		"a full stop":    {link + ".", "the link has characters that do not belong in it: .", "delete them, or " + again},
		"padding":        {link + "==", "the link has characters that do not belong in it: ==", "delete them, or " + again},
		"half an escape": {link + "%2", "the link has characters that do not belong in it: %2", "delete them, or " + again},
		"newer, longer":  {"2." + strings.Repeat("A", design.MaxLink), "the link was made by a newer Drawoff", newer},
		"dots":           {link[:60] + "...", "the link is cut short, with dots for what is missing", itself},
		"an ellipsis":    {link[:60] + "…", "the link is cut short, with dots for what is missing", itself},
		"dots within":    {link[:30] + "…" + link[60:], "the link is cut short, with dots for what is missing", itself},
		"one letter":     {link + "A", "the link has characters added at its end", again},
		"two letters":    {link + "ok", "the link has characters added at its end", again},
		"a word":         {link + "thanks", "the link has characters added at its end", again},
		"encoded thrice": {strings.Replace(link, ".", "%25252E", 1), "the link is not a Drawoff link", "a link's own part begins with 1. after the #"},
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

// Links of every form that was ever released must open for ever, as the design
// that was put into them: the dictionary and the format may not change. Each
// "<form>.txt" stands beside the file of its design. When the form of links or
// of designs changes, add a pair, and touch none of the old ones; their files
// hold only what was said, so nothing that Drawoff computes is pinned here.
func TestReleasedLinksOpenForEver(t *testing.T) {
	t.Parallel()
	links, err := filepath.Glob("testdata/links/*.txt")
	require.NoError(t, err)
	require.Len(t, links, 2, "a pair for each form")
	for _, name := range links {
		link, err := os.ReadFile(name)
		require.NoError(t, err)
		d, faults := design.ReadLink(string(link))
		require.Empty(t, faults, name)
		assert.Empty(t, design.LinkBeyond(string(link)), name)
		file, err := os.ReadFile(strings.TrimSuffix(name, ".txt") + ".json")
		require.NoError(t, err)
		want, faults := design.ReadFile(file)
		require.Empty(t, faults, name)
		assert.Equal(t, want, d, name)
	}
}

// A plant of sixty pieces goes into a message too. The limit is the one that
// we set ourselves: what a chat program still shows as one link.
func TestLinkOfSixtyPieces(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	piece := func(text string) design.Piece {
		t.Helper()
		one, faults := design.ReadFile([]byte(strings.Replace(shortFile, `"pump": {`, `"run": [`+text+`], "pump": {`, 1)))
		require.Empty(t, faults)
		return one.Run[0]
	}
	count := func() int { return len(d.Under) + len(d.Run) + len(d.Delivery.Pieces) }
	for i := 0; count() < 60; i++ {
		n := strconv.Itoa(i)
		more := []design.Piece{
			piece(`{"kind":"straight","name":"spool ` + n + `","in":"clamp/ferrule","length":"` + strconv.Itoa(150+37*i) + ` mm","fall":"1:80"}`),
			piece(`{"kind":"bend","turn":"` + strconv.Itoa((35*i)%360) + `°","out":"clamp/ferrule"}`),
			piece(`{"kind":"butterfly-valve","name":"valve ` + n + `","in":"clamp/ferrule","out":"clamp/ferrule"}`),
			piece(`{"kind":"straight","in":"clamp/ferrule","length":"` + strconv.Itoa(212+53*i) + ` mm"}`),
			piece(`{"kind":"bend","angle":"45°","seal":"fkm"}`),
		}
		more = more[:min(len(more), 60-count())]
		if i%2 == 0 {
			d.Run = append(d.Run, more...)
		} else {
			d.Delivery.Pieces = append(d.Delivery.Pieces, more...)
		}
	}
	d.Note = "Measured on site on a Tuesday; the gully is nearer than the drawing has it."
	require.Equal(t, 60, count())
	require.Empty(t, d.Validate())
	link := design.WriteLink(d)
	t.Log(len(link), "characters")
	assert.Less(t, len(link), 1800)
	back, faults := design.ReadLink(link)
	require.Empty(t, faults)
	assert.Equal(t, d, back)
}

// What a newer Drawoff put into a link and this one does not know is named.
func TestLinkBeyond(t *testing.T) {
	t.Parallel()
	newer := strings.Replace(shortFile, `"bore"`, `"lid": {"hinged": [true]}, "bore"`, 1)
	newer = strings.Replace(newer, `"pump"`, `"colour": 3, "pump"`, 1)
	newer = strings.Replace(newer, `  "drawoff": 1,`, "", 1)
	link := packed(newer)
	d, faults := design.ReadLink(link)
	require.Empty(t, faults)
	assert.Equal(t, "960 mm", d.Tank.Bore.String())
	assert.Equal(t, []string{"tank.lid", "colour"}, design.LinkBeyond(link))
	assert.Empty(t, design.LinkBeyond(design.WriteLink(d)))
	assert.Empty(t, design.LinkBeyond("2.AAAA"))
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
