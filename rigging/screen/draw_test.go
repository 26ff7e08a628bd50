package screen

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan"
)

// The invented plan the drawings are judged by: a tree leaning back and to
// the right, pulled through a redirect by a hauled tackle, held to the left.
const drawnPlan = `{"version":1,"name":"Invented for the drawings",
"tree":{"height_m":28,"diameter_cm":85,"crown_centre_m":18.2,"crown_area_m2":60,"crown_offset_m":1,"crown_offset_bearing_deg":150,"lean_deg":4,"lean_bearing_deg":160},
"cut":{"stump_m":0.4,"face_opening_deg":60},
"points":[{"id":"R","bearing_deg":20,"distance_m":40},{"id":"A","bearing_deg":75,"distance_m":48},
{"id":"M","bearing_deg":80,"distance_m":60},{"id":"H","bearing_deg":285,"distance_m":30}],
"lines":[{"id":"pull","role":"pull","path":[{"stem_m":14},{"point":"R"},{"point":"A"}],
"tackle":{"stages":[{"parts":3,"haul_from":"fixed"}],"haul_path":[{"point":"M"}]},"puller":{"rated_kN":30,"stall_kN":60}},
{"id":"hold","role":"hold","path":[{"stem_m":12},{"point":"H"}]}]}`

// drawnReport is a report with invented forces on the true geometry of a
// plan: the drawings only place what a report holds.
func drawnReport(doc *document) *plan.Report {
	s := newScene(doc, nil, &systemKN)
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
	load := map[int]xyz{}
	for i := range s.lines {
		l := &s.lines[i]
		out := plan.LineReport{ID: l.id, IdealAdvantage: 3, TensionKN: 24.6}
		t := 24.6
		if l.hold {
			t = 7.8
		}
		for k := range l.legs {
			leg := &l.legs[k]
			if leg.hauling {
				t = 9.1
			}
			d := leg.to.at.minus(leg.from.at)
			n := d.length()
			for _, e := range []struct {
				at   station
				sign float64
			}{{leg.from, 1}, {leg.to, -1}} {
				if e.at.point >= 0 && n > 0 {
					load[e.at.point] = load[e.at.point].add(e.sign*t/n, d)
				}
			}
			out.Legs = append(out.Legs, plan.LegReport{Hauling: leg.hauling, TensionKN: plan.Num(t)})
			t *= 1.04
		}
		r.Lines = append(r.Lines, out)
	}
	verdicts := []rigging.Verdict{rigging.Over, rigging.Near, rigging.Within, rigging.Unknown}
	for i := range s.points {
		f := load[i]
		b, h := polar(f.x, f.y)
		r.Points = append(r.Points, plan.PointReport{ID: s.points[i].id, LoadKN: plan.Num(f.length()), HorizontalKN: plan.Num(h),
			BearingDeg: plan.Num(b), Verdict: verdicts[i%4]})
	}
	return r
}

func drawn(t testing.TB, raw string, w, h float64) []*Drawing {
	doc := parseDocument([]byte(raw))
	box := Box{w, h}
	a, b, c := drawings(Boxes{box, box, box}, doc, drawnReport(doc), &systemKN)
	require.NotNil(t, a)
	require.NotNil(t, b)
	require.NotNil(t, c)
	return []*Drawing{a, b, c}
}

var drawnBoxes = []Box{{328, 260}, {700, 420}, {1100, 620}}

// TestDrawToLook writes the drawings as SVG files, to look at, into the
// directory PULLLINE_DRAW names.
func TestDrawToLook(t *testing.T) {
	dir := os.Getenv("PULLLINE_DRAW")
	if dir == "" {
		t.Skip("set PULLLINE_DRAW to a directory to look at the drawings")
	}
	for _, b := range drawnBoxes {
		for i, d := range drawn(t, drawnPlan, b.W, b.H) {
			name := fmt.Sprintf("%s-%.0f.svg", [...]string{"side", "plan", "curve"}[i], b.W)
			require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(svgOf(d)), 0o644))
		}
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

func svgOf(d *Drawing) string {
	var b strings.Builder
	font := fontFor(Box{d.W, d.H})
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

var _ = json.Valid
