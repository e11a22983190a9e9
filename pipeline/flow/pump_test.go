package flow_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"drawoff/pipeline/flow"
	q "drawoff/pipeline/quantity"
)

// scipy's PchipInterpolator; see the head of the file.
func TestCurveReference(t *testing.T) {
	t.Parallel()
	for _, row := range records(t, "pchip.csv") {
		var duties []flow.Duty
		for point := range strings.FieldsSeq(row[0]) {
			x, y, _ := strings.Cut(point, ":")
			duties = append(duties, flow.Duty{Flow: q.Flow(number(t, x)), Head: q.Head(number(t, y))})
		}
		head, outside := flow.NewCurve(duties).Head(q.Flow(number(t, row[1])))
		assert.InDelta(t, number(t, row[2]), float64(head), 1e-11, "%v", row)
		assert.False(t, outside)
	}
}

func TestCurveEnds(t *testing.T) {
	t.Parallel()
	c := flow.NewCurve([]flow.Duty{{Flow: 0.003, Head: 4, Required: 3}, {Flow: 0, Head: 12}, {Flow: 0.001, Head: 11, Required: 1}})
	assert.Equal(t, q.Flow(0), c.First())
	assert.Equal(t, q.Flow(0.003), c.Last())
	for _, row := range []struct {
		flow     q.Flow
		head     q.Head
		outside  bool
		required q.Head
		none     bool
	}{
		{0, 12, false, 1, true}, // the first point does not give what it requires
		{0.001, 11, false, 1, false},
		{0.003, 4, false, 3, false},
		{0.004, 4, true, 3, true},
	} {
		head, outside := c.Head(row.flow)
		assert.Equal(t, row.head, head)
		assert.Equal(t, row.outside, outside, "%v", row)
		required, none := c.Required(row.flow)
		assert.Equal(t, row.required, required)
		assert.Equal(t, row.none, none, "%v", row)
	}
}

// What cannot be a point of a pump's curve is left out and does no harm.
func TestCurveRefuses(t *testing.T) {
	t.Parallel()
	nan, inf := math.NaN(), math.Inf(1)
	bad := []flow.Duty{{Flow: q.Flow(nan), Head: 3}, {Flow: -1, Head: 3}, {Flow: 0.001, Head: q.Head(inf)}, {Flow: 0.001, Head: -2}}
	assert.True(t, flow.NewCurve(bad).IsZero())
	assert.True(t, flow.Curve{}.IsZero())
	good := flow.NewCurve(append(bad, flow.Duty{Flow: 0.002, Head: 5}, flow.Duty{Flow: 0.002, Head: 4}))
	assert.Equal(t, []flow.Duty{{Flow: 0.002, Head: 4}}, good.Duties(), "of two at one flow the lower counts")
	head, _ := good.Head(0.001)
	assert.Equal(t, q.Head(4), head)
	head, outside := flow.Curve{}.Head(0.001)
	assert.Zero(t, head)
	assert.True(t, outside)
	_, outside = good.Head(q.Flow(nan))
	assert.True(t, outside)
}

func TestOperateStatuses(t *testing.T) {
	t.Parallel()
	water := newtonian(998, 1e-6)
	line := flow.Line{straight(0.05, 10, 0), {Bore: 0.05, Loss: flow.Exit()}}
	curve := flow.NewCurve([]flow.Duty{{Flow: 0, Head: 10}, {Flow: 0.002, Head: 8}, {Flow: 0.004, Head: 2}})
	late := flow.NewCurve([]flow.Duty{{Flow: 0.001, Head: 9}, {Flow: 0.004, Head: 2}})
	for _, row := range []struct {
		curve  flow.Curve
		static q.Head
		status flow.Status
	}{
		{curve, 5, flow.Running},
		{curve, 10, flow.DeadHeaded},
		{curve, 12, flow.DeadHeaded},
		{curve, -5, flow.BeyondEnd},
		{late, 12, flow.BelowStart},
		{flow.Curve{}, 1, flow.NoCurve},
	} {
		rate, status := flow.Operate(row.curve, line, row.static, water)
		assert.Equal(t, row.status, status, "%v", row)
		switch status {
		case flow.Running:
			assert.Positive(t, rate)
			assert.Less(t, rate, row.curve.Last())
		case flow.BeyondEnd:
			assert.Equal(t, row.curve.Last(), rate, "no flow is claimed beyond the last point")
		default:
			assert.Zero(t, rate)
		}
		assert.NotEmpty(t, status.String())
	}
}
