package app_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"drawoff/pipeline"
	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"
	q "drawoff/pipeline/quantity"
	"drawoff/www/app"
	"drawoff/www/view"
)

// None of these runs beside another: what is shown is one for the program.

// screen is what the page holds: every region as it was sent last.
type screen map[string]string

func (s screen) ask(t require.TestingT, a *app.App, req app.Request) app.Response {
	res := ask(t, a, req)
	for id, content := range res.Regions {
		s[id] = content
	}
	return res
}

// Shown in inches everything says inches, but for what was typed; back in
// metric the page is as it was.
func TestUnitsAreSwitched(t *testing.T) {
	a := app.New()
	before := ask(t, a, app.Request{Op: "start"}).Regions
	before["verdicts"] = view.Verdicts(view.Bench{Design: design.Demo(), Report: pipeline.Glance(design.Demo()), Glance: true})
	there := ask(t, a, app.Request{Op: "units", Value: "in"})
	defer ask(t, a, app.Request{Op: "units", Value: "mm"})
	assert.Equal(t, design.Demo(), present(t, a))
	assert.Contains(t, there.Regions["pieces"], "ft/s")
	assert.NotContains(t, there.Regions["pieces"], " m/s")
	assert.Contains(t, there.Regions["form"], `value="960 mm"`)
	assert.Contains(t, there.Regions["form"], "= 37 25/32 in")
	assert.Contains(t, there.Shop, `"units":"in"`)
	back := ask(t, a, app.Request{Op: "units", Value: "mm"}).Regions
	for _, id := range []string{"drawing", "verdicts", "form", "pieces", "figures", "parts"} {
		assert.Equal(t, before[id], back[id], id)
	}
}

// Whoever answers in inches is given the rest in inches and what goes with them.
func TestStartMyOwnInInches(t *testing.T) {
	defer q.Show(q.Metric)
	for _, kind := range []string{"centrifugal", "lobe", "none"} {
		a := app.New()
		ask(t, a, app.Request{Op: "start", Value: "typed"})
		res := ask(t, a, app.Request{Op: "own", Edits: []design.Edit{{Path: "tank.bore", Value: "36 in"}, {Path: "tank.height", Value: "4 ft"},
			{Path: "tank.outlet.size", Value: "asme-bpe/1.5in"}, {Path: "pump.kind", Value: kind}, {Path: "pump.away", Value: "6 ft"}, {Path: "pump.height", Value: "10 in"}}})
		require.False(t, res.Problem, res.Message)
		assert.NotRegexp(t, `\d (m|mm|L/min|bar)"`, string(design.WriteFile(present(t, a))), kind)
		assert.NotContains(t, res.Regions["pieces"], " m/s")
		_, assumed := view.Assumed(view.Bench{Design: present(t, a)})
		assert.NotRegexp(t, `\d m?m<`, assumed)
	}
}

// However often and between whatever units somebody switches, the design stays
// what it was to the byte, undo has nothing more to take back, and in the units
// of before the page is the page of before.
func TestSwitchingUnitsLosesNothing(t *testing.T) {
	defer q.Show(q.Metric)
	systems := []string{"mm", "in", "typed"}
	rapid.Check(t, func(t *rapid.T) {
		q.Show(q.Metric)
		d := designtest.Design(t)
		a, page := app.New(), screen{}
		first := rapid.SampledFrom(systems).Draw(t, "first")
		page.ask(t, a, app.Request{Op: "start", Value: first})
		if page.ask(t, a, app.Request{Op: "open", Text: string(design.WriteFile(d))}).Problem {
			t.Skip("not a plant")
		}
		page.ask(t, a, app.Request{Op: "units", Value: first}) // what the answer says of the file goes
		before := map[string]string{}
		for id, content := range page {
			before[id] = content
		}
		file := ask(t, a, app.Request{Op: "save"}).File
		steps := ask(t, a, app.Request{Op: "history"}).Steps
		for _, s := range append(rapid.SliceOfN(rapid.SampledFrom(systems), 1, 3).Draw(t, "then"), first) {
			page.ask(t, a, app.Request{Op: "units", Value: s})
			assert.Equal(t, file, ask(t, a, app.Request{Op: "save"}).File, s)
		}
		assert.Equal(t, steps, ask(t, a, app.Request{Op: "history"}).Steps)
		for id := range page {
			assert.Equal(t, before[id], page[id], id)
		}
	})
}

