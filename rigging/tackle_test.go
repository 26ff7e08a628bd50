package rigging

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// tackleTolerance is relative: the systems are small and well conditioned,
// so a dozen digits stand; 1e-9 leaves room for the worst random ones.
const tackleTolerance = 1e-9

func solved(t *testing.T, r Reeving, efficiency float64) TackleResult {
	t.Helper()
	result, err := r.Solve(efficiency)
	require.NoError(t, err)
	return result
}

// threeToOne is the plainest tackle hauled from the moving block.
func threeToOne() Reeving {
	return Reeving{
		Nodes: []ReevingNode{{"A", AnchorNode, 0}, {"L", LoadNode, 10}, {"H", HaulNode, -1}},
		Ropes: []ReevingRope{{Path: []string{"L", "A", "L", "H"}}},
	}
}

func nodeLoad(t *testing.T, result TackleResult, id string) NodeLoad {
	t.Helper()
	for _, n := range result.NodeLoads {
		if n.ID == id {
			return n
		}
	}
	require.Fail(t, "no such node", id)
	return NodeLoad{}
}

func TestThreeToOneByHand(t *testing.T) {
	const eta = 0.9
	result := solved(t, threeToOne(), eta)
	assert.InEpsilon(t, 3, result.Ideal, tackleTolerance)
	assert.InEpsilon(t, 1+eta+eta*eta, result.Actual, tackleTolerance)
	assert.Equal(t, result.Ideal, result.RopePerMetre)
	assert.InEpsilon(t, result.Actual/3, result.Efficiency(), tackleTolerance)

	// From the made-fast end at the load the tension rises toward the haul.
	s := result.HaulTension
	assert.InDeltaSlice(t, []float64{s * eta * eta, s * eta, s}, result.PartTensions[0], tackleTolerance)
	assert.InDeltaSlice(t, []float64{0, -1, -3}, result.Velocities, tackleTolerance)

	// The anchor holds the two parts that reach it, so the load less the haul.
	anchor := nodeLoad(t, result, "A")
	assert.InEpsilon(t, s*eta+s*eta*eta, anchor.Load, tackleTolerance)
	assert.InEpsilon(t, 1-s, anchor.Net, tackleTolerance)
	assert.Equal(t, 1, anchor.Sheaves)
	load := nodeLoad(t, result, "L")
	assert.InEpsilon(t, 1, load.Load, tackleTolerance)
	assert.Equal(t, 1, load.Sheaves)
	assert.Zero(t, load.Straight)
	assert.Equal(t, 2, threeToOne().Sheaves())
}

func TestReevingReversedHasAnAdvantageBelowOne(t *testing.T) {
	// Hauling on the block and hanging the load on the rope halves the
	// travel and doubles the pull.
	r := Reeving{
		Nodes: []ReevingNode{{"A", AnchorNode, 0}, {"M", MovingNode, 5}, {"L", LoadNode, 10}, {"H", HaulNode, -5}, {"B", AnchorNode, 12}},
		Ropes: []ReevingRope{{Path: []string{"B", "M", "L"}}, {Path: []string{"M", "H"}}},
	}
	result := solved(t, r, 0.9)
	assert.InEpsilon(t, 0.5, result.Ideal, tackleTolerance)
	// The block carries the load's part and the fixed part it runs toward.
	assert.InEpsilon(t, 1/(1+1/0.9), result.Actual, tackleTolerance)
}

func TestRopeEfficiencyOutranksTheTackles(t *testing.T) {
	r := threeToOne()
	r.Ropes[0].Efficiency = 0.8
	assert.InEpsilon(t, 1+0.8+0.64, solved(t, r, 0.95).Actual, tackleTolerance)
}

func TestStraightRunIsTold(t *testing.T) {
	r := Reeving{
		Nodes: []ReevingNode{{"A", AnchorNode, 0}, {"L", LoadNode, 10}, {"H", HaulNode, -1}},
		Ropes: []ReevingRope{{Path: []string{"L", "A", "H"}}},
	}
	result := solved(t, r, 0.9)
	assert.Equal(t, 1, nodeLoad(t, result, "A").Straight)
	// The harder of the two sides, not the small remainder of both.
	assert.InEpsilon(t, 1/0.9, nodeLoad(t, result, "A").Load, tackleTolerance)
}

