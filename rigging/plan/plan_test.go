package plan

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pullline/rigging"
)

// demo is the demonstration plan: everything in it is invented.
func demo(t testing.TB) []byte {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/demo.json")
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

// A tree of JSON values that can be changed at a path such as
// "points[2].anchor.kind".
type document map[string]any

func parse(t testing.TB, raw []byte) document {
	t.Helper()
	var d document
	require.NoError(t, json.Unmarshal(raw, &d))
	return d
}

func demoDocument(t testing.TB) document { return parse(t, demo(t)) }

func steps(path string) []any {
	var out []any
	for _, part := range strings.Split(path, ".") {
		key, rest, _ := strings.Cut(part, "[")
		out = append(out, key)
		for rest != "" {
			var index string
			index, rest, _ = strings.Cut(rest, "]")
			n, _ := strconv.Atoi(index)
			out = append(out, n)
			rest = strings.TrimPrefix(rest, "[")
		}
	}
	return out
}

func (d document) at(path string) any {
	var v any = map[string]any(d)
	for _, s := range steps(path) {
		switch s := s.(type) {
		case string:
			v = v.(map[string]any)[s]
		case int:
			v = v.([]any)[s]
		}
	}
	return v
}

func (d document) set(path string, value any) document {
	all := steps(path)
	var v any = map[string]any(d)
	for i, s := range all {
		last := i == len(all)-1
		switch s := s.(type) {
		case string:
			m := v.(map[string]any)
			if last {
				m[s] = value
			}
			v = m[s]
		case int:
			l := v.([]any)
			if last {
				l[s] = value
			}
			v = l[s]
		}
	}
	return d
}

func (d document) drop(path string) document {
	all := steps(path)
	parent := path
	switch last := all[len(all)-1].(type) {
	case string:
		if len(all) == 1 {
			delete(d, last)
			return d
		}
		parent = strings.TrimSuffix(path, "."+last)
		delete(d.at(parent).(map[string]any), last)
	case int:
		parent = path[:strings.LastIndex(path, "[")]
		l := d.at(parent).([]any)
		d.set(parent, append(append([]any{}, l[:last]...), l[last+1:]...))
	}
	return d
}

func (d document) raw(t testing.TB) []byte {
	t.Helper()
	raw, err := json.Marshal(d)
	require.NoError(t, err)
	return raw
}

func (d document) evaluate(t testing.TB) Report {
	t.Helper()
	return evaluated(t, d.raw(t))
}

// evaluated reads the report back from its JSON and checks what every report
// must keep.
func evaluated(t testing.TB, raw []byte) Report {
	t.Helper()
	out := WorkingJSON(raw)
	if message := sound(string(raw), out); message != "" {
		t.Fatalf("%s\nplan: %s", message, raw)
	}
	var rep Report
	require.NoError(t, json.Unmarshal(out, &rep))
	return rep
}

// sound says what is wrong with a report, "" where nothing is: it is one
// JSON object, its verdicts are words, nothing is reassuring beside a
// problem, a problem has a message, and the reasons are those of the verdict:
// none within, the worst first.
func sound(plan string, out []byte) string {
	if !json.Valid(out) {
		return "the report is not JSON"
	}
	var rep struct {
		Version int
		Verdict string
		AtMost  string `json:"at_most_verdict"`
		Held    bool   `json:"only_if_held"`
		NoRoom  bool   `json:"no_room"`
		Why     []struct{ Code, Message, Verdict string }
		Pull    struct {
			HoldPullTo *float64 `json:"hold_puller_to_kN"`
		}
		Problems []Problem
		Gear     []struct {
			Verdict string
			Use     *float64
		}
	}
	if err := json.Unmarshal(out, &rep); err != nil {
		return err.Error()
	}
	if strings.Contains(string(out), "the report could not be written") {
		return "a value got into the report that cannot be written"
	}
	// No such word in a sentence either, unless the plan itself has it.
	for _, word := range []string{"NaN", "+Inf", "-Inf", "%!"} {
		if i := strings.Index(string(out), word); i >= 0 && !strings.Contains(plan, word) {
			return "the report contains " + word + ": " + string(out[max(0, i-150):i+20])
		}
	}
	for _, v := range []string{rep.Verdict, rep.AtMost} {
		switch v {
		case "within", "near":
			if len(rep.Problems) > 0 {
				return "the verdict is " + v + " beside a problem: " + rep.Problems[0].Path
			}
		case "over", "unknown":
		default:
			return "the verdict is " + strconv.Quote(v)
		}
	}
	for _, p := range rep.Problems {
		if p.Message == "" {
			return "a problem without a message at " + p.Path
		}
	}
	rank := map[string]int{"within": 0, "near": 1, "unknown": 2, "over": 3}
	worst, onlyPuller := "within", true
	for i, y := range rep.Why {
		if i == 0 {
			worst = y.Verdict
		} else if rank[y.Verdict] > rank[rep.Why[i-1].Verdict] {
			return "the reasons are not sorted"
		}
		if y.Code == "" || y.Message == "" || rank[y.Verdict] == 0 {
			return "a reason without a code, a message or a verdict"
		}
		onlyPuller = onlyPuller && (y.Code == "at_most_over" || y.Code == "watched")
		rep.NoRoom = rep.NoRoom && y.Code != "no_room"
	}
	if worst != rep.Verdict {
		return "the verdict is " + rep.Verdict + ", and the worst reason says " + worst
	}
	if rep.NoRoom {
		return "there is no room, and no reason says so"
	}
	if rep.Held != (onlyPuller && len(rep.Why) > 0 && rep.Pull.HoldPullTo != nil) {
		return "only_if_held is not what the reasons say"
	}
	for _, g := range rep.Gear {
		if g.Use == nil && (g.Verdict == "within" || g.Verdict == "near") {
			return "a piece is " + g.Verdict + " without a use"
		}
	}
	if rep.Version != Version {
		return "the report has no version"
	}
	return ""
}

// numbers walks all numbers of a report.
func numbers(v any, path string, visit func(path string, v float64)) {
	switch v := v.(type) {
	case map[string]any:
		for k, w := range v {
			numbers(w, path+"."+k, visit)
		}
	case []any:
		for i, w := range v {
			numbers(w, fmt.Sprintf("%s[%d]", path, i), visit)
		}
	case float64:
		visit(path, v)
	}
}

func TestDemoIsWithinAsPlanned(t *testing.T) {
	raw := WorkingJSON(demo(t))
	rep := evaluated(t, demo(t))
	assert.Equal(t, rigging.Within, rep.Verdict)
	assert.Empty(t, rep.Problems)
	assert.NotEmpty(t, rep.Governing)
	assert.NotEmpty(t, rep.Cautions)
	assert.NotEmpty(t, rep.Working)
	for _, g := range rep.Gear {
		assert.Equal(t, rigging.Within, g.Verdict, g.ID)
	}
	for _, p := range rep.Points {
		assert.Equal(t, rigging.Within, p.Verdict, p.ID)
	}
	// Everything known is finite; only what the plan does not ask for is null.
	var v any
	require.NoError(t, json.Unmarshal(raw, &v))
	n := 0
	numbers(v, "", func(path string, v float64) {
		n++
		assert.False(t, math.IsNaN(v) || math.IsInf(v, 0), path)
	})
	assert.Greater(t, n, 500)
	// The worst use is the governing one.
	worst := 0.0
	for _, g := range rep.Gear {
		worst = math.Max(worst, float64(g.Use))
	}
	for _, p := range rep.Points {
		worst = math.Max(worst, float64(p.Use))
	}
	assert.Equal(t, worst, float64(rep.GoverningUse))
}

func TestTwiceTheSameBytes(t *testing.T) {
	plans := [][]byte{demo(t), []byte(`{}`), []byte(`[`)}
	d := demoDocument(t).set("plus_minus", map[string]any{"a": "x", "b": nil, "c": -1, "d": true, "e": []any{}, "f": "y"}).set("who", 1).set("are", 2).set("you", 3)
	plans = append(plans, d.raw(t))
	for _, raw := range plans {
		first := WorkingJSON(raw)
		for range 8 {
			require.Equal(t, string(first), string(WorkingJSON(raw)))
		}
	}
}

// The report against statics worked out here from its own positions: the
// forces of all lines on points and stem close, legs carry what blocks add.
func TestReportBalances(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 1))
	for range 100 {
		rep := randomPlan(t, r).evaluate(t)
		if !rep.Pull.PlannedKN.Known() {
			continue
		}
		pulls := map[string]rigging.Vec{}
		for _, l := range rep.Lines {
			for _, leg := range l.Legs {
				from, to := xyz(leg.FromXYZ), xyz(leg.ToXYZ)
				u, err := to.Sub(from).Unit()
				require.NoError(t, err)
				assert.InDelta(t, to.Sub(from).Norm(), float64(leg.LengthM), 1e-9)
				f := u.Scale(float64(leg.TensionKN))
				pulls[leg.From] = pulls[leg.From].Add(f)
				pulls[leg.To] = pulls[leg.To].Sub(f)
			}
		}
		for _, p := range rep.Points {
			want, ok := pulls[p.ID]
			if !ok || strings.HasPrefix(p.ID, "T") {
				continue // legs of a shared anchor
			}
			assert.InDelta(t, want.Norm(), float64(p.LoadKN), 1e-6, p.ID)
			assert.InDelta(t, want.Horizontal(), float64(p.HorizontalKN), 1e-6, p.ID)
			assert.InDelta(t, want.Z, float64(p.UpliftKN), 1e-6, p.ID)
			if want.Horizontal() > 1e-6 {
				between := math.Mod(float64(p.BearingDeg)-want.Bearing()/rigging.Deg+540, 360) - 180
				assert.InDelta(t, 0, between, 1e-6, p.ID)
			}
		}
		// A shared anchor's legs together hold what its junction is pulled by.
		var held rigging.Vec
		shared := false
		for _, p := range rep.Points {
			if strings.HasPrefix(p.ID, "T") {
				shared = true
				f := rigging.AtBearing(float64(p.BearingDeg)*rigging.Deg, float64(p.HorizontalKN), float64(p.UpliftKN))
				held = held.Add(f)
				assert.InDelta(t, f.Norm(), float64(p.LoadKN), 1e-6, p.ID)
			}
		}
		if shared {
			assert.InDelta(t, pulls["A"].Norm(), held.Norm(), 1e-6)
		}
	}
}