// The demo as somebody types it who works in inches.
var inInches = [][2]string{
	{"tank.bore", "37 3/4 in"}, {"tank.height", `45 1/4"`}, {"tank.fill", "238 US gal"}, {"stand.height", "30 in"}, {"stand.bucket", "15 3/4 in"},
	{"run.4.length", "7 3/4 in"}, {"pump.away", "5 ft 11 in"}, {"pump.height", "9 1/2 in"}, {"pump.outUp", "4 1/4 in"},
	{"pump.curve.0.flow", "0 US gal/min"}, {"pump.curve.0.head", "27 ft"}, {"pump.curve.0.headRequired", "2.6 ft"},
	{"pump.curve.1.flow", "10.5 US gal/min"}, {"pump.curve.1.head", "25 ft"}, {"pump.curve.1.headRequired", "3 ft"},
	{"pump.curve.2.flow", "21 US gal/min"}, {"pump.curve.2.head", "21 ft"}, {"pump.curve.2.headRequired", "4 ft"},
	{"pump.curve.3.flow", "32 US gal/min"}, {"pump.curve.3.head", "14 ft"}, {"pump.curve.3.headRequired", "6 ft"},
	{"pump.curve.4.flow", "42 US gal/min"}, {"pump.curve.4.head", "4.6 ft"}, {"pump.curve.4.headRequired", "9 ft"},
	{"delivery.pieces.2.length", "4 ft"}, {"delivery.height", "6 ft 11 in"}, {"liquid.temperature", "54 °F"},
}

func typedIn(t *testing.T, values [][2]string) design.Design {
	var edits []design.Edit
	for _, v := range values {
		edits = append(edits, design.Edit{Path: v[0], Value: v[1]})
	}
	d, faults := design.Demo().Apply(edits...)
	require.Empty(t, faults)
	return d
}

var (
	metric = regexp.MustCompile(`\d (mm|cm|m|L|mL|L/min|m³/h|m/s|kPa|Pa|bar|mbar|µm|°C|kg|N|kN|kW|W)\b`)
	inches = regexp.MustCompile(`\d (in|µin|ft|US gal|US fl oz|US gal/min|psi|°F|lb|lbf|hp|ft/s)\b`)
	named  = regexp.MustCompile(`\d+(\.\d+)? x \d+(\.\d+)? mm|[½¼¾\d] in\b( to [\d½¼¾]+ in)?( \(|,| clamp| ring| tube| joint)|flange \d+(\.\d+)? mm`) // parts are called so
	gravid = regexp.MustCompile(`\d kg/m³`)                                                                                                           // of either
)

// said is everything that a report tells in words and numbers, but for names
// of parts and for sources, which are what they are in any unit.
func said(d design.Design) (out []string) {
	q.Show(q.AsTyped)
	q.Speak(d.Typed)
	r := pipeline.Check(d)
	add := func(text string) {
		out = append(out, gravid.ReplaceAllString(named.ReplaceAllString(text, "…"), "…"))
	}
	for _, f := range r.Figures {
		add(f.Name + ": " + f.Amount.String())
	}
	for _, v := range r.Verdicts {
		add(v.Sentence)
		add(v.Advice)
	}
	for _, dr := range r.Drivers {
		add(dr.Why)
	}
	for _, c := range r.Cuts {
		add(q.Tape(c.Length))
	}
	for _, c := range r.Cautions {
		add(c)
	}
	b := view.Bench{Design: d, Report: r, Width: 800}
	for _, region := range view.Regions {
		switch region.ID {
		case "pieces", "drawing", "height":
			add(tags.ReplaceAllString(region.Write(b), " "))
		}
	}
	return out
}

