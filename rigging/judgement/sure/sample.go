package sure

import (
	"maps"
	"math"
	"math/bits"
	"slices"

	"pullline/rigging"
	"pullline/rigging/plan"
	"pullline/rigging/sampling"
)

// A Sample is the draws of one plan so far. More adds to them; what comes of so many
// does not depend on how often it was called.
type Sample struct {
	tree    any
	size    int
	plain   plan.Report
	inputs  []Input
	paths   []string  // those of the inputs, then bearings that turn round with them
	usual   []float64 // the plan's own values there
	turned  [][2]int  // places in paths of what may be drawn below nothing, and of its bearing
	want    []string
	rows    []Row
	planned float64 // kN
	// weaker is how much harder the tree's wood is worked than the plan of a draw says.
	// That gives its strength, and relies on the low end of it; a plan that leaves the
	// strength out relies on the low end of the weakest that may apply. It counts for the
	// first rows, woodRows of them.
	weaker float64

	sequence *sampling.Sequence
	draws    int
	need     sampling.Spread // kN
	hold     sampling.Spread // kN
	uses     []sampling.Spread
	known    []bool      // whether a row's use was known in any draw
	verdicts map[any]int // draws by their verdict
	settled  float64
	before   float64 // 95 % of the pull needed when the draws were last a power of two
	effects  *sampling.Effects
	blocks   int
	moves    []bool // whether an input has changed the pull needed
}

const (
	// A block is one draw of every so many, with each input drawn anew by itself, for
	// its share of the spread.
	blockEvery = 32
	tried      = 4 // blocks that an input gets which changes nothing
	// likely is the part of the draws that the verdict is taken at.
	likely = 0.95
	// woodRows are what the hinge holds to the side, and the stem.
	woodRows = 2
	// together is how many draws are worked out in one go.
	together = 64
)

// Start reads a plan, as plan.EvaluateTo takes it, and draws nothing yet.
func Start(tree any, size int, seed uint64) *Sample {
	s := &Sample{tree: tree, size: size, plain: plan.EvaluateTo(tree, size, plan.ToReport), settled: math.NaN(), before: math.NaN(), verdicts: map[any]int{}}
	if !s.plain.Pull.PeakKN.Known() {
		return s // no pull to be sure of
	}
	s.planned = float64(s.plain.Pull.PlannedKN)
	numbers, given := plan.Numbers(tree)
	for of, bearing := range turnedBy {
		if _, there := numbers[bearing]; !there && numbers[of].Value == 0 {
			numbers[bearing] = plan.Number{Value: backward}
		}
	}
	s.draw(inputsOf(numbers, given), numbers, seed)
	fields := maps.Clone(tree.(map[string]any)) // a plan with a pull is an object
	delete(fields, "plus_minus")                // may be of numbers that a draw does not have
	s.tree = fields

	s.weaker = s.weakerThan(numbers["tree.bending_strength_MPa"])
	s.want = []string{"pull.peak_kN", "pull.hold_puller_to_kN", "verdict"}
	row := func(of, id, want string) { s.want, s.rows = append(s.want, want), append(s.rows, Row{Of: of, ID: id}) }
	row("tree", "side_hold", "tree.side_hold_use")
	row("stem", plan.StemRow, "stem.use")
	row("tree", "closing", "tree.closing_use")
	for _, g := range s.plain.Gear {
		row("gear", g.ID, "gear["+g.ID+"].use")
	}
	for _, p := range s.plain.Points {
		row("points", p.ID, "points["+p.ID+"].use")
	}
	s.uses, s.known = make([]sampling.Spread, len(s.rows)), make([]bool, len(s.rows))
	return s
}

// draw sets the inputs.
func (s *Sample) draw(inputs []Input, numbers map[string]plan.Number, seed uint64) {
	s.inputs, s.paths, s.usual, s.turned = inputs, nil, nil, nil
	for i := range inputs {
		s.paths, s.usual = append(s.paths, inputs[i].Path), append(s.usual, inputs[i].Value)
	}
	for i := range inputs {
		bearing, turns := turnedBy[inputs[i].Path]
		if !turns {
			continue
		}
		k := slices.Index(s.paths, bearing)
		if k < 0 {
			k = len(s.paths)
			s.paths, s.usual = append(s.paths, bearing), append(s.usual, numbers[bearing].Value)
		}
		s.turned = append(s.turned, [2]int{i, k})
	}
	s.sequence = sampling.NewSequence(2*len(inputs), seed)
	s.effects, s.moves = sampling.NewEffects(len(inputs)), make([]bool, len(inputs))
}

