package catalog

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	q "drawoff/pipeline/quantity"
)

// Every line of every file is in the catalogue, and every source is cited.
func TestEveryRowIsUsed(t *testing.T) {
	t.Parallel()
	all := load()
	bends, tees, halves := 0, 0, 0
	for _, rows := range all.bends {
		bends += len(rows)
	}
	for _, rows := range all.tees {
		tees += len(rows)
	}
	for _, f := range all.families {
		halves += len(f.halves)
	}
	files := []struct {
		name, text string
		used       int
	}{
		{"sources.csv", sourcesCSV, len(all.sources)}, {"series.csv", seriesCSV, len(all.series)},
		{"tubes.csv", tubesCSV, len(all.tubeAt)}, {"families.csv", familiesCSV, len(all.familyAt)},
		{"halves.csv", halvesCSV, halves}, {"joints.csv", jointsCSV, len(all.jointAt)},
		{"bends.csv", bendsCSV, bends}, {"tees.csv", teesCSV, tees},
		{"materials.csv", materialsCSV, len(all.materialAt)}, {"media.csv", mediaCSV, len(all.media)},
		{"bodies.csv", bodiesCSV, len(all.bodies)},
	}
	cited := map[string]bool{}
	for _, file := range files {
		rows := read(file.name, file.text)
		assert.Len(t, rows, file.used, file.name)
		for _, r := range rows {
			for i, column := range r.sheet.columns {
				if key, ok := strings.CutSuffix(column, "source"); ok && file.name != "sources.csv" {
					// A limit that no source gives has neither trust nor source.
					trusted := key != "bar" && key != "limit" || r.text(key+"trust") != ""
					assert.Equal(t, trusted, r.cells[i] != "", "%s line %d, %s", file.name, r.line, column)
					cited[r.cells[i]] = true
				}
			}
		}
	}
	for source := range all.sources {
		assert.True(t, cited[source], "source %s is cited nowhere", source)
	}
	assert.Len(t, all.media, len(all.materials)*13, "every material in every medium")
	// A tube that one family serves twice would lose a joint.
	joined := 0
	for _, j := range all.joints {
		joined += len(j.Tubes)
	}
	assert.Len(t, all.jointFor, joined)
}

// Bends and tees of a tube are listed in the same shapes, the usual first.
func TestShapesAgree(t *testing.T) {
	t.Parallel()
	all := load()
	assert.Len(t, all.tees, len(all.bends))
	for slug, bends := range all.bends {
		tees := all.tees[slug]
		require.Len(t, tees, len(bends), slug)
		for i := range bends {
			assert.Equal(t, bends[i].shape, tees[i].shape, slug)
		}
	}
}

func TestBrokenRowsSayWhere(t *testing.T) {
	t.Parallel()
	r := read("tubes.csv", "tube,od,trust\nbs-4825/2in,fifty,sure\n")[0]
	assert.PanicsWithValue(t, "catalog: tubes.csv line 2, od: not a number: fifty", func() { r.mm("od") })
	assert.PanicsWithValue(t, "catalog: tubes.csv line 2, trust: no such trust: sure", func() { r.trust("trust") })
	assert.PanicsWithValue(t, "catalog: tubes.csv line 2, wall: no such column", func() { r.mm("wall") })
	assert.Panics(t, func() { read("tubes.csv", "tube,od\n1\n") })
}

// What the catalogue hands out cannot be used to change it.
func TestListsAreCopies(t *testing.T) {
	t.Parallel()
	Tubes()[0].OD, Joints()[0].Face, Materials()[0].Name, SeriesList()[0].Name = 1, "x", "x", "x"
	assert.NotEqual(t, q.Length(1), Tubes()[0].OD)
	assert.NotEqual(t, "x", Joints()[0].Face)
	assert.NotEqual(t, "x", Materials()[0].Name)
	assert.NotEqual(t, "x", SeriesList()[0].Name)
	assert.True(t, slices.IsSortedFunc(Joints(), func(a, b Joint) int {
		if a.Family != b.Family {
			return load().familyAt[a.Family] - load().familyAt[b.Family]
		}
		return 0
	}), "by family")
}

func BenchmarkFindHalf(b *testing.B) {
	pipe, _ := FindTube("bs-4825/2in")
	b.ReportAllocs()
	for b.Loop() {
		FindHalf("ring-joint/liner", pipe)
	}
}

func BenchmarkBendOf(b *testing.B) {
	pipe, _ := FindTube("bs-4825/2in")
	b.ReportAllocs()
	for b.Loop() {
		BendOf(pipe, "long", 90*q.Degree)
	}
}

func BenchmarkReducerOf(b *testing.B) {
	from, _ := FindTube("bs-4825/2in")
	to, _ := FindTube("bs-4825/1.5in")
	b.ReportAllocs()
	for b.Loop() {
		ReducerOf(from, to, "eccentric")
	}
}

func BenchmarkHalfPart(b *testing.B) {
	pipe, _ := FindTube("bs-4825/2in")
	h, _ := FindHalf("ring-joint/liner", pipe)
	b.ReportAllocs()
	for b.Loop() {
		HalfPart(*h)
	}
}

func BenchmarkNearest(b *testing.B) {
	for b.Loop() {
		Nearest("bs-4825/2,5in")
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		t := &tables{}
		t.readSources()
		t.readTubes()
		t.readFamilies()
		t.readJoints()
		t.indexEnds()
		t.readFittings()
		t.readSeals()
	}
}
