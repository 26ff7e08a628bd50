package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pullline/rigging"
	"pullline/rigging/plan/field"
)

func withPerson(d document, kind string, bearing, distance float64, needed bool) document {
	return d.set("people", []any{fields{"id": "somebody", "kind": kind, "bearing_deg": bearing, "distance_m": distance, "needed": needed}})
}

// The straight pull has a tree of 24 m and a winch 60 m ahead: it lands up to 26.4 m,
// two lengths are 48 m, and its rope flies 60 m back past the stump.
func TestWhoIsInTheWay(t *testing.T) {
	for name, c := range map[string]struct {
		kind              string
		bearing, distance float64
		needed            bool
		base              func(testing.TB) document
		verdict           rigging.Verdict
		why               string
	}{
		"ahead, where it lands":            {"signaller", 30, 20, true, straightPull, rigging.Over, "person_lands"},
		"behind, in reach of it":           {"signaller", 130, 20, true, straightPull, rigging.Near, "person_reach"},
		"behind, not needed":               {"students", 130, 40, false, straightPull, rigging.Over, "person_lengths"},
		"behind, needed":                   {"signaller", 130, 40, true, straightPull, rigging.Within, ""},
		"two lengths away":                 {"students", 130, 49, false, straightPull, rigging.Within, ""},
		"in line with the rope":            {"students", 3, 100, false, straightPull, rigging.Over, "person_recoil"},
		"behind the stump in line":         {"signaller", 178, 50, true, straightPull, rigging.Over, "person_recoil"},
		"the one at the winch":             {"machine_operator", 0, 60, true, straightPull, rigging.Near, "person_recoil"},
		"beyond all rope":                  {"students", 180, 66, false, straightPull, rigging.Within, ""},
		"a road in two lengths":            {"road", 90, 40, false, straightPull, rigging.Near, "person_lengths"},
		"a house where it lands":           {"building", -40, 25, false, straightPull, rigging.Over, "person_lands"},
		"a tree to hang up in":             {"tree", 20, 15, false, straightPull, rigging.Near, "person_lands"},
		"a tree behind":                    {"tree", 120, 15, false, straightPull, rigging.Within, ""},
		"a power line far off":             {"power_line", 120, 300, false, straightPull, rigging.Unknown, "power_line"},
		"a power line in reach":            {"power_line", 120, 20, false, straightPull, rigging.Over, "person_reach"},
		"inside the corner":                {"signaller", 41, 29, true, roundTheCorner, rigging.Over, "person_bight"},
		"winch operator inside the corner": {"machine_operator", 41, 29, true, roundTheCorner, rigging.Over, "person_bight"},
		"outside the corner":               {"signaller", 300, 60, true, roundTheCorner, rigging.Within, ""},
	} {
		t.Run(name, func(t *testing.T) {
			before := c.base(t).evaluate(t).Verdict
			rep := withPerson(c.base(t), c.kind, c.bearing, c.distance, c.needed).evaluate(t)
			require.Len(t, rep.People, 1)
			p := rep.People[0]
			assert.Equal(t, c.verdict.String(), p.Verdict.String(), p.Message)
			assert.Equal(t, c.why, p.Why)
			assert.NotEmpty(t, p.Message)
			assert.NotEmpty(t, p.Source)
			assert.Equal(t, before.Worse(c.verdict).String(), rep.Verdict.String(), "%v", reasonsOf(rep))
			assert.Equal(t, c.kind == PowerLine, p.Clear == nil)
			if c.verdict == rigging.Within {
				assert.Zero(t, float64(p.MoveM))
			}
		})
	}
}

// Where it is said to be clear it is, whoever stands there, and beyond two lengths and
// all rope everybody is.
func TestClearPlacesAreClear(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 1))
	bases := []func(testing.TB) document{straightPull, roundTheCorner, heldToTheSide, demoDocument}
	moved := 0
	for range 150 {
		base := bases[r.IntN(len(bases))]
		kind := field.PersonKind.Row().Words[r.IntN(len(field.PersonKind.Row().Words))]
		if kind == PowerLine {
			continue
		}
		bearing, distance, needed := 360*r.Float64(), 90*r.Float64(), r.IntN(2) == 0
		p := withPerson(base(t), kind, bearing, distance, needed).evaluate(t).People[0]
		require.NotNil(t, p.Clear)
		if p.MoveM > 0 {
			moved++
			require.NotEqual(t, rigging.Within, p.Verdict)
		}
		there := withPerson(base(t), kind, float64(p.Clear.BearingDeg), float64(p.Clear.DistanceM), needed).evaluate(t).People[0]
		require.Equal(t, rigging.Within, there.Verdict, "%s of %v at %v, %v: %s", kind, bearing, p.Clear, p.MoveM, there.Message)
		require.Zero(t, float64(there.MoveM))
		require.InDelta(t, float64(p.MoveM), rigging.AtBearing(bearing*rigging.Deg, distance, 0).Sub(rigging.AtBearing(float64(p.Clear.BearingDeg)*rigging.Deg, float64(p.Clear.DistanceM), 0)).Norm(), 1e-6)
		far := withPerson(base(t), kind, bearing, 400, needed).evaluate(t).People[0]
		require.Equal(t, rigging.Within, far.Verdict, far.Message)
	}
	assert.Greater(t, moved, 40)
}