func TestReevingSaysWhatIsWrong(t *testing.T) {
	change := func(f func(r *Reeving)) Reeving {
		r := threeToOne()
		f(&r)
		return r
	}
	node := func(id string, kind NodeKind, at float64) func(*Reeving) {
		return func(r *Reeving) { r.Nodes = append(r.Nodes, ReevingNode{id, kind, at}) }
	}
	path := func(ids ...string) func(*Reeving) {
		return func(r *Reeving) { r.Ropes[0].Path = ids }
	}
	many := make([]ReevingNode, MaxReevingNodes+1)
	for i := range many {
		many[i] = ReevingNode{fmt.Sprint(i), AnchorNode, 0}
	}
	long := []string{"L"}
	for len(long) <= MaxReevingPath {
		long = append(long, "A", "L")
	}
	for name, c := range map[string]struct {
		reeving    Reeving
		efficiency float64
		where      string
		message    string
	}{
		"efficiency 0":        {threeToOne(), 0, "efficiency", "above 0 and at most 1"},
		"efficiency NaN":      {threeToOne(), math.NaN(), "efficiency", "above 0"},
		"efficiency above 1":  {threeToOne(), 1.01, "efficiency", "1.01"},
		"rope's efficiency":   {change(func(r *Reeving) { r.Ropes[0].Efficiency = -1 }), 1, "ropes[0].efficiency", "-1"},
		"rope's NaN":          {change(func(r *Reeving) { r.Ropes[0].Efficiency = math.NaN() }), 1, "ropes[0].efficiency", "NaN"},
		"empty":               {Reeving{}, 1, "nodes", "0 nodes"},
		"too many nodes":      {Reeving{Nodes: many}, 1, "nodes", "25 nodes"},
		"no ropes":            {change(func(r *Reeving) { r.Ropes = nil }), 1, "ropes", "0 ropes"},
		"too many ropes":      {change(func(r *Reeving) { r.Ropes = make([]ReevingRope, 13) }), 1, "ropes", "13 ropes"},
		"short rope":          {change(path("H")), 1, "ropes[0].path", "1 nodes"},
		"long rope":           {change(path(long...)), 1, "ropes[0].path", "2 to 24"},
		"unknown node":        {change(path("L", "X", "H")), 1, "ropes[0].path[1]", `"X"`},
		"no id":               {change(node("", AnchorNode, 3)), 1, "nodes[3].id", "no id"},
		"same id":             {change(node("A", AnchorNode, 3)), 1, "nodes[3].id", "nodes[0]"},
		"unknown kind":        {change(node("B", "tree", 3)), 1, "nodes[3].kind", `"tree"`},
		"place not finite":    {change(node("B", AnchorNode, math.Inf(1))), 1, "nodes[3].at", "+Inf"},
		"no load":             {change(func(r *Reeving) { r.Nodes[1].Kind = AnchorNode }), 1, "nodes", "no node is the load"},
		"two loads":           {change(node("L2", LoadNode, 9)), 1, "nodes[3].kind", "second load"},
		"no haul":             {change(func(r *Reeving) { r.Nodes[2].Kind = AnchorNode }), 1, "nodes", "no node is the haul"},
		"two hauls":           {change(node("H2", HaulNode, 9)), 1, "nodes[3].kind", "second haul"},
		"haul not last":       {change(path("H", "L", "A")), 1, "ropes[0].path[0]", "not the last"},
		"haul amid":           {change(path("A", "H", "L")), 1, "ropes[0].path[1]", "not the last"},
		"haul twice":          {change(func(r *Reeving) { r.Ropes = append(r.Ropes, ReevingRope{Path: []string{"L", "H"}}) }), 1, "ropes[1].path[1]", "twice"},
		"haul without rope":   {change(path("A", "L", "A")), 1, "nodes[2]", `"H"`},
		"load without rope":   {change(path("A", "H")), 1, "nodes[1]", `"L"`},
		"block without rope":  {change(node("M", MovingNode, 5)), 1, "nodes[3]", `"M"`},
		"part without length": {change(path("L", "A", "A", "L", "H")), 1, "ropes[0].path[2]", "no length"},
		"loose":               {change(func(r *Reeving) { node("M", MovingNode, 5)(r); path("L", "A", "M", "H")(r) }), 1, "ropes", "loose"},
		"held":                {change(func(r *Reeving) { r.Ropes = append(r.Ropes, ReevingRope{Path: []string{"A", "L"}}) }), 1, "ropes", "too many ropes"},
		"load held by a rope": {change(func(r *Reeving) {
			node("M", MovingNode, 5)(r)
			r.Ropes = append(r.Ropes, ReevingRope{Path: []string{"A", "L"}})
			path("M", "H")(r)
		}), 1, "ropes", ""},
		"load pushed":       {change(func(r *Reeving) { r.Nodes[1].At = -10; r.Nodes[2].At = -20 }), 1, "ropes[0]", "push"},
		"haul stands still": {change(func(r *Reeving) { r.Nodes[0].At, r.Nodes[1].At, r.Nodes[2].At = 0, 10, 20; path("A", "L", "H")(r) }), 1, "ropes", "stand"},
		"idle rope": {change(func(r *Reeving) {
			node("M", MovingNode, 5)(r)
			r.Ropes = append(r.Ropes, ReevingRope{Path: []string{"M", "A"}})
		}), 1, "ropes[1]", "slack"},
		"block held to itself": {change(func(r *Reeving) {
			node("M", MovingNode, 5)(r)
			r.Ropes = append(r.Ropes, ReevingRope{Path: []string{"M", "A", "L", "A", "M", "L", "M"}})
		}), 1, "ropes", ""},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := c.reeving.Solve(c.efficiency)
			var wrong *ReevingError
			require.ErrorAs(t, err, &wrong)
			assert.Contains(t, wrong.Where, c.where)
			assert.Contains(t, wrong.Error(), c.message)
		})
	}
}

