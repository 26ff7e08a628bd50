package scene_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
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
	"pullline/wasm/scene"
	"pullline/wasm/units"
)

// drawnReport is a report with invented forces on the true geometry of a
// plan: the drawings only place what a report holds.
func drawnReport(doc *draft.Plan) *plan.Report {
	s := scene.New(doc, nil, &units.KN)
	r := &plan.Report{Tree: plan.TreeReport{WeightKN: 84.3, MassCentreM: 10.2, CentreHeightM: 9.8, ForwardM: -0.81, LeftM: -0.33}}
	r.Pull = plan.PullReport{StartKN: 14.2, PeakKN: 16.4, PeakDeg: 2, CommitDeg: 11.5, PlannedKN: 24.6, HaulM: 2.4}
	for d := 0.0; d <= 90; d++ {
		kN := 14.2 + 2.2*math.Sin(d/2) - max(0, d-2)*1.7
		hold := max(0, 5.2-d*0.1)
		if d > 60 {
			hold = 0
		}
		r.Pull.Curve = append(r.Pull.Curve, plan.CurvePoint{Deg: plan.Num(d), KN: plan.Num(max(kN, 0)), HoldKN: plan.Num(hold)})
	}
	load := map[int]rigging.Vec{}
	for i := range s.Lines {
		l := &s.Lines[i]
		out := plan.LineReport{ID: l.ID, IdealAdvantage: 3, TensionKN: 24.6}
		t := 24.6
		if l.Hold {
			t = 7.8
		}
		for k := range l.Legs {
			leg := &l.Legs[k]
			if leg.Hauling {
				t = 9.1
			}
			d := leg.To.At.Sub(leg.From.At)
			n := d.Norm()
			for _, e := range []struct {
				at   scene.Station
				sign float64
			}{{leg.From, 1}, {leg.To, -1}} {
				if e.at.Point >= 0 && n > 0 {
					load[e.at.Point] = load[e.at.Point].Add(d.Scale(e.sign * t / n))
				}
			}
			out.Legs = append(out.Legs, plan.LegReport{Hauling: leg.Hauling, TensionKN: plan.Num(t)})
			t *= 1.04
		}
		r.Lines = append(r.Lines, out)
	}
	verdicts := []rigging.Verdict{rigging.Over, rigging.Near, rigging.Within, rigging.Unknown}
	for i := range s.Points {
		f := load[i]
		b, h := f.Bearing()/rigging.Deg, f.Horizontal()
		r.Points = append(r.Points, plan.PointReport{ID: s.Points[i].ID, LoadKN: plan.Num(f.Norm()), HorizontalKN: plan.Num(h),
			BearingDeg: plan.Num(b), Verdict: verdicts[i%4]})
	}
	return r
}

func drawn(t testing.TB, raw string, w, h float64) []*draw.Drawing {
	doc := drafttest.Parse([]byte(raw))
	box := draw.Box{W: w, H: h}
	a, b, c := scene.Drawings(scene.Boxes{Side: box, Plan: box, Curve: box}, doc, drawnReport(doc), &units.KN)
	require.NotNil(t, a)
	require.NotNil(t, b)
	require.NotNil(t, c)
	return []*draw.Drawing{a, b, c}
}

var drawnBoxes = []draw.Box{{W: 328, H: 260}, {W: 700, H: 420}, {W: 1100, H: 620}}

// TestDrawToLook writes the drawings as SVG files, to look at, into the
// directory PULLLINE_DRAW names.
func TestDrawToLook(t *testing.T) {
	dir := os.Getenv("PULLLINE_DRAW")
	if dir == "" {
		t.Skip("set PULLLINE_DRAW to a directory to look at the drawings")
	}
	for name, raw := range lookPlans(t) {
		doc, rep := drafttest.Parse([]byte(raw)), plan.Evaluate([]byte(raw))
		for _, b := range drawnBoxes {
			side, above, curve := scene.Drawings(scene.Boxes{Side: b, Plan: b, Curve: b}, doc, &rep, &units.KN)
			for view, d := range map[string]*draw.Drawing{"side": side, "plan": above, "curve": curve} {
				file := fmt.Sprintf("%s-%s-%.0f.svg", name, view, b.W)
				require.NoError(t, os.WriteFile(filepath.Join(dir, file), []byte(svgOf(d)), 0o644))
			}
		}
	}
}

