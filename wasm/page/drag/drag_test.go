package drag

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/wasm/draft"
	"pullline/wasm/draft/drafttest"
	"pullline/wasm/draw"
	"pullline/wasm/parts"
	"pullline/wasm/request"
	"pullline/wasm/scene"
	"pullline/wasm/units"
)

// applyDrag carries out set changes on a plan the way the page does.
func applyDrag(t testing.TB, doc *draft.Plan, ch parts.Changes) {
	require.Empty(t, ch.Message)
	require.NotEmpty(t, ch.Changes)
	for _, c := range ch.Changes {
		require.Equal(t, "set", c.Op)
		v := doc.Tree
		for _, part := range c.At[:len(c.At)-1] {
			switch p := part.(type) {
			case string:
				v = v.(map[string]any)[p]
			case int:
				v = v.([]any)[p]
			}
		}
		f := c.Value.(float64)
		require.True(t, draw.Finite(f))
		v.(map[string]any)[c.At[len(c.At)-1].(string)] = numberText(f)
	}
}

var boxes = []draw.Box{{W: 328, H: 260}, {W: 700, H: 420}, {W: 1100, H: 620}}

func dragRequest(id string, b draw.Box, p draw.Pt) *asked {
	return &asked{Boxes: scene.Boxes{Side: b, Plan: b}, Pointing: request.Pointing{Handle: id, X: p.X, Y: p.Y}}
}

// Dragging a point to where a place lies on the drawing puts it there, to
// within what it is rounded to.
func TestDragPointFromAbove(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for _, b := range boxes {
		for range 200 {
			doc := drafttest.Parse([]byte(drafttest.Leaning))
			s := scene.New(doc, nil, &units.KN)
			l := s.PlanLayout(b)
			want := rigging.Vec{X: -l.Left + rng.Float64()*(l.Left+l.Right), Y: -l.Down + rng.Float64()*(l.Down+l.Up)}
			fine := rng.IntN(2) == 0
			req := dragRequest("plan/point/0", b, l.Plan(want))
			req.Fine = fine
			applyDrag(t, doc, drag(req, doc, &units.KN, nil))
			got := scene.New(doc, nil, &units.KN).Points[0].At
			// Half a step of distance, and half a step of bearing at the
			// distance.
			far := math.Hypot(want.X, want.Y)
			off := pick(fine, distanceStep, distanceFine)/2 + far*pick(fine, bearingStep, bearingFine)/2*math.Pi/180 + 1e-9
			require.LessOrEqual(t, got.Sub(want).Norm(), off)
			bearing, _ := doc.Number("points[0].bearing_deg")
			distance, _ := doc.Number("points[0].distance_m")
			require.True(t, bearing >= 0 && bearing < 360)
			require.InDelta(t, math.Round(bearing*10), bearing*10, 1e-6)
			require.InDelta(t, math.Round(distance*100), distance*100, 1e-6)
		}
	}
}

// From the side a point moves along the lay and keeps its lateral offset.
func TestDragPointFromTheSide(t *testing.T) {
	for x := -9.0; x <= 30; x += 1.7 {
		doc := drafttest.Parse([]byte(drafttest.Leaning))
		s := scene.New(doc, nil, &units.KN)
		l := s.SideLayout(boxes[1])
		applyDrag(t, doc, drag(dragRequest("side/point/0", boxes[1], l.ToPx(x, 3)), doc, &units.KN, nil))
		got := scene.New(doc, nil, &units.KN).Points[0].At
		// A tenth of a degree at some 35 m is 6 cm.
		require.InDelta(t, x, got.X, 0.05)
		require.InDelta(t, s.Points[0].At.Y, got.Y, 0.05)
		require.Equal(t, s.Points[0].At.Z, got.Z)
	}
}

func TestDragStem(t *testing.T) {
	for h := -3.0; h <= 31; h += 0.73 {
		doc := drafttest.Parse([]byte(drafttest.Leaning))
		s := scene.New(doc, nil, &units.KN)
		l := s.SideLayout(boxes[0])
		at := rigging.Vec{X: 0, Y: 0, Z: s.Stump}.Add(s.Axis.Scale(h - s.Stump))
		applyDrag(t, doc, drag(dragRequest("side/stem/0/0", boxes[0], l.Side(at)), doc, &units.KN, nil))
		got, ok := doc.Number("lines[0].path[0].stem_m")
		require.True(t, ok)
		require.InDelta(t, min(max(h, s.Stump), s.Height), got, stemStep/2+1e-9)
		require.InDelta(t, math.Round(got*10), got*10, 1e-9)
	}
}