var tags = regexp.MustCompile(`<[^>]*>`)

// As typed a plant all in inches says nothing in metric, one all in metric
// nothing in inches, and of a mixed one each kind is told as it was typed.
func TestAsTyped(t *testing.T) {
	defer q.Show(q.Metric)
	for _, text := range said(typedIn(t, inInches)) {
		assert.NotRegexp(t, metric, text)
	}
	for _, text := range said(design.Demo()) {
		assert.NotRegexp(t, inches, text)
	}
	mixed := typedIn(t, append(inInches[:9:9], [2]string{"limits.suctionSpeed", "2 m/s"}))
	all := strings.Join(said(mixed), "\n")
	for _, unit := range []string{"in", "US gal", "L/min", "m", "m/s", "°C", "psi", "lb"} {
		assert.Regexp(t, `\d `+regexp.QuoteMeta(unit)+`\b`, all)
	}
	for _, unit := range []string{"mm", "ft", "US gal/min", "ft/s", "°F", "kPa", "kg"} {
		assert.NotRegexp(t, `\d `+regexp.QuoteMeta(unit)+`\b`, all)
	}
}

// The units follow what is typed: an edit that makes inches most of the lengths
// turns all of them, undo turns them back, and what is refused turns nothing.
func TestAsTypedFollowsTheDesign(t *testing.T) {
	defer q.Show(q.Metric)
	a, page := app.New(), screen{}
	page.ask(t, a, app.Request{Op: "start", Value: "typed", Width: 500})
	plain := page["figures"]
	inch, faulty := typedIn(t, inInches), typedIn(t, inInches)
	faulty.Tank.Outlet.Size = "no such tube"
	assert.True(t, page.ask(t, a, app.Request{Op: "open", Text: string(design.WriteFile(faulty))}).Problem)
	assert.Equal(t, plain, page["figures"])
	page.ask(t, a, app.Request{Op: "resize", Width: 510})
	assert.NotRegexp(t, inches, named.ReplaceAllString(tags.ReplaceAllString(page["drawing"], " "), "…"), "nor is it drawn in the units of what was refused")
	page.ask(t, a, app.Request{Op: "resize", Width: 500})

	page.ask(t, a, app.Request{Op: "open", Text: string(design.WriteFile(inch))})
	assert.Contains(t, page["figures"], "US gal/min")
	assert.NotContains(t, page["figures"], "L/min")
	page.ask(t, a, app.Request{Op: "undo"})
	assert.Equal(t, plain, page["figures"])
}

// What the program itself writes into a plant is in the plant's units.
func TestWhatIsWrittenIsInTheUnitsOfThePlant(t *testing.T) {
	defer q.Show(q.Metric)
	a := app.New()
	ask(t, a, app.Request{Op: "start", Value: "typed"})
	ask(t, a, app.Request{Op: "open", Text: string(design.WriteFile(typedIn(t, inInches)))})
	ask(t, a, app.Request{Op: "point", Path: "pump.curve.1"})
	assert.Equal(t, "5.25 US gal/min", present(t, a).Pump.Curve[1].Flow.String(), "half way from 0 to 10.5")
	assert.Equal(t, "26 ft", present(t, a).Pump.Curve[1].Head.String(), "half way from 27 to 25")
	ask(t, a, app.Request{Op: "slide", Path: "tank.fill", Value: "1.2"})
	assert.Regexp(t, `^\d+ US gal$`, present(t, a).Tank.Fill.String())
	ask(t, a, app.Request{Op: "slide", Path: "tank.fill", Value: "99"})
	brim := pipeline.Glance(present(t, a)).Scene.Vessel.Brimful()
	assert.InDelta(t, float64(brim), float64(present(t, a).Tank.Fill.Value()), 3.785411784e-3)
	assert.LessOrEqual(t, float64(present(t, a).Tank.Fill.Value()), float64(brim))
}

