package design_test

import (
	"strconv"
	"strings"
	"testing"

	"drawoff/pipeline/design"
	"drawoff/pipeline/design/designtest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What is set is what is got, to the letter.
func TestSetThenGet(t *testing.T) {
	t.Parallel()
	for path, words := range map[string][]string{
		"title":                 {"Farm perry", " spaces kept ", `<b>"&'`, ""},
		"note":                  {"one\ntwo"},
		"tank.bore":             {"240 mm", " 9½ IN ", "0,9 m", ""},
		"stand.legs":            {"4", "-1", ""},
		"run.0.fit":             {"true", ""},
		"pump.curve.2.flow":     {"2.4 m³/h"},
		"liquid.strength":       {"SG 1.048"},
		"delivery.pieces.1.out": {"not judged here"},
	} {
		for _, w := range words {
			d := edited(t, set(path, w))
			got, ok := d.Get(path)
			assert.True(t, ok, path)
			assert.Equal(t, w, got, path)
		}
	}
	d := edited(t, set("run.0.fit", "false"))
	got, _ := d.Get("run.0.fit")
	assert.Equal(t, "", got, "a switch that is off is an empty field")
	d = edited(t, set("tank.bore", " \u00a0"))
	got, _ = d.Get("tank.bore")
	assert.Equal(t, "", got, "blanks empty a field")
}

func TestGetOfNothing(t *testing.T) {
	t.Parallel()
	for _, path := range []string{"", "tank", "under", "under.0", "tank.bor", "under.99.kind", "under.-1.kind", "under.01.kind", "title.x", "tank..bore", strings.Repeat("a.", 500)} {
		d := plant()
		_, ok := d.Get(path)
		assert.False(t, ok, path)
	}
}

func TestEditsThatCannotBeMade(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		edit              design.Edit
		field, what, hint string
	}{
		{set("tank.bore", "900"), "tank.bore", "has no unit", "write 900 mm or 900 in"},
		{set("tank.bore", "1,500 mm"), "tank.bore", "may be read two ways: 1500, or 1.500", "write 1500 or 1.500"},
		{set("tank.bre", "1 m"), "tank.bre", "is not a field of tank", "perhaps bore was meant"},
		{set("tnak.bore", "1 m"), "tnak.bore", "is not a field of a design", "perhaps tank was meant"},
		{set("site.depth", "1 m"), "site.depth", "is not a field of site", "write altitude, ceiling, door, doorWidth, floorFall or uneven"},
		{set("tank", "1 m"), "tank", "cannot be put into a group of fields", "name one of the fields in tank"},
		{set("under", ""), "under", "cannot be put into a group of fields", "name one of the fields in under"},
		{set("title.0", "x"), "title.0", "goes on after title, which holds nothing more", "write title"},
		{set("tank.bore.unit", "x"), "tank.bore.unit", "goes on after tank.bore, which holds nothing more", "write tank.bore"},
		{set("under.x.kind", "bend"), "under.x.kind", "wants a number after under", "write under.0 for the first"},
		{set("under.3.kind", "bend"), "under.3.kind", "is not there: under holds 3", "count from 0"},
		{set("stand.legs", "three"), "stand.legs", "is not a whole number", "write it in digits, like 3"},
		{set("stand.legs", "3.5"), "stand.legs", "is not a whole number", "write it in digits, like 3"},
		{set("run.0.fit", "yes"), "run.0.fit", "is neither true nor false", "write true or false"},
		{set("seal", strings.Repeat("x", 81)), "seal", "is longer than 80 characters", "shorten it"},
		{design.Edit{Op: "delete", Path: "under.0"}, "under.0", "is not a change that can be made", "write insert, remove, up or down"},
		{design.Edit{Op: "removed", Path: "under.0"}, "under.0", "is not a change that can be made", "perhaps remove was meant"},
		{design.Edit{Op: "remove", Path: "under.3"}, "under.3", "is not there: under holds 3", "count from 0"},
		{design.Edit{Op: "insert", Path: "under.4"}, "under.4", "is not there: under holds 3", "count from 0"},
		{design.Edit{Op: "remove", Path: "tank.bore"}, "tank.bore", "is not an item of a list", "name one like under.0 or pump.curve.1"},
		{design.Edit{Op: "remove", Path: "title"}, "title", "is not an item of a list", "name one like under.0 or pump.curve.1"},
		{design.Edit{Op: "up", Path: "under.0"}, "under.0", "is the first already", "move another"},
		{design.Edit{Op: "down", Path: "under.2"}, "under.2", "is the last already", "move another"},
		{set(strings.Repeat("a", 200), "x"), strings.Repeat("a", 79) + "…", "is longer than any path of a field", "name a field like tank.bore"},
	} {
		before := plant()
		after, faults := before.Apply(set("title", "changed"), c.edit)
		if !assert.Len(t, faults, 1, c.edit.Path) {
			continue
		}
		assert.Equal(t, before, after, "nothing is changed when one edit fails")
		assert.Equal(t, c.field, faults[0].Field)
		assert.Equal(t, c.what, faults[0].What)
		assert.Equal(t, c.hint, faults[0].Hint)
	}
}

