package plan

import (
	"fmt"
	"math"
	"slices"

	"pullline/rigging"
)

// anchor reads what holds a point. A value missing or not accepted leaves
// the capacity NaN, so that the point is unknown.
func (r *reader) anchor(o *object, m *model, p *point) {
	v, given := o.take("anchor")
	if !given {
		return
	}
	a := r.object(o.at("anchor"), v, false)
	p.kind = a.choice("kind", "rated", "machine", "tree", "buried_log", "pickets", "bridle")
	if p.kind == "" && !a.has("kind") {
		a.problem("kind", "one of rated, machine, tree, buried_log, pickets, bridle", nil, "the kind of anchor is missing")
	}
	switch p.kind {
	case "rated":
		p.anchor = rigging.RatedAnchor{Capacity: a.required("capacity_kN", spanForce) * rigging.KN}
	case "machine":
		p.anchor = rigging.MachineAnchor{
			Mass:     a.required("mass_kg", Range{Min: 50, Max: 500000, Unit: "kg"}),
			Traction: a.required("traction", Range{Min: 0.02, Max: 1.5}),
			Slope:    a.optional("slope_deg", Range{Min: -45, Max: 45, Unit: "°"}, 0, "level ground under the machine", "", "") * rigging.Deg,
			Rated:    a.required("rated_kN", spanForce) * rigging.KN,
		}
	case "tree":
		t := rigging.TreeAnchor{
			Diameter:    a.required("diameter_cm", spanDiameter) * rigging.CM,
			Height:      a.required("height_m", spanHeight),
			FormFactor:  a.optional("form_factor", Range{Min: 0.2, Max: 1}, anchorForm.Value, anchorForm.Note, anchorForm.Source.Text, string(anchorForm.Source.Basis)),
			Density:     a.optional("green_density_kgm3", Range{Min: 200, Max: 1500, Unit: "kg/m³"}, anchorDensity.Value, anchorDensity.Note, anchorDensity.Source.Text, string(anchorDensity.Source.Basis)),
			Turning:     a.optional("turning_Nm_per_kg", Range{Min: 10, Max: 300, Unit: "N·m/kg"}, anyTurning.Value, "the lowest of four conifers winched over", anyTurning.Source.Text, string(anyTurning.Source.Basis)),
			SlingHeight: a.required("sling_height_m", Range{Min: 0.1, Max: 30, Unit: "m"}),
			Factor:      a.optional("factor", Range{Min: 1, Max: 20}, 3, "a third of what would turn it over", "", basisPractice),
		}
		if t.SlingHeight > t.Height {
			a.problem("sling_height_m", "no higher than the tree", t.SlingHeight, "the sling sits above the top of the tree")
		}
		p.lowSling = t.SlingHeight < 1
		p.anchor = t
	case "buried_log":
		b := rigging.BuriedLogAnchor{
			Depth:      a.required("depth_m", Range{Min: 0.3, Max: 6, Unit: "m"}),
			Length:     a.required("length_m", Range{Min: 0.3, Max: 20, Unit: "m"}),
			Diameter:   a.required("diameter_cm", Range{Min: 5, Max: 200, Unit: "cm"}) * rigging.CM,
			Slot:       a.optional("slot_m", Range{Min: 0, Max: 3, Unit: "m"}, rigging.BuriedLogSlot, "one foot for the rope's slot", "TM 5-5420-278-10, work package 0035", "published"),
			SoilFactor: a.optional("soil_factor", Range{Min: 0, Max: 5, Above: true}, 1, "loam, undisturbed and dry", "TM 5-5420-278-10, work package 0035, table 9", "published"),
		}
		p.slender = b.Length > 5*b.Diameter
		p.anchor = b
	case "pickets":
		const pickRows = "such as [1, 1, 1] or [3, 2, 1]"
		k := rigging.PicketAnchor{SoilFactor: a.optional("soil_factor", Range{Min: 0, Max: 1, Above: true}, 1, "undisturbed loam", "NAVEDTRA 14251 ch. 6", "published")}
		ok := a.has("rows")
		if !ok {
			a.problem("rows", pickRows, nil, "the rows of pickets are missing")
		}
		for i, raw := range a.list("rows", maxList) {
			n, good := r.value(fmt.Sprintf("%s.rows[%d]", a.path, i), raw, Range{Min: 1, Max: 9, Whole: true}, false)
			ok = ok && good
			k.Rows = append(k.Rows, int(orZero(n)))
		}
		if ok && len(k.Rows) == 0 {
			a.problem("rows", pickRows, nil, "the rows of pickets are missing")
		} else if ok {
			p.anchor = k
		}
	case "bridle":
		p.bridle = &bridle{selfAdjusting: a.flag("self_adjusting")}
		for i, raw := range a.list("legs", 3) {
			lo := r.object(fmt.Sprintf("%s.legs[%d]", a.path, i), raw, false)
			leg := lo.pointNamed(m, "point")
			if leg >= 0 && slices.Contains(p.bridle.legs, leg) {
				lo.problem("point", "a point that no other leg leads to", shorten(m.points[leg].id), "two legs lead to %s; each leg needs a point of its own", quote(m.points[leg].id))
			}
			p.bridle.legs = append(p.bridle.legs, leg)
			lo.done()
		}
		if len(p.bridle.legs) < 2 {
			a.problem("legs", "two or three legs", len(p.bridle.legs), "a shared anchor needs two or three legs, each naming a point")
		}
	}
	a.done()
}