// From the side the top follows the pointer and the sideways lean is kept.
func TestDragLeanFromTheSide(t *testing.T) {
	doc := drafttest.Parse([]byte(drafttest.Leaning))
	side := scene.New(doc, nil, &units.KN).Axis.Y
	b := boxes[2]
	for deg := -25.0; deg <= 25; deg++ {
		s := scene.New(doc, nil, &units.KN)
		l := s.SideLayout(b)
		sin, cos := math.Sincos(deg * math.Pi / 180)
		applyDrag(t, doc, drag(dragRequest("side/lean", b, l.ToPx(20*sin, s.Stump+20*cos)), doc, &units.KN, nil))
		a := scene.New(doc, nil, &units.KN).Axis
		// Lean to 0.01 and bearing to 0.1 of a degree, and the lean seen to 0.1.
		require.InDelta(t, deg, math.Atan2(a.X, a.Z)*180/math.Pi, 0.06)
		require.InDelta(t, side, a.Y, 0.005, "after many drags")
	}
}

func TestDragLeanFromAbove(t *testing.T) {
	b := boxes[2]
	for _, want := range [][2]float64{{4, 160}, {12.3, 20}, {25, 300}, {0.1, 90}} {
		doc := drafttest.Parse([]byte(drafttest.Leaning))
		s := scene.New(doc, nil, &units.KN)
		l := s.PlanLayout(b)
		a := rigging.Tree{Lean: want[0] * rigging.Deg, LeanBearing: want[1] * rigging.Deg}.Axis()
		applyDrag(t, doc, drag(dragRequest("plan/lean", b, l.Plan(a.Scale(s.Height-s.Stump))), doc, &units.KN, nil))
		lean, _ := doc.Number("tree.lean_deg")
		bearing, _ := doc.Number("tree.lean_bearing_deg")
		require.InDelta(t, want[0], lean, 1e-9)
		require.InDelta(t, want[1], bearing, 1e-9)
	}
}

// With the frame of the press sent back the scale stands still, however far
// a point is dragged; without it a drag changes no more than one step.
func TestScaleStandsStillWithTheFrame(t *testing.T) {
	doc := drafttest.Parse([]byte(`{"tree":{"height_m":20},"points":[{"id":"A","bearing_deg":0,"distance_m":60}]}`))
	b := draw.Box{W: 328, H: 260}
	b.Frame = scene.New(doc, nil, &units.KN).DrawPlan(b).Frame
	require.Len(t, b.Frame, 4)
	scale := scene.New(doc, nil, &units.KN).PlanLayout(b).Scale
	for x := 320.0; x > 20; x -= 3 {
		applyDrag(t, doc, drag(dragRequest("plan/point/0", b, draw.Pt{X: x, Y: 100}), doc, &units.KN, nil))
		s := scene.New(doc, nil, &units.KN)
		l := s.PlanLayout(b)
		require.Equal(t, scale, l.Scale)
		if x > 140 && x < 300 {
			require.InDelta(t, x, l.Plan(s.Points[0].At).X, 2)
		}
	}
	for _, bad := range [][]float64{{1}, {-1, 2, 3, 4}, {math.NaN(), 1, 1, 1}, {0, 0, 0, 0}, {1e9, 1, 1, 1}} {
		_, ok := draw.Box{Frame: bad}.Kept()
		require.False(t, ok)
	}
}

