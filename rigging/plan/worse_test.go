package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/jsontext"
)

// rankOf orders verdicts by how much they reassure.
func rankOf(v rigging.Verdict) int {
	return map[rigging.Verdict]int{rigging.Within: 0, rigging.Near: 1, rigging.Unknown: 2, rigging.Over: 3}[v]
}

// A worsening makes a plan physically worse; false where it does not apply.
type worsening func(d document, before Report, r *rand.Rand) bool

// neverBetter draws plans and holds the verdict of each worsened one to its own.
func neverBetter(t *testing.T, seed uint64, n int, draw func(testing.TB, *rand.Rand) document, changes map[string]worsening) {
	for name, worse := range changes {
		t.Run(name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(81, seed))
			changed, worsened := 0, 0
			for range n {
				d := draw(t, r)
				before := d.evaluate(t)
				text := d.raw(t)
				if !before.Pull.PlannedKN.Known() || !worse(d, before, r) {
					continue
				}
				after := d.evaluate(t)
				changed++
				if rankOf(after.Verdict) > rankOf(before.Verdict) {
					worsened++
				}
				require.GreaterOrEqual(t, rankOf(after.Verdict), rankOf(before.Verdict), "%v became %v: %s", reasonsOf(before), reasonsOf(after), text)
			}
			assert.Greater(t, changed, n/12)
			assert.Greater(t, worsened, 0)
		})
	}
}

// times multiplies a number of the plan; false where there is none.
func times(path string, by float64) worsening {
	return func(d document, _ Report, _ *rand.Rand) bool {
		v, ok := d.at(path).(float64)
		if ok {
			d.set(path, v*by)
		}
		return ok
	}
}

// A smaller limit, a weaker anchor, a puller that can do more: whatever the plan,
// the verdict is none the better for it.
func TestWeakerIsNeverBetter(t *testing.T) {
	t.Parallel()
	someGear := func(d document, r *rand.Rand) string {
		return fmt.Sprintf("gear[%d]", r.IntN(len(d.at("gear").([]any))))
	}
	// A piece that is within: the verdict does not come from it.
	sound := func(before Report, id any) bool {
		for _, row := range before.Gear {
			if row.ID == id {
				return row.Verdict == rigging.Within && row.AtMostVerdict == rigging.Within
			}
		}
		return false
	}
	neverBetter(t, 1, 80, anyPlan, map[string]worsening{
		"smaller limit": func(d document, _ Report, r *rand.Rand) bool {
			g := someGear(d, r)
			for _, limit := range []string{"wll_t", "wll_kN", "mbl_kN"} {
				if v, ok := d.at(g + "." + limit).(float64); ok {
					// A hold line made fast is taken the stiffer the stronger its rope.
					d.set(g+"."+limit, v*(0.1+0.8*r.Float64()))
					return d.at(g+".line") != "hold" || d.at("lines[1].tended") == true || d.at("lines[1].rope.stiffness_kN") != nil
				}
			}
			return false
		},
		"one more reduction": func(d document, _ Report, r *rand.Rand) bool {
			g := someGear(d, r)
			// A knot said of a rope that is tied completes the plan.
			before, given := d.at(g + ".reductions").([]any)
			d.set(g+".reductions", append(before, fields{"why": "worn", "factor": 0.02 + 0.3*r.Float64()}))
			return given && len(before) > 0
		},
		"no limit at all": func(d document, before Report, r *rand.Rand) bool {
			g := someGear(d, r)
			for _, limit := range []string{"wll_t", "wll_kN"} {
				if d.at(g+"."+limit) != nil && sound(before, d.at(g+".id")) {
					d.drop(g + "." + limit)
					return true
				}
			}
			return false
		},
		"piece left out": func(d document, before Report, r *rand.Rand) bool {
			g := someGear(d, r)
			if d.at(g+".design_factor") != nil || !sound(before, d.at(g+".id")) {
				return false
			}
			d.drop(g)
			return true
		},
		"weaker anchor": func(d document, _ Report, r *rand.Rand) bool {
			p := fmt.Sprintf("points[%d].anchor", r.IntN(len(d.at("points").([]any))))
			anchor, _ := d.at(p).(map[string]any)
			switch anchor["kind"] {
			case "rated":
				return times(p+".capacity_kN", 0.2+0.7*r.Float64())(d, Report{}, r)
			case "machine":
				return times(p+".traction", 0.5)(d, Report{}, r)
			case "tree", "stump":
				return times(p+".diameter_cm", 0.8)(d, Report{}, r)
			}
			return false
		},
		"lower rated pull": func(d document, before Report, r *rand.Rand) bool {
			return times("lines[0].puller.rated_kN", 0.2+0.7*r.Float64())(d, before, r)
		},
		"higher stall": func(d document, before Report, r *rand.Rand) bool {
			makes := before.Lines[0].AtMostHaulKN >= before.Lines[0].HaulKN || !before.Lines[0].AtMostHaulKN.Known()
			return makes && times("lines[0].puller.stall_kN", 1+2*r.Float64())(d, before, r)
		},
		"higher setting": func(d document, before Report, r *rand.Rand) bool { // that makes the haul planned with ease
			ease := float64(before.Lines[0].HaulKN) <= 0.8*float64(before.Lines[0].AtMostHaulKN)
			return ease && times("lines[0].puller.setting_kN", 1+2*r.Float64())(d, before, r)
		},
		"device taken out": func(d document, before Report, r *rand.Rand) bool { // its stall is what limits it then
			p, ok := d.at("lines[0].puller").(map[string]any)
			if !ok || p["limited_by"] != "device" || float64(before.Lines[0].HaulKN) > 0.8*float64(before.Lines[0].AtMostHaulKN) {
				return false
			}
			delete(p, "setting_kN")
			p["limited_by"], p["stall_kN"] = "stall", math.Max(number(p, "rated_kN", 0), float64(before.Lines[0].AtMostHaulKN))*(1+r.Float64())
			return true
		},
		"nothing said of what limits it": func(d document, _ Report, _ *rand.Rand) bool {
			p, ok := d.at("lines[0].puller").(map[string]any)
			delete(p, "limited_by")
			return ok
		},
		"face closes sooner": func(d document, before Report, r *rand.Rand) bool { // before the greatest pull it is no worse: the hinge is gone
			face := d.at("cut.face_opening_deg").(float64)
			least := math.Max(float64(before.Pull.CommitDeg), float64(before.Pull.PeakDeg)+1)
			if face <= least {
				return false
			}
			d.set("cut.face_opening_deg", math.Min(face, least*(1+0.3*r.Float64())))
			return true
		},
	})
}