// A held point is a point's load, what it holds, and its state at stall.
type held struct {
	used       bool
	pull       rigging.Vec // N on the anchor
	stall      rigging.Vec
	stallKnown bool
	block      float64 // N, greatest load on a single block here
	blockStall float64
	load       float64 // N, the part that matters for the kind
	capacity   float64 // N, NaN where unknown
	stallLoad  float64
	included   float64 // rad, NaN without a block
	verdict    rigging.Verdict
	stallState rigging.Verdict
	use        float64
	stallUse   float64
}

// hold judges every point, legs of shared anchors before the junctions that
// load them. Problems and cautions are added to e.
func (e *evaluation) hold() {
	order, circular := e.bridleOrder()
	for _, i := range order {
		p, h := &e.m.points[i], &e.held[i]
		if p.bridle != nil && h.used && !circular[i] {
			e.share(i, p, h)
		}
	}
	for _, i := range order {
		if e.m.points[i].bridle == nil {
			e.judge(i)
		}
	}
	// Junctions last, inner ones first: each is as strong as its worst leg.
	for k := len(order) - 1; k >= 0; k-- {
		if i := order[k]; e.m.points[i].bridle != nil {
			e.judgeJunction(i, circular[i])
		}
	}
}

// bridleOrder lists the points so that a junction comes before its legs, and
// marks junctions that load themselves in a circle.
func (e *evaluation) bridleOrder() (order []int, circular []bool) {
	n := len(e.m.points)
	circular = make([]bool, n)
	state := make([]int, n) // 0 not seen, 1 being followed, 2 done
	var visit func(i int) bool
	visit = func(i int) bool {
		if state[i] == 1 {
			return false
		}
		if state[i] == 2 {
			return !circular[i]
		}
		state[i] = 1
		if b := e.m.points[i].bridle; b != nil {
			for _, leg := range b.legs {
				if leg >= 0 && !visit(leg) {
					circular[i] = true
				}
			}
		}
		state[i] = 2
		order = append(order, i)
		return !circular[i]
	}
	for i := range n {
		visit(i)
	}
	for a, b := 0, len(order)-1; a < b; a, b = a+1, b-1 {
		order[a], order[b] = order[b], order[a]
	}
	return order, circular
}

// shared is the bridle at junction i; false where one of its legs names no
// point, which is reported where it was read.
func (m *model) shared(i int) (rigging.Bridle, bool) {
	p := &m.points[i]
	b := rigging.Bridle{SelfAdjusting: p.bridle.selfAdjusting}
	for _, leg := range p.bridle.legs {
		if leg < 0 {
			return b, false
		}
		b.Legs = append(b.Legs, m.points[leg].at.Sub(p.at))
	}
	return b, true
}

// shareInto adds to the pulls on the legs' points what the pull on junction
// i puts there; false where it cannot be held.
func (m *model) shareInto(i int, pulls []rigging.Vec) bool {
	b, ok := m.shared(i)
	if !ok {
		return false
	}
	shared, err := b.Share(pulls[i])
	if err != nil {
		return false
	}
	for k, leg := range m.points[i].bridle.legs {
		u, err := b.Legs[k].Unit()
		if err != nil {
			return false
		}
		pulls[leg] = pulls[leg].Sub(u.Scale(shared.Tension[k]))
	}
	return true
}

