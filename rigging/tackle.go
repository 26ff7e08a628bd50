package rigging

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// A NodeKind says what a node of a tackle is held by.
type NodeKind string

// The kinds of node.
const (
	AnchorNode NodeKind = "anchor" // stands still
	MovingNode NodeKind = "moving" // a block, or a tie on the rope, free to travel
	LoadNode   NodeKind = "load"   // where the load hangs; it may carry sheaves
	HaulNode   NodeKind = "haul"   // where the rope is pulled
)

// A ReevingNode is a place in a tackle. At is where it lies along the one
// axis of the tackle: 0 at the anchor, positive toward the load. Only the
// order of the places counts, not the distances, except that two nodes that
// share a part of rope must lie apart.
type ReevingNode struct {
	ID   string   `json:"id"`
	Kind NodeKind `json:"kind"`
	At   float64  `json:"at"`
}

// A ReevingRope is one rope of a tackle by the ids of the nodes it touches,
// from its made-fast end to its other end; every node between them is a
// sheave it turns on. Efficiency (tension in over tension out at one sheave,
// above 0 and up to 1) is that of the sheaves of this rope; 0 means the
// tackle's.
type ReevingRope struct {
	Path       []string `json:"path"`
	Efficiency float64  `json:"efficiency,omitempty"`
}

// A Reeving is a tackle of any arrangement: nodes on one axis and ropes run
// through them. It has one load, one haul, and the haul ends one rope. Every
// other end of rope may be tied to any other node. It takes one rope more
// than there are moving nodes; with fewer it is loose, with more some rope
// is idle or holds the tackle fast.
type Reeving struct {
	Nodes []ReevingNode `json:"nodes"`
	Ropes []ReevingRope `json:"ropes"`
}

// WithoutFriction is the reeving with no efficiency of its own in any rope, to
// be solved at 1.
func (r Reeving) WithoutFriction() Reeving {
	out := Reeving{Nodes: r.Nodes, Ropes: make([]ReevingRope, len(r.Ropes))}
	for i, rope := range r.Ropes {
		out.Ropes[i] = ReevingRope{Path: rope.Path}
	}
	return out
}

// The largest tackle accepted, far beyond what a crew can rig.
const (
	MaxReevingNodes = 24
	MaxReevingRopes = 12
	MaxReevingPath  = 24 // nodes along one rope
)

// A ReevingError says what keeps a tackle from being worked out: Where is
// the path in the reeving's (or the stages') JSON, empty for the whole, and
// Message what was given and what is accepted.
type ReevingError struct {
	Where   string
	Message string
	Format  string // Message before Values stood in it, with the verbs of fmt
	// Fault is a key of what is wrong, and Values what Message says of it: names as
	// strings, counts and numbers. Fault is empty where no tackle of a plan comes to it.
	Fault  string
	Values []any
}

func (e *ReevingError) Error() string {
	if e.Where == "" {
		return "tackle: " + e.Message
	}
	return "tackle, " + e.Where + ": " + e.Message
}

func reevingErrorf(where, format string, values ...any) error {
	return tackleFault(where, "", format, values...)
}

func tackleFault(where, fault, format string, values ...any) error {
	return &ReevingError{where, fmt.Sprintf(format, values...), format, fault, values}
}

// A NodeLoad is what one node of a tackle carries, per unit of load.
type NodeLoad struct {
	ID   string
	Kind NodeKind
	// Load is the pull of the rope on the node, in the direction in which
	// the rope pulls it harder. For a moving node, which is pulled as hard
	// both ways, it is what passes through it.
	Load float64
	// Net is the pull left over along the axis: what the node's anchor, or
	// the load, has to hold; 0 at a moving node.
	Net float64
	// Sheaves is how many sheaves turn at the node.
	Sheaves int
	// Straight is at how many of these the rope goes straight on along the
	// axis instead of turning back. There the one-axis picture still charges
	// a full half-turn of friction, but cannot tell the load on the block,
	// which depends on the angle at which the rope is really led off.
	Straight int
}

