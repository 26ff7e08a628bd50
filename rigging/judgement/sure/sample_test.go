package sure

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
)

type fields = map[string]any

// pole is a tree that leans straight back from one line, all of it known exactly but
// for what plusMinus says.
func pole(plusMinus fields) fields {
	all := fields{}
	for _, path := range []string{"site.wind_mps", "tree.lean_deg", "tree.lean_bearing_deg", "tree.height_m", "tree.diameter_cm", "tree.green_density_kgm3", "tree.form_factor", "tree.bending_strength_MPa",
		"tree.crown_fraction", "tree.crown_offset_m", "cut.hinge_left_cm", "cut.hinge_right_cm", "cut.hinge_length_cm"} {
		all[path] = 1e-9
	}
	for path, v := range plusMinus {
		all[path] = v
	}
	return fields{
		"version": 1, "site": fields{"wind_mps": 0},
		"tree": fields{"species": "radiata_pine", "height_m": 24, "diameter_cm": 60, "form_factor": 0.45, "green_density_kgm3": 900, "bending_strength_MPa": 40,
			"crown_fraction": 0.2, "lean_deg": 3, "lean_bearing_deg": 180},
		"cut":    fields{"stump_m": 0.4, "face_opening_deg": 70, "hinge_length_cm": 48, "hinge_left_cm": 6, "hinge_right_cm": 6},
		"points": []any{fields{"id": "A", "bearing_deg": 0, "distance_m": 60, "anchor": fields{"kind": "rated", "capacity_kN": 60}}},
		"lines": []any{fields{"id": "pull", "path": []any{fields{"stem_m": 12}, fields{"point": "A"}}, "tied": []any{"stem", "end"},
			"puller": fields{"rated_kN": 30, "limited_by": "device", "setting_kN": 25}}},
		"gear":       []any{fields{"id": "rope", "kind": "wire_rope", "line": "pull", "wll_kN": 50, "reductions": []any{fields{"why": "knot", "factor": 0.6}}}},
		"planned_kN": 20, "plus_minus": all,
	}
}

func raw(t testing.TB, v any) []byte {
	t.Helper()
	out, err := json.Marshal(v)
	require.NoError(t, err)
	return out
}

func set(d fields, path string, value any) fields {
	out, rest := d, path
	for {
		step, more, deeper := strings.Cut(rest, ".")
		if !deeper {
			if value == nil {
				delete(out, step)
			} else {
				out[step] = value
			}
			return d
		}
		if out[step] == nil {
			out[step] = fields{}
		}
		out, rest = out[step].(fields), more
	}
}

func sampled(t testing.TB, d any, draws int, seed uint64) Answer {
	t.Helper()
	text := raw(t, d)
	tree, err := jsontext.Parse(text)
	require.NoError(t, err)
	s := Start(tree, len(text), seed)
	s.More(draws)
	return s.Answer()
}

func need(t testing.TB, d fields) float64 {
	t.Helper()
	rep := plan.Evaluate(raw(t, d))
	require.True(t, rep.Pull.PeakKN.Known(), "%v", rep.Problems)
	require.Zero(t, float64(rep.Pull.PeakDeg), "the peak is that of the standing tree")
	return float64(rep.Pull.PeakKN)
}