func xyz(v [3]Num) rigging.Vec {
	return rigging.Vec{X: float64(v[0]), Y: float64(v[1]), Z: float64(v[2])}
}

// randomPlan is the demonstration plan with other numbers, sometimes with
// other parts: everything stays named, so that it can be judged.
func randomPlan(t testing.TB, r *rand.Rand) document {
	t.Helper()
	d := demoDocument(t)
	vary := func(path string, by float64) {
		d.set(path, d.at(path).(float64)*(1+by*(2*r.Float64()-1)))
	}
	for _, path := range []string{"tree.height_m", "tree.diameter_cm", "tree.lean_deg", "tree.crown_offset_m", "tree.crown_offset_bearing_deg", "points[0].distance_m", "points[5].distance_m", "points[4].distance_m",
		"cut.hinge_left_cm", "cut.hinge_right_cm", "lines[0].path[0].stem_m", "lines[1].path[0].stem_m"} {
		vary(path, 0.15)
	}
	vary("cut.face_opening_deg", 0.25)
	d.set("tree.lean_bearing_deg", 120+120*r.Float64())
	d.set("lines[0].path[1].efficiency", 0.8+0.2*r.Float64())
	d.set("allowance", 1+r.Float64())
	if r.IntN(3) == 0 {
		d.set("site.wind_mps", 8*r.Float64())
	}
	if r.IntN(3) == 0 {
		d.drop("lines[1]").drop("gear[9]").drop("gear[8]").drop("gear[7]")
	}
	if r.IntN(3) == 0 {
		d.drop("lines[0].tackle").drop("points[4]").drop("gear[6]")
		d.set("gear[5]", fields{"id": "winch sling", "kind": "sling", "point": "A", "wll_t": 6.0})
	}
	if r.IntN(3) == 0 {
		d.set("points[1].anchor.self_adjusting", false)
	}
	return d
}