func TestValidateTellsStructure(t *testing.T) {
	assert.NoError(t, threeToOne().Validate())
	assert.Error(t, Reeving{}.Validate())
}

// part by part: an independent solution with the tension of every part as
// an unknown of its own, and QR instead of LU.
func tensionsPartByPart(t *testing.T, r Reeving, velocities []float64, efficiency float64) [][]float64 {
	t.Helper()
	number := map[string]int{}
	for i, n := range r.Nodes {
		number[n.ID] = i
	}
	first, size := make([]int, len(r.Ropes)), 0
	for i, rope := range r.Ropes {
		first[i] = size
		size += len(rope.Path) - 1
	}
	a, b := mat.NewDense(size, size, nil), mat.NewVecDense(size, nil)
	row := 0
	balance := map[int]int{}
	for i, n := range r.Nodes {
		if n.Kind == MovingNode || n.Kind == LoadNode {
			balance[i] = row
			if n.Kind == LoadNode {
				b.SetVec(row, -1)
			}
			row++
		}
	}
	add := func(row, col int, v float64) { a.Set(row, col, a.At(row, col)+v) }
	for i, rope := range r.Ropes {
		eta := efficiency
		if rope.Efficiency != 0 {
			eta = rope.Efficiency
		}
		shorter := 0.0
		for j := range len(rope.Path) - 1 {
			p, q := number[rope.Path[j]], number[rope.Path[j+1]]
			toward := math.Copysign(1, r.Nodes[q].At-r.Nodes[p].At)
			if k, ok := balance[p]; ok {
				add(k, first[i]+j, toward)
			}
			if k, ok := balance[q]; ok {
				add(k, first[i]+j, -toward)
			}
			if j > 0 {
				power := 0.0
				if math.Abs(shorter) > 1e-9 {
					power = math.Copysign(1, shorter)
				}
				add(row, first[i]+j-1, 1)
				add(row, first[i]+j, -math.Pow(eta, power))
				row++
			}
			shorter -= toward * (velocities[q] - velocities[p])
		}
	}
	require.Equal(t, size, row)
	var x mat.VecDense
	require.NoError(t, x.SolveVec(a, b))
	parts := make([][]float64, len(r.Ropes))
	for i, rope := range r.Ropes {
		parts[i] = x.RawVector().Data[first[i] : first[i]+len(rope.Path)-1]
	}
	return parts
}

