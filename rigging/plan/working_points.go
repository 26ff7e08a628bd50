package plan

import (
	"math"
	"slices"

	"pullline/rigging"
	"pullline/rigging/plan/field"
	"pullline/rigging/plan/text"
)

// The steps of the points. $1 and $2 are the letters of the ropes there.
var (
	stepAlone  = step{"alone", "", "R = $1", "kN", []quantity{{"$1", "letter.the_rope", "kN", ""}}}
	stepCorner = step{"corner", "", "R = √($1² + $2² + 2·$1·$2·cos γ)", "kN",
		[]quantity{{"$1", "letter.one_leg", "kN", ""}, {"$2", "letter.the_other", "kN", ""}, {"γ", "letter.angle_between_them", "°", ""}}}
	stepAngle = step{"angle", "", "γ = acos(uₓ·vₓ + u_y·v_y + u_z·v_z)", "°",
		[]quantity{{"uₓ", "letter.one_rope_per_unit_of_its", "", ""}, {"u_y", "letter.to_the_left", "", ""}, {"u_z", "letter.upward", "", ""},
			{"vₓ", "letter.the_other_rope_toward_the_lay", "", ""}, {"v_y", "letter.to_the_left", "", ""}, {"v_z", "letter.upward", "", ""}}}
	// stepSum takes its first four once for each rope.
	stepSum       = step{"sum", "", "R = √(X² + Y² + Z²), X = Σ T·qₓ, Y = Σ T·q_y, Z = Σ T·q_z", "kN", sumQuantities[:4]}
	sumQuantities = []quantity{{"T", "letter.a_rope_here", "kN", ""}, {"qₓ", "letter.its_direction_toward_the_lay", "", ""}, {"q_y", "letter.to_the_left", "", ""}, {"q_z", "letter.upward", "", ""}}
	stepLevel     = step{"level", "", "Rₕ = √(R² − R_v²)", "kN",
		[]quantity{{"R", "letter.whole_load", "kN", ""}, {"R_v", "letter.uplift", "kN", ""}}}
	stepLevelWorst = step{"level_worst", "", "Rₕ = √(X² + Y²)", "kN",
		[]quantity{{"X", "letter.toward_the_lay", "kN", ""}, {"Y", "letter.to_the_left", "kN", ""}}}
	stepPointUse = step{"point_use", "", "u = R/C", "", []quantity{{"R", "letter.load", "kN", ""}, {"C", "letter.what_it_holds", "kN", ""}}}
	stepLevelUse = step{"level_use", "", "u = Rₕ/C", "", []quantity{{"Rₕ", "letter.level_part_of_the_load", "kN", ""}, {"C", "letter.what_it_holds", "kN", ""}}}
	stepJunction = step{"junction", "", "u = max(u₁ …)", "", []quantity{{"u₁", "letter.use_of_a_leg_anchor", "", ""}}}
)