// The pull that a standing tree needs is linear in the strength of its hinge and in
// its density (the moments about the hinge): two normal numbers make a normal one, and
// the shares are those of the variance.
func TestLinearInTwo(t *testing.T) {
	t.Parallel()
	const offStrength, offDensity = 12.0, 120.0
	d := pole(fields{"tree.bending_strength_MPa": offStrength, "tree.green_density_kgm3": offDensity})
	mean := need(t, d)
	slope := func(path string, at, step float64) float64 {
		up, down := need(t, set(d, path, at+step)), need(t, set(d, path, at-step))
		set(d, path, at)
		assert.InDelta(t, mean, (up+down)/2, 1e-9*mean, "linear in %s", path)
		return (up - down) / (2 * step)
	}
	perStrength := slope("tree.bending_strength_MPa", 40, 10)
	perDensity := slope("tree.green_density_kgm3", 900, 100)
	// κ·b·t²/6 per unit of strength over the line's lever, κ = 1.5.
	lever := float64(plan.Evaluate(raw(t, d)).Pull.LeverM)
	assert.InDelta(t, 1.5*0.48*0.06*0.06/6*1000/lever, perStrength, 1e-6)

	a := sampled(t, d, 4000, 1)
	s, r := perStrength*offStrength/2, perDensity*offDensity/2
	want := distuv.Normal{Mu: mean, Sigma: math.Hypot(s, r)}
	for p, got := range map[float64]plan.Num{0.05: a.NeedKN.P5, 0.5: a.NeedKN.P50, 0.95: a.NeedKN.P95} {
		assert.InDelta(t, want.Quantile(p), float64(got), 0.05*want.Sigma)
	}
	assert.InDelta(t, 1-want.CDF(20), float64(a.NeedOverPlanned), 0.01)
	whole := s*s + r*r
	shares := fields{}
	for _, share := range a.Shares {
		shares[share.Path] = float64(share.Total)
	}
	assert.InDelta(t, s*s/whole, shares["tree.bending_strength_MPa"], 0.15)
	assert.InDelta(t, r*r/whole, shares["tree.green_density_kgm3"], 0.15)
	sum := 0.0
	for _, share := range a.Shares {
		sum += float64(share.Total)
	}
	assert.InDelta(t, 1, sum, 0.2)
	assert.Less(t, float64(a.Settled), 0.01)
}

// What one input alone decides is what it says, and it has the whole share.
func TestOneInput(t *testing.T) {
	t.Parallel()
	d := pole(fields{"tree.bending_strength_MPa": 16})
	a := sampled(t, d, 2000, 3)
	low, high := need(t, set(d, "tree.bending_strength_MPa", 40-1.6449*8)), need(t, set(d, "tree.bending_strength_MPa", 40+1.6449*8))
	assert.InDelta(t, low, float64(a.NeedKN.P5), 0.005*low)
	assert.InDelta(t, high, float64(a.NeedKN.P95), 0.005*high)
	assert.Equal(t, "tree.bending_strength_MPa", a.Shares[0].Path)
	assert.InDelta(t, 1, float64(a.Shares[0].Total), 0.2)
	for _, share := range a.Shares[1:] {
		assert.InDelta(t, 0, float64(share.Total), 1e-6)
	}
}

// The example worked out again by plain Monte Carlo: the same distributions drawn by a
// generator of the standard library, each draw a plan of its own through EvaluateJSON.
func TestPlainMonteCarlo(t *testing.T) {
	t.Parallel()
	tree, size := demo(t)
	s := Start(tree, size, 1)
	s.More(4000)
	a := s.Answer()
	r := rand.New(rand.NewPCG(11, 12))
	const draws = 1500
	var needs []float64
	uses := map[string][]float64{}
	for range draws {
		var d fields
		require.NoError(t, json.Unmarshal(raw(t, tree), &d))
		delete(d, "plus_minus")
		d["planned_kN"] = float64(a.PlannedKN)
		for _, in := range s.inputs {
			x := in.spread.Low - 1
			for x < in.spread.Low || x > in.spread.High {
				x = in.spread.Mean + in.PlusMinus/2*r.NormFloat64()
			}
			if in.Path == "tree.crown_offset_m" && x < 0 {
				x = -x
				setAt(d, "tree.crown_offset_bearing_deg", 150.0-180)
			}
			require.False(t, in.Path == "tree.lean_deg" && x < 0) // eight deviations off
			setAt(d, in.Path, x)
		}
		var rep struct {
			Pull struct{ Peak_kN float64 }
			Gear []struct {
				ID  string
				Use *float64
			}
			Points []struct {
				ID  string
				Use *float64
			}
		}
		require.NoError(t, json.Unmarshal(plan.EvaluateJSON(raw(t, d)), &rep))
		needs = append(needs, rep.Pull.Peak_kN)
		for _, g := range rep.Gear {
			uses["gear "+g.ID] = append(uses["gear "+g.ID], *g.Use)
		}
		for _, p := range rep.Points {
			uses["points "+p.ID] = append(uses["points "+p.ID], *p.Use)
		}
	}
	compare := func(name string, plain []float64, got Quantiles) {
		slices.Sort(plain)
		width := plain[draws*95/100] - plain[draws*5/100]
		// A quantile of 1,500 draws is off by 0.012/density; five such are a fifth of the width.
		assert.InDelta(t, plain[draws*5/100], float64(got.P5), 0.12*width+1e-9, name)
		assert.InDelta(t, plain[draws/2], float64(got.P50), 0.06*width+1e-9, name)
		assert.InDelta(t, plain[draws*95/100], float64(got.P95), 0.12*width+1e-9, name)
	}
	compare("need", needs, a.NeedKN)
	compared := 0
	for _, row := range a.Rows {
		if plain, ok := uses[row.Of+" "+row.ID]; ok {
			compare(row.ID, plain, row.Use)
			compared++
		}
	}
	assert.Equal(t, len(uses), compared)
}