// backLean draws the straight pull or the one round the corner with other
// numbers: the tree leans straight back, so that nothing helps it over.
func backLean(t testing.TB, r *rand.Rand) document {
	d := straightPull(t)
	if r.IntN(2) == 0 {
		d = roundTheCorner(t)
	}
	d = parse(t, d.raw(t))
	for _, path := range []string{"tree.height_m", "tree.diameter_cm", "cut.hinge_left_cm", "lines[0].path[0].stem_m"} {
		d.set(path, d.at(path).(float64)*(0.8+0.4*r.Float64()))
	}
	d.set("cut.hinge_right_cm", d.at("cut.hinge_left_cm"))
	d.set("tree.lean_deg", 18*r.Float64()).set("tree.mass_kg", 500+6000*r.Float64()).set("tree.mass_centre_m", 5+6*r.Float64())
	d.set("site.wind_mps", 6*r.Float64()).set("allowance", 1+r.Float64()).set("cut.face_opening_deg", 20+60*r.Float64())
	for i := range d.at("gear").([]any) {
		for _, limit := range []string{"wll_kN", "mbl_kN"} {
			path := fmt.Sprintf("gear[%d].%s", i, limit)
			if v, ok := d.at(path).(float64); ok {
				d.set(path, v*(0.3+1.2*r.Float64()))
			}
		}
	}
	return d
}

// A tree that takes more pull, or a pull planned harder.
func TestHarderIsNeverBetter(t *testing.T) {
	t.Parallel()
	plus := func(path string, most float64) worsening {
		return func(d document, _ Report, r *rand.Rand) bool {
			d.set(path, d.at(path).(float64)+most*r.Float64())
			return true
		}
	}
	neverBetter(t, 2, 100, backLean, map[string]worsening{
		"heavier tree": func(d document, before Report, r *rand.Rand) bool { // but for the face: a heavier tree falls by itself sooner
			return before.Tree.ClosingUse <= 0.8 && plus("tree.mass_kg", 4000)(d, before, r)
		},
		"more back lean": plus("tree.lean_deg", 4),
		"more wind":      plus("site.wind_mps", 5),
		"more allowance": plus("allowance", 1),
		"worse sheave": func(d document, _ Report, r *rand.Rand) bool {
			return times("lines[0].path[1].efficiency", 0.6+0.4*r.Float64())(d, Report{}, r)
		},
	})
}

// Wood that is relied on for less.
func TestWeakerWoodIsNeverBetter(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(81, 3))
	evaluated := func(d document, part float64) Report {
		tree, err := jsontext.Parse(d.raw(t))
		require.NoError(t, err)
		reader := &reader{}
		e := &evaluation{r: reader, m: reader.model(reader.object("", tree, true)), depth: ToVerdict}
		e.m.strengthLow *= part
		e.run()
		return reader.report(e)
	}
	worsened := 0
	for range 150 {
		d := anyPlan(t, r)
		before, after := evaluated(d, 1), evaluated(d, 0.02+0.3*r.Float64())
		require.Equal(t, d.evaluate(t).Verdict, before.Verdict)
		require.GreaterOrEqual(t, rankOf(after.Verdict), rankOf(before.Verdict))
		if rankOf(after.Verdict) > rankOf(before.Verdict) {
			worsened++
		}
	}
	assert.Greater(t, worsened, 3)
}