// The steps of what holds a point, by its kind.
var (
	stepRated   = step{"rated", "", "C = C_r", "kN", []quantity{{"C_r", "letter.rated_or_judged_by_a_competent", "kN", ""}}}
	stepMachine = step{"machine", "", "C = min(P, (m·g − R_v)·tan(arctan μ − α))", "kN",
		[]quantity{{"P", "letter.rated_pull", "kN", ""}, {"μ", "letter.traction_on_this_ground", "", ""}, {"m", "letter.mass_of_the_machine", "kg", ""}, {"g", "letter.acceleration_of_free_fall", "m/s²", ""},
			{"α", "letter.slope_positive_where_it_is_dragged", "°", ""}, {"R_v", "letter.uplift", "kN", ""}}}
	stepTree = step{"tree", "", "C = t·ρ·V/(ν·a), V = f·π/4·D²·H", "kN",
		[]quantity{{"t", "letter.turning_moment_for_each_kg_of", "N·m/kg", ""}, {"ρ", "letter.green_density", "kg/m³", ""}, {"V", "letter.stem_volume", "m³", ""}, {"ν", "letter.factor", "", ""},
			{"a", "letter.arm_the_height_of_the_sling", "m", ""}, {"f", "letter.form_factor", "", ""}, {"D", "letter.diameter", "m", ""}, {"H", "letter.height", "m", ""}}}
	stepLog = step{"log", "", "C = p·d·(L − w)·c/ν", "kN",
		[]quantity{{"p", "letter.the_soil_bears_at_this_depth", "kPa", ""}, {"d", "letter.diameter_of_the_log", "m", ""}, {"L", "letter.its_length", "m", ""}, {"w", "letter.slot_for_the_rope", "m", ""},
			{"c", "letter.soil_factor", "", ""}, {"ν", "letter.factor", "", ""}, {"depth", "letter.to_the_middle_of_the_log", "m", ""}, {"slope", "letter.of_the_pull_above_level", "°", ""}}}
	stepPickets = step{"pickets", "", "C = P·c/ν", "kN",
		[]quantity{{"P", "letter.this_group_in_loam_by_the", "kN", ""}, {"c", "letter.soil_factor", "", ""}, {"ν", "letter.factor", "", ""}}}
	stepShared = step{"shared", "", "C = R/u", "kN", []quantity{{"R", "letter.load", "kN", ""}, {"u", "letter.use_of_its_worst_leg", "", ""}}}
	// The legs of a shared anchor. stepLegs takes its last two for each leg.
	stepEqual2 = step{"equal2", "", "$1 = R/(2·cos(γ/2))", "kN", []quantity{{"R", "letter.load_on_the_shared_anchor", "kN", ""}, {"γ", "letter.angle_between_the_legs", "°", ""}}}
	stepSines  = step{"sines", "", "$1 = R·sin α₂/sin γ", "kN",
		[]quantity{{"R", "letter.load_on_the_shared_anchor", "kN", ""}, {"α₂", "letter.the_other_leg_to_the_line", "°", ""}, {"γ", "letter.angle_between_the_legs", "°", ""}}}
	stepLegs = step{"legs", "", "R = Σ B·cos α, nothing across", "kN",
		[]quantity{{"B", "letter.a_leg", "kN", ""}, {"α", "letter.it_to_the_line_of_the", "°", ""}, {"R", "letter.load_on_the_shared_anchor", "kN", ""}}}
)

// A pullRef is a rope that pulls at a point: its letter, tension (kN), the
// way it pulls and the path of the step its tension comes from.
type pullRef struct {
	legRef
	way rigging.Vec
}

// anglePath is the path of the angle between the two ropes at a point.
func anglePath(row int) string { return numbered("points", row, "angle_deg") }

// between is the angle between two ropes at a point, rad.
func (a *pullRef) between(b *pullRef) float64 {
	return math.Acos(math.Max(-1, math.Min(1, a.way.Dot(b.way))))
}