// Verdicts against the sectors measured by distances and angles alone.
func TestPeopleAgainstAngles(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 2))
	angle := func(v, w vec) float64 {
		return math.Acos(math.Max(-1, math.Min(1, v.dot(w)/v.size()/w.size())))
	}
	found := map[rigging.Verdict]int{}
	for range 400 {
		d := roundTheCorner(t)
		bearing, distance := 360*r.Float64(), 110*r.Float64()
		rep := withPerson(d, "students", bearing, distance, r.IntN(2) == 0).evaluate(t)
		needed := d.at("people[0].needed") == true
		at := func(bearing, distance float64) vec {
			return vec{distance * math.Cos(bearing*radian), -distance * math.Sin(bearing*radian), 0}
		}
		p, block, winch := at(bearing, distance), at(0, 45), at(70, 60)
		// 12 m up and a little further round the corner: legs as long as the ropes.
		lean := 11.7 * math.Sin(4*radian)
		tie := vec{-lean, 0, 0}
		legs := [][2]vec{{tie, block}, {block, winch}}
		lengths := []float64{math.Hypot(45+lean, 11.7*math.Cos(4*radian)-(-0.3)), winch.plus(block, -1).size()}
		want := rigging.Within
		if distance <= 1.1*24 {
			want = rigging.Near
			if angle(p, vec{1, 0, 0}) <= 45*radian {
				want = rigging.Over
			}
		}
		if !needed && distance <= 48 {
			want = rigging.Over
		}
		for k, leg := range legs {
			for _, ends := range [][2]vec{{leg[0], leg[1]}, {leg[1], leg[0]}} {
				if from := p.plus(ends[0], -1); angle(from, ends[1].plus(ends[0], -1)) <= 10*radian && from.size() <= 2*lengths[k] {
					want = rigging.Over
				}
			}
		}
		u, v, q := tie.plus(block, -1), winch.plus(block, -1), p.plus(block, -1)
		if math.Abs(angle(u, q)+angle(q, v)-angle(u, v)) < 1e-9 {
			// In the corner: within the triangle or the shorter leg.
			det := u[0]*v[1] - u[1]*v[0]
			a, b := (q[0]*v[1]-q[1]*v[0])/det, (u[0]*q[1]-u[1]*q[0])/det
			if a+b <= 1 || q.size() <= math.Min(u.size(), v.size()) {
				want = rigging.Over
			}
		}
		if middle := u.plus(vec{}, 0).unit().plus(v.unit(), 1); angle(q, middle) <= 10*radian && q.size() <= math.Min(u.size(), v.size()) {
			want = rigging.Over
		}
		found[want]++
		require.Equal(t, want.String(), rep.People[0].Verdict.String(), "at %v, %v m: %s", bearing, distance, rep.People[0].Message)
	}
	assert.Greater(t, found[rigging.Over], 40)
	assert.Greater(t, found[rigging.Near], 5)
	assert.Greater(t, found[rigging.Within], 40)
}

// Where the hinge cannot hold, the tree comes down as far round as it drifts.
func TestPeopleWhereTheHingeCannotHold(t *testing.T) {
	d := heldToTheSide(t).drop("lines[1]").drop("gear[5]").drop("gear[4]").drop("gear[3]").set("tree.lean_deg", 12.0).set("cut.hinge_left_cm", 2.6).set("cut.hinge_right_cm", 2.6)
	rep := withPerson(d, "signaller", 60, 20, true).evaluate(t)
	require.Greater(t, float64(rep.Tree.SideHoldUse), 1.0, "%v", rep.Tree)
	require.Less(t, float64(rep.Pull.DriftDeg), -16.0)
	assert.Equal(t, "person_lands", rep.People[0].Why)
	assert.Equal(t, "person_reach", withPerson(d, "signaller", -60, 20, true).evaluate(t).People[0].Why)
}