// A TackleResult is a tackle worked out for a unit of load.
type TackleResult struct {
	Ideal        float64     // rope hauled per length of load travel; the advantage without friction
	Actual       float64     // load ÷ haul with friction, never above Ideal
	HaulTension  float64     // 1 ÷ Actual, per unit of load
	RopePerMetre float64     // metres of rope hauled per metre of load travel
	PartTensions [][]float64 // per rope, from its made-fast end, per unit of load
	NodeLoads    []NodeLoad  // in the order of the nodes
	Velocities   []float64   // in the order of the nodes, positive toward the load's side; the load's is −1
}

// Greatest is the greatest tension in any part of rope and the greatest load on
// any node that is not fast to the anchor, both per unit of load. Where the haul
// is led back toward the load, both can be above the load itself.
func (t TackleResult) Greatest() (part, travelling float64) {
	for _, parts := range t.PartTensions {
		for _, v := range parts {
			part = math.Max(part, v)
		}
	}
	for _, n := range t.NodeLoads {
		if n.Kind != AnchorNode {
			travelling = math.Max(travelling, n.Load)
		}
	}
	return part, travelling
}

// Efficiency is that of the whole tackle, actual over ideal advantage.
func (t TackleResult) Efficiency() float64 { return t.Actual / t.Ideal }

const (
	// maxCondition is the condition number from which a linear system counts
	// as singular. A sound tackle's stays in the hundreds; a singular one of
	// whole numbers comes out near the inverse of the rounding, 1e16.
	maxCondition = 1e10
	// standstill is the speed (per unit of the load's) that counts as none,
	// and the tension (per unit of load) that counts as none: far below what
	// any rope does, far above rounding.
	standstill = 1e-9
)

// Solve works the tackle out for a unit of load, its sheaves having the
// given efficiency (above 0, up to 1; tension in over tension out at a
// half-turn) where a rope names none of its own. Errors are *ReevingError.
//
// Velocities: the load travels at −1 and no rope changes its length,
// Σ d(length of part)/dt = 0, one equation for each rope; the unknowns are
// the velocities of the moving nodes and of the haul.
//
// Tensions: the load pulls with +1 and every moving node and the load are
// in balance. At every sheave the side that the rope runs toward has the
// higher tension, by 1/η. Along one rope the tensions thus stand in known
// ratios, so the unknowns are one tension for each rope, and the matrix is
// that of the velocities, transposed and weighted with those ratios.
//
// Source: virtual work and inextensible ropes, any mechanics textbook; the
// constant ratio at a sheave as in DIN 15020-1 (from memory). Left out: the
// weight and stiffness of the rope, blocks that tip, parts out of line, and
// paying out, where friction acts the other way round.
func (r Reeving) Solve(efficiency float64) (TackleResult, error) {
	if err := checkEfficiency("efficiency", efficiency); err != nil {
		return TackleResult{}, err
	}
	lay, err := r.layOut()
	if err != nil {
		return TackleResult{}, err
	}
	velocities, err := lay.velocities()
	if err != nil {
		return TackleResult{}, err
	}
	ratios := make([][]float64, len(r.Ropes))
	for i, rope := range r.Ropes {
		eta := efficiency
		if rope.Efficiency != 0 {
			eta = rope.Efficiency
		}
		ratios[i] = lay.ratios(i, velocities, eta)
	}
	tensions, err := lay.tensions(ratios)
	if err != nil {
		return TackleResult{}, err
	}

	haulRope := tensions[lay.haulRope]
	result := TackleResult{
		Ideal:        math.Abs(velocities[lay.haul]),
		HaulTension:  haulRope[len(haulRope)-1],
		PartTensions: tensions,
		NodeLoads:    lay.loads(tensions),
		Velocities:   velocities,
	}
	result.RopePerMetre = result.Ideal
	result.Actual = 1 / result.HaulTension
	if result.Actual > result.Ideal {
		// Friction only takes. Rounding may leave the last digit above.
		if result.Actual > result.Ideal*(1+1e-6) {
			return TackleResult{}, tackleFault("", "ill_balanced", "the tensions give an advantage of %g, more than the %g of the rope's travel: the arrangement is too ill-balanced to work out", result.Actual, result.Ideal)
		}
		result.Actual = result.Ideal
		result.HaulTension = 1 / result.Actual
	}
	return result, nil
}