// loads gathers a report's loads by name.
func loads(rep Report) map[string]float64 {
	out := map[string]float64{"start": float64(rep.Pull.StartKN), "peak": float64(rep.Pull.PeakKN), "planned": float64(rep.Pull.PlannedKN), "commit": float64(rep.Pull.CommitDeg), "haul": float64(rep.Pull.HaulM),
		"side hold": float64(rep.Tree.SideHoldUse), "limit": float64(rep.Pull.HoldPullTo)}
	for _, l := range rep.Lines {
		out["line "+l.ID] = float64(l.TensionKN)
		out["haul "+l.ID] = float64(l.HaulKN)
		out["at most "+l.ID], out["at most haul "+l.ID] = float64(l.AtMostKN), float64(l.AtMostHaulKN)
		out["stem "+l.ID] = float64(l.StemLoadKN)
	}
	for _, p := range rep.Points {
		out["point "+p.ID] = float64(p.LoadKN)
		out["uplift "+p.ID] = float64(p.UpliftKN)
		out["capacity "+p.ID], out["greatest "+p.ID], out["point at most "+p.ID] = float64(p.CapacityKN), float64(p.GreatestKN), float64(p.AtMostKN)
	}
	for _, g := range rep.Gear {
		out["gear "+g.ID] = float64(g.LoadKN)
		out["greatest gear "+g.ID], out["gear at most "+g.ID] = float64(g.GreatestKN), float64(g.AtMostKN)
	}
	return out
}

