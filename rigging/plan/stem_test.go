package plan

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
)

// The straight pull on a plumb tree by hand: at the turn where it is worst the
// planned tension pulls at 12 m and the weight hangs over, both bending the stem at
// the stump of 0.3 m, where it is 0.93·50 cm thick but for a little taper, against
// 0.74·49.4 MPa.
func TestStemOfTheStraightPullByHand(t *testing.T) {
	rep := straightPull(t).set("tree.lean_deg", 0.0).evaluate(t)
	require.Equal(t, 0.3, float64(rep.Stem.HeightM))
	turn := float64(rep.Stem.Deg) * rigging.Deg
	tie := vec{11.7 * math.Sin(turn), 0, 11.7 * math.Cos(turn)}
	rope := vec{60, 0, -0.3}.plus(tie, -1).unit()
	moment := float64(rep.Pull.PlannedKN)*(tie[2]*rope[0]-tie[0]*rope[2]) + float64(rep.Tree.WeightKN)*float64(rep.Tree.CentreHeightM)*math.Sin(turn)
	assert.InEpsilon(t, moment, float64(rep.Stem.MomentKNm), 1e-6)
	byHand := moment / 1000 * 32 / (math.Pi * math.Pow(0.93*0.5, 3)) / (0.74 * 49.4)
	assert.InDelta(t, byHand, float64(rep.Stem.Use), 0.03*byHand)
	assert.Equal(t, rigging.Within, rep.Stem.Verdict)
	assert.InEpsilon(t, rigging.HingeReliedOn*49.4, float64(rep.Stem.StrengthMPa), 1e-9)
}

func TestStemWeakPlaces(t *testing.T) {
	sound := straightPull(t).evaluate(t)
	require.Equal(t, rigging.Within, sound.Verdict)
	weak := func(defect fields) Report { return straightPull(t).set("tree.defects", []any{defect}).evaluate(t) }

	rep := weak(fields{"kind": "cavity", "height_m": 5, "cavity_cm": 40})
	assert.Greater(t, float64(rep.Stem.Use), float64(sound.Stem.Use))
	assert.Equal(t, 5.0, float64(rep.Stem.HeightM))
	assert.Contains(t, codes(rep), "stem_defect")

	rep = weak(fields{"height_m": 5, "cavity_cm": 60})
	assert.Equal(t, rigging.Over, rep.Verdict, "nothing is left: %v", reasonsOf(rep))
	assert.Equal(t, "stem_over", rep.Why[0].Code)
	assert.True(t, slices.ContainsFunc(rep.Assumed, func(a Assumed) bool { return a.Path == "tree.defects[0].kind" }))

	rep = weak(fields{"kind": "wound", "height_m": 2, "cavity_cm": 25})
	assert.Equal(t, rigging.Over, rep.Stem.Verdict, "%v", reasonsOf(rep))
	fork := weak(fields{"kind": "fork", "height_m": 3})
	assert.InDelta(t, 3, float64(fork.Stem.HeightM), 1e-9)
	assert.Less(t, float64(fork.Stem.Use), float64(weak(fields{"kind": "fork", "height_m": 3, "cavity_cm": 25}).Stem.Use))

	// A hollow hinge is a hollow stem on it, and one above the tie is bent by no line.
	hollow := straightPull(t).set("tree.cavity_cm", 38).evaluate(t)
	assert.Equal(t, 0.3, float64(hollow.Stem.HeightM))
	assert.Greater(t, float64(hollow.Stem.Use), float64(sound.Stem.Use))
	assert.Equal(t, sound.Stem.Use, weak(fields{"height_m": 18, "cavity_cm": 30}).Stem.Use)
}

func TestStemWeakPlacesRead(t *testing.T) {
	for name, c := range map[string]struct {
		defect any
		path   string
		code   Code
	}{
		"no size":          {fields{"kind": "cavity", "height_m": 5}, "tree.defects[0].cavity_cm", CodeMissing},
		"no height":        {fields{"kind": "fork"}, "tree.defects[0].height_m", CodeMissing},
		"below the cut":    {fields{"height_m": 0.1, "cavity_cm": 10}, "tree.defects[0].height_m", CodeRange},
		"above the tree":   {fields{"height_m": 40, "cavity_cm": 10}, "tree.defects[0].height_m", CodeRange},
		"of no kind":       {fields{"kind": "bee hive", "height_m": 5, "cavity_cm": 10}, "tree.defects[0].kind", CodeChoice},
		"not an object":    {7, "tree.defects[0]", CodeType},
		"size of no width": {fields{"height_m": 5, "cavity_cm": -1}, "tree.defects[0].cavity_cm", CodeRange},
	} {
		t.Run(name, func(t *testing.T) {
			rep := straightPull(t).set("tree.defects", []any{c.defect}).evaluate(t)
			found := false
			for _, p := range rep.Problems {
				found = found || p.Path == c.path && p.Code == c.code && p.Message != ""
			}
			assert.True(t, found, "%v", rep.Problems)
			assert.NotEqual(t, rigging.Within, rep.Verdict)
			assert.NotEqual(t, rigging.Near, rep.Verdict)
		})
	}
}

// What the puller may be held to is what the stem bears too: at that haul it is
// just at its limit, and the plan is near at best.
func TestHeldToWhatTheStemBears(t *testing.T) {
	d := straightPull(t).set("lines[0].puller", fields{"rated_kN": 30.0, "limited_by": "stall", "stall_kN": 34.0})
	rep := d.evaluate(t)
	assert.Equal(t, rigging.Near, rep.Verdict)
	assert.True(t, rep.OnlyIfHeld)
	assert.Equal(t, StemRow, rep.AtMostGoverning)
	held := d.set("lines[0].puller", fields{"rated_kN": 30.0, "limited_by": "device", "setting_kN": float64(rep.Pull.HoldPullTo)}).evaluate(t)
	assert.InDelta(t, 1, float64(held.Stem.AtMostUse), 1e-6)
	assert.Equal(t, rigging.Within, held.Verdict, "%v", reasonsOf(held))
}

func TestSpeciesThatSplit(t *testing.T) {
	for _, key := range splitting {
		_, known := rigging.FindSpecies(key)
		assert.True(t, known, key)
	}
	said := func(species string) (n int) {
		for _, c := range straightPull(t).set("tree.species", species).evaluate(t).Cautions {
			if c.Code == "splits" {
				n++
			}
		}
		return n
	}
	assert.Equal(t, 1, said("radiata_pine"))
	assert.Equal(t, 2, said("european_ash"))
}
