package plan

import (
	"math"
	"slices"

	"pullline/rigging"
)

// The steps of the points. $1 and $2 are the letters of the ropes there.
var (
	stepAlone  = step{"", "Load where one rope is made fast", "R = $1", "kN", "one rope is made fast here", []quantity{{"$1", "the rope", "kN", ""}}}
	stepCorner = step{"", "Load of two ropes: a block, an anchor of a tackle", "R = √($1² + $2² + 2·$1·$2·cos γ)", "kN", "parallelogram of forces: the vector sum of both legs",
		[]quantity{{"$1", "one leg", "kN", ""}, {"$2", "the other", "kN", ""}, {"γ", "angle between them", "°", ""}}}
	stepAngle = step{"", "Angle between two ropes", "γ = acos(uₓ·vₓ + u_y·v_y + u_z·v_z)", "°", "geometry: the scalar product of two directions",
		[]quantity{{"uₓ", "one rope, per unit of its length: toward the lay", "", ""}, {"u_y", "to the left", "", ""}, {"u_z", "upward", "", ""},
			{"vₓ", "the other rope: toward the lay", "", ""}, {"v_y", "to the left", "", ""}, {"v_z", "upward", "", ""}}}
	// stepSum takes its first four once for each rope.
	stepSum       = step{"", "Load of several ropes", "R = √(X² + Y² + Z²), X = Σ T·qₓ, Y = Σ T·q_y, Z = Σ T·q_z", "kN", "vector sum of all ropes here", sumQuantities[:4]}
	sumQuantities = []quantity{{"T", "a rope here", "kN", ""}, {"qₓ", "its direction: toward the lay", "", ""}, {"q_y", "to the left", "", ""}, {"q_z", "upward", "", ""}}
	stepLevel     = step{"", "Level part of a load", "Rₕ = √(R² − R_v²)", "kN", "the level part; the angle of the pull parts it",
		[]quantity{{"R", "whole load", "kN", ""}, {"R_v", "uplift", "kN", ""}}}
	stepLevelWorst = step{"", "Level part of a load at its worst", "Rₕ = √(X² + Y²)", "kN", "of all turns until the tree falls by itself, that which uses most of what holds the point",
		[]quantity{{"X", "toward the lay", "kN", ""}, {"Y", "to the left", "kN", ""}}}
	stepPointUse = step{"", "Use of a point", "u = R/C", "", "load over what holds it", []quantity{{"R", "load", "kN", ""}, {"C", "what it holds", "kN", ""}}}
	stepLevelUse = step{"", "Use of a machine or a standing tree", "u = Rₕ/C", "", "this kind holds against the level part", []quantity{{"Rₕ", "level part of the load", "kN", ""}, {"C", "what it holds", "kN", ""}}}
	stepJunction = step{"", "Use of a shared anchor", "u = max(u₁ …)", "", "a shared anchor is as strong as its worst leg", []quantity{{"u₁", "use of a leg's anchor", "", ""}}}
)