// lookPlans are invented plans of the kinds that are drawn differently.
func lookPlans(t testing.TB) map[string]string {
	demo, err := os.ReadFile("../../testdata/demo.json")
	require.NoError(t, err)
	head := `{"version":1,"tree":{"species":"","height_m":24,"diameter_cm":60,"form_factor":0.42,"green_density_kgm3":900,"bending_strength_MPa":40,"crown_fraction":0.2,"crown_area_m2":50,"drag_coefficient":0.5,"lean_deg":6,"lean_bearing_deg":200},
"cut":{"stump_m":0.3,"face_opening_deg":70,"hinge_length_cm":48,"hinge_left_cm":6,"hinge_right_cm":6},`
	return map[string]string{
		"demo":  string(demo),
		"drawn": drafttest.Leaning,
		"straight": head + `"points":[{"id":"A","bearing_deg":0,"distance_m":45,"rise_m":-3}],
"lines":[{"id":"pull","role":"pull","path":[{"stem_m":11},{"point":"A"}],"puller":{"rated_kN":30,"stall_kN":50}}]}`,
		"doubled": head + `"points":[{"id":"D","bearing_deg":-8,"distance_m":42},{"id":"A","bearing_deg":8,"distance_m":40,"anchor":{"kind":"bridle","legs":[{"point":"T1"},{"point":"T2"}]}},{"id":"T1","bearing_deg":5,"distance_m":50},{"id":"T2","bearing_deg":14,"distance_m":49},{"id":"W","bearing_deg":70,"distance_m":55},{"id":"B","bearing_deg":30,"distance_m":48}],
"lines":[{"id":"pull","role":"pull","path":[{"point":"D"},{"stem_m":12},{"point":"A"}],"tackle":{"stages":[{"parts":4,"haul_from":"moving"}],"haul_path":[{"point":"B"},{"point":"W"}]},"puller":{"rated_kN":30,"stall_kN":50}}]}`,
	}
}

// A plain style for looking at the shapes; the page has its own.
const lookStyle = `svg{background:#fff;font-family:sans-serif}path,circle{fill:none;stroke:#222;stroke-width:1.2}
text{fill:#111;stroke:#fff;stroke-width:3;paint-order:stroke;stroke:#fff}
.ground{stroke-width:2.5;stroke:#5b4a2f}.drop,.plumb{stroke-dasharray:3 3;stroke:#777}.far{stroke-dasharray:8 5;stroke:#a33}
.bight{fill:#a331;stroke:none}.hatch{stroke:#a33;stroke-width:.7}.crown{fill:#2a62;stroke:#284}.stem{fill:#b98;stroke:#532}
.hinge{stroke:#a20;stroke-width:2}.rope{stroke-width:3;stroke:#123}.rope-hold{stroke-width:2.5;stroke-dasharray:10 5;stroke:#06a}
.haul{stroke-width:2;stroke-dasharray:4 4;stroke:#123}.bridle{stroke-width:2}.tackle{stroke-width:1.5}
.block,.sheave,.anchor,.puller,.point,.attach,.centre{fill:#fff;stroke-width:2}.centre-mark{fill:#111;stroke:none}
.weight,.force,.load{stroke-width:4;stroke:#b40}.weight{stroke:#333;stroke-width:3}.angle{stroke:#555}.lean{stroke:#284;stroke-width:2}
.lay{stroke:#666;stroke-width:1.5}.dim{stroke:#555;stroke-width:1}.label-note{fill:#444}.label-id{font-weight:bold}
.grid{stroke:#ddd;stroke-width:1}.curve{stroke-width:3;stroke:#123}.curve-hold{stroke:#06a;stroke-width:2;stroke-dasharray:10 5}
.planned{stroke:#b40;stroke-width:2;stroke-dasharray:2 3}.commit{stroke:#284}.face{stroke:#a20;stroke-dasharray:6 3}.peak{fill:#fff;stroke-width:2.5}
.handle{stroke:#06f;stroke-width:1;stroke-dasharray:2 2}`

