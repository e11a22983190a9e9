//go:build browser

package browser

import (
	"os"
	"path/filepath"
	"testing"

	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"drawoff/pipeline/design"
)

// titled is the list's row of the design of that title, as JavaScript.
const titled = `[...document.querySelectorAll(".designs > li")].find(li => li.querySelector("h3").textContent === %s)`

// lists opens the list of designs and waits for one of that title.
func (p *page) lists(title string) {
	p.t.Helper()
	js[bool](p, `(document.querySelector("#designs").focus(), true)`)
	p.do(chromedp.KeyEvent(kb.Enter))
	p.until(titled+` !== undefined`, title)
}

// press presses the button of a listed design.
func (p *page) press(do, title string) {
	p.t.Helper()
	p.until(titled+`?.querySelector('button[data-do="`+do+`"]') != null`, title)
	js[bool](p, `(`+titled+`.querySelector('button[data-do="`+do+`"]').click(), true)`, title)
}

// opens opens an example and waits until it is there.
func (p *page) opens(e design.Example) {
	p.t.Helper()
	p.example(e.Name)
	p.untilValue("title", e.Design.Title)
}

// Somebody with several plants: the demo gives way to their first, each is
// kept as it is changed, and they go from one to the other, double one, save
// it, delete it and have it back.
func TestDesignsOfThisBrowser(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	dir := t.TempDir()
	downloadTo(p, dir)
	examples := design.Examples()[1:]
	p.opens(examples[0])
	p.typed("title", "Whey, north shed")
	p.typed("tank.height", "1.9 m")
	p.opens(examples[2])
	p.typed("title", "Purée")
	p.untilKept(`kept.length === 2 && kept.map(r => r.title).join() === "Purée,Whey, north shed"`)

	p.lists("Whey, north shed")
	p.until(`document.querySelector(".designs svg") !== null`)
	assert.Equal(t, 2, js[int](p, `document.querySelectorAll(".designs > li").length`), "an example that nobody changed has given way")
	assert.Contains(t, js[string](p, titled+`.textContent`, "Purée"), "On the bench")
	p.press("open", "Whey, north shed")
	p.untilValue("title", "Whey, north shed")
	assert.False(t, js[bool](p, `document.querySelector("#designs-dialog").open`))
	p.reload()
	p.untilValue("title", "Whey, north shed")

	p.lists("Whey, north shed")
	p.press("duplicate", "Whey, north shed")
	p.press("open", "Copy of Whey, north shed")
	p.untilValue("title", "Copy of Whey, north shed")
	p.typed("tank.height", "2.1 m")
	p.click("#undo") // the height
	p.click("#undo") // back to the design before
	p.untilValue("title", "Whey, north shed")
	p.untilKept(`kept.length === 3 && kept.filter(r => r.text.includes("1.9 m")).length === 2`)

	p.lists("Purée")
	p.press("export", "Purée")
	var saved []string
	require.Eventually(t, func() bool {
		saved, _ = filepath.Glob(filepath.Join(dir, "*.json"))
		return len(saved) == 1
	}, patience, patience/1000, "a file is saved")
	text, err := os.ReadFile(saved[0])
	require.NoError(t, err)
	d, faults := design.ReadFile(text)
	require.Empty(t, faults)
	assert.Equal(t, "Purée", d.Title)
	assert.Equal(t, string(design.WriteFile(d)), string(text))

	// What lies on the bench is deleted: another comes, and Undo brings both back.
	p.press("delete", "Whey, north shed")
	p.shows("#designs-said", "is deleted")
	assert.True(t, js[bool](p, titled+` === undefined`, "Whey, north shed"), "said and done")
	p.untilKept(`kept.length === 2`)
	assert.NotEqual(t, "Whey, north shed", p.value("title"))
	assert.Equal(t, "Undo", js[string](p, `document.activeElement.textContent`), "at hand for the keyboard")
	p.do(chromedp.KeyEvent(kb.Enter))
	p.shows("#designs-said", "is back")
	p.until(titled+` !== undefined`, "Whey, north shed")
	p.untilValue("title", "Whey, north shed")
	p.untilKept(`kept.length === 3 && kept.some(r => r.title === "Whey, north shed" && r.text.includes("1.9 m"))`)
	p.do(chromedp.KeyEvent(kb.Escape))
	p.until(`!document.querySelector("#designs-dialog").open`)
	assert.Equal(t, "designs", js[string](p, `document.activeElement.id`), "the focus is where it came from")
}