// assertSame compares loads to 1e-6, which the search for the peak is good
// for.
func assertSame(t *testing.T, want, got map[string]float64) {
	t.Helper()
	assert.Equal(t, len(want), len(got))
	for name, v := range want {
		if math.IsNaN(v) {
			assert.True(t, math.IsNaN(got[name]), name)
			continue
		}
		assert.InDelta(t, v, got[name], 1e-6*(1+math.Abs(v)), name)
	}
}

func TestOrderNeverMatters(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 2))
	for range 60 {
		d := randomPlan(t, r)
		a := d.evaluate(t)
		for _, key := range []string{"points", "gear"} {
			l := d.at(key).([]any)
			r.Shuffle(len(l), func(i, j int) { l[i], l[j] = l[j], l[i] })
		}
		b := d.evaluate(t)
		assertSame(t, loads(a), loads(b))
		assert.Equal(t, a.Verdict, b.Verdict)
		assert.Equal(t, a.AtMostVerdict, b.AtMostVerdict)
		assert.Equal(t, a.GoverningUse, b.GoverningUse)
		assert.Equal(t, len(a.Problems), len(b.Problems))
		assert.Equal(t, len(a.Cautions), len(b.Cautions))
	}
}

func TestMirroredReport(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(11, 3))
	for range 60 {
		d := randomPlan(t, r)
		a := d.evaluate(t)
		flip := func(path string) { d.set(path, -d.at(path).(float64)) }
		flip("tree.lean_bearing_deg")
		flip("tree.crown_offset_bearing_deg")
		left, right := d.at("cut.hinge_left_cm"), d.at("cut.hinge_right_cm")
		d.set("cut.hinge_left_cm", right).set("cut.hinge_right_cm", left)
		for i := range d.at("points").([]any) {
			flip(fmt.Sprintf("points[%d].bearing_deg", i))
		}
		b := d.evaluate(t)
		assertSame(t, loads(a), loads(b))
		assert.Equal(t, a.Verdict, b.Verdict)
		if a.Pull.DriftDeg.Known() {
			assert.InDelta(t, -float64(a.Pull.DriftDeg), float64(b.Pull.DriftDeg), 1e-6)
			assert.InDelta(t, -float64(a.Tree.SideMomentKNm), float64(b.Tree.SideMomentKNm), 1e-9)
			assert.InDelta(t, -float64(a.Tree.HingeSideMomentKNm), float64(b.Tree.HingeSideMomentKNm), 1e-6)
			assert.InDelta(t, -float64(a.Tree.LeftM), float64(b.Tree.LeftM), 1e-12)
			assert.InDelta(t, float64(a.Tree.ForwardM), float64(b.Tree.ForwardM), 1e-12)
		}
	}
}