func svgOf(d *draw.Drawing) string {
	var b strings.Builder
	font := draw.FontFor(draw.Box{W: d.W, H: d.H})
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%g" height="%g" viewBox="0 0 %g %g" font-size="%g"><style>%s</style>`, d.W, d.H, d.W, d.H, font, lookStyle)
	fmt.Fprintf(&b, "<title>%s</title><desc>%s</desc>\n", d.Title, d.Desc)
	for _, s := range d.Shapes {
		switch s.Kind {
		case "path":
			fmt.Fprintf(&b, "<path class=%q d=%q/>\n", s.Class, s.D)
		case "circle":
			fmt.Fprintf(&b, "<circle class=%q cx='%g' cy='%g' r='%g'/>\n", s.Class, s.X, s.Y, s.R)
		case "text":
			fmt.Fprintf(&b, "<text class=%q x='%g' y='%g' text-anchor='%s'>%s</text>\n", s.Class, s.X, s.Y, s.Anchor, s.Text)
		}
	}
	for _, h := range d.Handles {
		fmt.Fprintf(&b, "<circle class='handle' cx='%g' cy='%g' r='10'/>\n", h.X, h.Y)
	}
	return b.String() + "</svg>"
}

// numbersOf are all numbers of a drawing, those in path data too.
func numbersOf(t testing.TB, d *draw.Drawing) []float64 {
	out := []float64{d.W, d.H, d.Font}
	for _, s := range d.Shapes {
		out = append(out, s.X, s.Y, s.R)
		for _, f := range strings.FieldsFunc(s.D, func(r rune) bool { return strings.ContainsRune("MLAZ ", r) }) {
			v, err := strconv.ParseFloat(f, 64)
			require.NoError(t, err, "path %q", s.D)
			out = append(out, v)
		}
	}
	for _, h := range d.Handles {
		out = append(out, h.X, h.Y)
	}
	return append(out, d.Frame...)
}

func requireFinite(t testing.TB, d *draw.Drawing) {
	for _, v := range numbersOf(t, d) {
		require.True(t, draw.Finite(v) && math.Abs(v) <= draw.FarPixel, "%s: %v", d.Title, v)
	}
	text, err := json.Marshal(d)
	require.NoError(t, err)
	require.NotContains(t, string(text), "NaN")
	require.NotContains(t, string(text), "Inf")
}

func findHandle(t testing.TB, d *draw.Drawing, id string) draw.Handle {
	for _, h := range d.Handles {
		if h.ID == id {
			return h
		}
	}
	require.Fail(t, "no handle", id)
	return draw.Handle{}
}

// Coordinates are written to a tenth of a pixel: two ends may each be half of
// that off in both axes.
const pixelNoise = 0.15

// A line between two points is as long on the drawing, in either axis, as on
// the ground times one scale.
func TestDrawingsAreToScale(t *testing.T) {
	s := scene.New(drafttest.Parse([]byte(drafttest.Leaning)), nil, &units.KN)
	for _, b := range drawnBoxes {
		ds := drawn(t, drafttest.Leaning, b.W, b.H)
		tip, at := s.OnStem(s.Height), s.OnStem(14)
		side := findHandle(t, ds[0], "side/lean")
		stem := findHandle(t, ds[0], "side/stem/0/0")
		r := findHandle(t, ds[0], "side/point/0")
		scale := (r.X - side.X) / (s.Points[0].At.X - tip.X)
		require.Greater(t, scale, 1.0)
		require.InDelta(t, (r.Y-side.Y)/scale, tip.Z, pixelNoise/scale)
		require.InDelta(t, (stem.Y-side.Y)/scale, tip.Z-at.Z, pixelNoise/scale)

		h, m := findHandle(t, ds[1], "plan/point/3"), findHandle(t, ds[1], "plan/point/2")
		r = findHandle(t, ds[1], "plan/point/0")
		scale = (m.Y - h.Y) / (s.Points[3].At.Y - s.Points[2].At.Y)
		require.Greater(t, scale, 1.0)
		require.InDelta(t, (r.X-h.X)/scale, s.Points[0].At.X-s.Points[3].At.X, pixelNoise/scale)
		// Left of the lay is up, ahead is to the right.
		require.Less(t, h.Y, r.Y)
		require.Less(t, h.X, r.X)
	}
}