// What a new piece or another kind of pump begins with is in them, too.
func TestWhatIsBegunWithIsInTheUnitsOfThePlant(t *testing.T) {
	defer q.Show(q.Metric)
	a := app.New()
	ask(t, a, app.Request{Op: "start", Value: "typed"})
	ask(t, a, app.Request{Op: "open", Text: string(design.WriteFile(typedIn(t, inInches)))})
	for path, value := range map[string]string{"delivery.pieces.1.kind": design.Hose, "pump.kind": design.Lobe} {
		assert.False(t, ask(t, a, app.Request{Op: "edit", Edits: []design.Edit{{Path: path, Value: value}}}).Problem)
	}
	d := present(t, a)
	assert.InDelta(t, 40/3.785411784, d.Pump.Slip[0].Flow.Value().LitresPerMinute()/3.785411784, 0.25+1e-9, "40 L/min to the next half") // NIST SP 811 B.8
	assert.Regexp(t, `^[\d.]+ US gal/min$`, d.Pump.Slip[0].Flow.String())
	assert.Equal(t, "0 psi", d.Pump.Slip[0].Pressure.String())
	assert.Equal(t, "29 psi", d.Pump.Slip[1].Pressure.String(), "2 bar, of 14.504 psi each: NIST SP 811 B.8")
	assert.Equal(t, "39 in", d.Delivery.Pieces[1].Length.String(), "1 m, of 39.37 in, to the inch")
}

// In other units what the workshop told in the ones before does not stand
// beside the rest, however these came about, and comes no more if it is late.
func TestNothingStandsInTheUnitsOfBefore(t *testing.T) {
	defer q.Show(q.Metric)
	a, page := app.New(), screen{}
	basis := regexp.MustCompile(`<p class="basis">.*?</p>`) // a source says it in its own units
	words := func(content string) string {
		return named.ReplaceAllString(tags.ReplaceAllString(basis.ReplaceAllString(content, ""), " "), "…")
	}
	res := page.ask(t, a, app.Request{Op: "start", Value: "typed"})
	assert.False(t, res.Anew, "the page was built with all of the demo")
	turned := func(res app.Response, foreign *regexp.Regexp) {
		t.Helper()
		assert.True(t, res.Anew)
		assert.NotEmpty(t, res.Shop, "the workshop is asked")
		assert.Contains(t, page["verdicts"], "Not worked out yet")
		assert.NotRegexp(t, foreign, words(page["verdicts"]))
	}
	tell := told(t, res.Shop, present(t, a))
	page.ask(t, a, tell)
	assert.NotContains(t, page["verdicts"], "Not worked out yet")
	res = page.ask(t, a, app.Request{Op: "units", Value: "in"})
	turned(res, metric)
	page.ask(t, a, tell)
	turned(res, metric)
	page.ask(t, a, told(t, res.Shop, present(t, a)))
	assert.NotContains(t, page["verdicts"], "Not worked out yet")
	assert.NotRegexp(t, metric, words(page["verdicts"]))
	assert.False(t, page.ask(t, a, app.Request{Op: "units", Value: "in"}).Anew, "they are shown already")
	assert.False(t, page.ask(t, a, app.Request{Op: "edit", Edits: []design.Edit{{Path: "tank.bore", Value: "950 mm"}}}).Anew, "what was told before an edit stands meanwhile")
	turned(page.ask(t, a, app.Request{Op: "units", Value: "typed"}), inches)

	// Half of the lengths in inches, and then one more.
	var most, last []design.Edit
	for _, v := range inInches {
		most = append(most, design.Edit{Path: v[0], Value: v[1]})
	}
	last, most = most[:1], most[1:]
	page.ask(t, a, app.Request{Op: "edit", Edits: most})
	page.ask(t, a, app.Request{Op: "edit", Edits: last})
	assert.Contains(t, page["figures"], "US gal/min")
	assert.True(t, page.ask(t, a, app.Request{Op: "go", Value: "1"}).Anew, "undo turns them back")
}