func TestAllowanceScalesWhatIsPlanned(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	for range 40 {
		d := randomPlan(t, r).set("allowance", 1.2)
		a := d.evaluate(t)
		b := d.set("allowance", 2.4).evaluate(t)
		if !a.Pull.PlannedKN.Known() {
			continue
		}
		assert.Equal(t, a.Pull.PeakKN, b.Pull.PeakKN)
		assert.InDelta(t, 2*float64(a.Pull.PlannedKN), float64(b.Pull.PlannedKN), 1e-9*float64(b.Pull.PlannedKN))
		for i := range a.Lines {
			if a.Lines[i].Role == "pull" {
				assert.InDelta(t, 2*float64(a.Lines[i].HaulKN), float64(b.Lines[i].HaulKN), 1e-9*float64(b.Lines[i].HaulKN))
			}
		}
	}
}

// The haul a crew is told to hold the puller to: with a device set there nothing
// is over, whether the sheaves rub as given or not at all; a little above it
// something is, unless it is the rated pull.
func TestHaulLimitHolds(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(11, 5))
	limited, rated := 0, 0
	for range 150 {
		d := randomPlan(t, r)
		// A machine that uplift makes lose its grip.
		if r.IntN(2) == 0 {
			d.set("points[0].anchor", fields{"kind": "machine", "mass_kg": 5000 + 15000*r.Float64(), "traction": 0.3 + 0.4*r.Float64(), "rated_kN": 60})
		}
		if r.IntN(4) == 0 && len(d.at("lines").([]any)) > 1 {
			d.set("lines[1].puller", fields{"rated_kN": 8.0, "limited_by": "device", "setting_kN": 8.0})
		}
		d.set("lines[0].puller.rated_kN", 4+36*r.Float64())
		a := d.evaluate(t)
		if len(a.Problems) > 0 || !a.Pull.HoldPullTo.Known() {
			continue
		}
		limit := float64(a.Pull.HoldPullTo)
		most := d.at("lines[0].puller.rated_kN").(float64)
		const digits = 1e-12 // of kN made N and back
		assert.LessOrEqual(t, limit, most*(1+digits))
		d.set("lines[0].puller.setting_kN", limit*(1-1e-9))
		assert.NotEqual(t, rigging.Over, d.evaluate(t).AtMostVerdict)
		if limit >= most*(1-digits) {
			rated++
		} else {
			limited++
			assert.Equal(t, rigging.Over, d.set("lines[0].puller.setting_kN", limit*(1+1e-6)).evaluate(t).AtMostVerdict)
		}
		d.set("lines[0].puller.setting_kN", limit*(1-1e-9))
		assert.NotEqual(t, rigging.Over, withoutFriction(d).evaluate(t).AtMostVerdict)
	}
	assert.Greater(t, limited, 50)
	assert.Greater(t, rated, 10)
}

// withoutFriction is the plan with every sheave of efficiency 1.
func withoutFriction(d document) document {
	d.set("lines[0].path[1].efficiency", 1.0)
	if d.at("lines[0].tackle") != nil {
		d.set("lines[0].tackle.efficiency", 1.0)
	}
	return d
}