// checkTackle holds a solved tackle against the mechanics.
func checkTackle(t *testing.T, r Reeving, efficiency float64, result TackleResult) {
	t.Helper()
	number := map[string]int{}
	for i, n := range r.Nodes {
		number[n.ID] = i
	}
	net, v := make([]float64, len(r.Nodes)), result.Velocities
	for i, rope := range r.Ropes {
		stretch := 0.0
		for j, tension := range result.PartTensions[i] {
			p, q := number[rope.Path[j]], number[rope.Path[j+1]]
			require.Greater(t, tension, 0.0)
			toward := math.Copysign(1, r.Nodes[q].At-r.Nodes[p].At)
			net[p] += toward * tension
			net[q] -= toward * tension
			stretch += toward * (v[q] - v[p])
		}
		require.InDelta(t, 0, stretch, 1e-9*(1+result.Ideal), "a rope keeps its length")
	}
	whole, anchors := 1.0, 0.0
	for i, n := range r.Nodes {
		switch n.Kind {
		case MovingNode:
			require.InDelta(t, 0, net[i], 1e-9*(1+result.NodeLoads[i].Load), "a moving node is in balance")
		case LoadNode:
			require.InDelta(t, -1, net[i], 1e-9*(1+result.NodeLoads[i].Load), "the ropes carry the load")
			require.Equal(t, -1.0, v[i])
		case AnchorNode:
			require.Zero(t, v[i])
			anchors += net[i]
			whole -= net[i]
		case HaulNode:
			require.InEpsilon(t, result.HaulTension, math.Abs(net[i]), tackleTolerance)
			whole -= net[i]
		}
		require.InDelta(t, math.Abs(net[i]), result.NodeLoads[i].Net, 1e-9*(1+result.NodeLoads[i].Load))
		require.GreaterOrEqual(t, result.NodeLoads[i].Load*(1+1e-9), result.NodeLoads[i].Net)
	}
	// From outside: the load, the anchors and the haul hold each other.
	require.InDelta(t, 0, whole, 1e-9*(1+math.Abs(anchors)+result.HaulTension), "the whole is in balance")

	require.LessOrEqual(t, result.Actual, result.Ideal)
	if efficiency == 1 {
		// Virtual work: what the haul does, the load gets.
		require.InEpsilon(t, result.Ideal, result.Actual, tackleTolerance)
	}
	require.InEpsilon(t, 1, result.Actual*result.HaulTension, tackleTolerance)
	for i, parts := range tensionsPartByPart(t, r, v, efficiency) {
		for j, want := range parts {
			require.InEpsilon(t, want, result.PartTensions[i][j], 1e-8)
		}
	}
}

// randomReevings are those, of many thrown together at random, that lift
// the load.
func randomReevings(seed uint64, want int) []Reeving {
	random := rand.New(rand.NewPCG(seed, 2))
	var found []Reeving
	for range 2_000_000 {
		if len(found) == want {
			break
		}
		moving := []int{1, 2, 0, 2, 1, 2, 3, 2}[len(found)%8]
		r := Reeving{Nodes: []ReevingNode{
			{"A", AnchorNode, 0}, {"B", AnchorNode, 12 * random.Float64()},
			{"L", LoadNode, 4 + 8*random.Float64()}, {"H", HaulNode, []float64{-3, 15}[random.IntN(2)]},
		}}
		var ids []string
		for i := range moving {
			id := fmt.Sprintf("M%d", i)
			ids = append(ids, id)
			r.Nodes = append(r.Nodes, ReevingNode{id, MovingNode, -2 + 14*random.Float64()})
		}
		ids = append(ids, "A", "B", "L", "L")
		for i := range moving + 1 {
			var path []string
			if i > 0 && random.IntN(3) > 0 {
				path = append(path, ids[i-1]) // mostly a rope hooked to each block
			}
			for range 2 + random.IntN(4) {
				if id := ids[random.IntN(len(ids))]; len(path) == 0 || path[len(path)-1] != id {
					path = append(path, id)
				}
			}
			if i == 0 {
				path = append(path, "H")
			}
			r.Ropes = append(r.Ropes, ReevingRope{Path: path})
		}
		if _, err := r.Solve(1); err == nil {
			found = append(found, r)
		}
	}
	return found
}

