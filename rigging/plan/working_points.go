package plan

import (
	"math"

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
	stepPointUse = step{"", "Use of a point", "u = R/C", "", "load over what holds it", []quantity{{"R", "load", "kN", ""}, {"C", "what it holds", "kN", ""}}}
	stepLevelUse = step{"", "Use of a machine or a standing tree", "u = Rₕ/C", "", "this kind holds against the level part", []quantity{{"Rₕ", "level part of the load", "kN", ""}, {"C", "what it holds", "kN", ""}}}
	stepJunction = step{"", "Use of a shared anchor", "u = max(u₁ …)", "", "a shared anchor is as strong as its worst leg", []quantity{{"u₁", "use of a leg's anchor", "", ""}}}
)

// The steps of what holds a point, by its kind.
var (
	stepRated   = step{"", "What a rated point holds", "C = C_r", "kN", thePlan, []quantity{{"C_r", "rated, or judged by a competent person", "kN", ""}}}
	stepMachine = step{"", "What a machine holds", "C = min(P, μ·(m·g·cos α − R_v) − m·g·sin α)", "kN", "statics of a body on a slope, 0 where it slides or is lifted by itself; 1000 N are 1 kN",
		[]quantity{{"P", "rated pull", "kN", ""}, {"μ", "traction on this ground", "", ""}, {"m", "mass of the machine", "kg", ""}, {"g", "acceleration of free fall", "m/s²", ""},
			{"α", "slope, positive where it is dragged downhill", "°", ""}, {"R_v", "uplift", "kN", ""}}}
	stepTree = step{"", "What a standing tree holds", "C = t·ρ·V/(ν·hₛ), V = f·π/4·D²·H", "kN", "critical turning moment by stem mass: K. Byrne, MSc thesis, UBC 2005; 1000 N are 1 kN",
		[]quantity{{"t", "turning moment for each kg of stem", "N·m/kg", ""}, {"ρ", "green density", "kg/m³", ""}, {"V", "stem volume", "m³", ""}, {"ν", "factor", "", ""},
			{"hₛ", "height of the sling", "m", ""}, {"f", "form factor", "", ""}, {"D", "diameter", "m", ""}, {"H", "height", "m", ""}}}
	stepLog = step{"", "What a buried log holds", "C = p·d·(L − w)·c", "kN", "US Army TM 5-5420-278-10, work package 0035, Table 9; 1 kPa is 1 kN/m²",
		[]quantity{{"p", "the soil bears, at this depth and slope of the pull", "kPa", ""}, {"d", "diameter of the log", "m", ""}, {"L", "its length", "m", ""}, {"w", "slot for the rope", "m", ""},
			{"c", "soil factor", "", ""}, {"depth", "to the middle of the log", "m", ""}, {"slope", "of the pull above level", "°", ""}}}
	stepPickets = step{"", "What pickets hold", "C = P·c", "kN", "US Navy NAVEDTRA 14251, ch. 6; US Army FM 5-125, Table 4-1, from memory",
		[]quantity{{"P", "this group in loam, by the table", "kN", ""}, {"c", "soil factor", "", ""}}}
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

// pullRefs are the ropes at every point, as planned or at stall.
func (e *evaluation) pullRefs(rep *Report, stall bool) [][]pullRef {
	out := make([][]pullRef, len(e.m.points))
	for i := range e.m.lines {
		l, ll, st := &e.m.lines[i], &e.loads[i], &e.pull.Standing[i]
		legs, _ := e.legRefs(i)
		if stall {
			for k := range legs {
				legs[k].tension *= ll.stall / ll.tension
				legs[k].path = ""
				if k < len(st.Multiple) && st.Multiple[k] == 1 {
					legs[k].path = numbered("lines", i, "stall_kN")
				}
			}
		}
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
		if len(ll.haulUnits) == 0 {
			haul := legRef{"S", numbered("lines", i, "haul_kN"), ll.first * ll.tension / rigging.KN}
			if stall {
				haul.path, haul.tension = "", ll.first*ll.stall/rigging.KN
			}
			put(end, &haul, st.Units[last].Scale(-1))
		}
		for k, u := range ll.haulUnits {
			put(end, &legs[last+1+k], u)
			end = &l.tackle.haul[k]
			put(end, &legs[last+1+k], u.Scale(-1))
		}
	}
	for i := range e.m.points {
		p := &e.m.points[i]
		if p.bridle == nil || !e.held[i].used {
			continue
		}
		b, ok := e.m.shared(i)
		if !ok {
			continue
		}
		pull := e.held[i].pull
		if stall {
			pull = e.held[i].stall
		}
		shared, err := b.Share(pull)
		if err != nil {
			continue
		}
		for k, leg := range p.bridle.legs {
			u, _ := b.Legs[k].Unit()
			r := pullRef{legRef{BridleSymbol(k), "", shared.Tension[k] / rigging.KN}, u.Scale(-1)}
			if !stall {
				r.path = e.bridlePath(rep, i, k)
			}
			out[leg] = append(out[leg], r)
		}
	}
	return out
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
	planned, stalled := e.pullRefs(rep, false), e.pullRefs(rep, true)
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
		level := p.kind == "machine" || p.kind == "tree"
		if level {
			w.addFor(at("horizontal_kN"), "Level part of the load on "+p.id, &stepLevel, pt.HorizontalKN, float64(pt.LoadKN), float64(pt.UpliftKN)).from(0, at("load_kN"))
		}
		if p.bridle != nil {
			e.workBridle(w, rep, i)
		} else {
			e.workHold(w, at("capacity_kN"), p, h)
		}
		use, load, loadPath := &stepPointUse, pt.LoadKN, at("load_kN")
		if level {
			use, load, loadPath = &stepLevelUse, pt.HorizontalKN, at("horizontal_kN")
		}
		if p.bridle == nil {
			x := w.addFor(at("use"), "Use of "+p.id, use, pt.Use, float64(load), float64(pt.CapacityKN))
			x.from(0, loadPath)
			x.from(1, at("capacity_kN"))
		}
		if pt.StallLoadKN.Known() {
			workSum(w, at("stall_load_kN"), "Load on "+p.id+" if the puller stalls", anglePath(r), pt.StallLoadKN, stalled[i])
		}
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
		fields(w.addFor(path, name, &stepMachine, capacity, a.Rated/rigging.KN, a.Traction, a.Mass, rigging.G, a.Slope/rigging.Deg, h.pull.Z/rigging.KN), "", "", "", "", "slope_deg")
	case rigging.TreeAnchor:
		stem := rigging.Tree{Height: a.Height, Diameter: a.Diameter, FormFactor: a.FormFactor}
		fields(w.addFor(path, name, &stepTree, capacity, a.Turning, a.Density, stem.StemVolume(), a.Factor, a.SlingHeight, a.FormFactor, a.Diameter, a.Height), "turning_Nm_per_kg", "green_density_kgm3", "", "factor", "", "form_factor")
	case rigging.BuriedLogAnchor:
		slope := math.Max(0, h.pull.Elevation())
		pressure, err := rigging.BuriedLogPressure(a.Depth, slope)
		if err != nil {
			pressure = math.NaN()
		}
		fields(w.addFor(path, name, &stepLog, capacity, pressure/1000, a.Diameter, a.Length, a.Slot, a.SoilFactor, a.Depth, slope/rigging.Deg), "", "", "", "slot_m", "soil_factor")
	case rigging.PicketAnchor:
		fields(w.addFor(path, name, &stepPickets, capacity, h.capacity/rigging.KN/a.SoilFactor, a.SoilFactor), "", "soil_factor")
	}
}

// workBridle shows what the legs of a shared anchor carry and what it holds.
func (e *evaluation) workBridle(w *workings, rep *Report, i int) {
	p, h, r := &e.m.points[i], &e.held[i], e.row(rep, i)
	at := func(field string) string { return numbered("points", r, field) }
	b, ok := e.m.shared(i)
	if !ok {
		return
	}
	shared, err := b.Share(h.pull)
	if err != nil {
		return
	}
	var held rigging.Vec
	units := make([]rigging.Vec, len(b.Legs))
	taut := 0
	for k, leg := range b.Legs {
		units[k], _ = leg.Unit()
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
	x = w.addFor(at("capacity_kN"), "What "+p.id+" holds", &stepShared, rep.Points[r].CapacityKN, load, uses[worst])
	x.from(0, at("load_kN"))
	x.from(1, at("use"))
}