// What is mirrored about the lay is drawn mirrored from above, and the same
// from the side.
func TestMirroredPlanIsDrawnMirrored(t *testing.T) {
	mirror := drafttest.Leaning
	for _, p := range [...][2]string{{":20,", ":340,"}, {":75,", ":285.0,"}, {":80,", ":280,"}, {`"H","bearing_deg":285,`, `"H","bearing_deg":75,`}, {`bearing_deg":150`, `bearing_deg":210`}, {`lean_bearing_deg":160`, `lean_bearing_deg":200`}} {
		require.Contains(t, mirror, p[0])
		mirror = strings.Replace(mirror, p[0], p[1], 1)
	}
	a, b := drawn(t, drafttest.Leaning, 700, 420), drawn(t, mirror, 700, 420)
	for i := range a[1].Handles {
		p, q := a[1].Handles[i], b[1].Handles[i]
		require.Equal(t, p.ID, q.ID)
		require.InDelta(t, p.X, q.X, pixelNoise)
		require.InDelta(t, p.Y-axisY(t, a[1]), axisY(t, b[1])-q.Y, 2*pixelNoise)
		p, q = a[0].Handles[i%len(a[0].Handles)], b[0].Handles[i%len(b[0].Handles)]
		require.InDelta(t, p.X, q.X, pixelNoise)
		require.InDelta(t, p.Y, q.Y, pixelNoise)
	}
}

// axisY is where the lay lies in a plan view.
func axisY(t testing.TB, d *draw.Drawing) float64 {
	for _, s := range d.Shapes {
		if s.Class == "far" {
			return s.Y
		}
	}
	require.Fail(t, "no circle")
	return 0
}

// textRects are the boxes of all written labels, by the width the placing
// reckons with.
func textRects(d *draw.Drawing) (out []draw.Rect, texts []string) {
	c := draw.Canvas{Font: d.Font}
	for _, s := range d.Shapes {
		if s.Kind != "text" || s.Text == "" {
			continue
		}
		w, h := c.TextWidth(s.Text), c.Font*draw.EmPerLine
		x := s.X - w/2
		switch s.Anchor {
		case "start":
			x = s.X
		case "end":
			x = s.X - w
		}
		y := s.Y - c.Font*0.35
		out = append(out, draw.Rect{X0: x, Y0: y - h/2, X1: x + w, Y1: y + h/2})
		texts = append(texts, s.Text)
	}
	return out, texts
}

func TestLabelsNeitherOverlapNorRunOut(t *testing.T) {
	for _, b := range drawnBoxes {
		for _, d := range drawn(t, drafttest.Leaning, b.W, b.H) {
			rs, texts := textRects(d)
			for i, r := range rs {
				require.True(t, r.X0 >= -0.1 && r.Y0 >= -0.1 && r.X1 <= d.W+0.1 && r.Y1 <= d.H+0.1, "%q in %s at %v", texts[i], d.Title, b.W)
				for k := range i {
					q := rs[k]
					q = draw.Rect{X0: q.X0 + 0.2, Y0: q.Y0 + 0.2, X1: q.X1 - 0.2, Y1: q.Y1 - 0.2} // rounding
					require.False(t, r.Meets(q), "%q over %q in %s at %v", texts[i], texts[k], d.Title, b.W)
				}
			}
		}
	}
}

// The drawing's own geometry is the report's: every leg and point.
func TestDrawnGeometryIsTheReports(t *testing.T) {
	for name, raw := range lookPlans(t) {
		rep := plan.Evaluate([]byte(raw))
		s := scene.New(drafttest.Parse([]byte(raw)), &rep, &units.KN)
		same := func(want [3]plan.Num, got rigging.Vec) {
			for i, v := range [...]float64{got.X, got.Y, got.Z} {
				require.InDelta(t, float64(want[i]), v, 1e-9, name)
			}
		}
		for i := range s.Points {
			require.NotNil(t, s.Points[i].Rep)
			same(s.Points[i].Rep.XYZ, s.Points[i].At)
		}
		for _, l := range s.Lines {
			require.NotNil(t, l.Rep)
			require.Len(t, l.Rep.Legs, len(l.Legs))
			for k, leg := range l.Legs {
				r := l.Rep.Legs[k]
				require.Equal(t, r.Hauling, leg.Hauling)
				require.True(t, draw.Finite(leg.Tension))
				same(r.FromXYZ, leg.From.At)
				same(r.ToXYZ, leg.To.At)
				require.InDelta(t, math.Abs(float64(r.ElevationDeg)), leg.Elevation()/rigging.Deg, 1e-6)
			}
			l.TurnsAt(func(from, block, to scene.Station) {
				if p := s.Points[block.Point].Rep; p.IncludedDeg.Known() {
					require.InDelta(t, float64(p.IncludedDeg), scene.Included(from.At, block.At, to.At)/rigging.Deg, 1e-6)
				}
			})
		}
	}
}