// pullRefs are the ropes at every point in a loading, of the lines that pull.
func (e *evaluation) pullRefs(rep *Report, at loading) [][]pullRef {
	out := make([][]pullRef, len(e.m.points))
	pulls := make([]rigging.Vec, len(e.m.points))
	for i := range e.m.lines {
		l, la, run := &e.m.lines[i], &at.lines[i], &e.runs[i]
		st := la.state
		if at.tensions[i] == 0 && !at.steps {
			continue // slack
		}
		legs, _ := e.legRefs(at, i)
		put := func(s *station, leg *legRef, way rigging.Vec) {
			if !s.onStem {
				out[s.point] = append(out[s.point], pullRef{*leg, way})
			}
		}
		last := len(st.Units) - 1
		for k, u := range st.Units {
			put(&l.stations[k], &legs[k], u)
			put(&l.stations[k+1], &legs[k], u.Scale(-1))
		}
		end := &l.stations[last+1]
		if l.tackle == nil {
			continue
		}
		if len(run.units) == 0 {
			haul := legRef{"S", "", la.first * at.tensions[i] / rigging.KN}
			if at.steps {
				haul.path = numbered("lines", i, "haul_kN")
			}
			put(end, &haul, st.Units[last].Scale(-1))
		}
		for k, u := range run.units {
			put(end, &legs[last+1+k], u)
			end = &l.tackle.haul[k]
			put(end, &legs[last+1+k], u.Scale(-1))
		}
	}
	for _, p := range at.parts {
		pulls[p.point] = pulls[p.point].Add(p.per.Scale(at.tensions[p.line]))
	}
	order, _ := e.bridleOrder()
	for _, i := range order {
		b := &e.bridles[i]
		if !b.usable || pulls[i] == (rigging.Vec{}) {
			continue
		}
		shared, err := b.Share(pulls[i])
		if err != nil {
			continue
		}
		for k, leg := range e.m.points[i].bridle.legs {
			r := pullRef{legRef{BridleSymbol(k), "", shared.Tension[k] / rigging.KN}, b.units[k].Scale(-1)}
			if at.steps {
				r.path = e.bridlePath(rep, i, k)
			}
			out[leg] = append(out[leg], r)
			pulls[leg] = pulls[leg].Sub(b.units[k].Scale(shared.Tension[k]))
		}
	}
	return out
}

// loadingOf is the rig as it makes a greatest load: the lines of the case at
// their tensions, the others slack.
func (e *evaluation) loadingOf(point int, c casing, attitudes []attitude, tensions func(a *attitude) []float64) loading {
	a := &attitudes[c.attitude]
	at := loading{a, make([]float64, len(e.m.lines)), false}
	for g := range e.groups {
		if !slices.Contains(e.groups[g].points, point) {
			continue
		}
		all := tensions(a)
		for n, line := range e.groups[g].lines {
			if c.set>>n&1 == 1 {
				at.tensions[line] = all[line]
			}
		}
	}
	return at
}

// BridleSymbol is the letter of the tension in a leg of a shared anchor.
func BridleSymbol(k int) string { return "B" + string('₁'+rune(k)) }

// row is the place of a point in the report's list, −1 where it is not there.
func (e *evaluation) row(rep *Report, point int) int {
	for i := range rep.Points {
		if rep.Points[i].ID == e.m.points[point].id {
			return i
		}
	}
	return -1
}

func (e *evaluation) bridlePath(rep *Report, point, leg int) string {
	return numbered("points", e.row(rep, point), BridleSymbol(leg))
}

func (e *evaluation) workPoints(w *workings, rep *Report) {
	planned := e.pullRefs(rep, e.plannedStanding())
	most := e.tensionsAtMost(e.mostHauls())
	for i := range e.m.points {
		r := e.row(rep, i)
		if r < 0 {
			continue
		}
		p, h, pt := &e.m.points[i], &e.held[i], &rep.Points[r]
		id := text.Words(p.id)
		at := func(field string) string { return numbered("points", r, field) }
		if pulls := planned[i]; len(pulls) == 2 {
			a, b := &pulls[0], &pulls[1]
			w.addFor(anglePath(r), named("name.angle", id), &stepAngle, Num(a.between(b)/rigging.Deg), a.way.X, a.way.Y, a.way.Z, b.way.X, b.way.Y, b.way.Z)
		}
		workSum(w, at("load_kN"), named("name.load", id), anglePath(r), pt.LoadKN, planned[i])
		greatest := func(field, key string, result Num, c casing, attitudes []attitude, tensions func(a *attitude) []float64) {
			if c != noCase && result.Known() {
				a := &attitudes[c.attitude]
				workSum(w, at(field), named(key, id, tenth(a.turn)), "", result, e.pullRefs(rep, e.loadingOf(i, c, attitudes, tensions))[i])
			}
		}
		greatest("greatest_kN", "name.point_greatest", pt.GreatestKN, e.planned.points[i].loadCase, e.turning, e.plannedTensions)
		level := p.kind.Row().Level
		if level {
			w.addFor(at("horizontal_kN"), named("name.level", id), &stepLevel, pt.HorizontalKN, float64(pt.LoadKN), float64(pt.UpliftKN)).from(0, at("load_kN"))
			w.addFor(at("counts_kN"), named("name.level_worst", id), &stepLevelWorst, Num(h.worst.Horizontal()/rigging.KN), h.worst.X/rigging.KN, h.worst.Y/rigging.KN)
		}
		if p.anchor != nil || p.bridle != nil {
			anchorKinds[p.kind].work(e, w, rep, i)
		}
		use, loadPath := &stepPointUse, at("greatest_kN")
		if level {
			use, loadPath = &stepLevelUse, at("counts_kN")
		}
		if p.bridle == nil {
			x := w.addFor(at("use"), named("name.use", id), use, pt.Use, h.counts/rigging.KN, float64(pt.CapacityKN))
			if level || h.counts == h.greatest.value {
				x.from(0, loadPath)
			}
			x.from(1, at("capacity_kN"))
		}
		greatest("at_most_kN", "name.point_most", pt.AtMostKN, e.most.points[i].loadCase, e.atMost, most)
	}
}