// Nothing that is missing or wrong leaves anybody clear.
func TestPeopleRead(t *testing.T) {
	for name, c := range map[string]struct {
		person any
		path   string
		code   Code
	}{
		"no name":     {fields{"kind": "road", "bearing_deg": 90, "distance_m": 300}, "people[0].id", CodeMissing},
		"no kind":     {fields{"id": "x", "bearing_deg": 90, "distance_m": 300}, "people[0].kind", CodeMissing},
		"other kind":  {fields{"id": "x", "kind": "dog", "bearing_deg": 90, "distance_m": 300}, "people[0].kind", CodeChoice},
		"no bearing":  {fields{"id": "x", "kind": "road", "distance_m": 300}, "people[0].bearing_deg", CodeMissing},
		"no distance": {fields{"id": "x", "kind": "road", "bearing_deg": 90}, "people[0].distance_m", CodeMissing},
		"not needed":  {fields{"id": "x", "kind": "road", "bearing_deg": 90, "distance_m": 300, "needed": "no"}, "people[0].needed", CodeType},
		"a number":    {3, "people[0]", CodeType},
	} {
		t.Run(name, func(t *testing.T) {
			rep := straightPull(t).set("people", []any{c.person}).evaluate(t)
			assert.True(t, slices.ContainsFunc(rep.Problems, func(p Problem) bool { return p.Path == c.path && p.Code == c.code && p.Message != "" }), "%v", rep.Problems)
			require.Len(t, rep.People, 1)
			assert.NotEqual(t, rigging.Within, rep.People[0].Verdict)
			assert.NotEqual(t, rigging.Near, rep.People[0].Verdict)
			assert.Equal(t, rigging.Unknown, rep.Verdict)
		})
	}
	rep := straightPull(t).set("people", []any{fields{"id": "x", "kind": "road", "bearing_deg": 90, "distance_m": 300}, fields{"id": "x", "kind": "road", "bearing_deg": 90, "distance_m": 310}}).evaluate(t)
	refused(t, "twice", rep, "people[1].id", false)
	// A pull that cannot be worked out leaves nobody clear.
	rep = withPerson(straightPull(t).set("lines[0].path[1].point", "nowhere"), "students", 130, 300, false).evaluate(t)
	assert.Equal(t, rigging.Unknown, rep.People[0].Verdict)
	rep = withPerson(straightPull(t).set("lines[0].path[1].point", "nowhere"), "students", 30, 20, false).evaluate(t)
	assert.Equal(t, rigging.Over, rep.People[0].Verdict)
}

func TestWaysOut(t *testing.T) {
	rep := straightPull(t).evaluate(t)
	require.Len(t, rep.Escapes, 2)
	for i, bearing := range []float64{135, 225} {
		assert.InDelta(t, bearing, float64(rep.Escapes[i].BearingDeg), 1e-9)
		assert.InDelta(t, 25*0.3048, float64(rep.Escapes[i].DistanceM), 1e-9)
		assert.Empty(t, rep.Escapes[i].Blocked)
	}
	rep = withPerson(straightPull(t), "tree", 135, 5, false).evaluate(t)
	assert.Equal(t, EscapeReport{rep.Escapes[0].BearingDeg, rep.Escapes[0].DistanceM, "person", "somebody"}, rep.Escapes[0])
	assert.Empty(t, rep.Escapes[1].Blocked)
	assert.Contains(t, codes(rep), "escape_blocked")

	// A hold line that runs along the way out, and its recoil at the other side.
	hold := heldToTheSide(t).set("points[1].bearing_deg", 228.0)
	rep = hold.evaluate(t)
	assert.Equal(t, "rope", rep.Escapes[1].Blocked)
	assert.Equal(t, "hold", rep.Escapes[1].By)
	rep = withPerson(hold, "tree", 137, 6, false).evaluate(t)
	assert.Contains(t, codes(rep), "no_escape")
	add("people", fields{"id": "cutter", "kind": "saw_operator", "bearing_deg": 120, "distance_m": 40, "needed": true})(hold)
	rep = hold.evaluate(t)
	assert.Equal(t, "no_escape", rep.People[1].Why, "%v", rep.People[1])
}

// The zones told are those judged by.
func TestZonesTold(t *testing.T) {
	rep := roundTheCorner(t).evaluate(t)
	n := map[string]int{}
	for _, z := range rep.Zones {
		n[z.Danger]++
		assert.True(t, z.ReachM > 0 && z.HalfDeg > 0 && z.BearingDeg >= 0 && z.BearingDeg < 360, fmt.Sprint(z))
	}
	assert.Equal(t, map[string]int{"person_lands": 1, "person_reach": 1, "person_lengths": 1, "person_recoil": 4, "person_bight": 2, "person_flight": 1}, n)
}