func (e *evaluation) share(i int, p *point, h *held) {
	path := p.path + ".anchor"
	b, ok := e.m.shared(i)
	if !ok {
		return
	}
	shared, err := b.Share(h.pull)
	if err != nil {
		e.r.problem(path+".legs", "two or three legs that lie against the pull", nil, "%s: %s", quote(p.id), err)
		return
	}
	stallKnown := h.stallKnown
	stall, err := b.Share(h.stall)
	if err != nil {
		stallKnown = false
		stall = rigging.Shared{Tension: make([]float64, len(b.Legs))}
	}
	for k, leg := range p.bridle.legs {
		u, err := b.Legs[k].Unit()
		if err != nil {
			continue
		}
		l := &e.held[leg]
		l.used = true
		l.pull = l.pull.Sub(u.Scale(shared.Tension[k]))
		l.stall = l.stall.Sub(u.Scale(stall.Tension[k]))
		l.stallKnown = l.stallKnown && stallKnown
		if shared.Slack[k] {
			e.caution("bridle_slack", path, "The leg of the shared anchor %s to %s hangs slack: it would have to push, so the other legs carry everything.", "equilibrium of the junction", p.id, e.m.points[leg].id)
		}
	}
	if shared.Off > 5*rigging.Deg {
		e.caution("bridle_moves", path, "The pull on the shared anchor %s is %.0f° off what its legs can hold in place: the junction moves until they are in line. The legs are computed for the full pull.", "equilibrium of the junction", p.id, math.Ceil(shared.Off/rigging.Deg))
	}

}

func (e *evaluation) judge(i int) {
	p, h := &e.m.points[i], &e.held[i]
	h.capacity, h.stallLoad = math.NaN(), math.NaN()
	h.load = h.pull.Norm()
	h.use, h.stallUse = math.NaN(), math.NaN()
	if !h.used {
		return
	}
	stallCapacity := math.NaN()
	if h.stallKnown {
		h.stallLoad = h.stall.Norm()
	}
	if p.anchor == nil {
		if p.kind == "" {
			if math.IsNaN(h.load) {
				e.r.problem(p.path+".anchor", "what holds this point", nil, "point %s carries a load, but nothing is said of what holds it", quote(p.id))
			} else {
				e.r.problem(p.path+".anchor", "what holds this point", nil, "point %s carries %s, but nothing is said of what holds it", quote(p.id), kilonewtons(h.load))
			}
		}
		return
	}
	if math.IsNaN(h.load) {
		return // what keeps it from being known is a problem already
	}
	load, capacity, err := p.anchor.Hold(h.pull)
	if err != nil {
		if len(e.r.problemsAt(p.path+".anchor")) > 0 {
			return // the value it cannot be computed from is named already
		}
		e.r.problem(p.path+".anchor", "an anchor its table covers", nil, "what holds point %s cannot be computed: %s", quote(p.id), err)
		return
	}
	h.load, h.capacity = load, capacity
	if load == 0 && capacity == 0 { // nothing on nothing is not judged; only a machine comes to that
		e.r.problem(p.path+".anchor", "a slope that the traction holds", nil, "the machine at %s does not stand on its slope with the traction given: it holds nothing", quote(p.id))
	}
	if h.stallKnown {
		if h.stallLoad, stallCapacity, err = p.anchor.Hold(h.stall); err != nil {
			stallCapacity = math.NaN()
		}
	}
	h.use, h.verdict = rigging.Use(load, capacity), rigging.Judge(load, capacity)
	h.stallUse, h.stallState = rigging.Use(h.stallLoad, stallCapacity), rigging.Judge(h.stallLoad, stallCapacity)
}

func (e *evaluation) judgeJunction(i int, circular bool) {
	p, h := &e.m.points[i], &e.held[i]
	h.load, h.capacity, h.use, h.stallUse, h.stallLoad = h.pull.Norm(), math.NaN(), math.NaN(), math.NaN(), math.NaN()
	if !h.used {
		return
	}
	if h.stallKnown {
		h.stallLoad = h.stall.Norm()
	}
	if circular {
		e.r.problem(p.path+".anchor.legs", "legs that do not lead back here", nil, "the shared anchor %s is held by itself, directly or through another", quote(p.id))
		return
	}
	if len(p.bridle.legs) < 2 {
		return
	}
	h.verdict, h.stallState = rigging.Within, rigging.Within
	worst, stallWorst := 0.0, 0.0
	for _, leg := range p.bridle.legs {
		if leg < 0 || !e.held[leg].used {
			h.verdict, h.stallState = h.verdict.Worse(rigging.Unknown), h.stallState.Worse(rigging.Unknown)
			worst = math.NaN()
			continue
		}
		l := &e.held[leg]
		h.verdict, h.stallState = h.verdict.Worse(l.verdict), h.stallState.Worse(l.stallState)
		// math.Max keeps a NaN, so one leg that is not known leaves the use unknown.
		worst, stallWorst = math.Max(worst, l.use), math.Max(stallWorst, l.stallUse)
	}
	h.use, h.stallUse = worst, stallWorst
	if worst > 0 && !math.IsInf(worst, 0) {
		h.capacity = h.load / worst
	}
}