// workSum adds up the ropes at one point.
func workSum(w *workings, path string, name text.Saying, angle string, result Num, pulls []pullRef) {
	switch len(pulls) {
	case 0:
	case 1:
		a := &pulls[0]
		w.addFor(path, name, &stepAlone, result, a.tension).lettered(a.letter, "").from(0, a.path)
	case 2:
		a, b := &pulls[0], &pulls[1]
		first, second := a.letter, b.letter
		if first == second { // of two lines
			first, second = first+"ᵃ", second+"ᵇ"
		}
		x := w.addFor(path, name, &stepCorner, result, a.tension, b.tension, a.between(b)/rigging.Deg).lettered(first, second)
		x.from(0, a.path)
		x.from(1, b.path)
		x.from(2, angle)
	default:
		values := make([]float64, 0, 4*len(pulls))
		for _, a := range pulls {
			values = append(values, a.tension, a.way.X, a.way.Y, a.way.Z)
		}
		x := w.addFor(path, name, &stepSum, result, values...)
		for k := range pulls {
			x.from(4*k, pulls[k].path)
			x.Values[4*k].Saying = text.Saying{Key: x.Values[4*k].Saying.Key + ".which", Args: []any{text.Words(pulls[k].letter)}}
		}
	}
}

// workHold shows what an anchor holds. In from are the fields that its values may
// have from a default, in the values' order, and 0 for others.
func (e *evaluation) workHold(w *workings, rep *Report, i int, s *step, from []field.Field, values ...float64) {
	p := &e.m.points[i]
	x := w.addFor(numbered("points", e.row(rep, i), "capacity_kN"), named("name.holds", text.Words(p.id)), s, Num(e.held[i].capacity/rigging.KN), values...)
	for k, f := range from {
		if f != field.Plan {
			x.from(k, p.path+".anchor."+f.Key())
		}
	}
}

func (e *evaluation) workRated(w *workings, rep *Report, i int) {
	a := e.m.points[i].anchor.(rigging.RatedAnchor)
	e.workHold(w, rep, i, &stepRated, nil, a.Capacity/rigging.KN)
}

func (e *evaluation) workMachine(w *workings, rep *Report, i int) {
	a := e.m.points[i].anchor.(rigging.MachineAnchor)
	e.workHold(w, rep, i, &stepMachine, []field.Field{4: field.MachineSlope},
		a.Rated/rigging.KN, a.Traction, a.Mass, rigging.G, a.Slope/rigging.Deg, e.held[i].worst.Z/rigging.KN)
}

func (e *evaluation) workTreeAnchor(w *workings, rep *Report, i int) {
	a := e.m.points[i].anchor.(rigging.TreeAnchor)
	stem := rigging.Tree{Height: a.Height, Diameter: a.Diameter, FormFactor: a.FormFactor}
	e.workHold(w, rep, i, &stepTree, []field.Field{field.AnchorTurning, field.AnchorDensity, 3: field.AnchorFactor, 5: field.AnchorForm},
		a.Turning, a.Density, stem.StemVolume(), a.Factor, math.Max(rigging.LeastArm, a.SlingHeight), a.FormFactor, a.Diameter, a.Height)
}