// The numbers the user looks for are there at every size.
func TestTheMainLabelsFindRoom(t *testing.T) {
	for _, b := range drawnBoxes {
		ds := drawn(t, drafttest.Leaning, b.W, b.H)
		want := [][]string{{"R", "A", "M", "H", "24.6\u00a0kN", "19°", "14.0\u00a0m", "84.3\u00a0kN"}, {"R", "A", "M", "H", "73°", "3:1", "lay"}, {"planned 24.6\u00a0kN", "scarf closes 60.0°"}}
		for i, d := range ds {
			_, texts := textRects(d)
			for _, t := range texts { // points that fall on one another are named together
				texts = append(texts, strings.Split(t, ", ")...)
			}
			for _, w := range want[i] {
				require.Contains(t, texts, w, "%s at %v", d.Title, b.W)
			}
		}
	}
}

// While a point wanders the number and order of shapes stay.
func TestShapesStayWhileDragging(t *testing.T) {
	classes := func(d *draw.Drawing) (out []string) {
		for _, s := range d.Shapes {
			out = append(out, s.Kind+" "+s.Class)
		}
		return out
	}
	first := drawn(t, drafttest.Leaning, 328, 260)
	for bearing := 25; bearing < 360; bearing += 15 {
		raw := strings.Replace(drafttest.Leaning, ":20,", ":"+strconv.Itoa(bearing)+",", 1)
		for i, d := range drawn(t, raw, 328, 260)[:2] {
			require.Equal(t, classes(first[i]), classes(d), "bearing %d", bearing)
		}
	}
}

// Whatever stands in the plan, nothing that is not a number is drawn, no
// label leaves the box and nothing hangs.
func TestHostilePlansDrawFinite(t *testing.T) {
	t.Parallel()
	odd := []string{"0", "-1", "1e9", "-1e9", "1e308", "1e-308", `"12"`, `"x"`, "null", "true", "[]", "{}", "0.1", "199", "89.9", "1999", "-500", "1e400"}
	numbers := numberFields(drafttest.Leaning)
	rng := rand.New(rand.NewPCG(7, 7))
	for range 400 {
		raw := drafttest.Leaning
		for range 1 + rng.IntN(4) {
			n := numbers[rng.IntN(len(numbers))]
			raw = strings.Replace(raw, n, n[:strings.IndexByte(n, ':')+1]+odd[rng.IntN(len(odd))]+n[len(n)-1:], 1)
		}
		for _, d := range drawn(t, raw, 328, 260) {
			requireFinite(t, d)
			rs, texts := textRects(d)
			for i, r := range rs {
				require.True(t, r.X0 >= -0.1 && r.Y0 >= -0.1 && r.X1 <= d.W+0.1 && r.Y1 <= d.H+0.1, "%q of %s", texts[i], raw)
			}
		}
	}
}

// numberFields are the `"key":number` pieces of a plan, with the
// character that ends each.
func numberFields(raw string) (out []string) {
	for i := 0; i < len(raw); i++ {
		if raw[i] != ':' || i+1 >= len(raw) || !strings.ContainsRune("0123456789-", rune(raw[i+1])) {
			continue
		}
		start := strings.LastIndexByte(raw[:i-1], '"')
		end := i + strings.IndexAny(raw[i:], ",}]")
		out = append(out, raw[start:end+1])
	}
	return out
}

