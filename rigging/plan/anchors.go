package plan

import (
	"slices"

	"pullline/rigging"
	"pullline/rigging/plan/text"
)

var anchorKinds = []string{"rated", "machine", "tree", "stump", "buried_log", "pickets", "bridle"}

// HoldsLevel says whether a kind of anchor holds against the level part of a
// pull; the others hold against the whole of it.
func HoldsLevel(kind string) bool { return kind == "machine" || kind == "tree" || kind == "stump" }

// anchor reads what holds a point. A value missing or not accepted leaves
// the capacity NaN, so that the point is unknown.
func (r *reader) anchor(o *object, m *model, p *point) {
	v, given := o.take("anchor")
	if !given {
		return
	}
	a := r.object(o.at("anchor"), v, false)
	p.kind = a.choice("kind", anchorKinds...)
	if p.kind == "" && !a.has("kind") {
		a.problem(CodeMissing, "kind", oneOf(anchorKinds...), nil, "missing.choice", text.Field("kind"), joined(anchorKinds))
	}
	switch p.kind {
	case "rated":
		p.anchor = rigging.RatedAnchor{Capacity: a.required("capacity_kN", spanForce) * rigging.KN}
	case "machine":
		p.anchor = rigging.MachineAnchor{
			Mass:     a.required("mass_kg", Range{Min: 50, Max: 500000, Unit: "kg"}),
			Traction: a.required("traction", Range{Min: 0.02, Max: 1.2}),
			Slope:    a.optional("slope_deg", Range{Min: -45, Max: 45, Unit: "°"}, 0, "level_machine", "", "") * rigging.Deg,
			Rated:    a.required("rated_kN", spanForce) * rigging.KN,
		}
	case "tree", "stump":
		factorWhy, factorBasis := "anchor_factor", string(anchorFactor.Source.Basis)
		if p.kind == "stump" {
			factorWhy, factorBasis = "stump_factor", basisMemory
		}
		t := rigging.TreeAnchor{
			Diameter:    a.required("diameter_cm", spanDiameter) * rigging.CM,
			Height:      a.required("height_m", spanHeight),
			FormFactor:  a.optional("form_factor", Range{Min: 0.2, Max: 1}, anchorForm.Value, "anchor_form", anchorForm.Source.Text, string(anchorForm.Source.Basis)),
			Density:     a.optional("green_density_kgm3", Range{Min: 200, Max: 1500, Unit: "kg/m³"}, anchorDensity.Value, "anchor_density", anchorDensity.Source.Text, string(anchorDensity.Source.Basis)),
			Turning:     a.optional("turning_Nm_per_kg", Range{Min: 10, Max: 300, Unit: "N·m/kg"}, anyTurning.Value, "anchor_turning", anyTurning.Source.Text, string(anyTurning.Source.Basis)),
			SlingHeight: a.required("sling_height_m", Range{Min: 0.1, Max: 30, Unit: "m"}),
			Factor:      a.optional("factor", Range{Min: 1, Max: 20}, anchorFactor.Value, factorWhy, "", factorBasis),
		}
		if t.SlingHeight > t.Height {
			a.problem(CodeRange, "sling_height_m", takes("below_top"), t.SlingHeight, "sling_above_top")
		}
		p.lowSling = t.SlingHeight < rigging.LeastArm
		p.anchor = t
	case "buried_log":
		b := rigging.BuriedLogAnchor{
			Depth:      a.required("depth_m", Range{Min: 0.3, Max: 6, Unit: "m"}),
			Length:     a.required("length_m", Range{Min: 0.3, Max: 20, Unit: "m"}),
			Diameter:   a.required("diameter_cm", Range{Min: 5, Max: 200, Unit: "cm"}) * rigging.CM,
			Slot:       a.optional("slot_m", Range{Min: 0, Max: 3, Unit: "m"}, rigging.BuriedLogSlot, "log_slot", "TM 5-5420-278-10, work package 0035", "published"),
			SoilFactor: a.optional("soil_factor", Range{Min: 0, Max: 5, Above: true}, logLoam.Value, "log_loam", logLoam.Source.Text, string(logLoam.Source.Basis)),
			Factor:     a.optional("factor", Range{Min: 1, Max: 20}, rigging.GroundFactor, "ground_factor", "", basisPractice),
		}
		p.slender = b.Length > 5*b.Diameter
		p.anchor = b
	case "pickets":
		k := rigging.PicketAnchor{
			SoilFactor: a.optional("soil_factor", Range{Min: 0, Max: 1, Above: true}, picketLoam.Value, "picket_loam", picketLoam.Source.Text, string(picketLoam.Source.Basis)),
			Factor:     a.optional("factor", Range{Min: 1, Max: 20}, rigging.GroundFactor, "ground_factor", "", basisPractice),
		}
		ok := a.has("rows")
		if !ok {
			a.problem(CodeMissing, "rows", takes("rows_of_pickets"), nil, "rows_missing")
		}
		for i, raw := range a.list("rows", maxList) {
			n, good := r.value(a.item("rows", i), raw, Range{Min: 1, Max: 9, Whole: true}, false)
			ok = ok && good
			k.Rows = append(k.Rows, int(orZero(n)))
		}
		if ok && len(k.Rows) == 0 {
			a.problem(CodeMissing, "rows", takes("rows_of_pickets"), nil, "rows_missing")
		} else if ok {
			p.anchor = k
		}
	case "bridle":
		p.bridle = &bridle{selfAdjusting: a.flag("self_adjusting")}
		for i, raw := range a.list("legs", 3) {
			lo := r.object(a.item("legs", i), raw, false)
			leg := lo.pointNamed(m, "point")
			if leg >= 0 && slices.Contains(p.bridle.legs, leg) {
				lo.problem(CodeTwice, "point", takes("other_leg"), shorten(m.points[leg].id), "two_legs", quote(m.points[leg].id))
			}
			p.bridle.legs = append(p.bridle.legs, leg)
			lo.done()
		}
		if len(p.bridle.legs) < 2 {
			a.problem(CodeAnchor, "legs", takes("legs"), len(p.bridle.legs), "legs")
		}
	}
	a.done()
}