// Two windows on one design: the second is told, and nothing is lost whatever
// it says, nor if it says nothing.
func TestTwoWindowsDoNotWriteOverEachOther(t *testing.T) {
	t.Parallel()
	for answer, then := range map[string]struct{ mine, first, second string }{
		"Keep mine":            {"1.7 m", "1.7 m", ""},
		"Take the other":       {"1.8 m", "1.8 m", ""},
		"Save mine as another": {"1.7 m", "1.7 m", "1.8 m"},
		"":                     {"1.7 m", "1.7 m", "1.8 m"},
	} {
		t.Run(answer, func(t *testing.T) {
			t.Parallel()
			one := open(t, "")
			one.typed("title", "Shared")
			one.untilKept(`kept[0]?.title === "Shared"`)
			two := one.another()
			two.goTo("")
			two.untilValue("title", "Shared")

			one.typed("tank.height", "1.8 m")
			two.shows("#keeping", "changed in another window")
			two.typed("tank.height", "1.7 m")
			two.untilKept(`kept.length === 2 && kept.some(r => r.text.includes("1.8 m")) && kept.some(r => r.text.includes("1.7 m"))`)
			if l, ok := map[string]look{"Keep mine": looks[0], "Take the other": looks[3]}[answer]; ok {
				two.as(l)
				assert.LessOrEqual(t, js[int](two, `document.documentElement.scrollWidth`), int(l.width), "the page scrolls sideways")
				assert.Empty(t, js[[]string](two, `[...document.querySelectorAll("#keeping button")].filter(b => b.getBoundingClientRect().height < 44).map(b => b.textContent)`), "too small for a glove")
				two.keep("windows-"+l.String()+".png", get(two, chromedp.CaptureScreenshot()))
			}
			if answer != "" {
				two.until(`[...document.querySelectorAll("#keeping button")].some(b => b.textContent === %s)`, answer)
				js[bool](two, `([...document.querySelectorAll("#keeping button")].find(b => b.textContent === %s).click(), true)`, answer)
				two.until(`document.querySelector("#keeping").textContent === ""`)
			}
			two.untilValue("tank.height", then.mine)
			count := `1`
			if then.second != "" {
				count = `2`
			}
			two.untilKept(`kept.length === `+count+` && [%s, %s].every(h => kept.some(r => r.text.includes(h)))`, then.first, then.second)
			if answer == "Keep mine" {
				one.shows("#keeping", "changed in another window")
			}
			two.reload()
			two.untilValue("tank.height", then.mine)
			if answer == "Save mine as another" {
				assert.Equal(t, "Shared, second", two.value("title"))
			}
		})
	}
}

// What an earlier version kept is taken over, once, with what was pending.
func TestEarlierStoreIsTakenOver(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.untilKept(`kept.length === 1`)
	d := design.Demo()
	d.Title = "From before"
	js[bool](p, `(localStorage.setItem("drawoff.1", '{"design":' + %s + ',"pending":[{"Path":"tank.bore","Value":"wide","Fault":{"field":"tank.bore","given":"wide","what":"is no length","hint":""}}]}'), sessionStorage.clear(), true)`, string(design.WriteFile(d)))
	// The page that is left must not write over it: it has nothing to write.
	p.goTo("")
	p.untilValue("title", "From before")
	assert.Equal(t, "wide", p.value("tank.bore"))
	assert.True(t, js[bool](p, `localStorage.getItem("drawoff.1") === null`))
	p.reload()
	p.untilValue("title", "From before")
	p.untilKept(`kept.length === 2`)
}