func TestRandomReevings(t *testing.T) {
	t.Parallel()
	reevings := randomReevings(1, 240)
	require.Len(t, reevings, 240)
	locked, complexes := 0, 0
	for _, r := range reevings {
		checkTackle(t, r, 1, solved(t, r, 1))
		if len(r.Ropes) > 1 {
			complexes++
		}
		for _, eta := range []float64{0.99, 0.9, 0.7} {
			result, err := r.Solve(eta)
			if err != nil {
				// Enough friction can lock an odd arrangement.
				locked++
				continue
			}
			checkTackle(t, r, eta, result)
		}
	}
	assert.Greater(t, complexes, 150)
	assert.Less(t, locked, 40)
}

// TestFrictionTakes: less efficient sheaves never help.
func TestFrictionTakes(t *testing.T) {
	reevings := randomReevings(3, 120)
	drawn := len(reevings)
	for _, ready := range ReadyReevings() {
		reevings = append(reevings, ready.Reeving)
	}
	for i, r := range reevings {
		above := solved(t, r, 1).Actual
		for eta := 0.98; eta > 0.6; eta -= 0.04 {
			result, err := r.Solve(eta)
			if err != nil {
				require.Less(t, i, drawn, "a ready-made tackle is never locked: %v", err)
				break
			}
			require.LessOrEqual(t, result.Actual, above*(1+1e-12), "%+v", r)
			if i >= drawn {
				require.Less(t, result.Actual, above, "%+v", r)
				require.Less(t, result.Actual, result.Ideal)
			}
			above = result.Actual
		}
	}
}

func TestReevingReadsAndWritesItsJSON(t *testing.T) {
	const text = `{"nodes":[{"id":"A","kind":"anchor","at":0},{"id":"L","kind":"load","at":10},{"id":"H","kind":"haul","at":-1}],` +
		`"ropes":[{"path":["L","A","L","H"],"efficiency":0.9}]}`
	var r Reeving
	require.NoError(t, json.Unmarshal([]byte(text), &r))
	assert.InEpsilon(t, 2.71, solved(t, r, 1).Actual, tackleTolerance)
	back, err := json.Marshal(r)
	require.NoError(t, err)
	assert.JSONEq(t, text, string(back))
}

func FuzzReeving(f *testing.F) {
	for _, ready := range ReadyReevings() {
		text, err := json.Marshal(ready.Reeving)
		require.NoError(f, err)
		f.Add(text, 0.9)
	}
	f.Add([]byte(`{"nodes":[{"id":"A","kind":"anchor","at":1e308},{"id":"L","kind":"load","at":-1e308}],"ropes":[{"path":["L","A"]}]}`), 1e-300)
	f.Add([]byte(`{}`), math.NaN())
	f.Fuzz(func(t *testing.T, text []byte, efficiency float64) {
		var r Reeving
		if json.Unmarshal(text, &r) != nil {
			return
		}
		result, err := r.Solve(efficiency)
		if err != nil {
			var wrong *ReevingError
			if !errors.As(err, &wrong) {
				t.Fatalf("not a reeving's error: %v", err)
			}
			return
		}
		for _, v := range []float64{result.Ideal, result.Actual, result.HaulTension} {
			if !(v > 0) || math.IsInf(v, 0) {
				t.Fatalf("%g in %+v", v, result)
			}
		}
		if result.Actual > result.Ideal {
			t.Fatalf("friction helps: %+v", result)
		}
	})
}

func BenchmarkSolveThreeToOne(b *testing.B) {
	r := threeToOne()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := r.Solve(0.9); err != nil {
			b.Fatal(err)
		}
	}
}