func (s *Sample) weakerThan(strength plan.Number) float64 {
	if !strength.Assumed {
		return 1
	}
	fields, _ := s.tree.(map[string]any)
	tree, _ := fields["tree"].(map[string]any)
	key, _ := tree["species"].(string)
	for _, a := range s.plain.Assumed {
		if assumed, ok := a.Value.(string); ok && a.Path == "tree.species" {
			key = assumed
		}
	}
	if species, known := rigging.FindSpecies(key); known {
		return math.Max(1, rigging.HingeReliedOn*species.Strength.Value/species.StrengthLow.Value)
	}
	return 1
}

// values are those at the paths with the inputs at x.
func (s *Sample) values(x []float64) []any {
	v := slices.Clone(s.usual)
	copy(v, x)
	for _, t := range s.turned {
		if v[t[0]] < 0 {
			v[t[0]], v[t[1]] = -v[t[0]], v[t[1]]+backward
		}
		v[t[1]] = math.Remainder(v[t[1]], 360)
	}
	out := make([]any, len(v))
	for i := range v {
		out[i] = v[i]
	}
	return out
}

func (s *Sample) vary(want []string, values [][]any) [][]any {
	rows := plan.Vary(s.tree, s.size, &plan.Variations{Paths: s.paths, Values: values, Want: want, PlannedKN: s.planned}).Rows
	if len(rows) != len(values) {
		return make([][]any, len(values)) // of nothing known
	}
	return rows
}

// More takes n draws more.
func (s *Sample) More(n int) {
	for n > 0 && s.sequence != nil {
		some := min(n, together)
		s.some(some)
		n -= some
	}
}

func (s *Sample) some(n int) {
	d := len(s.inputs)
	points, xs, values := make([][]float64, n), make([][]float64, n), make([][]any, n)
	for k := range n {
		points[k], xs[k] = make([]float64, 2*d), make([]float64, d)
		s.sequence.At(s.draws+k, points[k])
		for i := range xs[k] {
			xs[k][i] = s.inputs[i].spread.Quantile(points[k][i])
		}
		values[k] = s.values(xs[k])
	}
	for k, row := range s.vary(s.want, values) {
		s.take(row)
		need := needed(row)
		if (s.draws+1)%blockEvery == 0 && !math.IsInf(need, 1) {
			s.block(need, xs[k], points[k][d:])
		}
		s.count()
	}
}

// needed is the pull a draw needs (kN), +Inf where the tree cannot be pulled.
func needed(row []any) float64 { return known(row, 0, math.Inf(1)) }

// known is a number of a row, or what it counts as where it is not known.
func known(row []any, at int, otherwise float64) float64 {
	if at < len(row) {
		if v, ok := row[at].(float64); ok {
			return v
		}
	}
	return otherwise
}

// take takes one draw in. What is not known in it counts as over.
func (s *Sample) take(row []any) {
	s.need.Add(needed(row))
	s.hold.Add(known(row, 1, 0))
	var verdict any = rigging.Unknown.String()
	if len(row) > 2 {
		verdict = row[2]
	}
	s.verdicts[verdict]++
	for i := range s.rows {
		use := known(row, 3+i, math.Inf(1))
		s.known[i] = s.known[i] || !math.IsInf(use, 1)
		if i < woodRows {
			use *= s.weaker
		}
		s.uses[i].Add(use)
	}
}

// count goes on to the next draw.
func (s *Sample) count() {
	s.draws++
	if bits.OnesCount(uint(s.draws)) == 1 {
		now := s.need.Quantile(likely)
		s.settled, s.before = math.Abs(now-s.before)/now, now
	}
}

// block draws each input anew by itself.
func (s *Sample) block(base float64, x, fresh []float64) {
	anew := make([]float64, len(x))
	var which []int
	var values [][]any
	for i := range x {
		anew[i] = base
		if s.moves[i] || s.blocks < tried {
			old := x[i]
			x[i] = s.inputs[i].spread.Quantile(fresh[i])
			which, values = append(which, i), append(values, s.values(x))
			x[i] = old
		}
	}
	for k, row := range s.vary(s.want[:1], values) {
		i, v := which[k], needed(row)
		if math.IsInf(v, 1) {
			return // no share of what has no bound
		}
		anew[i] = v
	}
	for i := range x {
		s.moves[i] = s.moves[i] || anew[i] != base
	}
	s.blocks++
	s.effects.Add(base, anew)
}