// Validate tells whether the tackle is well formed, by the error Solve would
// give for its structure; whether it moves and holds only Solve can tell.
func (r Reeving) Validate() error {
	_, err := r.layOut()
	return err
}

// Sheaves is the number of sheaves the ropes run over.
func (r Reeving) Sheaves() int {
	n := 0
	for _, rope := range r.Ropes {
		n += max(0, len(rope.Path)-2)
	}
	return n
}

func checkEfficiency(where string, efficiency float64) error {
	if !(efficiency > 0 && efficiency <= 1) {
		return tackleFault(where, "efficiency", "the efficiency of a sheave is %g; it must be above 0 and at most 1", efficiency)
	}
	return nil
}

// reevingLayout is a well-formed reeving by the numbers of its nodes.
type reevingLayout struct {
	nodes                []ReevingNode
	paths                [][]int
	moving               []int
	load, haul, haulRope int
}

func (r Reeving) layOut() (reevingLayout, error) {
	lay := reevingLayout{nodes: r.Nodes, load: -1, haul: -1, haulRope: -1}
	number, err := lay.takeNodes()
	if err != nil {
		return lay, err
	}
	if len(r.Ropes) == 0 || len(r.Ropes) > MaxReevingRopes {
		return lay, tackleFault("ropes", "ropes", "%d ropes; a tackle has 1 to %d", len(r.Ropes), MaxReevingRopes)
	}
	touched := make([]bool, len(r.Nodes))
	for i, rope := range r.Ropes {
		path, err := lay.takeRope(fmt.Sprintf("ropes[%d]", i), rope, number)
		if err != nil {
			return lay, err
		}
		for j, n := range path {
			touched[n] = true
			if n != lay.haul {
				continue
			}
			where := fmt.Sprintf("ropes[%d].path[%d]", i, j)
			if lay.haulRope >= 0 {
				return lay, tackleFault(where, "haul_twice", "the haul %q is on a rope twice; it must end exactly one rope", lay.nodes[n].ID)
			}
			if j != len(path)-1 {
				return lay, tackleFault(where, "haul_not_last", "the haul %q is not the last of its rope; a rope runs from its made-fast end to the haul", lay.nodes[n].ID)
			}
			lay.haulRope = i
		}
		lay.paths = append(lay.paths, path)
	}
	for n, node := range r.Nodes {
		if !touched[n] && node.Kind != AnchorNode {
			return lay, tackleFault(fmt.Sprintf("nodes[%d]", n), "idle_node", "no rope reaches the %s node %q", node.Kind, node.ID)
		}
	}
	switch want := len(lay.moving) + 1; {
	case len(r.Ropes) < want:
		return lay, tackleFault("ropes", "loose", "the arrangement is loose: %d moving nodes need %d ropes, it has %d", len(lay.moving), want, len(r.Ropes))
	case len(r.Ropes) > want:
		return lay, tackleFault("ropes", "over_roped", "the arrangement has too many ropes to move or to share the load in one way: %d moving nodes take %d ropes, it has %d", len(lay.moving), want, len(r.Ropes))
	}
	return lay, nil
}

