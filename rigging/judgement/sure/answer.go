package sure

import (
	"cmp"
	"math"
	"slices"

	"pullline/rigging"
	"pullline/rigging/jsontext"
	"pullline/rigging/plan"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// An Answer is what the draws so far say.
type Answer struct {
	Draws int `json:"draws"`
	// Verdict is the worst of the plan's own, of that which one draw of twenty comes
	// to, and near where the pull needed is more than planned in more of them.
	Verdict      rigging.Verdict `json:"verdict"`
	PlainVerdict rigging.Verdict `json:"plain_verdict"` // of the plan with its own values
	PlannedKN    plan.Num        `json:"planned_kN"`
	NeedKN       Quantiles       `json:"need_kN"` // null where the tree cannot be pulled
	// NeedOverPlanned is the chance that the pull needed is more than planned.
	NeedOverPlanned plan.Num  `json:"need_over_planned"`
	HoldPullerTo    Quantiles `json:"hold_puller_to_kN"` // its 5 % is the safe one
	Rows            []Row     `json:"rows"`
	Shares          []Share   `json:"shares"` // of the spread of the pull needed, greatest first
	// Measure is the path of what to measure again: of all that is measured, what has
	// the greatest share. "" where nothing has one.
	Measure string `json:"measure"`
	// Settled is how far the 95 % of the pull needed has moved, as a part of it, when
	// the draws last doubled.
	Settled  plan.Num       `json:"settled"`
	Inputs   []Input        `json:"inputs"`
	Problems []plan.Problem `json:"problems"`
}

// Quantiles are what 5, 50 and 95 of 100 draws do not exceed.
type Quantiles struct {
	P5  plan.Num `json:"p5"`
	P50 plan.Num `json:"p50"`
	P95 plan.Num `json:"p95"`
}

// A Row is one that the report has a use of, at planned tension: a piece or puller of
// "gear", one of "points", the "stem", or of "tree" what the hinge holds to the side
// (side_hold) and the closing of the face (closing).
type Row struct {
	Of  string    `json:"of"`
	ID  string    `json:"id"`
	Use Quantiles `json:"use"`
	// Over is the chance (0 to 1) that it is over its limit, or that it is not known; null
	// where it is not known in any draw.
	Over plan.Num `json:"over"`
}

// A Share is an input's part of the spread of the pull needed, by its total effect:
// what would be left of it if all others were known.
type Share struct {
	Path  string   `json:"path"`
	Total plan.Num `json:"total"`
}

// leastShare is the share that is worth measuring again for.
const leastShare = 0.01

// Answer tells what the draws so far say.
func (s *Sample) Answer() Answer {
	none := plan.None()
	unknown := Quantiles{none, none, none}
	a := Answer{
		Draws: s.draws, Verdict: s.plain.Verdict, PlainVerdict: s.plain.Verdict, PlannedKN: s.plain.Pull.PlannedKN,
		NeedKN: unknown, NeedOverPlanned: none, HoldPullerTo: unknown, Settled: plan.Num(s.settled),
		Rows: append([]Row{}, s.rows...), Shares: []Share{}, Inputs: append([]Input{}, s.inputs...), Problems: s.plain.Problems,
	}
	for i := range a.Rows {
		a.Rows[i].Use, a.Rows[i].Over = unknown, none
	}
	if s.draws == 0 {
		// Nothing was drawn, so nothing is sure.
		a.Verdict = a.Verdict.Worse(rigging.Unknown)
		return a
	}
	a.NeedKN, a.HoldPullerTo = quantilesOf(&s.need), quantilesOf(&s.hold)
	if len(s.plain.Problems) > 0 {
		a.HoldPullerTo = unknown // nothing is said to hold where something is missing
	}
	a.NeedOverPlanned = plan.Num(s.need.Above(s.planned * (1 + 1e-9)))
	a.Verdict = a.Verdict.Worse(s.likelyVerdict())
	if a.NeedOverPlanned > 1-likely {
		a.Verdict = a.Verdict.Worse(rigging.Near)
	}
	for i := range a.Rows {
		if s.known[i] {
			a.Rows[i].Use, a.Rows[i].Over = quantilesOf(&s.uses[i]), plan.Num(s.uses[i].Above(1))
		}
	}
	for i := range woodRows {
		if s.known[i] {
			a.Verdict = a.Verdict.Worse(judged(s.uses[i].Quantile(likely)))
		}
	}
	a.share(s)
	return a
}

// judged is the verdict on a use, over where it has no bound.
func judged(use float64) rigging.Verdict {
	if math.IsInf(use, 1) {
		return rigging.Over
	}
	return rigging.Judge(use, 1)
}

// likelyVerdict is the best that 95 of 100 draws come to, or better.
func (s *Sample) likelyVerdict() rigging.Verdict {
	verdict, draws := rigging.Over, 0
	for _, v := range []rigging.Verdict{rigging.Over, rigging.Unknown, rigging.Near, rigging.Within} {
		verdict = v
		if draws += s.verdicts[v.String()]; float64(draws) > (1-likely)*float64(s.draws) {
			break
		}
	}
	return verdict
}

// share lists the inputs by their part of the spread.
func (a *Answer) share(s *Sample) {
	if s.blocks == 0 {
		return
	}
	for i, total := range s.effects.Total() {
		a.Shares = append(a.Shares, Share{s.inputs[i].Path, plan.Num(total)})
	}
	measured := map[string]bool{}
	for _, in := range s.inputs {
		measured[in.Path] = in.Measured
	}
	slices.SortStableFunc(a.Shares, func(x, y Share) int { return cmp.Compare(y.Total, x.Total) })
	for _, share := range a.Shares {
		if measured[share.Path] && share.Total >= leastShare {
			a.Measure = share.Path
			break
		}
	}
}

// infinite and unknown numbers are both null where they are written.
func quantilesOf(s interface{ Quantile(float64) float64 }) Quantiles {
	return Quantiles{plan.Num(s.Quantile(1 - likely)), plan.Num(s.Quantile(0.5)), plan.Num(s.Quantile(likely))}
}

// Limits on one call.
const (
	usualDraws = 2000
	mostDraws  = 20_000
)

// A Caller answers for one plan after another. Where plan and seed are those of the
// last call, only what is missing is drawn.
type Caller struct {
	last *Sample
	of   string // plan and seed
}

// Answer is that of so many draws of a plan that package jsontext has read from a text
// of so many bytes.
func (c *Caller) Answer(tree any, size int, seed uint64, draws int) Answer {
	w := jsontext.NewWriter(8 << 10)
	w.Any(tree)
	w.Int("seed", int(seed))
	of := string(w.Bytes())
	if c.last == nil || c.of != of || c.last.draws > draws {
		c.last, c.of = Start(tree, size, seed), of
	}
	c.last.More(draws - c.last.draws)
	return c.last.Answer()
}

// JSON answers {"plan": …, "draws": 2000, "seed": 1} with an Answer.
func (c *Caller) JSON(request []byte) []byte {
	q := plan.ReadRequest(request, "draws", "seed")
	draws := int(q.Number("draws", field.Range{Min: 1, Max: mostDraws, Whole: true}, usualDraws))
	seed := uint64(q.Number("seed", field.Range{Min: 0, Max: 1 << 32, Whole: true}, 1))
	if len(q.Problems) > 0 {
		draws = 0
	}
	a := c.Answer(q.Tree, q.Size, seed, draws)
	if len(q.Problems) > 0 {
		a.Verdict = a.Verdict.Worse(rigging.Unknown)
		a.Problems = append(slices.Clone(q.Problems), a.Problems...)
	}
	plan.TellProblems(a.Problems, &text.Voice{})
	return jsontext.Encode(&a)
}
