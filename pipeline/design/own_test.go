package design_test

import (
	"testing"

	"drawoff/catalog"
	"drawoff/pipeline/design"
	q "drawoff/pipeline/quantity"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A plant of one's own can be worked out whatever tube, bottom and pump it
// has, and says of each thing made up that it is assumed.
func TestOwn(t *testing.T) {
	t.Parallel()
	for _, tube := range catalog.Tubes() {
		if tube.Bore() < 0.010 || tube.Bore() > 0.150 {
			continue // too narrow or too wide for the tank below
		}
		for _, kind := range []string{"", design.Lobe, design.NoPump} {
			d, faults := design.Own(set("tank.bore", "36 in"), set("tank.height", "1.2 m"), set("tank.outlet.size", tube.Slug),
				set("pump.kind", kind), set("pump.away", "1.8 m"), set("pump.height", "240 mm"))
			require.Empty(t, faults, "%s, %s", tube.Slug, kind)
			assert.Equal(t, "36 in", d.Tank.Bore.String(), "as typed")
			for _, a := range d.Assumed {
				_, isField := d.Get(a.Path)
				_, inList := d.Apply(set(a.Path+".kind", design.Straight))
				_, points := d.Get(a.Path + ".0.flow")
				assert.True(t, isField || len(inList) == 0 || points, "%s is nothing that could be looked at", a.Path)
			}
			for _, said := range []string{"tank.bore", "tank.height", "tank.outlet.size", "pump.away", "pump.height"} {
				assert.False(t, d.Assumes(said), said)
			}
		}
	}
}

func TestOwnAsksForWhatItMustKnow(t *testing.T) {
	t.Parallel()
	_, faults := design.Own(set("tank.bore", "900 mm"))
	var fields []string
	for _, f := range faults {
		fields = append(fields, f.Field)
	}
	assert.Equal(t, []string{"tank.height", "tank.outlet.size", "pump.away", "pump.height"}, fields)
	_, faults = design.Own(set("tank.bore", "wide"))
	require.Len(t, faults, 1)
	assert.Equal(t, "tank.bore", faults[0].Field)

	// What does not count stands in nobody's way, and stays where it can be read.
	tank := []design.Edit{set("tank.bore", "900 mm"), set("tank.height", "1.2 m"), set("tank.outlet.size", "bs-4825/2in"), set("pump.height", "240 mm")}
	d, faults := design.Own(append(tank, set("tank.bottom", "flat"), set("tank.coneAngle", "steep"), set("pump.kind", design.NoPump), set("pump.away", "a stride"))...)
	require.Empty(t, faults)
	assert.Equal(t, "240 mm", d.Pump.Height.String())
	_, faults = design.Own(append(tank, set("tank.coneAngle", "steep"), set("pump.away", "a stride"))...)
	assert.NotEmpty(t, faults)
}

// What is set, or taken out, has been looked at; what is moved is assumed where it then is.
func TestAssumptionsFollowEdits(t *testing.T) {
	t.Parallel()
	d := design.Demo()
	d.Assumed = []design.Assumption{{Path: "tank.wall"}, {Path: "run.1"}, {Path: "pump.curve"}}
	after := func(edits ...design.Edit) (paths []string) {
		out, faults := d.Apply(edits...)
		require.Empty(t, faults)
		for _, a := range out.Assumed {
			paths = append(paths, a.Path)
		}
		return paths
	}
	assert.Equal(t, []string{"run.1", "pump.curve"}, after(set("tank.wall", "3 mm")))
	assert.Equal(t, []string{"tank.wall", "run.1"}, after(set("pump.curve.2.head", "6 m")))
	assert.Equal(t, []string{"tank.wall", "run.2", "pump.curve"}, after(design.Edit{Op: "insert", Path: "run.0"}))
	assert.Equal(t, []string{"tank.wall", "run.0", "pump.curve"}, after(design.Edit{Op: "up", Path: "run.1"}))
	assert.Equal(t, []string{"tank.wall", "pump.curve"}, after(design.Edit{Op: "remove", Path: "run.1"}))
	assert.Equal(t, []string{"tank.wall", "pump.curve"}, after(design.Edit{Op: "remove", Path: "assumed.1"}))
	assert.Equal(t, []string{"tank.wall", "run.1", "pump.curve"}, after(set("run.0.name", "x"), set("title", "y")))
	assert.True(t, d.Assumes("run.1.length"))
	assert.False(t, d.Assumes("run.10"))
}

// Whoever answers in inches or feet, however they are written, gets what is made
// up in inches, feet of head and gallons, as a shop there would say it, and
// whoever answers in metric nothing of the sort. The foot is 304.8 mm.
func TestOwnSpeaksAsItWasAnswered(t *testing.T) {
	defer q.Show(q.Metric)
	q.Show(q.AsTyped)
	for _, c := range []struct {
		bore   string
		mm     float64
		inches bool
	}{
		{`63"`, 1600.2, true}, {"63 in", 1600.2, true}, {"5 ft 3 in", 1600.2, true}, {`5'3"`, 1600.2, true}, {"5.25 ft", 1600.2, true}, {"63 inches", 1600.2, true}, {`62 1/2″`, 1587.5, true},
		{"1.6m", 1600, false}, {"1,6 m", 1600, false}, {"1600mm", 1600, false}, {"160 cm", 1600, false},
	} {
		for _, kind := range []string{design.Centrifugal, design.Lobe, design.NoPump} {
			height, away, over := "1.2 m", "1.8m", "240 mm"
			if c.inches {
				height, away, over = "4 ft", "6'", "9 1/2 in"
			}
			answers := []design.Edit{set("tank.bore", c.bore), set("tank.height", height), set("tank.outlet.size", "bs-4825/2in"), set("pump.kind", kind), set("pump.away", away), set("pump.height", over)}
			said, faults := design.Design{}.Apply(answers...)
			require.Empty(t, faults)
			q.Speak(said.Typed)
			d, faults := design.Own(answers...)
			require.Empty(t, faults, c.bore)
			assert.InDelta(t, c.mm, d.Tank.Bore.Value().Millimetres(), 1e-9, c.bore)
			assert.Equal(t, c.bore, d.Tank.Bore.String(), "as typed")
			d.Assumed = nil // all of it is told
			d.Typed(func(k q.Kind, text string) {
				want := q.Metric
				if c.inches && q.Typed(k, "1 "+k.Unit(q.Inches)) == q.Inches { // falls and angles are of either
					want = q.Inches
				}
				if want == q.Metric && c.inches {
					return
				}
				assert.Equal(t, want, q.Typed(k, text), "%s: %s", c.bore, text)
			})
		}
	}
}