// takeNodes checks the nodes, sorts out their kinds and numbers their ids.
func (lay *reevingLayout) takeNodes() (map[string]int, error) {
	if len(lay.nodes) == 0 || len(lay.nodes) > MaxReevingNodes {
		return nil, tackleFault("nodes", "nodes", "%d nodes; a tackle has 2 to %d", len(lay.nodes), MaxReevingNodes)
	}
	number := make(map[string]int, len(lay.nodes))
	for n, node := range lay.nodes {
		where := fmt.Sprintf("nodes[%d]", n)
		if node.ID == "" {
			return nil, tackleFault(where+".id", "node_name", "the node has no id; every node needs one of its own")
		}
		if first, ok := number[node.ID]; ok {
			return nil, tackleFault(where+".id", "two_nodes", "the id %q is that of nodes[%d] too; every node needs one of its own", node.ID, first)
		}
		number[node.ID] = n
		if math.IsNaN(node.At) || math.IsInf(node.At, 0) {
			return nil, tackleFault(where+".at", "node_place", "the place %g is not a finite number", node.At)
		}
		switch node.Kind {
		case AnchorNode:
		case MovingNode:
			lay.moving = append(lay.moving, n)
		case LoadNode:
			if lay.load >= 0 {
				return nil, tackleFault(where+".kind", "two_loads", "%q is a second load; a tackle has one", node.ID)
			}
			lay.load = n
		case HaulNode:
			if lay.haul >= 0 {
				return nil, tackleFault(where+".kind", "two_hauls", "%q is a second haul; a tackle has one", node.ID)
			}
			lay.haul = n
		default:
			return nil, tackleFault(where+".kind", "node_kind", "the kind %q is unknown; it is %q, %q, %q or %q", node.Kind, AnchorNode, MovingNode, LoadNode, HaulNode)
		}
	}
	if lay.load < 0 {
		return nil, tackleFault("nodes", "no_load", "no node is the load; a tackle has one node of kind %q", LoadNode)
	}
	if lay.haul < 0 {
		return nil, tackleFault("nodes", "no_haul", "no node is the haul; a tackle has one node of kind %q", HaulNode)
	}
	return number, nil
}

// takeRope checks one rope and gives its path by the numbers of the nodes.
func (lay *reevingLayout) takeRope(where string, rope ReevingRope, number map[string]int) ([]int, error) {
	if rope.Efficiency != 0 {
		if err := checkEfficiency(where+".efficiency", rope.Efficiency); err != nil {
			return nil, err
		}
	}
	if len(rope.Path) < 2 || len(rope.Path) > MaxReevingPath {
		return nil, tackleFault(where+".path", "rope_nodes", "the rope touches %d nodes; it must touch 2 to %d", len(rope.Path), MaxReevingPath)
	}
	path := make([]int, len(rope.Path))
	for j, id := range rope.Path {
		n, ok := number[id]
		if !ok {
			return nil, tackleFault(fmt.Sprintf("%s.path[%d]", where, j), "no_node", "no node has the id %q", id)
		}
		path[j] = n
		if j > 0 && lay.nodes[path[j-1]].At == lay.nodes[n].At {
			return nil, tackleFault(fmt.Sprintf("%s.path[%d]", where, j), "no_length", "the part from %q to %q has no length; the two must lie at different places", rope.Path[j-1], id)
		}
	}
	return path, nil
}

// side is the direction from node a to node b, +1 or −1.
func (lay reevingLayout) side(a, b int) float64 {
	if lay.nodes[b].At > lay.nodes[a].At {
		return 1
	}
	return -1
}

// growth is, node by node, how fast the parts of a rope, each taken with its
// weight, lengthen as that node moves: Σ weight·∂(length)/∂x. Its negative
// is the force on the node when the weights are the tensions.
func (lay reevingLayout) growth(path []int, weights []float64) []float64 {
	g := make([]float64, len(lay.nodes))
	for j, w := range weights {
		a, b := path[j], path[j+1]
		s := lay.side(a, b) * w
		g[a] -= s
		g[b] += s
	}
	return g
}

// velocities of all nodes, the load's being −1.
func (lay reevingLayout) velocities() ([]float64, error) {
	unknown := append(append([]int(nil), lay.moving...), lay.haul)
	size := len(unknown)
	matrix, right := mat.NewDense(size, size, nil), mat.NewVecDense(size, nil)
	for i, path := range lay.paths {
		whole := make([]float64, len(path)-1)
		for j := range whole {
			whole[j] = 1
		}
		g := lay.growth(path, whole)
		for k, n := range unknown {
			matrix.Set(i, k, g[n])
		}
		right.SetVec(i, g[lay.load])
	}
	x, ok := solveLinear(matrix, right)
	if !ok {
		return nil, tackleFault("ropes", "unsettled", "the ropes do not settle how the blocks travel: one block is loose, or a rope is idle or held fast")
	}
	v := make([]float64, len(lay.nodes))
	v[lay.load] = -1
	for k, n := range unknown {
		v[n] = x[k] + 0 // no negative zero
	}
	if math.Abs(v[lay.haul]) <= standstill {
		return nil, tackleFault("ropes", "haul_still", "the haul %q stands still while the load travels; hauling would not move the load", lay.nodes[lay.haul].ID)
	}
	return v, nil
}