// The steps of what holds a point, by its kind.
var (
	stepRated   = step{"", "What a rated point holds", "C = C_r", "kN", thePlan, []quantity{{"C_r", "rated, or judged by a competent person", "kN", ""}}}
	stepMachine = step{"", "What a machine holds", "C = min(P, (m·g − R_v)·tan(arctan μ − α))", "kN", "statics of a level pull on a body on a slope, 0 where it slides or is lifted by itself; 1000 N are 1 kN",
		[]quantity{{"P", "rated pull", "kN", ""}, {"μ", "traction on this ground", "", ""}, {"m", "mass of the machine", "kg", ""}, {"g", "acceleration of free fall", "m/s²", ""},
			{"α", "slope, positive where it is dragged downhill", "°", ""}, {"R_v", "uplift", "kN", ""}}}
	stepTree = step{"", "What a standing tree or a stump holds", "C = t·ρ·V/(ν·a), V = f·π/4·D²·H", "kN", "critical turning moment by stem mass: K. Byrne, MSc thesis, UBC 2005; 1000 N are 1 kN",
		[]quantity{{"t", "turning moment for each kg of stem", "N·m/kg", ""}, {"ρ", "green density", "kg/m³", ""}, {"V", "stem volume", "m³", ""}, {"ν", "factor", "", ""},
			{"a", "arm: the height of the sling, at least 1 m", "m", ""}, {"f", "form factor", "", ""}, {"D", "diameter", "m", ""}, {"H", "height", "m", ""}}}
	stepLog = step{"", "What a buried log holds", "C = p·d·(L − w)·c/ν", "kN", "US Army TM 5-5420-278-10, work package 0035, Table 9; 1 kPa is 1 kN/m²",
		[]quantity{{"p", "the soil bears, at this depth and slope of the pull", "kPa", ""}, {"d", "diameter of the log", "m", ""}, {"L", "its length", "m", ""}, {"w", "slot for the rope", "m", ""},
			{"c", "soil factor", "", ""}, {"ν", "factor", "", ""}, {"depth", "to the middle of the log", "m", ""}, {"slope", "of the pull above level", "°", ""}}}
	stepPickets = step{"", "What pickets hold", "C = P·c/ν", "kN", "US Navy NAVEDTRA 14251, ch. 6; US Army FM 5-125, Table 4-1, from memory",
		[]quantity{{"P", "this group in loam, by the table", "kN", ""}, {"c", "soil factor", "", ""}, {"ν", "factor", "", ""}}}
	stepShared = step{"", "What a shared anchor holds", "C = R/u", "kN", "the load at which its worst leg is used up", []quantity{{"R", "load", "kN", ""}, {"u", "use of its worst leg", "", ""}}}
	// The legs of a shared anchor. stepLegs takes its last two for each leg.
	stepEqual2 = step{"", "Two self-adjusting legs of a shared anchor", "$1 = R/(2·cos(γ/2))", "kN", "self-adjusting: both legs carry the same", []quantity{{"R", "load on the shared anchor", "kN", ""}, {"γ", "angle between the legs", "°", ""}}}
	stepSines  = step{"", "Two fixed legs of a shared anchor", "$1 = R·sin α₂/sin γ", "kN", "triangle of forces; the junction moves into line with the pull",
		[]quantity{{"R", "load on the shared anchor", "kN", ""}, {"α₂", "the other leg to the line of the pull", "°", ""}, {"γ", "angle between the legs", "°", ""}}}
	stepLegs = step{"", "Other legs of a shared anchor", "R = Σ B·cos α, nothing across", "kN", "force balance of the junction; no leg can push",
		[]quantity{{"B", "a leg", "kN", ""}, {"α", "it to the line of the pull", "°", ""}, {"R", "load on the shared anchor", "kN", ""}}}
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
		w.of = p.id
		at := func(field string) string { return numbered("points", r, field) }
		if pulls := planned[i]; len(pulls) == 2 {
			a, b := &pulls[0], &pulls[1]
			w.addFor(anglePath(r), "Angle between the ropes at "+p.id, &stepAngle, Num(a.between(b)/rigging.Deg), a.way.X, a.way.Y, a.way.Z, b.way.X, b.way.Y, b.way.Z)
		}
		workSum(w, at("load_kN"), "Load on "+p.id, anglePath(r), pt.LoadKN, planned[i])
		greatest := func(field, name string, result Num, c casing, attitudes []attitude, tensions func(a *attitude) []float64) {
			if c != noCase && result.Known() {
				a := &attitudes[c.attitude]
				name += ", at a turn of " + short(math.Round(a.turn/rigging.Deg*10)/10) + "°"
				workSum(w, at(field), name, "", result, e.pullRefs(rep, e.loadingOf(i, c, attitudes, tensions))[i])
			}
		}
		greatest("greatest_kN", "Greatest load on "+p.id, pt.GreatestKN, e.planned.points[i].loadCase, e.turning, e.plannedTensions)
		level := HoldsLevel(p.kind)
		if level {
			w.addFor(at("horizontal_kN"), "Level part of the load on "+p.id, &stepLevel, pt.HorizontalKN, float64(pt.LoadKN), float64(pt.UpliftKN)).from(0, at("load_kN"))
			w.addFor(at("counts_kN"), "Level part of the load on "+p.id+" at its worst", &stepLevelWorst, Num(h.worst.Horizontal()/rigging.KN), h.worst.X/rigging.KN, h.worst.Y/rigging.KN)
		}
		if p.bridle != nil {
			e.workBridle(w, rep, i)
		} else {
			e.workHold(w, at("capacity_kN"), p, h)
		}
		use, loadPath := &stepPointUse, at("greatest_kN")
		if level {
			use, loadPath = &stepLevelUse, at("counts_kN")
		}
		if p.bridle == nil {
			x := w.addFor(at("use"), "Use of "+p.id, use, pt.Use, h.counts/rigging.KN, float64(pt.CapacityKN))
			if level || h.counts == h.greatest.value {
				x.from(0, loadPath)
			}
			x.from(1, at("capacity_kN"))
		}
		greatest("at_most_kN", "Load on "+p.id+" at most", pt.AtMostKN, e.most.points[i].loadCase, e.atMost, most)
	}
}