// A browser that keeps nothing says so, with a file at hand, and the page works.
func TestRefusedStorageIsTold(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	dir := t.TempDir()
	downloadTo(p, dir)
	p.untilKept(`kept.length === 1`)
	js[bool](p, `(() => {
		window.put = IDBObjectStore.prototype.put;
		IDBObjectStore.prototype.put = () => { throw new DOMException("full", "QuotaExceededError"); };
		return true;
	})()`)
	p.typed("tank.height", "1.9 m")
	p.shows("#keeping", "does not keep your changes")
	p.click("#keeping button")
	require.Eventually(t, func() bool {
		saved, _ := filepath.Glob(filepath.Join(dir, "*.json"))
		return len(saved) == 1
	}, patience, patience/1000, "a file is saved")
	js[bool](p, `(IDBObjectStore.prototype.put = window.put, true)`)
	p.typed("tank.height", "1.8 m")
	p.until(`document.querySelector("#keeping").textContent === ""`)
	p.untilKept(`kept[0].text.includes("1.8 m")`)
}

// Where storage is refused from the start the page works and says so.
func TestStorageRefusedFromTheStart(t *testing.T) {
	t.Parallel()
	p := tab(t)
	call(p, cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{
		Source: `IDBFactory.prototype.open = () => { throw new DOMException("refused", "SecurityError"); };`,
	})
	p.goTo("")
	p.shows("#keeping", "does not keep your changes")
	p.typed("tank.height", "1.9 m")
	assert.Equal(t, "1.9 m", p.value("tank.height"))
	p.click("#designs")
	p.shows("#designs-said", "There is no list")
}

// Where only what is beside the database is refused, the designs come back.
func TestDesignsOutliveOtherStorage(t *testing.T) {
	t.Parallel()
	p := open(t, "")
	p.typed("title", "kept all the same")
	p.untilKept(`kept[0]?.title === "kept all the same"`)
	call(p, cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{
		Source: `for (const store of ["localStorage", "sessionStorage"]) Object.defineProperty(window, store, { get() { throw new DOMException("refused", "SecurityError"); } });`,
	})
	p.reload()
	assert.Equal(t, "kept all the same", p.value("title"))
	p.typed("tank.height", "1.9 m")
	p.untilKept(`kept.length === 1 && kept[0].text.includes("1.9 m")`)
	js[bool](p, `(document.querySelector("#units").value = "in", document.querySelector("#units").dispatchEvent(new Event("change", { bubbles: true })), true)`)
	p.shows("#message", "storage is full or refused")
}

// The list on a phone and on a desk, by day and by night.
func TestLooksOfTheDesigns(t *testing.T) {
	t.Parallel()
	for _, l := range looks {
		t.Run(l.String(), func(t *testing.T) {
			t.Parallel()
			p := openAs(t, l)
			for _, e := range design.Examples()[1:] {
				p.opens(e)
				p.typed("note", "mine")
			}
			p.untilKept(`kept.length === 3`)
			p.click("#designs")
			p.until(`document.querySelectorAll(".designs > li svg").length === 3`)
			assert.LessOrEqual(t, js[int](p, `document.querySelector("#designs-dialog").scrollWidth`), int(l.width), "it scrolls sideways")
			assert.Empty(t, js[[]string](p, `[...document.querySelectorAll("dialog[open] button")].filter(b => b.getBoundingClientRect().height < 44).map(b => b.textContent)`), "too small for a glove")
			assert.Empty(t, js[[]string](p, faint), "too faint to read")
			p.keep("designs-"+l.String()+".png", get(p, chromedp.CaptureScreenshot()))
		})
	}
}