// setAt sets a number at a path with indexes.
func setAt(v any, path string, x float64) {
	var at any = v
	steps := strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' || r == ']' })
	for i, step := range steps {
		last := i == len(steps)-1
		switch o := at.(type) {
		case []any:
			k := 0
			fmt.Sscan(step, &k)
			at = o[k]
		case fields:
			if last {
				o[step] = x
				return
			}
			if o[step] == nil {
				o[step] = fields{}
			}
			at = o[step]
		}
	}
}

func rank(v rigging.Verdict) int {
	return slices.Index([]rigging.Verdict{rigging.Within, rigging.Near, rigging.Unknown, rigging.Over}, v)
}

// Whoever knows less is never the surer.
func TestWiderIsNeverSurer(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 1))
	changed := 0
	for range 12 {
		lean, planned := 1+6*r.Float64(), 2.5+3*r.Float64()
		before := Answer{NeedOverPlanned: 0, Verdict: rigging.Within}
		for i, wider := range []float64{0.25, 0.5, 1, 2} {
			d := pole(fields{"tree.bending_strength_MPa": 12 * wider, "tree.green_density_kgm3": 100 * wider, "tree.lean_deg": 1.5 * wider, "tree.crown_fraction": 0.05 * wider})
			set(d, "tree.lean_deg", lean)
			d["planned_kN"], d["allowance"] = planned, 1
			a := sampled(t, d, 600, 1)
			require.True(t, a.NeedKN.P95.Known())
			if i > 0 {
				assert.GreaterOrEqual(t, rank(a.Verdict), rank(before.Verdict), "lean %v, planned %v, ± × %v", lean, planned, wider)
				assert.GreaterOrEqual(t, float64(a.NeedKN.P95), float64(before.NeedKN.P95))
				if before.NeedOverPlanned < 0.5 {
					assert.GreaterOrEqual(t, float64(a.NeedOverPlanned), float64(before.NeedOverPlanned)-0.01)
				}
				if rank(a.Verdict) > rank(before.Verdict) {
					changed++
				}
			}
			before = a
		}
	}
	assert.Greater(t, changed, 2)
}

// Sampling can only worsen the verdict, and what is missing or impossible is never
// made up for: the example with each of its fields left out or spoilt.
func TestNeverReassures(t *testing.T) {
	t.Parallel()
	tree, _ := demo(t)
	text := string(raw(t, tree))
	var spoilt []string
	var walk func(v any, at []any)
	try := func(at []any, value any) {
		d, err := jsontext.Parse([]byte(text))
		require.NoError(t, err)
		v := d
		for _, step := range at[:len(at)-1] {
			if i, ok := step.(int); ok {
				v = v.([]any)[i]
			} else {
				v = v.(fields)[step.(string)]
			}
		}
		o, ok := v.(fields)
		if !ok {
			return
		}
		key := at[len(at)-1].(string)
		if value == nil {
			delete(o, key)
		} else {
			o[key] = value
		}
		plain := plan.EvaluateTo(d, len(text), plan.ToReport)
		s := Start(d, len(text), 1)
		s.More(8)
		a := s.Answer()
		require.GreaterOrEqual(t, rank(a.Verdict), rank(plain.Verdict), "%v = %v", at, value)
		require.Equal(t, plain.Verdict, a.PlainVerdict)
		require.Len(t, a.Problems, len(plain.Problems))
		if len(plain.Problems) > 0 {
			spoilt = append(spoilt, fmt.Sprint(at))
			require.GreaterOrEqual(t, rank(a.Verdict), rank(rigging.Unknown))
			require.False(t, a.HoldPullerTo.P5.Known(), "%v = %v", at, value)
		}
	}
	walk = func(v any, at []any) {
		switch v := v.(type) {
		case fields:
			for key, inner := range v {
				here := append(slices.Clone(at), key)
				try(here, nil)
				try(here, "?")
				try(here, jsontext.Number("1e99"))
				walk(inner, here)
			}
		case []any:
			for i, inner := range v {
				walk(inner, append(slices.Clone(at), i))
			}
		}
	}
	walk(tree, nil)
	assert.Greater(t, len(spoilt), 200)
}