// workSum adds up the ropes at one point.
func workSum(w *workings, path, name, angle string, result Num, pulls []pullRef) {
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
			x.Values[4*k].Name += ", " + pulls[k].letter
		}
	}
}

// workHold shows what an anchor holds.
func (e *evaluation) workHold(w *workings, path string, p *point, h *held) {
	name, capacity := "What "+p.id+" holds", Num(h.capacity/rigging.KN)
	// Values and the fields of the anchor that may be left to a default.
	fields := func(x *Working, keys ...string) {
		for i, key := range keys {
			if key != "" {
				x.from(i, p.path+".anchor."+key)
			}
		}
	}
	switch a := p.anchor.(type) {
	case rigging.RatedAnchor:
		w.addFor(path, name, &stepRated, capacity, a.Capacity/rigging.KN)
	case rigging.MachineAnchor:
		fields(w.addFor(path, name, &stepMachine, capacity, a.Rated/rigging.KN, a.Traction, a.Mass, rigging.G, a.Slope/rigging.Deg, h.worst.Z/rigging.KN), "", "", "", "", "slope_deg")
	case rigging.TreeAnchor:
		stem := rigging.Tree{Height: a.Height, Diameter: a.Diameter, FormFactor: a.FormFactor}
		fields(w.addFor(path, name, &stepTree, capacity, a.Turning, a.Density, stem.StemVolume(), a.Factor, math.Max(rigging.LeastArm, a.SlingHeight), a.FormFactor, a.Diameter, a.Height), "turning_Nm_per_kg", "green_density_kgm3", "", "factor", "", "form_factor")
	case rigging.BuriedLogAnchor:
		slope := math.Max(0, h.worst.Elevation())
		pressure, err := rigging.BuriedLogPressure(a.Depth, slope)
		if err != nil {
			pressure = math.NaN()
		}
		fields(w.addFor(path, name, &stepLog, capacity, pressure/1000, a.Diameter, a.Length, a.Slot, a.SoilFactor, a.Factor, a.Depth, slope/rigging.Deg), "", "", "", "slot_m", "soil_factor", "factor")
	case rigging.PicketAnchor:
		fields(w.addFor(path, name, &stepPickets, capacity, h.capacity/rigging.KN/a.SoilFactor*a.Factor, a.SoilFactor, a.Factor), "", "soil_factor", "factor")
	}
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
		w.of = p.id + " to " + e.m.points[leg].id
		name, path := "Leg of "+w.of, e.bridlePath(rep, i, k)
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
	w.of = p.id
	x := w.addFor(at("use"), "Use of "+p.id, &stepJunction, rep.Points[r].Use, uses...)
	for k, leg := range p.bridle.legs {
		x.Values[k].Symbol = "u" + BridleSymbol(k)[1:]
		x.from(k, numbered("points", e.row(rep, leg), "use"))
	}
	x = w.addFor(at("capacity_kN"), "What "+p.id+" holds", &stepShared, rep.Points[r].CapacityKN, h.counts/rigging.KN, uses[worst])
	x.from(0, at("greatest_kN"))
	x.from(1, at("use"))
}