// Loads at most are those of a plan without friction that pulls as hard as the
// puller can: never below them, and, where nothing rubs, the same.
func TestAtMostIsThePlanWithoutFriction(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 6))
	compared := 0
	for range 60 {
		d := randomPlan(t, r)
		if len(d.at("lines").([]any)) > 1 {
			continue
		}
		d.set("lines[0].puller", fields{"rated_kN": 10.0, "limited_by": "stall", "stall_kN": 10 + 90*r.Float64()})
		a := d.evaluate(t)
		most := float64(a.Lines[0].AtMostKN)
		if len(a.Problems) > 0 || most < float64(a.Pull.PlannedKN) {
			continue
		}
		compared++
		assert.InEpsilon(t, float64(a.Lines[0].AtMostHaulKN*a.Lines[0].IdealAdvantage), most, 1e-12)
		free := withoutFriction(d).evaluate(t)
		assert.InEpsilon(t, most, float64(free.Lines[0].AtMostKN), 1e-12)
		b := d.set("planned_kN", most).evaluate(t)
		require.Empty(t, b.Problems)
		for i := range a.Gear {
			if a.Gear[i].Kind == "puller" {
				continue
			}
			assert.GreaterOrEqual(t, float64(a.Gear[i].AtMostKN), float64(b.Gear[i].GreatestKN)*(1-1e-9), a.Gear[i].ID)
			assert.InEpsilon(t, float64(b.Gear[i].GreatestKN), float64(free.Gear[i].AtMostKN), 1e-9, a.Gear[i].ID)
			assert.Equal(t, b.Gear[i].Verdict, free.Gear[i].AtMostVerdict, a.Gear[i].ID)
		}
		for i := range a.Points {
			assert.GreaterOrEqual(t, float64(a.Points[i].AtMostKN), float64(b.Points[i].GreatestKN)*(1-1e-9), a.Points[i].ID)
			assert.InEpsilon(t, float64(b.Points[i].GreatestKN), float64(free.Points[i].AtMostKN), 1e-9, a.Points[i].ID)
			assert.InEpsilon(t, float64(b.Points[i].Use), float64(free.Points[i].AtMostUse), 1e-9, a.Points[i].ID)
			assert.Equal(t, b.Points[i].Verdict, free.Points[i].AtMostVerdict, a.Points[i].ID)
		}
	}
	assert.Greater(t, compared, 5)
}

// A hold line at most carries at least what it is planned to, what its own
// puller can make, and what keeps the hinge free of side moment when the pull
// line is hauled as hard as its puller can.
func TestHoldLineAtMost(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(11, 8))
	compared := 0
	for range 60 {
		d := randomPlan(t, r)
		own := 40 * r.Float64()
		if len(d.at("lines").([]any)) == 1 {
			continue
		}
		a := d.evaluate(t)
		if len(a.Problems) > 0 || a.Lines[0].AtMostKN < a.Pull.PlannedKN {
			continue
		}
		compared++
		assert.GreaterOrEqual(t, float64(a.Lines[1].AtMostKN), float64(a.Lines[1].TensionKN)*(1-1e-9))
		b := d.set("lines[1].puller", fields{"rated_kN": own / 2, "limited_by": "stall", "stall_kN": own}).evaluate(t)
		assert.GreaterOrEqual(t, float64(b.Lines[1].AtMostKN), own*(1-1e-9))
		assert.GreaterOrEqual(t, float64(b.Lines[1].AtMostKN), float64(a.Lines[1].AtMostKN)*(1-1e-9))
		c := withoutFriction(d).set("planned_kN", float64(a.Lines[0].AtMostKN)).evaluate(t)
		assert.GreaterOrEqual(t, float64(a.Lines[1].AtMostKN), float64(c.Lines[1].TensionKN)*(1-1e-6), "the same pull, planned")
	}
	assert.Greater(t, compared, 10)
}

// A shared anchor is as strong as its worst leg.
func TestJunctionIsItsWorstLeg(t *testing.T) {
	for _, weak := range []string{"points[2].anchor.factor", "points[3].anchor.factor"} {
		rep := demoDocument(t).set(weak, 12.0).evaluate(t)
		use := map[string]PointReport{}
		for _, p := range rep.Points {
			use[p.ID] = p
		}
		worst := math.Max(float64(use["T1"].Use), float64(use["T2"].Use))
		assert.Greater(t, worst, 1.0)
		assert.Equal(t, worst, float64(use["A"].Use), weak)
		assert.Equal(t, rigging.Over, use["A"].Verdict)
		assert.Equal(t, rigging.Over, use["A"].AtMostVerdict)
		assert.Equal(t, rigging.Over, rep.Verdict)
	}
}