// Friction costs where it costs and spares nothing where it would: worse sheaves
// take more haul and use more of the puller; and what the puller can put on
// everything at most never falls below what it is without any friction, nor does it
// fall as the sheaves get better.
func TestFrictionBothWays(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(81, 4))
	compared, small := 0, 0
	for range 250 {
		d := anyPlan(t, r)
		if d.at("lines[0].path[1].efficiency") == nil {
			continue
		}
		tackle := d.at("lines[0].tackle") != nil
		set := func(eta float64) Report {
			d.set("lines[0].path[1].efficiency", eta)
			if tackle {
				d.set("lines[0].tackle.efficiency", eta)
			}
			return d.evaluate(t)
		}
		worse := 0.6 + 0.35*r.Float64()
		better := worse + (1-worse)*r.Float64()
		low, high, free := set(worse), set(better), set(1)
		if !low.Pull.PlannedKN.Known() || low.Pull.PlannedKN == 0 {
			continue
		}
		compared++
		const rounding = 1 - 1e-9
		assert.Greater(t, float64(low.Lines[0].HaulKN), float64(high.Lines[0].HaulKN)*rounding)
		assert.Greater(t, float64(high.Lines[0].HaulKN), float64(free.Lines[0].HaulKN)*rounding)
		less := func(a, b Num, name string) {
			if a.Known() && b.Known() {
				assert.GreaterOrEqual(t, float64(a), float64(b)*rounding, name)
			}
		}
		for i, g := range low.Gear {
			if g.Kind == "puller" {
				less(g.Use, high.Gear[i].Use, "use of "+g.ID)
				continue
			}
			less(g.AtMostKN, free.Gear[i].AtMostKN, g.ID)
			less(high.Gear[i].AtMostKN, free.Gear[i].AtMostKN, g.ID)
			if len(high.Lines) == 1 { // what the plan gives with its own friction, at the haul that the puller makes
				less(high.Gear[i].AtMostKN, high.Gear[i].LoadKN*high.Lines[0].AtMostHaulKN/high.Lines[0].HaulKN, g.ID)
			}
			if g.Kind == "block" || d.at(fmt.Sprintf("gear[%d].point", i)) != nil {
				continue // of the points, below
			}
			less(high.Gear[i].AtMostKN, g.AtMostKN, "better sheaves, "+g.ID)
		}
		at := func(rep Report, id string) PointReport {
			for _, p := range rep.Points {
				if p.ID == id {
					return p
				}
			}
			return PointReport{AtMostKN: None()} // a leg of an anchor that cannot hold the pull
		}
		for _, p := range low.Points {
			less(p.AtMostKN, at(free, p.ID).AtMostKN, p.ID)
			less(at(high, p.ID).AtMostKN, at(free, p.ID).AtMostKN, p.ID)
			// Where the rope turns by little, two unlike tensions can come to more than
			// two like ones, and a leg of a shared anchor goes by the pull's direction as
			// well: there the plan's own friction counts.
			if p.IncludedDeg.Known() && p.IncludedDeg > 90 || tackle && (p.ID == "T1" || p.ID == "T2") {
				continue
			}
			small++
			less(at(high, p.ID).AtMostKN, p.AtMostKN, "better sheaves, "+p.ID)
		}
	}
	assert.Greater(t, compared, 40)
	assert.Greater(t, small, 100)
}

// "Only if held" is what it says: with a device in place of the puller's own limit,
// set to the number it is to be held to, nothing but the puller itself is left to
// be said.
func TestOnlyIfHeldIsWhatItSays(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(81, 5))
	found := 0
	for range 500 {
		d := anyPlan(t, r)
		rep := d.evaluate(t)
		pullers := 0
		for _, g := range rep.Gear {
			if g.Kind == "puller" {
				pullers++
			}
		}
		if !rep.OnlyIfHeld || pullers > 1 {
			continue
		}
		found++
		limit := float64(rep.Pull.HoldPullTo)
		assert.GreaterOrEqual(t, limit, float64(rep.Lines[0].HaulKN)*(1-1e-9), "there is room")
		held := d.set("lines[0].puller", fields{"rated_kN": d.at("lines[0].puller.rated_kN"), "limited_by": "device", "setting_kN": limit * (1 - 1e-9)}).evaluate(t)
		for _, y := range held.Why {
			assert.Equal(t, "puller_near", y.Code, "%v", reasonsOf(held))
		}
	}
	assert.Greater(t, found, 10)
}