// A seed settles everything, and it does not matter in how many goes the draws came.
func TestSettled(t *testing.T) {
	t.Parallel()
	tree, size := demo(t)
	at := func(seed uint64, goes ...int) Answer {
		s := Start(tree, size, seed)
		for _, n := range goes {
			s.More(n)
		}
		return s.Answer()
	}
	all := at(1, 500)
	assert.Equal(t, raw(t, all), raw(t, at(1, 7, 93, 400)))
	assert.NotEqual(t, all.NeedKN, at(2, 500).NeedKN)
	many := at(2, 4000)
	assert.InEpsilon(t, float64(many.NeedKN.P95), float64(all.NeedKN.P95), 0.02)
	assert.Less(t, float64(many.Settled), 0.01)
	sum := 0.0
	for _, share := range many.Shares {
		sum += float64(share.Total)
	}
	assert.InDelta(t, 1, sum, 0.25) // nothing in it works against another much
}

// A tree that stands plumb may lean any way, back from the pull too.
func TestPlumbMayLeanBack(t *testing.T) {
	t.Parallel()
	d := pole(fields{"tree.lean_deg": 3.0})
	set(set(d, "tree.lean_deg", 0), "tree.lean_bearing_deg", nil)
	delete(d["plus_minus"].(fields), "tree.lean_bearing_deg")
	a := sampled(t, d, 1000, 1)
	back := need(t, set(set(pole(nil), "tree.lean_deg", 1.6449*1.5), "tree.lean_bearing_deg", 180))
	plumb := need(t, set(set(pole(nil), "tree.lean_deg", 0), "tree.lean_bearing_deg", nil))
	assert.Greater(t, float64(a.NeedKN.P95), 0.8*back)
	assert.LessOrEqual(t, float64(a.NeedKN.P95), 1.01*back)
	assert.Less(t, float64(a.NeedKN.P5), plumb)
	assert.Equal(t, "tree.lean_deg", a.Measure)
}

func TestRequests(t *testing.T) {
	t.Parallel()
	var c Caller
	ask := func(request string) (a Answer) {
		require.NoError(t, json.Unmarshal(c.JSON([]byte(request)), &a))
		return a
	}
	whole := string(raw(t, pole(fields{"tree.lean_deg": 0.1})))
	good := ask(`{"plan": ` + whole + `, "draws": 100}`)
	assert.Equal(t, 100, good.Draws)
	assert.Equal(t, rigging.Within, good.Verdict)
	assert.Empty(t, good.Problems)
	assert.Equal(t, 300, ask(`{"plan": `+whole+`, "draws": 300}`).Draws)
	assert.Equal(t, 50, ask(`{"plan": `+whole+`, "draws": 50}`).Draws)
	for _, wrong := range []string{`{"plan": ` + whole + `, "draws": 0}`, `{"plan": ` + whole + `, "seed": -1}`, `{"plan": ` + whole + `, "more": 1}`, `{}`, `[]`, `{"plan": 3}`, `{"plan": {}}`, ``} {
		a := ask(wrong)
		assert.Equal(t, rigging.Unknown, a.Verdict, wrong)
		assert.NotEmpty(t, a.Problems, wrong)
		assert.NotEmpty(t, a.Problems[0].Message, wrong)
		assert.NotNil(t, a.Rows)
		assert.NotNil(t, a.Inputs)
	}
}