func TestKeyboardSteps(t *testing.T) {
	doc := drafttest.Parse([]byte(drafttest.Leaning))
	step := func(id string, x, y int, fine bool) *scene.Scene {
		applyDrag(t, doc, drag(&asked{Pointing: request.Pointing{Handle: id, StepX: x, StepY: y, Fine: fine}}, doc, &units.KN, nil))
		return scene.New(doc, nil, &units.KN)
	}
	require.InDelta(t, 14.1, step("side/stem/0/0", 0, 1, false).Lines[0].Stations[0].H, 1e-9)
	require.InDelta(t, 14.09, step("side/stem/0/0", 0, -1, true).Lines[0].Stations[0].H, 1e-9)
	s := scene.New(doc, nil, &units.KN)
	for id, i := range map[string]int{"plan/point/0": 0, "side/point/1": 1} {
		before := s.Points[i].At
		after := step(id, 1, 0, false).Points[i].At
		// The bearing's tenth of a degree at 50 m is 9 cm.
		require.InDelta(t, before.X+keyPoint, after.X, 0.06)
		require.InDelta(t, before.Y, after.Y, 0.06)
	}
	before := scene.New(doc, nil, &units.KN).Points[2].At
	require.InDelta(t, before.Y+keyPoint, step("plan/point/2", 0, 1, false).Points[2].At.Y, 0.06)
	ahead := scene.New(doc, nil, &units.KN).Axis
	require.Greater(t, step("side/lean", 1, 0, false).Axis.X, ahead.X+0.005)
	left := scene.New(doc, nil, &units.KN).Axis
	require.Greater(t, step("plan/lean", 0, 1, false).Axis.Y, left.Y+0.005)
}

// Every handle a drawing offers can be dragged, anywhere, and keeps its
// values within what a plan may hold.
func TestEveryHandleAnywhere(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	places := []float64{-1e9, -1e300, 0, 17, 160, 328, 1e9, 1e300}
	rep := plan.Evaluate([]byte(drafttest.Leaning))
	shown, box := scene.New(drafttest.Parse([]byte(drafttest.Leaning)), &rep, &units.KN), draw.Box{W: 328, H: 260}
	for _, view := range []*draw.Drawing{shown.DrawSide(box), shown.DrawPlan(box)} {
		require.NotEmpty(t, view.Handles)
		for _, h := range view.Handles {
			require.NotEmpty(t, h.Label)
			require.NotEmpty(t, h.Paths)
			for range 40 {
				doc := drafttest.Parse([]byte(drafttest.Leaning))
				for _, p := range h.Paths {
					require.True(t, doc.Has(p), p)
				}
				req := dragRequest(h.ID, draw.Box{W: 328, H: 260}, draw.Pt{X: places[rng.IntN(len(places))], Y: places[rng.IntN(len(places))]})
				applyDrag(t, doc, drag(req, doc, &units.KN, nil))
				s := scene.New(doc, nil, &units.KN)
				require.LessOrEqual(t, s.Lean*180/math.Pi, mostLean+1e-9)
				for i := range s.Points {
					d, _ := doc.Number(draft.Elem("points", i) + ".distance_m")
					require.True(t, d >= 0 && d <= field.PersonDistance.Row().Range.Max)
				}
				for _, st := range []scene.Station{s.Lines[0].Stations[0], s.Lines[1].Stations[0]} {
					require.True(t, st.H >= s.Stump && st.H <= s.Height)
				}
			}
		}
	}
}

func TestDragRefuses(t *testing.T) {
	doc := drafttest.Parse([]byte(drafttest.Leaning))
	b := draw.Box{W: 328, H: 260}
	for _, id := range []string{"", "side", "side/", "top/lean", "side/point/99", "side/point/-1", "side/point/x", "plan/stem/0/0", "side/stem/0/1", "side/stem/9/0", "side/lean/1", strings.Repeat("/", 50)} {
		ch := drag(dragRequest(id, b, draw.Pt{X: 100, Y: 100}), doc, &units.KN, nil)
		require.Empty(t, ch.Changes, id)
		require.NotEmpty(t, ch.Message, id)
	}
	for _, v := range []float64{math.NaN(), math.Inf(1)} {
		require.NotEmpty(t, drag(dragRequest("side/lean", b, draw.Pt{X: v, Y: 1}), doc, &units.KN, nil).Message)
	}
	require.NotEmpty(t, drag(dragRequest("side/lean", draw.Box{}, draw.Pt{X: 1, Y: 1}), doc, &units.KN, nil).Message)
	require.NotEmpty(t, drag(dragRequest("plan/lean", b, draw.Pt{X: 1, Y: 1}), drafttest.Parse([]byte("{}")), &units.KN, nil).Message)
}

func numberText(f float64) any {
	d := drafttest.Parse([]byte(`{"v":` + strconv.FormatFloat(f, 'g', -1, 64) + `}`))
	v, _ := d.At("v")
	return v
}