// Making the tree or the pull worse never makes a report more reassuring,
// and never lowers a use: more lean straight back, a lower limit, a smaller
// reduction, a stricter allowance.
func TestWorseNeverReassures(t *testing.T) {
	t.Parallel()
	rank := map[rigging.Verdict]int{rigging.Within: 0, rigging.Near: 1, rigging.Unknown: 2, rigging.Over: 3}
	r := rand.New(rand.NewPCG(11, 7))
	for name, worse := range map[string]func(d document){
		"lower limit":     func(d document) { d.set("gear[3].wll_t", d.at("gear[3].wll_t").(float64)*0.3) },
		"more allowance":  func(d document) { d.set("allowance", d.at("allowance").(float64)+0.5) },
		"reduction":       func(d document) { d.set("gear[0].reductions", []any{map[string]any{"why": "worn", "factor": 0.4}}) },
		"weaker point":    func(d document) { d.set("points[0].anchor.capacity_kN", 15.0) },
		"no limit at all": func(d document) { d.drop("gear[3].wll_t") },
		"weak puller":     func(d document) { d.set("lines[0].puller.rated_kN", 3.0) },
	} {
		for range 25 {
			d := randomPlan(t, r)
			a := d.evaluate(t)
			worse(d)
			b := d.evaluate(t)
			assert.GreaterOrEqual(t, rank[b.Verdict], rank[a.Verdict], name)
		}
	}
}

// A crown of unknown kind has the drag that the table gives it, above all that
// was measured: the figure on the cautious side.
func TestDragOfAnUnknownCrown(t *testing.T) {
	entry, known := rigging.FindDragCoefficient("unknown_crown")
	require.True(t, known)
	rep := Evaluate([]byte(`{"version": 1, "site": {"wind_mps": 5}, "tree": {"height_m": 20, "diameter_cm": 40, "lean_deg": 0}}`))
	found := false
	for _, a := range rep.Assumed {
		if a.Path == "tree.drag_coefficient" {
			found = true
			assert.EqualValues(t, entry.Value, a.Value)
		}
	}
	assert.True(t, found)
	for _, measured := range rigging.DragCoefficients() {
		assert.LessOrEqual(t, measured.Value, entry.Value, measured.Key)
	}
}

// A second pull line that takes the side pull of the first off the hold line may
// be slack: at most the hold line carries what it does without it.
func TestHoldLineAtMostWithOnePullLineSlack(t *testing.T) {
	d := heldToTheSide(t).set("points[0].bearing_deg", 12.0).set("lines[0].puller", fields{"rated_kN": 60.0, "limited_by": "device", "setting_kN": 60.0})
	alone := d.evaluate(t)
	require.Greater(t, float64(alone.Lines[1].AtMostKN), 1.2*float64(alone.Lines[1].TensionKN))
	add("points", fields{"id": "N", "bearing_deg": 335, "distance_m": 60, "anchor": fields{"kind": "machine", "mass_kg": 14000, "traction": 0.5, "rated_kN": 70}})(d)
	add("lines", fields{"id": "second", "role": "pull", "path": []any{fields{"stem_m": 12}, fields{"point": "N"}}, "tied": []any{"stem"}, "puller": fields{"rated_kN": 60.0, "limited_by": "device", "setting_kN": 60.0}})(d)
	add("gear", fields{"id": "second rope", "kind": "fibre_rope", "line": "second", "mbl_kN": 400, "design_factor": 5, "reductions": []any{fields{"why": "knot", "factor": 0.5}}})(d)
	both := d.evaluate(t)
	require.Empty(t, both.Problems)
	assert.GreaterOrEqual(t, float64(both.Lines[1].AtMostKN), float64(alone.Lines[1].AtMostKN)*(1-1e-9))
}