func (e *evaluation) workBuriedLog(w *workings, rep *Report, i int) {
	a := e.m.points[i].anchor.(rigging.BuriedLogAnchor)
	slope := math.Max(0, e.held[i].worst.Elevation())
	pressure, err := rigging.BuriedLogPressure(a.Depth, slope)
	if err != nil {
		pressure = math.NaN()
	}
	e.workHold(w, rep, i, &stepLog, []field.Field{3: field.LogSlot, field.LogSoil, field.GroundFactor},
		pressure/1000, a.Diameter, a.Length, a.Slot, a.SoilFactor, a.Factor, a.Depth, slope/rigging.Deg)
}

func (e *evaluation) workPickets(w *workings, rep *Report, i int) {
	a := e.m.points[i].anchor.(rigging.PicketAnchor)
	e.workHold(w, rep, i, &stepPickets, []field.Field{1: field.PicketSoil, field.GroundFactor},
		e.held[i].capacity/rigging.KN/a.SoilFactor*a.Factor, a.SoilFactor, a.Factor)
}

// workBridle shows what the legs of a shared anchor carry and what it holds.
func (e *evaluation) workBridle(w *workings, rep *Report, i int) {
	p, h, r := &e.m.points[i], &e.held[i], e.row(rep, i)
	at := func(field string) string { return numbered("points", r, field) }
	b := &e.bridles[i]
	if !b.usable {
		return
	}
	shared, err := b.Share(h.pull)
	if err != nil {
		return
	}
	var held rigging.Vec
	units := b.units
	taut := 0
	for k := range units {
		held = held.Add(units[k].Scale(shared.Tension[k]))
		if shared.Tension[k] > 0 {
			taut++
		}
	}
	between := func(v, w rigging.Vec) float64 { return math.Atan2(v.Cross(w).Norm(), v.Dot(w)) / rigging.Deg }
	load, two := h.pull.Norm()/rigging.KN, len(units) == 2
	var uses []float64
	worst := -1
	for k, leg := range p.bridle.legs {
		letter, tension := BridleSymbol(k), Num(shared.Tension[k]/rigging.KN)
		name, path := named("name.leg", text.Words(p.id), text.Words(e.m.points[leg].id)), e.bridlePath(rep, i, k)
		switch {
		case two && b.SelfAdjusting:
			w.addFor(path, name, &stepEqual2, tension, load, between(units[0], units[1])).lettered(letter, "").from(0, at("load_kN"))
		case two && taut == 2:
			w.addFor(path, name, &stepSines, tension, load, between(units[1-k], held), between(units[0], units[1])).lettered(letter, "").from(0, at("load_kN"))
		default:
			var values []float64
			for n := range units {
				values = append(values, shared.Tension[n]/rigging.KN, between(units[n], held), load)
			}
			w.addFor(path, name, &stepLegs, tension, values...).from(2, at("load_kN"))
		}
		uses = append(uses, e.held[leg].use)
		if worst < 0 || e.held[leg].use > e.held[p.bridle.legs[worst]].use {
			worst = k
		}
	}
	id := text.Words(p.id)
	x := w.addFor(at("use"), named("name.use", id), &stepJunction, rep.Points[r].Use, uses...)
	for k, leg := range p.bridle.legs {
		x.Values[k].Symbol = "u" + BridleSymbol(k)[1:]
		x.from(k, numbered("points", e.row(rep, leg), "use"))
	}
	x = w.addFor(at("capacity_kN"), named("name.holds", id), &stepShared, rep.Points[r].CapacityKN, h.counts/rigging.KN, uses[worst])
	x.from(0, at("greatest_kN"))
	x.from(1, at("use"))
}