func TestListsHaveAnEnd(t *testing.T) {
	t.Parallel()
	for path, most := range map[string]int{"run": design.MaxPieces, "pump.curve": design.MaxCurve, "measured": design.MaxMeasured} {
		var edits []design.Edit
		for range most {
			edits = append(edits, insert(path+".0"))
		}
		d, faults := design.Design{}.Apply(edits...)
		require.Empty(t, faults)
		_, faults = d.Apply(insert(path + ".0"))
		require.Len(t, faults, 1)
		assert.Equal(t, "would be more than the "+strconv.Itoa(most)+" that "+path+" may hold", faults[0].What)
	}
}

// Insert and remove undo each other, and so do up and down, whatever the
// design; and no edit touches the design that it was made from.
func TestEditsUndoEachOther(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		before := design.WriteFile(d)
		list := rapid.SampledFrom([]string{"under", "run", "delivery.pieces", "pump.curve", "measured"}).Draw(t, "list")
		n := map[string]int{"under": len(d.Under), "run": len(d.Run), "delivery.pieces": len(d.Delivery.Pieces), "pump.curve": len(d.Pump.Curve), "measured": len(d.Measured)}[list]
		at := list + "." + strconv.Itoa(rapid.IntRange(0, n).Draw(t, "at"))

		grown, faults := d.Apply(insert(at))
		require.Empty(t, faults)
		back, faults := grown.Apply(design.Edit{Op: "remove", Path: at})
		require.Empty(t, faults)
		require.Equal(t, d, back)

		if n > 1 {
			i := rapid.IntRange(1, n-1).Draw(t, "move")
			up, down := list+"."+strconv.Itoa(i), list+"."+strconv.Itoa(i-1)
			back, faults = d.Apply(design.Edit{Op: "up", Path: up}, design.Edit{Op: "down", Path: down})
			require.Empty(t, faults)
			require.Equal(t, d, back)
		}
		if n > 0 {
			// Taking one out leaves the others in their order.
			i := rapid.IntRange(0, n-1).Draw(t, "out")
			less, faults := d.Apply(design.Edit{Op: "remove", Path: list + "." + strconv.Itoa(i)})
			require.Empty(t, faults)
			if list == "under" {
				require.Len(t, less.Under, n-1)
				for j := range less.Under {
					was := j
					if j >= i {
						was++
					}
					require.Equal(t, d.Under[was], less.Under[j])
				}
			}
		}
		require.Equal(t, string(before), string(design.WriteFile(d)))
	})
}

// A clone is equal and shares nothing.
func TestClone(t *testing.T) {
	t.Parallel()
	d := plant()
	c := d.Clone()
	assert.Equal(t, d, c)
	c.Under[0].Kind, c.Run[0].Kind, c.Delivery.Pieces[0].Kind = "x", "x", "x"
	c.Pump.Curve[0] = design.CurvePoint{}
	assert.Equal(t, plant(), d)
}

// Every field that a form would show can be set to what Get says of it.
func TestEveryFieldCanBeEdited(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		d := designtest.Design(t)
		d.Assumed = nil // what is set has been looked at
		var edits []design.Edit
		for i := range d.Run {
			edits = append(edits, insert("run."+strconv.Itoa(i)))
			for j := range d.Run[i].Drops {
				edits = append(edits, insert("run."+strconv.Itoa(i)+".drops."+strconv.Itoa(j)))
			}
		}
		for _, path := range leaves(d) {
			words, ok := d.Get(path)
			require.True(t, ok, path)
			if strings.HasPrefix(path, "run.") {
				edits = append(edits, set(path, words))
			}
		}
		empty := d.Clone()
		empty.Run = nil
		rebuilt, faults := empty.Apply(edits...)
		require.Empty(t, faults)
		require.Equal(t, d, rebuilt)
	})
}

func BenchmarkApply(b *testing.B) {
	d := plant()
	for b.Loop() {
		d.Apply(set("run.2.length", "240 mm"))
	}
}