func TestWhatIsNotKnownIsNotDrawn(t *testing.T) {
	for _, raw := range []string{`{}`, `[]`, `not a plan`, `{"tree":{"height_m":"tall"}}`, `{"points":[{}],"lines":[{}]}`,
		`{"points":[7,null,"x"],"lines":[null,{"path":[null,3,{"stem_m":"x"},{"point":4}]},7]}`} {
		for _, d := range drawn(t, raw, 328, 260) {
			requireFinite(t, d)
			for _, s := range d.Shapes {
				require.NotContains(t, []string{"stem", "rope", "crown", "weight", "force"}, s.Class, raw)
			}
		}
	}
	for _, raw := range []string{`{"tree":{"height_m":20}}`, `{"tree":{"height_m":20,"lean_deg":5}}`, `{"tree":{"height_m":20,"lean_deg":"5","lean_bearing_deg":0}}`} {
		for _, d := range drawn(t, raw, 328, 260)[:2] {
			_, texts := textRects(d)
			require.Contains(t, texts, "lean not known")
			require.Contains(t, d.Desc, "lean not known, drawn upright")
		}
	}
	// A plan without a report still shows tree, ropes and points.
	doc := drafttest.Parse([]byte(drafttest.Leaning))
	box := draw.Box{W: 328, H: 260}
	side, above, curve := scene.Drawings(scene.Boxes{Side: box, Plan: box, Curve: box}, doc, nil, &units.KN)
	for _, d := range []*draw.Drawing{side, above} {
		seen := map[string]bool{}
		for _, s := range d.Shapes {
			seen[s.Class] = seen[s.Class] || s.D != "" || s.R > 0
			require.False(t, (s.Class == "force" || s.Class == "weight" || s.Class == "load") && s.D != "", s.Class)
			require.NotContains(t, s.Text, "kN")
		}
		for _, class := range []string{"stem", "rope", "rope-hold", "haul", "tackle", "block", "anchor"} {
			require.True(t, seen[class], class)
		}
	}
	for _, s := range curve.Shapes {
		require.False(t, strings.HasPrefix(s.Class, "curve") && s.D != "")
	}
	side, above, curve = scene.Drawings(scene.Boxes{}, doc, nil, &units.KN)
	require.True(t, side == nil && above == nil && curve == nil)
}

// Whatever kind of anchor holds the end of a line, it is drawn in both views, a
// shared one with its legs.
func TestEveryAnchorKindIsDrawn(t *testing.T) {
	for _, kind := range field.AnchorKinds() {
		word := kind.Row().Word
		raw := `{"tree":{"height_m":20,"lean_deg":0},"points":[{"id":"A","bearing_deg":4,"distance_m":30,"rise_m":0,"anchor":{"kind":"` + word + `","legs":[{"point":"T1"},{"point":"T2"}]}},
			{"id":"T1","bearing_deg":10,"distance_m":45,"rise_m":0},{"id":"T2","bearing_deg":0,"distance_m":45,"rise_m":0}],"lines":[{"id":"pull","path":[{"stem_m":8},{"point":"A"}]}]}`
		for _, d := range drawn(t, raw, 328, 260)[:2] {
			shown := 0
			for _, s := range d.Shapes {
				if s.Class == "anchor" && s.D != "" {
					shown++
				}
			}
			require.Positive(t, shown, word)
		}
	}
}

// The drawings speak the user's units.
func TestDrawingsInOtherUnits(t *testing.T) {
	doc := drafttest.Parse([]byte(drafttest.Leaning))
	box := draw.Box{W: 700, H: 420}
	for _, key := range []string{"us", "tf"} {
		u := units.Of(key)
		side, _, curve := scene.Drawings(scene.Boxes{Side: box, Plan: box, Curve: box}, doc, drawnReport(doc), u)
		for _, d := range []*draw.Drawing{side, curve} {
			_, texts := textRects(d)
			all := strings.Join(append(texts, d.Desc), "|")
			require.NotContains(t, all, "kN")
			require.Contains(t, all, u.Load(24.6))
		}
	}
}

func BenchmarkDrawSide(b *testing.B) { benchmarkDraw(b, 0) }

func BenchmarkDrawPlan(b *testing.B) { benchmarkDraw(b, 1) }

func BenchmarkDrawCurve(b *testing.B) { benchmarkDraw(b, 2) }

func benchmarkDraw(b *testing.B, which int) {
	doc := drafttest.Parse([]byte(drafttest.Leaning))
	rep := drawnReport(doc)
	box := draw.Box{W: 328, H: 260}
	b.ReportAllocs()
	for b.Loop() {
		s := scene.New(doc, rep, &units.KN)
		switch which {
		case 0:
			s.DrawSide(box)
		case 1:
			s.DrawPlan(box)
		default:
			s.DrawCurve(box)
		}
	}
}