// ratios of the tensions along one rope, the highest being 1. A sheave passes
// on toward the next part whatever the parts before it lose in length.
func (lay reevingLayout) ratios(rope int, velocities []float64, efficiency float64) []float64 {
	path := lay.paths[rope]
	c := make([]float64, len(path)-1)
	c[0] = 1
	flow, highest := 0.0, 1.0
	for j := 1; j < len(c); j++ {
		a, b := path[j-1], path[j]
		flow -= lay.side(a, b) * (velocities[b] - velocities[a])
		switch {
		case flow > standstill:
			c[j] = c[j-1] / efficiency
		case flow < -standstill:
			c[j] = c[j-1] * efficiency
		default:
			c[j] = c[j-1]
		}
		highest = math.Max(highest, c[j])
	}
	for j := range c {
		c[j] /= highest
	}
	return c
}

// tensions in every part per unit of load.
func (lay reevingLayout) tensions(ratios [][]float64) ([][]float64, error) {
	balanced := append(append([]int(nil), lay.moving...), lay.load)
	size := len(balanced)
	matrix, right := mat.NewDense(size, size, nil), mat.NewVecDense(size, nil)
	for i, path := range lay.paths {
		g := lay.growth(path, ratios[i])
		for k, n := range balanced {
			matrix.Set(k, i, g[n])
		}
	}
	right.SetVec(size-1, 1) // the load comes last among the balanced
	x, ok := solveLinear(matrix, right)
	if !ok {
		return nil, tackleFault("ropes", "indefinite", "the ropes do not share the load in one definite way: a rope is idle, or friction locks the tackle")
	}
	tensions := make([][]float64, len(lay.paths))
	for i, path := range lay.paths {
		tensions[i] = make([]float64, len(path)-1)
		for j, c := range ratios[i] {
			tension := x[i] * c
			if !(tension > standstill) || math.IsInf(tension, 0) {
				return nil, tackleFault(fmt.Sprintf("ropes[%d]", i), "pushing", "the part from %q to %q would have to push or would hang slack (tension %.3g of the load); a rope only pulls",
					lay.nodes[path[j]].ID, lay.nodes[path[j+1]].ID, tension)
			}
			tensions[i][j] = tension
		}
	}
	return tensions, nil
}

// loads on every node from the tensions.
func (lay reevingLayout) loads(tensions [][]float64) []NodeLoad {
	loads := make([]NodeLoad, len(lay.nodes))
	forward, back := make([]float64, len(loads)), make([]float64, len(loads))
	pull := func(n int, side, tension float64) {
		if side > 0 {
			forward[n] += tension
		} else {
			back[n] += tension
		}
	}
	for i, path := range lay.paths {
		for j, tension := range tensions[i] {
			a, b := path[j], path[j+1]
			side := lay.side(a, b)
			pull(a, side, tension)
			pull(b, -side, tension)
			if j == 0 {
				continue
			}
			loads[a].Sheaves++
			if lay.side(path[j-1], a) == side {
				loads[a].Straight++
			}
		}
	}
	for n, node := range lay.nodes {
		loads[n].ID, loads[n].Kind = node.ID, node.Kind
		loads[n].Load = math.Max(forward[n], back[n])
		loads[n].Net = math.Abs(forward[n] - back[n])
		if node.Kind == MovingNode {
			loads[n].Net = 0 // balanced; what is left is rounding
		}
	}
	return loads
}

// solveLinear solves the square system, and tells false where it is singular
// or too near it to be trusted.
func solveLinear(matrix *mat.Dense, right *mat.VecDense) ([]float64, bool) {
	var lu mat.LU
	lu.Factorize(matrix)
	if !(lu.Cond() <= maxCondition) {
		return nil, false
	}
	var x mat.VecDense
	if err := lu.SolveVecTo(&x, false, right); err != nil {
		return nil, false
	}
	values := make([]float64, x.Len())
	for i := range values {
		values[i] = x.AtVec(i)
		if math.IsNaN(values[i]) || math.IsInf(values[i], 0) {
			return nil, false
		}
	}
	return values, true
}
